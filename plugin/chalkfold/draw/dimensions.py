"""Straight dimensions in rows outside the outline, and radii (after the practice of ISO 129)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import atan2, degrees
from typing import NamedTuple

from chalkfold.draw.labels import Board, Label, place
from chalkfold.draw.lines import LineType
from chalkfold.draw.paths import Extent, lines_through, normal, unit
from chalkfold.draw.places import NOWHERE, Place
from chalkfold.draw.room import inside, strip
from chalkfold.draw.words import LABEL, Block, Words
from chalkfold.geometry.points import between, distance, shifted
from chalkfold.geometry.shapes import Edge, Point

FIRST_ROW, ROW, ROWS = 22.0, 7.0, 18
"""Units from the edge to the first dimension line, from try to try, and how many are tried."""

HEAD = 8.0
"""Units an arrowhead is long."""

GAP, OVER = 4.0, 4.0
"""An extension line starts this far off the outline and goes this far past the dimension line."""

ASIDE = 9.0
"""Units a dimension line keeps from lines beside it."""

ALONG = (0.5, 0.42, 0.58, 0.35, 0.65, 0.25, 0.75)
"""How far along a line a text beside it is tried."""

STEEP = 72.0
"""A text that would run down the page more steeply than this (degrees) runs up it."""


def head(tip: Point, towards: Point, length: float = HEAD, half: float = 2.3) -> Edge:
    """A slim arrowhead whose point lies at ``tip`` and looks ``towards`` a direction; two of its three sides."""
    x, y = unit(towards)
    base = (tip[0] - x * length, tip[1] - y * length)
    sides = ((base[0] - y * half, base[1] + x * half), tip, (base[0] + y * half, base[1] - x * half))
    return lines_through(sides)


def reading_angle(start: Point, end: Point) -> float:
    """The turn of a text along a line, so that it is read from below or from the right."""
    angle = degrees(atan2(end[1] - start[1], end[0] - start[0]))
    angle = angle - 180 if angle > STEEP else angle
    return round(angle + 180 if angle < STEEP - 180 else angle, 3)


def dimension(
    board: Board,
    outline: list[Point],
    ends: tuple[Point, Point],
    side: Point,
    text: Words,
    key: str,
    notches: Sequence[Point] = (),
) -> None:
    """Draw a dimension in the first row that is free and off the piece, or name the line by a leader.

    Its text stands half-way, or where it is in the way of none of the ``notches`` in the line.
    """
    start, end = ends
    if distance(start, end) < 1e-6:
        return
    out, middle = normal((end[0] - start[0], end[1] - start[1]), side), between(start, end, 0.5)
    block = Block.of((text,), LABEL, float("inf"))
    parts = off_notches(ALONG, ends, out, block.width / 2 + HEAD, Notched(notches, FIRST_ROW, 0.0))
    part = parts[0] if parts else 0.5

    def free(row: Place) -> bool:
        """A place is how far the row is off, and whether its extension lines cross no line either."""
        off, strict = row
        if inside(shifted(middle, out, off), outline):
            return False
        return _Row(ends, out, off, block, part).free(board, bool(strict))

    rows = ((FIRST_ROW + ROW * number, strict) for strict in (True, False) for number in range(ROWS))
    found = board.places.settle(f"{key}, row", free, lambda: next(filter(free, rows), NOWHERE))
    if found == NOWHERE:
        place(board, Label(middle, out, Block.of((text,), LABEL), dot=True, key=key))
    else:
        _Row(ends, out, found[0], block, part).draw(board)


class Notched(NamedTuple):
    """Notches to leave room for: where they are, how far from a line those of it lie at most, and how far along it a
    text keeps off them."""

    places: Sequence[Point]
    reach: float
    clear: float


def off_notches(
    parts: Iterable[float], ends: tuple[Point, Point], out: Point, half: float, given: Notched
) -> list[float]:
    """Parts of a line that hold a text ``half`` units long to either side: first those where it leaves the way out of
    the line's notches free."""
    (x, y), length = ends[0], distance(*ends)
    u, v = unit((ends[1][0] - x, ends[1][1] - y))
    near = [(p - x, q - y) for p, q in given.places if abs((p - x) * out[0] + (q - y) * out[1]) < given.reach]
    own = [p * u + q * v for p, q in near]
    held = [part for part in parts if min(part, 1 - part) * length >= half]
    return sorted(held, key=lambda part: any(abs(each - part * length) <= half + given.clear for each in own))


