"""Straight dimensions in rows outside the outline, and radii (after the practice of ISO 129)."""

from __future__ import annotations

from math import atan2, degrees

from chalkfold.draw.labels import Board, Label, place, strip
from chalkfold.draw.lines import LineType
from chalkfold.draw.paths import Extent, lines_through, normal, unit
from chalkfold.draw.room import inside
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


def dimension(board: Board, outline: list[Point], start: Point, end: Point, outward: Point, text: Words) -> None:
    """Draw a dimension in the first row that is free and off the piece, or name the line by a leader."""
    if distance(start, end) < 1e-6:
        return
    out = normal((end[0] - start[0], end[1] - start[1]), outward)
    block = Block.of((text,), LABEL, float("inf"))
    for strict in (True, False):
        for row in range(ROWS):
            off = FIRST_ROW + ROW * row
            on_piece = inside(shifted(between(start, end, 0.5), out, off), outline)
            if not on_piece and _in_row(board, (start, end), out, off, block, strict):
                return
    place(board, Label(between(start, end, 0.5), out, Block.of((text,), LABEL), dot=True))


def _in_row(board: Board, ends: tuple[Point, Point], out: Point, off: float, block: Block, strict: bool) -> bool:
    """Draw it ``off`` units from the edge if that is free; ``strict``: extension lines cross no line either."""
    (start, end), room = ends, board.room
    one, other = shifted(start, out, off), shifted(end, out, off)
    length = distance(start, end)
    angle, centre = _beside(board.wanted, one, other, out, block)
    over = OVER if length > block.width + 4 else 0.0
    reaches = [(shifted(each, out, GAP), shifted(each, out, off + over)) for each in (start, end)]
    if not board.fits(block, centre, angle) or not room.free(strip(*_tails(one, other), 2 * ASIDE)):
        return False
    for near, far in reaches:
        if not room.clear(strip(near, far, 4.0)) or (strict and room.crossings(near, far)):
            return False
    for near, far in reaches:
        board.draw(LineType.EXTENSION, near, far)
    _line(board, one, other)
    board.write(block, centre, angle)
    return True


def _beside(wanted: Extent, one: Point, other: Point, out: Point, block: Block) -> tuple[float, Point]:
    """How a text is turned and where its middle lies: along the line, or level beside a short upright one."""
    angle, middle = reading_angle(one, other), between(one, other, 0.5)
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


def along_line(board: Board, start: Point, end: Point, block: Block) -> bool:
    """Write a text along a line, beside it, where that is free."""
    if distance(start, end) < block.width + HEAD:
        return False
    angle = reading_angle(start, end)
    side = normal((end[0] - start[0], end[1] - start[1]), (0.0, -1.0))
    for part in (0.5, 0.42, 0.58, 0.35, 0.65, 0.25, 0.75):
        for by in (1, -1):
            if part * distance(start, end) < block.width / 2 or (1 - part) * distance(start, end) < block.width / 2:
                continue
            centre = shifted(between(start, end, part), side, by * (block.height / 2 + 3.5))
            if board.fits(block, centre, angle):
                board.write(block, centre, angle)
                return True
    return False
