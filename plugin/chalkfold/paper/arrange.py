"""Where each piece lies on one large sheet: in rows, the tallest first. It saves paper; it is no plan for cloth.

A piece is turned by a quarter where that saves pages, never by less: its grain line stays parallel or square to the
edge of the paper. The work is bounded: so many widths of sheet are tried, and so many pieces turned.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil

from chalkfold.draw.paths import Extent
from chalkfold.geometry.points import between, distance
from chalkfold.geometry.shapes import Point
from chalkfold.paper.papers import OVERLAP, UNITS, Paper

EDGE = 4.0 * UNITS
"""Drawing units from the corner of the first page to a piece, so that no line lies on the frame."""

GAP = 10.0 * UNITS
"""Drawing units between two pieces."""

WIDTHS, TURNS = 8, 12
"""How many widths of sheet are tried, and for how many pieces a turn."""

SAMPLE = 20.0 * UNITS
"""An outline is looked at in steps of this length to see which pages it takes."""


@dataclass(frozen=True, slots=True)
class Shape:
    """Closed outlines of one piece in drawing units, as it lies and turned by a quarter; one may have no other way."""

    outlines: tuple[tuple[Point, ...], ...]
    turned: tuple[tuple[Point, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Place:
    """How far a piece is moved, in drawing units, and whether it is turned first."""

    dx: float
    dy: float
    turned: bool = False


@dataclass(frozen=True, slots=True)
class _Lying:
    """A shape one way round: its extent, and points along it close enough to tell the pages it takes."""

    extent: Extent
    sample: tuple[Point, ...]

    @classmethod
    def of(cls, outlines: Sequence[Sequence[Point]]) -> _Lying:
        points = tuple(point for outline in outlines for point in _sampled(outline))
        return cls(Extent.of(points), points)


def arranged(shapes: Sequence[Shape], paper: Paper) -> list[Place]:
    """A place for every shape; none touch. The fewest pages win, then the fewest columns."""
    ways = [(_Lying.of(each.outlines), _Lying.of(each.turned) if each.turned else None) for each in shapes]
    first = [[False] * len(shapes), [other is not None for _, other in ways]]  # nothing turned, and everything
    (best, places), turned = min(((_best(ways, each, paper), each) for each in first), key=lambda each: each[0][0])
    largest = sorted(range(len(shapes)), key=lambda n: (-ways[n][0].extent.height * ways[n][0].extent.width, n))
    for number in largest[:TURNS]:
        if ways[number][1] is not None:
            tried = [each is not (at == number) for at, each in enumerate(turned)]
            cost, found = _best(ways, tried, paper)
            if cost < best:
                best, places, turned = cost, found, tried
    return places


def _best(ways: Sequence[tuple[_Lying, _Lying | None]], turned: list[bool], paper: Paper) -> tuple[int, list[Place]]:
    """The number of pages, and the places, for the best width of sheet."""
    lying = [other if turn and other else way for (way, other), turn in zip(ways, turned, strict=True)]
    tried = [
        (_pages(lying, corners, paper), corners)
        for width in _widths([each.extent for each in lying], paper)
        for corners in [_in_rows([each.extent for each in lying], width)]
    ]
    pages, corners = min(tried, key=lambda each: each[0])
    return pages, [
        Place(x - each.extent.left, y - each.extent.top, turn)
        for each, (x, y), turn in zip(lying, corners, turned, strict=True)
    ]


def _widths(extents: Sequence[Extent], paper: Paper) -> Iterator[float]:
    """Widths of the whole sheet that a whole number of pages makes, from the least that holds the widest piece."""
    step, shared = paper.step[0], OVERLAP * UNITS
    widest = max(each.width for each in extents) + 2 * EDGE
    in_one_row = sum(each.width + GAP for each in extents) + 2 * EDGE
    first, last = (max(1, ceil((each - shared) / step)) for each in (widest, in_one_row))
    for columns in range(first, min(last, first + WIDTHS - 1) + 1):
        yield columns * step + shared


def _in_rows(extents: Sequence[Extent], width: float) -> list[Point]:
    """The upper left corner of each box, the tallest first, each in the first row with room for it."""
    corners: list[Point] = [(0.0, 0.0)] * len(extents)
    rows: list[list[float]] = []  # x where the row is free, its top, its height
    for number in sorted(range(len(extents)), key=lambda n: (-extents[n].height, n)):
        box = extents[number]
        row = next((each for each in rows if each[0] + box.width + EDGE <= width and box.height <= each[2]), None)
        if row is None:
            top = rows[-1][1] + rows[-1][2] + GAP if rows else EDGE
            row = [EDGE, top, box.height]
            rows.append(row)
        corners[number] = (row[0], row[1])
        row[0] += box.width + GAP
    return corners


def _pages(lying: Sequence[_Lying], corners: Sequence[Point], paper: Paper) -> int:
    cells = set()
    for each, (x, y) in zip(lying, corners, strict=True):
        dx, dy = x - each.extent.left, y - each.extent.top
        cells |= {paper.core((u + dx, v + dy)) for u, v in each.sample}
    return len(cells)


def _sampled(outline: Sequence[Point]) -> Iterator[Point]:
    for start, end in zip(outline, (*outline[1:], outline[0]), strict=True):
        steps = max(1, ceil(distance(start, end) / SAMPLE))
        yield from (between(start, end, step / steps) for step in range(steps))
