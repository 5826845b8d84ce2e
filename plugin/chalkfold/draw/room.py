"""What room is left on a drawing: lines and text boxes that are already there, found fast by a grid.

A box is a rectangle that may be turned, given by its four corners. Two convex shapes are apart exactly when some side
of one of them has the other wholly beyond it (separating axis theorem).
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from math import ceil, cos, floor, radians, sin, sqrt

from chalkfold.draw.paths import Extent
from chalkfold.geometry.shapes import Point

Box = tuple[Point, Point, Point, Point]
Line = tuple[Point, Point]
Cell = tuple[int, int]
Bounds = tuple[float, float, float, float]

CELL = 32.0
"""Units a cell of the grid is wide and high."""

AIR = 2.5
"""Units a text keeps from every line and other text."""


def box(centre: Point, width: float, height: float, angle: float = 0.0) -> Box:
    """The corners of a rectangle turned by ``angle`` degrees, from across towards down."""
    x, y = centre
    w, h = width / 2, height / 2
    if angle == 0:
        return (x - w, y - h), (x + w, y - h), (x + w, y + h), (x - w, y + h)
    c, s = cos(radians(angle)), sin(radians(angle))
    corners = ((-w, -h), (w, -h), (w, h), (-w, h))
    a, b, d, e = ((x + u * c - v * s, y + u * s + v * c) for u, v in corners)
    return a, b, d, e


def apart(one: tuple[Point, ...], other: tuple[Point, ...]) -> bool:
    """Whether two convex shapes (boxes or lines) have no point in common."""
    return _beyond(one, other) or _beyond(other, one)


def _beyond(one: tuple[Point, ...], other: tuple[Point, ...]) -> bool:
    """Whether ``other`` lies wholly beyond a side of ``one``: a box has two directions of sides, a line one."""
    if len(one) == 2:
        return _aside(*one, other)
    (ax, ay), (bx, by), (cx, cy), _ = one
    for nx, ny, near, far in ((ay - by, bx - ax, (ax, ay), (cx, cy)), (by - cy, cx - bx, (bx, by), (ax, ay))):
        first, last = near[0] * nx + near[1] * ny, far[0] * nx + far[1] * ny
        if first > last:
            first, last = last, first
        others = [x * nx + y * ny for x, y in other]
        if last < min(others) or max(others) < first:
            return True
    return False


def _aside(start: Point, end: Point, other: tuple[Point, ...]) -> bool:
    """Whether a shape lies wholly to one side of a line."""
    x, y = start
    u, v = end[0] - x, end[1] - y
    sides = [u * (b - y) - v * (a - x) for a, b in other]
    return min(sides) > 0 or max(sides) < 0


class Room:
    """Lines and text boxes; texts must be clear of both, lines only of texts."""

    def __init__(self) -> None:
        self._lines: dict[Cell, list[tuple[Bounds, Line]]] = {}
        self._boxes: dict[Cell, list[tuple[Bounds, Box]]] = {}
        self.points: list[Point] = []

    def copy(self) -> Room:
        """A room to go on from, that leaves this one as it is."""
        other = Room()
        other._lines = {cell: list(lines) for cell, lines in self._lines.items()}
        other._boxes = {cell: list(boxes) for cell, boxes in self._boxes.items()}
        other.points = list(self.points)
        return other

    @property
    def extent(self) -> Extent:
        return Extent.of(self.points)

    def add_line(self, start: Point, end: Point) -> None:
        """Keep texts off a straight line. It is stored in bits that fit a cell."""
        self.points += (start, end)
        (x0, y0), (x1, y1) = start, end
        count = max(1, ceil(max(abs(x1 - x0), abs(y1 - y0)) / CELL))
        for step in range(count):
            a, b = step / count, (step + 1) / count
            bit = ((x0 + a * (x1 - x0), y0 + a * (y1 - y0)), (x0 + b * (x1 - x0), y0 + b * (y1 - y0)))
            bounds = _bounds(bit)
            for cell in _cells(bounds):
                self._lines.setdefault(cell, []).append((bounds, bit))

    def add_path(self, points: list[Point]) -> None:
        for start, end in itertools.pairwise(points):
            self.add_line(start, end)

    def add_box(self, given: Box) -> None:
        """Keep texts and lines off a text."""
        self.points += given
        bounds = _bounds(given)
        for cell in _cells(bounds):
            self._boxes.setdefault(cell, []).append((bounds, given))

    def free(self, given: Box) -> bool:
        """Whether a box touches no line and no text."""
        bounds = _bounds(given)
        cells = _cells(bounds)
        return self._clear_in(given, bounds, cells) and not self._meets_a_line(given, bounds, cells)

    def clear(self, given: Box | Line) -> bool:
        """Whether a box or line touches no text."""
        bounds = _bounds(given)
        return self._clear_in(given, bounds, _cells(bounds))

    def _clear_in(self, given: Box | Line, bounds: Bounds, cells: list[Cell]) -> bool:
        level = _is_level(given)
        left, top, right, bottom = bounds
        for cell in cells:
            for (x0, y0, x1, y1), each in self._boxes.get(cell, ()):
                if x1 < left or x0 > right or y1 < top or y0 > bottom:
                    continue
                # The sides of level boxes were compared just now.
                if (level or not _beyond(given, each)) and (_is_level(each) or not _beyond(each, given)):
                    return False
        return True

    def crossings(self, start: Point, end: Point, leave_out: float = 0.0) -> int:
        """How many bits of line a line meets, the first ``leave_out`` units of it not counted."""
        (x0, y0), (x1, y1) = start, end
        length = sqrt((x1 - x0) ** 2 + (y1 - y0) ** 2)
        if length <= leave_out:
            return 0
        part = leave_out / length
        line = ((x0 + part * (x1 - x0), y0 + part * (y1 - y0)), end)
        return len(set(self._lines_met(line)))

    def _meets_a_line(self, given: Box, bounds: Bounds, cells: list[Cell]) -> bool:
        level = _is_level(given)
        left, top, right, bottom = bounds
        for cell in cells:
            for (x0, y0, x1, y1), each in self._lines.get(cell, ()):
                if x1 < left or x0 > right or y1 < top or y0 > bottom:
                    continue
                # The sides of a level box were compared just now; only the line's own direction is left.
                if not _beyond(each, given) and (level or not _beyond(given, each)):
                    return True
        return False

    def _lines_met(self, given: Line) -> Iterator[Line]:
        left, top, right, bottom = bounds = _bounds(given)
        for cell in _cells(bounds):
            for (x0, y0, x1, y1), each in self._lines.get(cell, ()):
                if x1 >= left and x0 <= right and y1 >= top and y0 <= bottom and not apart(given, each):
                    yield each


def _is_level(shape: tuple[Point, ...]) -> bool:
    """Whether it is a box that is not turned."""
    return len(shape) == 4 and shape[0][1] == shape[1][1]


def _bounds(shape: tuple[Point, ...]) -> Bounds:
    xs, ys = [x for x, _ in shape], [y for _, y in shape]
    return min(xs), min(ys), max(xs), max(ys)


def _cells(bounds: Bounds) -> list[Cell]:
    left, top, right, bottom = bounds
    rows = range(floor(top / CELL), floor(bottom / CELL) + 1)
    return [(across, down) for across in range(floor(left / CELL), floor(right / CELL) + 1) for down in rows]


def inside(point: Point, outline: list[Point]) -> bool:
    """Whether a point lies in a closed outline of straight lines (even-odd rule)."""
    x, y = point
    found = False
    for (x0, y0), (x1, y1) in zip(outline, outline[1:] + outline[:1], strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0):
            found = not found
    return found
