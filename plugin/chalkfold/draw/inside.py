"""What stands in the piece where it has most room: its name, and the grain line clear of every text."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import cached_property, partial
from math import cos, inf, radians, sin, sqrt
from typing import NamedTuple

from chalkfold.draw.dimensions import head, reading_angle
from chalkfold.draw.drawn import Layer
from chalkfold.draw.labels import Board, Label, place
from chalkfold.draw.lines import LineType
from chalkfold.draw.marks import ink
from chalkfold.draw.paths import Extent, lines_through
from chalkfold.draw.places import NOWHERE, Place
from chalkfold.draw.room import AIR, box, inside
from chalkfold.draw.sheet import Grain, NameBlock
from chalkfold.draw.words import BETWEEN, LABEL, NAME, Block, Lettering, Part, evened, wrapped
from chalkfold.geometry.points import distance, shifted
from chalkfold.geometry.shapes import Point

GROWTHS = (2.2, 1.7, 1.35)
"""A name goes where a rectangle this many times as large is free, the largest first."""

NARROW = 125.0
"""Units a name block is wide at most where the piece has no room for a wider one."""

BESIDE = 7.0
"""Units later texts keep from a name, so that none reads as a line of it."""

SMALL_NAME = Lettering("small-name", 13.5, bold=True)
"""For a name and what is cut in one line."""

ARROWS = (150.0, 110.0, 80.0, 56.0, 40.0)
"""Lengths of the grain line that are tried, in units."""

OVER, IN_LINE = 1.0, 0.0
"""Where the grain line's text stands."""

UP = -90.0
"""The turn of a text that runs up the page."""

LEANS = (-15.0, 15.0, -30.0, 30.0, -45.0, 45.0)
"""Turns of a name in a narrow piece that runs aslant, such as a facing."""

PLACES = 5
"""A square piece is tried in twice as many places across and down, and one more."""


class Area:
    """The piece as room for texts."""

    def __init__(self, outline: list[Point]) -> None:
        self.outline = outline
        self.extent = Extent.of(outline)

    @cached_property
    def places(self) -> list[Place]:
        """Where to look, nearest to the middle first: parts of the way across and down the piece."""
        return self._looked_at(PLACES, 16)

    @cached_property
    def all_places(self) -> list[Place]:
        """Where else to look: about twice as many places across and down."""
        return self._looked_at(2 * PLACES, 24)

    def _looked_at(self, number: int, most: int) -> list[Place]:
        width, height = self.extent.width, self.extent.height
        across, down = _steps(width, height, number, most), _steps(height, width, number, most)
        places: list[Place] = [(u, v) for v in down for u in across]
        return self._sorted(filter(self.holds, places), self.point((0.5, 0.5)))

    @property
    def heart(self) -> Point:
        middle = (0.5, 0.5)
        return self.point(middle if self.holds(middle) or not self.places else self.places[0])

    def point(self, place: Place) -> Point:
        left, top, right, bottom = self.extent
        return left + place[0] * (right - left), top + place[1] * (bottom - top)

    def holds(self, place: Place) -> bool:
        return inside(self.point(place), self.outline)

    def core(self, block: Block, angle: float) -> Extent:
        """Where the middle of a block has to lie for it not to reach beyond the box round the piece."""
        whole = box((0.0, 0.0), block.width + 2 * AIR, block.height + 2 * AIR, angle)
        left, top, right, bottom = self.extent
        return Extent(left + whole.across, top + whole.down, right - whole.across, bottom - whole.down)

    def nearest(self, to: Point) -> list[Place]:
        return self._sorted(self.places, to)

    def _sorted(self, places: Iterable[Place], to: Point) -> list[Place]:
        return sorted(places, key=lambda each: (round(distance(to, self.point(each)), 3), each[1], each[0]))


def _steps(length: float, other: float, number: int, most: int) -> list[float]:
    """The middles of an odd number of equal parts of 1, more of them along the longer way of a piece."""
    count = 2 * max(1, min(most, round(number * sqrt(length / max(other, 1e-6))))) + 1
    return [(number + 0.5) / count for number in range(count)]


def room_for(board: Board, area: Area, block: Block, angle: float = 0.0) -> Place:
    """The middle of the largest free place of the piece that holds a block."""

    def fitting(places: list[Place], growth: float = 1.0) -> Iterator[Place]:
        grown = Block(block.lines, block.width * growth, block.height * growth)
        core = area.core(grown, angle)
        held = ((each, area.point(each)) for each in (places if core.width >= 0 and core.height >= 0 else ()))
        return (each for each, at in held if core.holds(at) and board.fits(grown, at, angle))

    free = list(fitting(area.places)) or list(fitting(area.all_places))
    return next((each for growth in GROWTHS if free for each in fitting(free, growth)), free[0] if free else NOWHERE)