class _Row(NamedTuple):
    """A dimension ``off`` units from the ends of what it measures, its text at a ``part`` of the way along."""

    ends: tuple[Point, Point]
    out: Point
    off: float
    block: Block
    part: float = 0.5

    @property
    def line(self) -> tuple[Point, Point]:
        return shifted(self.ends[0], self.out, self.off), shifted(self.ends[1], self.out, self.off)

    @property
    def reaches(self) -> list[tuple[Point, Point]]:
        """Its extension lines."""
        over = OVER if distance(*self.ends) > self.block.width + 4 else 0.0
        return [(shifted(each, self.out, GAP), shifted(each, self.out, self.off + over)) for each in self.ends]

    def free(self, board: Board, strict: bool) -> bool:
        """Whether it lies on nothing; ``strict``: its extension lines cross no line either."""
        room, line = board.room, self.line
        angle, centre = _beside(board.wanted, *line, self.out, self.block, self.part)
        return (
            board.fits(self.block, centre, angle)
            and room.free(strip(*_tails(*line), 2 * ASIDE))
            and all(
                room.clear(strip(*reach, 4.0)) and not (strict and room.crossings(*reach)) for reach in self.reaches
            )
        )

    def draw(self, board: Board) -> None:
        for reach in self.reaches:
            board.draw(LineType.EXTENSION, *reach)
        _line(board, *self.line)
        angle, centre = _beside(board.wanted, *self.line, self.out, self.block, self.part)
        board.write(self.block, centre, angle)


def _beside(wanted: Extent, one: Point, other: Point, out: Point, block: Block, part: float) -> tuple[float, Point]:
    """How a text is turned and where its middle lies: along the line, or level beside a short upright one."""
    angle, middle = reading_angle(one, other), between(one, other, part)
    if distance(one, other) < block.width and abs(angle) > 45:
        reach = abs(out[0]) * block.width / 2 + abs(out[1]) * block.height / 2 + 7
        centre = shifted(middle, out, reach)
        if abs(centre[0] - (wanted.left + wanted.right) / 2) + block.width / 2 <= wanted.width / 2:
            return 0.0, centre
    return angle, shifted(middle, out, block.height / 2 + 3.5)


def _is_short(one: Point, other: Point) -> bool:
    """Whether the heads do not fit between the ends: they then come from outside."""
    return distance(one, other) < 2.5 * HEAD


def _tails(one: Point, other: Point) -> tuple[Point, Point]:
    """Where a dimension line begins and ends, with what sticks out of a short one."""
    if not _is_short(one, other):
        return one, other
    along = unit((other[0] - one[0], other[1] - one[1]))
    return shifted(one, along, -2 * HEAD), shifted(other, along, 2 * HEAD)


def _line(board: Board, one: Point, other: Point) -> None:
    along = unit((other[0] - one[0], other[1] - one[1]))
    back = (-along[0], -along[1])
    board.draw(LineType.DIMENSION, *_tails(one, other))
    outward = _is_short(one, other)
    board.layer.solids += [head(one, along if outward else back), head(other, back if outward else along)]


def along_line(board: Board, start: Point, end: Point, block: Block, key: str) -> bool:
    """Write a text along a line, beside it, where that is free."""
    angle, length = reading_angle(start, end), distance(start, end)
    side = normal((end[0] - start[0], end[1] - start[1]), (0.0, -1.0))

    def centre(place: Place) -> Point:
        """A place is the part of the line, and the side of it."""
        part, by = place
        return shifted(between(start, end, part), side, by * (block.height / 2 + 3.5))

    def free(place: Place) -> bool:
        held = min(place[0], 1 - place[0]) * length >= block.width / 2
        return held and board.fits(block, centre(place), angle)

    tries = ((part, by) for part in ALONG for by in (1, -1)) if length >= block.width + HEAD else ()
    found = board.places.settle(f"{key}, along", free, lambda: next(filter(free, tries), NOWHERE))
    if found != NOWHERE:
        board.write(block, centre(found), angle)
    return found != NOWHERE
