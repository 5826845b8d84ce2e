"""Where something stands: a source text and a stretch of it."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, field
from functools import cached_property


@dataclass(frozen=True, eq=False)
class Source:
    """A text with the name shown for it: a path relative to the site, with forward slashes."""

    path: str
    text: str = field(repr=False)

    @cached_property
    def line_starts(self) -> list[int]:
        """Offset of the first character of each line; lines end at a line feed."""
        starts = [0]
        find = self.text.find
        at = find("\n")
        while at >= 0:
            starts.append(at + 1)
            at = find("\n", at + 1)
        return starts

    def line_and_column(self, offset: int) -> tuple[int, int]:
        """Return line and column, both counted from 1 in characters."""
        row = bisect_right(self.line_starts, offset) - 1
        return row + 1, offset - self.line_starts[row] + 1

    def line(self, number: int) -> str:
        """Return line ``number`` (from 1) without its line ending."""
        start = self.line_starts[number - 1]
        end = self.text.find("\n", start)
        return (self.text[start:] if end < 0 else self.text[start:end]).rstrip("\r")


@dataclass(frozen=True, slots=True)
class Span:
    """Characters ``start`` up to, not including, ``end`` of a source."""

    source: Source
    start: int
    end: int

    @property
    def text(self) -> str:
        return self.source.text[self.start : self.end]

    @property
    def place(self) -> str:
        """``file:line:col``, the form every tool can click on."""
        line, column = self.source.line_and_column(self.start)
        return f"{self.source.path}:{line}:{column}"
