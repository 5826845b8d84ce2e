"""Room on a sheet that is cut into pages: a text keeps off the seams, so that it can be read on one page."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.draw.paths import Extent
from chalkfold.draw.room import Box, Room, box, inside
from chalkfold.geometry.shapes import Point
from chalkfold.paper.papers import OVERLAP, UNITS, Paper

MARK = 6.0 * UNITS
"""Half the width and height of a mark where two pages meet, in drawing units."""


class PagedRoom(Room):
    """Lines and texts, and the seams of the pages, which texts keep off and leaders do not like to cross.

    ``strict`` can be lowered for a text that has no room otherwise; it then runs across a seam. Where ``within`` is an
    outline, texts stay in it.
    """

    def __init__(self, paper: Paper, extent: Extent) -> None:
        super().__init__()
        self.strict = True
        self.within: list[Point] = []
        self._seams = Room()
        for start, end in _seams(paper, extent):
            self._seams.add_line(start, end)
        for at in _marks(paper, extent):
            self._seams.add_text(box(at, 2 * MARK, 2 * MARK))

    def free(self, given: Box) -> bool:
        if self.within and not all(inside(corner, self.within) for corner in given.corners):
            return False
        return super().free(given)

    def met(self, given: Box) -> Iterator[Box]:
        yield from super().met(given)
        if self.strict:
            yield from self._seams.met(given)


def counts(paper: Paper, extent: Extent) -> tuple[int, int]:
    """How many columns and rows of pages a sheet takes."""
    column, row = paper.core((extent.right, extent.bottom))
    return column + 1, row + 1


def _seams(paper: Paper, extent: Extent) -> Iterator[tuple[Point, Point]]:
    """Both edges of every strip that two pages share."""
    (across, down), (columns, rows), shared = paper.step, counts(paper, extent), OVERLAP * UNITS
    for column in range(1, columns):
        for x in (column * across, column * across + shared):
            yield (x, 0.0), (x, rows * down + shared)
    for row in range(1, rows):
        for y in (row * down, row * down + shared):
            yield (0.0, y), (columns * across + shared, y)


def _marks(paper: Paper, extent: Extent) -> Iterator[Point]:
    (columns, rows), (across, down), (width, height) = counts(paper, extent), paper.step, paper.window
    for row in range(rows):
        for column in range(columns):
            if column:
                yield column * across, row * down + height / 2
            if row:
                yield column * across + width / 2, row * down
