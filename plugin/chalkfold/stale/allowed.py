"""Measures that may stand as they are: named by a comment beside them, in the site file, or part of a name of goods."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from chalkfold.reading import Text

COMMENT = re.compile(r"as it stands:(?P<said>[^\n]*?)(?:-->|$)", re.M)
_PHRASE = re.compile(r"(?:[^,;]|,(?!\s))+")
MOST_PHRASES, LONGEST = 20, 100
"""Phrases of one comment and characters of one; more is no comment."""


@dataclass
class Allowance:
    """Phrases that may stand in one text, each with its place; ``used`` are those that do."""

    phrases: list[Text] = field(default_factory=list)
    used: set[int] = field(default_factory=set)

    def covers(self, text: str, start: int, end: int) -> bool:
        """Whether one of the phrases stands in ``text`` over the measure from ``start`` to ``end``."""
        found = [i for i, phrase in enumerate(self.phrases) if stands_over(phrase.value, text, start, end)]
        self.used.update(found)
        return bool(found)

    @property
    def unused(self) -> Iterator[Text]:
        return (phrase for i, phrase in enumerate(self.phrases) if i not in self.used)


def phrases_in(comment: Text) -> list[Text]:
    """The phrases of ``<!-- as it stands: 25 mm, the 8 m skein -->``; commas or semicolons stand between them."""
    found: list[Text] = []
    for match in COMMENT.finditer(comment.value):
        for phrase in _PHRASE.finditer(comment.value, match.start("said"), match.end("said")):
            words = phrase[0].strip()
            start = phrase.start() + len(phrase[0]) - len(phrase[0].lstrip())
            if words and len(found) < MOST_PHRASES and len(words) <= LONGEST:
                found.append(comment.part(start, start + len(words)))
    return found


def covered(phrases: Iterable[str], text: str, start: int, end: int) -> bool:
    return any(stands_over(phrase, text, start, end) for phrase in phrases)


def stands_over(phrase: str, text: str, start: int, end: int) -> bool:
    """Whether ``phrase`` stands in ``text`` so that it holds ``start`` to ``end``; capitals and spaces play no part."""
    if len(phrase) > LONGEST:
        return False
    words = phrase.split()
    reach = sum(map(len, words)) * 2 + 20
    first = max(0, start - reach)
    window = text[first : end + reach]
    pattern = r"\s+".join(map(re.escape, words))
    return any(
        first + match.start() <= start and end <= first + match.end()
        for match in re.finditer(rf"(?<!\w){pattern}(?!\w)", window, re.IGNORECASE)
    )
