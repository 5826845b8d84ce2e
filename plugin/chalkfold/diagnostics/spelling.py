"""The nearest spelling, for hints."""

from collections.abc import Iterable
from difflib import get_close_matches


def near(word: str, known: Iterable[str]) -> str | None:
    """Return the known word closest to ``word``, or None when nothing is near."""
    choices = {each.casefold(): each for each in sorted(known)}
    found = get_close_matches(word.casefold()[:80], list(choices), n=1, cutoff=0.7)
    return choices[found[0]] if found else None
