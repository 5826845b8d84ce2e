"""What stands in the piece where it has most room: its name, and the grain line clear of every text."""

from __future__ import annotations

from math import cos, radians, sin, sqrt

from chalkfold.draw.dimensions import head, reading_angle
from chalkfold.draw.drawn import Layer
from chalkfold.draw.labels import Board, Label, place
from chalkfold.draw.lines import LineType
from chalkfold.draw.marks import ink
from chalkfold.draw.paths import Extent, lines_through
from chalkfold.draw.room import AIR, box, inside
from chalkfold.draw.sheet import Grain, NameBlock
from chalkfold.draw.words import BETWEEN, LABEL, NAME, Block, Lettering, Part, wrapped
from chalkfold.geometry.points import distance, shifted
from chalkfold.geometry.shapes import Point

GROWTHS = (2.2, 1.7, 1.35)
"""A name goes where a rectangle this many times as large is free, the largest first."""

NARROW = 125.0
"""Units a name block is wide at most where the piece has no room for a wider one."""

SMALL_NAME = Lettering("small-name", 13.5, bold=True)
"""For a name and what is cut in one line."""

ARROWS = (150.0, 110.0, 80.0, 56.0, 40.0)
"""Lengths of the grain line that are tried, in units."""

OVER, IN_LINE = 1.0, 0.0
"""Where the grain line's text stands."""

PLACES = 5
"""A square piece is tried in twice as many places across and down, and one more."""


class Area:
    """The places within a piece, nearest to its middle first."""

    def __init__(self, outline: list[Point]) -> None:
        self.outline = outline
        self.extent = Extent.of(outline)
        left, top, right, bottom = self.extent
        middle = ((left + right) / 2, (top + bottom) / 2)
        across, down = _steps(self.extent.width, self.extent.height), _steps(self.extent.height, self.extent.width)
        grid = [(left + u * (right - left), top + v * (bottom - top)) for v in down for u in across]
        held = [each for each in grid if inside(each, outline)]
        self.places = sorted(held, key=lambda each: (round(distance(middle, each), 3), each[1], each[0]))
        self.heart = self.places[0] if self.places else middle

    def nearest(self, to: Point) -> list[Point]:
        return sorted(self.places, key=lambda each: (round(distance(to, each), 3), each[1], each[0]))


def _steps(length: float, other: float) -> list[float]:
    """The middles of an odd number of equal parts of 1, more of them along the longer way of a piece."""
    count = 2 * max(1, min(16, round(PLACES * sqrt(length / max(other, 1e-6))))) + 1
    return [(number + 0.5) / count for number in range(count)]


def room_for(board: Board, area: Area, block: Block, angle: float = 0.0) -> Point | None:
    """The middle of the largest free place of the piece that holds a block."""
    fitting = [each for each in area.places if board.fits(block, each, angle)]
    for growth in GROWTHS:
        grown = Block(block.lines, block.width * growth, block.height * growth)
        for each in fitting:
            if board.fits(grown, each, angle):
                return each
    return fitting[0] if fitting else None


def name(board: Board, area: Area, given: NameBlock) -> Point:
    """Write the name in the piece, or beside it on a leader where the piece is too small; where it stands."""
    for block, angle in _ways(given):
        centre = room_for(board, area, block, angle)
        if centre is not None:
            board.write(block, centre, angle)
            return centre
    side = (1.0, 0.0) if area.extent.height > area.extent.width else (0.0, 1.0)
    block = _stacked(given, NARROW)
    place(board, Label(area.heart, side, block, nearest=28.0, dot=True, either_way=True))
    return area.heart


def _ways(given: NameBlock) -> list[tuple[Block, float]]:
    """How a name may be set, the best first: stacked, narrower, in one line, in one line up the piece."""
    upper = given.name.upper()
    one: list[Part] = [upper]
    for line in given.lines:
        one += [BETWEEN, *line]
    row = Block.joined([(tuple(one), SMALL_NAME)])
    return [(_stacked(given, float("inf")), 0.0), (_stacked(given, NARROW), 0.0), (row, 0.0), (row, -90.0)]


def _stacked(given: NameBlock, most: float) -> Block:
    lines = [(part, LABEL) for line in given.lines for part in wrapped(line, LABEL, most)]
    return Block.joined([*((part, NAME) for part in wrapped((given.name.upper(),), NAME, most)), *lines])


def large_name(board: Board, area: Area, given: NameBlock, lettering: Lettering) -> None:
    """The name alone, for narrow screens, if the piece holds it there; the caption tells it anyhow."""
    block = Block.joined([((given.name.upper(),), lettering)])
    centre = room_for(board, area, block)
    if centre is not None:
        board.write(block, centre)


def grain(board: Board, base: Layer, area: Area, given: Grain, near: Point) -> tuple[Point, Point]:
    """Draw the grain line in the piece near a point, the text beside it, or beside the piece; its two ends."""
    u, v = cos(radians(given.direction)), sin(radians(given.direction))
    block = Block.of((given.text,), LABEL, float("inf"))
    angle = reading_angle((0.0, 0.0), (u, v))
    for way, thick in ((OVER, block.height + 10), (IN_LINE, block.height)):
        for length in ARROWS:
            whole = max(length, block.width) if way == OVER else block.width + 8 + length / 2
            for each in area.nearest(near):
                if board.room.free(box(each, whole + 2 * AIR, thick + 2 * AIR, angle)):
                    return draw_grain(board, base, block, each, angle, whole, way)
    extent, length = board.room.extent, ARROWS[2]
    reach = max(length, block.width) / 2
    away = abs(sin(radians(angle))) * reach + block.height + 12
    below = ((area.extent.left + area.extent.right) / 2, extent.bottom + away)
    return draw_grain(board, base, block, below, angle, length, OVER)


def _upper_side(angle: float) -> Point:
    """The direction from a line to the text written over it."""
    return sin(radians(angle)), -cos(radians(angle))


def draw_grain(
    board: Board, base: Layer, block: Block, centre: Point, angle: float, length: float, way: float
) -> tuple[Point, Point]:
    """``centre`` is the middle of line and text together; the text stands over the line, or breaks it."""
    along, side = (cos(radians(angle)), sin(radians(angle))), _upper_side(angle)
    middle = shifted(centre, side, -way * (block.height / 2 + 1))
    ends = shifted(middle, along, -length / 2), shifted(middle, along, length / 2)
    gap = block.width / 2 + 4
    parts = (
        [ends]
        if way == OVER
        else [(end, shifted(middle, along, by)) for end, by in zip(ends, (-gap, gap), strict=True)]
    )
    for part in parts:
        ink(board.room, base, LineType.GRAIN, lines_through(part))
    base.solids += [head(ends[0], (-along[0], -along[1])), head(ends[1], along)]
    board.write(block, shifted(middle, side, way * (block.height / 2 + 4)), angle)
    return ends
