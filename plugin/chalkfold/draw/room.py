"""What room is left on a drawing: the lines and texts that are already there.

Everything here is a box, which may be turned; a line is a box without height. Two boxes are apart exactly when one lies
wholly beyond a side of the other (separating axis theorem). A grid finds what is near.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator
from copy import copy
from math import cos, floor, inf, radians, sin, sqrt
from typing import NamedTuple, Self

from chalkfold.draw.paths import Extent
from chalkfold.geometry.shapes import Point

CELL = 48.0
"""Units a cell of the grid is wide and high."""

AIR = 2.5
"""Units a text keeps from every line and other text."""


class Box(NamedTuple):
    """A rectangle: its middle, half its width and height, the direction (length 1) of its width, and how far it
    reaches across and down from its middle, turned as it is."""

    x: float
    y: float
    w: float
    h: float
    c: float
    s: float
    across: float
    down: float

    @property
    def extent(self) -> Extent:
        return Extent(self.x - self.across, self.y - self.down, self.x + self.across, self.y + self.down)

    @property
    def corners(self) -> tuple[Point, ...]:
        """Its four corners, one after the other round it."""
        along, aside = (self.c * self.w, self.s * self.w), (-self.s * self.h, self.c * self.h)
        signs = ((-1, -1), (1, -1), (1, 1), (-1, 1))
        return tuple((self.x + u * along[0] + v * aside[0], self.y + u * along[1] + v * aside[1]) for u, v in signs)


def box(centre: Point, width: float, height: float, angle: float = 0.0) -> Box:
    """A rectangle turned by ``angle`` degrees, from across towards down."""
    w, h = width / 2, height / 2
    if angle == 0:
        return Box(centre[0], centre[1], w, h, 1.0, 0.0, w, h)
    if angle in (90, -90):
        return Box(centre[0], centre[1], h, w, 1.0, 0.0, h, w)
    c, s = cos(radians(angle)), sin(radians(angle))
    return Box(*centre, w, h, c, s, abs(c) * w + abs(s) * h, abs(s) * w + abs(c) * h)


def strip(start: Point, end: Point, width: float = 0.0) -> Box:
    """A line, with ``width`` / 2 of room to both sides."""
    (x0, y0), (x1, y1) = start, end
    x, y, h = (x1 - x0) / 2, (y1 - y0) / 2, width / 2
    w = sqrt(x * x + y * y)
    c, s = (x / w, y / w) if w else (1.0, 0.0)
    return Box(x0 + x, y0 + y, w, h, c, s, abs(x) + abs(s) * h, abs(y) + abs(c) * h)


def apart(one: Box, other: Box) -> bool:
    """Whether two boxes have no point in common."""
    x, y = other.x - one.x, other.y - one.y
    if abs(x) > one.across + other.across or abs(y) > one.down + other.down:
        return True
    if not (one.s or other.s):
        return False
    c, s = abs(one.c * other.c + one.s * other.s), abs(one.c * other.s - one.s * other.c)
    return (
        abs(x * one.c + y * one.s) > one.w + c * other.w + s * other.h
        or abs(y * one.c - x * one.s) > one.h + s * other.w + c * other.h
        or abs(x * other.c + y * other.s) > other.w + c * one.w + s * one.h
        or abs(y * other.c - x * other.s) > other.h + s * one.w + c * one.h
    )


class Room:
    """Lines and texts; texts must be clear of both, lines only of texts."""

    def __init__(self) -> None:
        self._cells: dict[tuple[int, int], list[Box]] = {}
        self._texts: list[Box] = []
        self._all: list[Box] = []

    def copy(self) -> Self:
        """A room to go on from, that leaves this one as it is."""
        other = copy(self)
        other._cells = {cell: boxes[:] for cell, boxes in self._cells.items()}
        other._texts = self._texts[:]
        other._all = self._all[:]
        return other

    @property
    def extent(self) -> Extent:
        """The box round everything; there must be something."""
        return Extent(
            min(each.x - each.across for each in self._all),
            min(each.y - each.down for each in self._all),
            max(each.x + each.across for each in self._all),
            max(each.y + each.down for each in self._all),
        )

    def add_line(self, start: Point, end: Point) -> Box:
        """Keep texts off a straight line."""
        line = strip(start, end)
        self._add(line, _passed(start, end))
        return line

    def add_path(self, points: list[Point]) -> list[Box]:
        return [self.add_line(start, end) for start, end in itertools.pairwise(points)]

    def add_text(self, given: Box) -> None:
        """Keep texts and lines off a text."""
        self._texts.append(given)
        self._add(given, itertools.product(*_covered(given)))

    def _add(self, given: Box, cells: Iterable[tuple[int, int]]) -> None:
        self._all.append(given)
        for cell in cells:
            if cell in self._cells:
                self._cells[cell].append(given)
            else:
                self._cells[cell] = [given]

    def free(self, given: Box) -> bool:
        """Whether a box touches no line and no text."""
        return not any(self.met(given))

    def clear(self, given: Box) -> bool:
        """Whether a box or line touches no text."""
        x, y, _, _, _, _, across, down = given
        for text in self._texts:
            u, v, _, _, _, _, far, deep = text
            if abs(v - y) <= down + deep and abs(u - x) <= across + far and not apart(given, text):
                return False
        return True

    def met(self, given: Box) -> Iterator[Box]:
        """The lines and texts that touch a box; a long one may come several times."""
        x, y, w, h, _, turned, across, down = given
        columns, rows = _covered(given)
        for row in rows:
            for column in columns:
                for each in self._cells.get((column, row), ()):
                    u, v, _, thick, c, s, far, deep = each
                    if abs(v - y) > down + deep or abs(u - x) > across + far:
                        continue
                    if turned or thick:
                        if not apart(given, each):
                            yield each
                    elif abs((u - x) * s - (v - y) * c) <= abs(s) * w + abs(c) * h:  # else it lies beside the line
                        yield each

    def crossings(self, start: Point, end: Point, leave_out: float = 0.0, most: float = inf) -> int:
        """How many lines a line meets, the first ``leave_out`` units of it not counted; no more than ``most`` are."""
        (x0, y0), (x1, y1) = start, end
        length = sqrt((x1 - x0) ** 2 + (y1 - y0) ** 2)
        if length <= leave_out:
            return 0
        part = leave_out / length
        met: set[int] = set()
        for each in self.met(strip((x0 + part * (x1 - x0), y0 + part * (y1 - y0)), end)):
            if not each.h:
                met.add(id(each))
                if len(met) >= most:
                    break
        return len(met)


def _covered(given: Box) -> tuple[range, range]:
    """The columns and rows of the grid that a box reaches into."""
    x, y, _, _, _, _, across, down = given
    columns = range(floor((x - across) / CELL), floor((x + across) / CELL) + 1)
    return columns, range(floor((y - down) / CELL), floor((y + down) / CELL) + 1)


def _passed(start: Point, end: Point) -> list[tuple[int, int]]:
    """The cells a line passes: in each column, the rows from where it comes in to where it leaves."""
    (x0, y0), (x1, y1) = (start, end) if start[0] <= end[0] else (end, start)
    first, last, row = floor(x0 / CELL), floor(x1 / CELL), floor(y0 / CELL)
    if first == last and row == floor(y1 / CELL):
        return [(first, row)]
    cells: list[tuple[int, int]] = []
    for column in range(first, last + 1):
        stop = floor((y1 if column == last else y0 + ((column + 1) * CELL - x0) / (x1 - x0) * (y1 - y0)) / CELL)
        cells += [(column, each) for each in range(min(row, stop), max(row, stop) + 1)]
        row = stop
    return cells


def inside(point: Point, outline: list[Point]) -> bool:
    """Whether a point lies in a closed outline of straight lines (even-odd rule)."""
    x, y = point
    found = False
    x0, y0 = outline[-1]
    for x1, y1 in outline:
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0):
            found = not found
        x0, y0 = x1, y1
    return found
