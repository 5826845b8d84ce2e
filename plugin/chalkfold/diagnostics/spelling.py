"""The nearest spelling, for hints."""

from collections.abc import Iterable
from difflib import get_close_matches


def near(word: str, known: Iterable[str], cutoff: float = 0.7) -> str | None:
    """Return the known word closest to ``word``, or None when nothing is near.

    Where no spelling is near, a longer name that holds all its words will do: ``hip`` for ``hip girth``.
    """
    choices = {each.casefold(): each for each in sorted(known)}
    said = word.casefold()[:80]
    found = get_close_matches(said, list(choices), n=1, cutoff=cutoff)
    if found:
        return choices[found[0]]
    words = {_bare(each) for each in said.split()}
    holding = [each for each in choices if words and words <= {_bare(part) for part in each.split()}]
    return choices[min(holding, key=len)] if holding else None


def _bare(word: str) -> str:
    """A word without the ending of its plural."""
    return word.removesuffix("s")
