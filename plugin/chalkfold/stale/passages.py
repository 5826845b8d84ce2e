"""Every text of a post in which a measure could be typed, and what may stand in it as it is."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from chalkfold.diagnostics import Faults, Source
from chalkfold.reading import Fence, Mapping, Node, Text, load, split_front_matter
from chalkfold.reading import Sequence as Items
from chalkfold.stale.allowed import MOST_PHRASES, Allowance, phrases_in
from chalkfold.stale.prose import MASK, Prose

TEXTS = frozenset({"caption", "note", "item", "text", "steps", "title", "summary", "why", "not needed", "cautions"})
"""Keys of blocks and of front matter whose values are prose, and those of the values below them."""
NUMBERS = "numbers"
_VALUE = re.compile(r"\{=[^}\n]*\}?")
_COMMENT = re.compile(r"(?:^|\s)#[ \t]*as it stands:[^\n]*")


@dataclass(frozen=True, slots=True)
class Passage:
    """A text with everything masked that is no prose, and the phrases that may stand in it."""

    text: Text
    allowance: Allowance = field(default_factory=Allowance)
    in_block: bool = False
    takes_values: bool = True


def passages_of(source: Source, running: Iterable[Prose], fences: Iterable[Fence]) -> Iterator[Passage]:
    """The passages of front matter, of the ``running`` text, and of blocks, in that order."""
    front, _ = split_front_matter(source, Faults())
    for text in _texts(front, False):
        yield Passage(text, takes_values=False)
    for prose in running:
        phrases = [phrase for comment in prose.comments for phrase in phrases_in(comment)]
        yield Passage(prose.text, Allowance(phrases[:MOST_PHRASES]))
    for fence in fences:
        yield from _of_block(fence)


def _of_block(fence: Fence) -> Iterator[Passage]:
    comments = _comments(fence)
    for text in _texts(load(fence.body, Faults()), False):
        first, _ = text.where.source.line_and_column(text.where.start)
        last, _ = text.where.source.line_and_column(max(text.where.start, text.where.end - 1))
        keys = [first - 1, *(-line for line in range(first, last + 1))]
        phrases = [phrase for key in keys for phrase in comments.get(key, ())]
        masked = _VALUE.sub(lambda found: MASK * len(found[0]), text.value)
        yield Passage(Text(masked, text.where, text.offsets), Allowance(phrases[:MOST_PHRASES]), in_block=True)


def _comments(fence: Fence) -> dict[int, list[Text]]:
    """The phrases of ``# as it stands: 2 cm`` by line, the number negative where the line holds text as well.

    A comment alone in its line goes with the text that begins below it.
    """
    found: dict[int, list[Text]] = {}
    body = fence.body
    for match in _COMMENT.finditer(body.text):
        span = body.span(match.start(), match.end())
        line, _ = body.source.line_and_column(span.end - 1)
        alone = body.source.line(line).lstrip(" \t>").startswith("#")
        phrases = phrases_in(Text(match[0], span, tuple(range(span.end - len(match[0]), span.end))))
        found.setdefault(line if alone else -line, []).extend(phrases)
    return found


def _texts(node: Node | None, is_text: bool) -> Iterator[Text]:
    match node:
        case Text() if is_text:
            yield node
        case Mapping():
            for entry in node:
                key = entry.key.value.casefold()
                if key == NUMBERS and isinstance(entry.value, Mapping):
                    for number in entry.value:  # whose names are the writer's own
                        yield from () if isinstance(number.value, Text) else _texts(number.value, False)
                else:
                    yield from _texts(entry.value, is_text or key in TEXTS)
        case Items():
            for item in node:
                yield from _texts(item, is_text)
