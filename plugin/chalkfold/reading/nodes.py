"""Text with its place, and the two ways YAML nests it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, field

from chalkfold.diagnostics import Source, Span


@dataclass(frozen=True, slots=True)
class Excerpt:
    """Lines taken out of a source with their prefix (list indent, quote mark) cut off.

    ``line_starts[i]`` is where line i begins in ``text``; ``origins[i]`` where that character
    stands in the source. Within a line the two run in step.
    """

    source: Source
    text: str
    line_starts: tuple[int, ...]
    origins: tuple[int, ...]

    @staticmethod
    def whole(source: Source, start: int = 0, end: int | None = None) -> Excerpt:
        """A stretch of the source as it stands."""
        return Excerpt(source, source.text[start:end], (0,), (start,))

    def offset(self, at: int) -> int:
        """Where character ``at`` of the excerpt stands in the source."""
        row = bisect_right(self.line_starts, at) - 1
        return self.origins[row] + at - self.line_starts[row]

    def span(self, start: int, end: int) -> Span:
        first = self.offset(start)
        last = self.offset(end - 1) + 1 if end > start else first
        return Span(self.source, first, last)


@dataclass(frozen=True, slots=True)
class Text:
    """A scalar as written (quotes and folding resolved) with where each character came from.

    ``offsets`` holds a source offset for every character where they don't run in step
    (escapes, folded lines); else None, and character i stands at ``where.start + i``.
    """

    value: str
    where: Span
    offsets: tuple[int, ...] | None = field(default=None, repr=False)

    def span(self, start: int = 0, end: int | None = None) -> Span:
        """The place of characters ``start`` up to ``end`` of the value; the whole by default."""
        stop = len(self.value) if end is None else end
        if self.offsets is None:
            return Span(self.where.source, self.where.start + start, self.where.start + stop)
        if not self.offsets:
            return self.where
        first = self.offsets[min(start, len(self.offsets) - 1)]
        last = self.offsets[min(stop, len(self.offsets)) - 1] + 1 if stop > start else first
        return Span(self.where.source, first, max(first, last))

    def part(self, start: int, end: int) -> Text:
        """Characters ``start`` up to ``end`` as a text of its own that keeps its place."""
        offsets = None if self.offsets is None else self.offsets[start:end]
        return Text(self.value[start:end], self.span(start, end), offsets)


@dataclass(frozen=True, slots=True)
class Entry:
    key: Text
    value: Node


@dataclass(frozen=True, slots=True)
class Mapping:
    """Entries in the order written; look-up ignores case (two keys that differ only by it are refused)."""

    entries: tuple[Entry, ...]
    where: Span

    def __iter__(self) -> Iterator[Entry]:
        return iter(self.entries)

    def get(self, key: str) -> Node | None:
        folded = key.casefold()
        return next((e.value for e in self.entries if e.key.value.casefold() == folded), None)


@dataclass(frozen=True, slots=True)
class Sequence:
    items: tuple[Node, ...]
    where: Span

    def __iter__(self) -> Iterator[Node]:
        return iter(self.items)


Node = Text | Mapping | Sequence