def name(board: Board, area: Area, given: NameBlock) -> Point:
    """Write the name in the piece, all of it or without what is cut, or beside it where the piece holds none; where it
    stands."""

    def fits(place: Place) -> bool:
        """A place is which way the name is set, and where."""
        block, angle = WAYS[int(place[0])].set(given)
        return area.holds(place[1:]) and board.fits(block, area.point(place[1:]), angle)

    def search() -> Place:
        found = ((number, *room_for(board, area, *way.set(given))) for number, way in enumerate(WAYS))
        return next((each for each in found if len(each) > 1), NOWHERE)

    found = board.places.settle("name, inside", fits, search, give_up=False)
    if found == NOWHERE:
        _beside(board, area.heart, area, _stacked(given, NARROW))
        return area.heart
    way, centre = WAYS[int(found[0])], area.point(found[1:])
    block, angle = way.set(given)
    board.write(block, centre, angle)
    board.room.add_text(box(centre, block.width + 2 * BESIDE, block.height + 2 * BESIDE, angle))
    if way.alone:
        below = shifted(centre, _upper_side(angle), -block.height / 2 - 6)
        _beside(board, below, area, _stacked(NameBlock("", given.lines), NARROW))
    return centre


def _beside(board: Board, at: Point, area: Area, block: Block) -> None:
    """Lead off what does not stand in the piece."""
    side = (1.0, 0.0) if area.extent.height > area.extent.width else (0.0, 1.0)
    place(board, Label(at, side, block, nearest=28.0, dot=True, either_way=True, key="name"))


def _stacked(given: NameBlock, most: float = inf) -> Block:
    lines = [(part, LABEL) for line in given.lines for part in evened(line, LABEL, most)]
    return Block.joined([*((part, NAME) for part in wrapped((given.name.upper(),), NAME, most)), *lines])


def _in_one_line(given: NameBlock) -> Block:
    parts: list[Part] = [given.name.upper()]
    for line in given.lines:
        parts += [BETWEEN, *line]
    return Block.joined([(tuple(parts), SMALL_NAME)])


def _alone(given: NameBlock) -> Block:
    return Block.joined([((given.name.upper(),), NAME)])


class Way(NamedTuple):
    """How a name may be set, its turn in degrees, and whether what is cut is led off."""

    setting: Callable[[NameBlock], Block]
    angle: float = 0.0
    alone: bool = False

    def set(self, given: NameBlock) -> tuple[Block, float]:
        return self.setting(given), self.angle


WAYS = (
    Way(_stacked),
    Way(partial(_stacked, most=NARROW)),
    Way(_in_one_line),
    Way(_stacked, UP),
    Way(partial(_stacked, most=NARROW), UP),
    Way(_in_one_line, UP),
    Way(_alone, alone=True),
    Way(_alone, UP, alone=True),
    *(Way(_alone, lean, alone=True) for lean in LEANS),
)
"""The best first."""


def large_name(board: Board, area: Area, given: NameBlock, lettering: Lettering) -> None:
    """The name alone, for narrow screens, if the piece holds it there; the caption tells it anyhow."""
    block = Block.joined([((given.name.upper(),), lettering)])
    apart = Block(block.lines, block.width + lettering.size, block.height)  # no letter reads as a part of it

    def fits(place: Place) -> bool:
        return area.holds(place) and board.fits(apart, area.point(place))

    found = board.places.settle("name", fits, lambda: room_for(board, area, apart))
    if found != NOWHERE:
        board.write(block, area.point(found), name="whose")


def grain(board: Board, base: Layer, area: Area, given: Grain, near: Point) -> tuple[Point, Point]:
    """Draw the grain line in the piece near a point, the text beside it, or beside the piece; its two ends."""
    u, v = cos(radians(given.direction)), sin(radians(given.direction))
    block = Block.of((given.text,), LABEL, float("inf"))
    angle = reading_angle((0.0, 0.0), (u, v))
    thick = {OVER: block.height + 10, IN_LINE: block.height}

    def free(place: Place, air: float = AIR) -> bool:
        """A place is how the text stands to the line, how long that is, and where."""
        way, whole = place[:2]
        return board.room.free(box(area.point(place[2:]), whole + 2 * air, thick[way] + 2 * air, angle))

    def search() -> Place:
        """The longest line, of several one with spare air, of several the nearest."""
        places = area.nearest(near)
        for way in (OVER, IN_LINE):
            lengths = [max(each, block.width) if way == OVER else block.width + 8 + each / 2 for each in ARROWS]
            held = [each for each in places if free((way, lengths[-1], *each))]
            for length in lengths if held else ():
                fitting = [(way, length, *each) for each in held if free((way, length, *each))]
                if fitting:
                    return next((each for each in fitting if free(each, AIR + board.spare)), fitting[0])
        return NOWHERE

    found = board.places.settle(f"grain {given.letter}", lambda before: area.holds(before[2:]) and free(before), search)
    if found != NOWHERE:
        return draw_grain(board, base, block, area.point(found[2:]), angle, found[1], found[0])
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
