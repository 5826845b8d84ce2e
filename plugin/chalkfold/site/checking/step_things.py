"""Steps that work on a piece or notion of which the rest of the post knows nothing: renamed, or forgotten in a list."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from itertools import pairwise
from pathlib import Path

import yaml

from chalkfold.diagnostics import Code, Faults
from chalkfold.reading import Text, split_front_matter
from chalkfold.site.checking.look import Look
from chalkfold.stale.prose import Prose

_WORD = re.compile(r"[^\W\d_]+(?:-[^\W\d_]+)*|[.,;:!?()\ufffc]")
_NAME = re.compile(r"[^\W\d_]+")
LONGEST_OBJECT = 4
MARKS = frozenset(".,;:!?()\ufffc")


def check(look: Look) -> None:
    """Precise rather than complete: a thing that is named anywhere besides the steps is known."""
    if not look.sound or not look.worked.reading.desk.pieces:
        return
    steps, others = _split(look)
    known = _known(look, others, steps)
    for step in steps:
        for thing, start, end in _objects(step.text.value):
            if _bare(thing) not in known:
                known.add(_bare(thing))  # once is enough
                hint = f"call it as the post does, or list it: as a piece, or as `- item: {thing}` under `materials`"
                message = f"this step works on `{thing}`, and nothing else in the post knows of one"
                look.found.add(Code.MISLEADS_STEP_NAMES, message, step.text.span(start, end), hint)


def _split(look: Look) -> tuple[list[Prose], list[Prose]]:
    """The texts inside numbered lists, and all others."""
    lines: set[int] = set()
    for token in look.tokens:
        if token.type == "ordered_list_open" and token.map:
            lines.update(range(token.map[0] + look.skipped + 1, token.map[1] + look.skipped + 1))
    steps: list[Prose] = []
    others: list[Prose] = []
    for prose in look.prose:
        line, _ = look.source.line_and_column(prose.text.where.start)
        (steps if line in lines else others).append(prose)
    return steps, others


def _known(look: Look, others: Iterable[Prose], steps: Iterable[Prose]) -> set[str]:
    """Every word that stands somewhere besides the steps, and what a step makes: ``fold it to a tab``."""
    front, _ = split_front_matter(look.source, Faults())
    texts = [entry.value.value for entry in front or () if isinstance(entry.value, Text)]
    texts += [fence.body.text for fence, _ in look.worked.views]
    texts += [prose.text.value for prose in others]
    known = {_bare(word) for text in texts for word in _NAME.findall(text)}
    lists = _lists()
    for prose in steps:
        words = [match[0].casefold() for match in _WORD.finditer(prose.text.value)]
        known.update(_bare(word) for before, word in pairwise(words) if before in lists["made by"])
    return known


def _objects(text: str) -> Iterator[tuple[str, int, int]]:
    """What the verbs of a step work on, where that is one of the things."""
    lists = _lists()
    words = list(_WORD.finditer(text))
    for at, match in enumerate(words):
        starts = at == 0 or words[at - 1][0] in MARKS or words[at - 1][0] in ("and", "then")
        if not starts or match[0].casefold() not in lists["verbs"]:
            continue
        said = [word[0].casefold() for word in words[at + 1 : at + LONGEST_OBJECT + 3]]
        if not said or said[0] not in lists["determiners"]:
            continue
        length = next((n for n, word in enumerate(said) if word in lists["ends"] or word in MARKS), len(said))
        if 2 <= length <= LONGEST_OBJECT and _bare(said[length - 1]) in lists["things"]:
            thing = words[at + length]
            yield thing[0], thing.start(), thing.end()


def _bare(word: str) -> str:
    return word.casefold().removesuffix("s")


@lru_cache(maxsize=1)
def _lists() -> Mapping[str, frozenset[str]]:
    data = yaml.load(Path(__file__).with_name("step_things.yml").read_text("utf-8"), Loader=yaml.CBaseLoader)
    return {name: frozenset(words) for name, words in data.items()}
