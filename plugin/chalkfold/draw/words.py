"""The texts of a drawing and the room they take, whatever font the reader has.

Widths come from ``widths.yml``, those of a wide open font, as an upper bound; heights likewise.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path
from typing import Literal

import yaml


@dataclass(frozen=True, slots=True)
class Both:
    """One amount in both unit systems, ready to print; the page shows the reader's, or both."""

    metric: str
    inch: str
    inch_first: bool = False

    @property
    def plain(self) -> str:
        if self.metric == self.inch:
            return self.metric
        return BETWEEN.join((self.inch, self.metric) if self.inch_first else (self.metric, self.inch))


BETWEEN = " · "
"""Stands between the two units of an amount."""

Part = str | Both
Words = tuple[Part, ...]
"""One line of text."""

Anchor = Literal["start", "middle", "end"]
"""Which end of a text stands at its place."""


@dataclass(frozen=True, slots=True)
class Lettering:
    """How a text is set: its class in the style sheet, size in drawing units, space between letters in sizes.

    ``ascent`` and ``descent`` are in sizes, from the line the letters stand on (DejaVu Sans: 0.93 and 0.24).
    """

    name: str
    size: float
    bold: bool = False
    spacing: float = 0.0
    ascent: float = 0.93
    descent: float = 0.24

    @property
    def height(self) -> float:
        return (self.ascent + self.descent) * self.size


LABEL = Lettering("lab", 13.5)
NAME = Lettering("name", 17, bold=True, spacing=0.06)
SIZE = Lettering("size", 13.5, bold=True)
"""Labels of nested sizes: measured bold, as the chosen one is."""


def letter_of(size: float) -> Lettering:
    """The capitals that stand for the labels on narrow screens; none hangs lower than a Q or a comma."""
    return Lettering("letter", size, bold=True, ascent=0.78, descent=0.2)


def plain(words: Words) -> str:
    """The line as one text, both units in it."""
    return "".join(part if isinstance(part, str) else part.plain for part in words)


@cache
def _table() -> tuple[dict[str, float], dict[str, float], float]:
    data = yaml.load(Path(__file__).with_name("widths.yml").read_text("utf-8"), Loader=yaml.CBaseLoader)
    tables = []
    for face in ("regular", "bold"):
        by_width = {width: chars for width, chars in data[face].items() if width != "other"}
        tables.append({char: float(width) / 1000 for width, chars in by_width.items() for char in chars})
    return tables[0], tables[1], float(data["bold"]["other"]) / 1000


@lru_cache(maxsize=2**12)
def width_of(text: str, lettering: Lettering) -> float:
    """An upper bound of a text's width in drawing units."""
    regular, bold, other = _table()
    table = bold if lettering.bold else regular
    return lettering.size * sum(table.get(char, other) + lettering.spacing for char in text)


@dataclass(frozen=True, slots=True)
class Block:
    """Lines of text that stand together, centred or all starting (ending) below each other."""

    lines: tuple[tuple[Words, Lettering], ...]
    width: float
    height: float

    @classmethod
    def of(cls, lines: Iterable[Words], lettering: Lettering, most: float = 260.0) -> Block:
        """A block of lines, those wider than ``most`` drawing units broken at spaces into parts of about one width."""
        return cls.joined((part, lettering) for line in lines for part in evened(line, lettering, most))

    @classmethod
    def joined(cls, lines: Iterable[tuple[Words, Lettering]]) -> Block:
        """A block of lines set differently."""
        kept = [(words, lettering, text) for words, lettering in lines if (text := plain(words)).strip()]
        width = max((width_of(text, lettering) for _, lettering, text in kept), default=0.0)
        height = sum(lettering.height for _, lettering, _ in kept)
        return cls(tuple((words, lettering) for words, lettering, _ in kept), width, height)


def wrapped(line: Words, lettering: Lettering, most: float) -> list[Words]:
    """The line broken at its spaces so that no part is wider than ``most``; a single long word stays whole."""
    if width_of(plain(line), lettering) <= most:
        return [line]
    rows: list[list[Part]] = [[]]
    for piece in _pieces(line):
        row = rows[-1]
        if row and width_of(plain((*row, piece)).rstrip(" "), lettering) > most:
            rows.append([piece])
        else:
            row.append(piece)
    return [_merged(row) for row in rows]


@lru_cache(maxsize=2**12)
def evened(line: Words, lettering: Lettering, most: float) -> tuple[Words, ...]:
    """The line in as few parts as ``wrapped`` makes of it, the widest of them as narrow as it can be."""
    rows = wrapped(line, lettering, most)
    while len(rows) > 1 and (widest := _widest(rows, lettering)) <= most:
        narrower = wrapped(line, lettering, widest - 1e-6)
        if len(narrower) > len(rows) or _widest(narrower, lettering) >= widest:
            break
        rows = narrower
    return tuple(rows)


def _widest(rows: Iterable[Words], lettering: Lettering) -> float:
    return max(width_of(plain(row), lettering) for row in rows)


def _pieces(line: Words) -> list[Part]:
    """Amounts whole, texts word by word, each word with the space after it."""
    pieces: list[Part] = []
    for part in line:
        if isinstance(part, Both):
            pieces.append(part)
        else:
            words = part.split(" ")
            pieces += [each for each in (*(f"{word} " for word in words[:-1]), words[-1]) if each]
    return pieces


def _merged(row: list[Part]) -> Words:
    merged: list[Part] = []
    for part in row:
        if merged and isinstance(part, str) and isinstance(merged[-1], str):
            merged[-1] += part
        else:
            merged.append(part)
    if merged and isinstance(merged[-1], str):
        merged[-1] = merged[-1].rstrip(" ")
    if isinstance(merged[0], str):
        merged[0] = merged[0].lstrip(" ")
    return tuple(merged)
