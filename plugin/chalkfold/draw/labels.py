"""Finds places for labels: near what they name, on nothing else.

Every label has a bounded number of places to try, in a fixed order; the cheapest free one wins. Where none is free
the label goes outside all that is drawn, which is always free. So placing ends, and is the same every time.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass, field, replace
from math import cos, inf, radians, sin, sqrt
from typing import NamedTuple

from chalkfold.draw.drawn import Layer, Written
from chalkfold.draw.lines import LineType
from chalkfold.draw.paths import Extent, circle, unit
from chalkfold.draw.places import NOWHERE, Place, Places
from chalkfold.draw.room import AIR, Box, Room, apart, box, strip
from chalkfold.draw.words import Anchor, Block
from chalkfold.geometry.shapes import Point

TURNS = (0, 25, -25, 50, -50, 80, -80, 115, -115, 150, -150, 180)
"""Degrees a leader may turn away from straight outwards."""

STEPS = (0, 8, 17, 28, 42, 60, 84, 114, 152, 200, 260, 330)
"""Units a leader may be longer than its least length."""

TURN_COST, CROSSING_COST, BEYOND_COST = 0.22, 34.0, 4.0
"""Units of leader a degree of turn, a line crossed, a unit beyond the wanted width are worth."""

SNUG_COST, NARROW_COST = 10.0, 16.0
"""Units of leader that spare air, and that longer lines of text are worth."""

START_COST, LEADER_COST = 12.0, 120.0
"""Units of leader that the better place to start from, and not to cross another leader, are worth."""

BETWEEN_LEADERS = 3.0
"""Units two leaders keep from each other."""

DOT = 2.0
"""Radius of the dot a leader may start from."""

_TRIES = sorted((step + TURN_COST * abs(turn), abs(turn), turn, step) for turn in TURNS for step in STEPS)
_EITHER_WAY = sorted(
    (step + TURN_COST * min(abs(turn), 180 - abs(turn)), abs(turn), turn, step) for turn in TURNS for step in STEPS
)


@dataclass(frozen=True, slots=True)
class Board:
    """Where labels of one layer go: what is taken, what is written, how wide it is meant to become, which places.

    ``spare`` is air that a place had better have beyond the least. ``leaders`` are those drawn, with their starts.
    """

    room: Room
    layer: Layer
    wanted: Extent
    places: Places = field(default_factory=Places)
    spare: float = 0.0
    leaders: list[tuple[Point, Box]] = field(default_factory=list)

    def copy(self) -> Board:
        """A board to try labels on."""
        drawn = self.layer
        layer = Layer(drawn.name, drawn.strokes[:], drawn.solids[:], drawn.texts[:])
        return replace(self, room=self.room.copy(), layer=layer, places=Places(), leaders=self.leaders[:])

    @property
    def crossed(self) -> bool:
        """Whether leaders cross; two from one place only part."""
        pairs = itertools.combinations(self.leaders, 2)
        return any(start != other and not apart(one, two) for (start, one), (other, two) in pairs)

    def write(self, block: Block, centre: Point, angle: float = 0.0, anchor: Anchor = "middle", name: str = "") -> None:
        """Write a block round its centre, turned by degrees, its lines aligned by ``anchor``."""
        shift = {"start": -0.5, "middle": 0.0, "end": 0.5}[anchor] * block.width
        c, s = cos(radians(angle)), sin(radians(angle))
        down = -block.height / 2
        for words, lettering in block.lines:
            base = down + lettering.ascent * lettering.size
            at = (centre[0] + shift * c - base * s, centre[1] + shift * s + base * c)
            self.layer.texts.append(Written(at, words, lettering, anchor, angle, name))
            down += lettering.height
        self.room.add_text(box(centre, block.width, block.height, angle))

    def draw(self, line: LineType, start: Point, end: Point) -> None:
        """Draw a straight line that later texts keep off."""
        self.layer.strokes.append((line, ((*start, *end),)))
        self.room.add_line(start, end)

    def fits(self, block: Block, centre: Point, angle: float = 0.0, air: float = AIR) -> bool:
        """Whether a block would touch nothing there, with air round it."""
        return self.room.free(box(centre, block.width + 2 * air, block.height + 2 * air, angle))


@dataclass(frozen=True, slots=True)
class Label:
    """A text for a place. Its leader is at least ``nearest`` long and drawn from ``led`` on, with a dot if asked.

    ``either_way``: the opposite of ``outward`` is as good. ``narrow`` is the same text in shorter and still shorter
    lines, for where there is more room down than across. ``key`` names it in every size. ``others`` are places it may
    be led from as well, each with its direction outward, the better first.
    """

    at: Point
    outward: Point
    block: Block
    nearest: float = 24.0
    led: float = 0.0
    dot: bool = False
    name: str = ""
    either_way: bool = False
    narrow: tuple[Block, ...] = ()
    key: str = ""
    others: tuple[tuple[Point, Point], ...] = ()

    @property
    def blocks(self) -> tuple[Block, ...]:
        return (self.block, *self.narrow)

    def led_from(self, start: int) -> Label:
        """The same label, led from another of its places."""
        at, outward = ((self.at, self.outward), *self.others)[start if start <= len(self.others) else 0]
        return replace(self, at=at, outward=outward)


class Standing(NamedTuple):
    """Where a text stands: the ends of its leader, its middle, how its lines are aligned, if the leader is drawn."""

    start: Point
    end: Point
    centre: Point
    anchor: Anchor
    led: bool


def _standing(label: Label, block: Block, way: Point, length: float) -> Standing:
    """Where a text comes to stand at the end of a leader."""
    u, v = way
    x, y = label.at[0] + u * length, label.at[1] + v * length
    led = length >= label.led
    if block.width < 2.5 * block.height:
        reach = abs(u) * block.width / 2 + abs(v) * block.height / 2 + (4 if led else 0)
        return Standing(label.at, (x, y), (x + u * reach, y + v * reach), "middle", led)
    if abs(u) >= 0.35:
        side = block.width / 2 + 4
        return Standing(label.at, (x, y), (x + side if u > 0 else x - side, y), "start" if u > 0 else "end", led)
    down = block.height / 2 + 3
    return Standing(label.at, (x, y), (x, y + down if v > 0 else y - down), "middle", led)


def _turned(outward: Point, turn: float) -> Point:
    """A direction turned by degrees."""
    (x, y), c, s = unit(outward), cos(radians(turn)), sin(radians(turn))
    return x * c - y * s, x * s + y * c


def place(board: Board, label: Label) -> None:
    """Write a label at the best free place, with its leader."""
    if not label.block.lines:
        return
    found = board.places.settle(label.key, lambda before: _fits(board, label, before), lambda: _search(board, label))
    put(board, label, *(_outside(board, label) if found == NOWHERE else _stood(label, found)))


def place_near(board: Board, label: Label, most: float) -> bool:
    """Write a label only where that costs less than ``most`` units of leader; whether it did."""
    found, _ = _best(board, label, label.block, most) if label.block.lines else (NOWHERE, most)
    if found != NOWHERE:
        put(board, label, *_stood(label, (*found, 0, 0)))
    return found != NOWHERE


def put(board: Board, label: Label, block: Block, standing: Standing) -> None:
    """Write a label where it comes to stand, with its leader."""
    if standing.led:
        board.draw(LineType.EXTENSION, standing.start, standing.end)
        board.leaders.append((standing.start, strip(standing.start, standing.end, BETWEEN_LEADERS)))
        if label.dot and board.room.clear(box(standing.start, 2 * DOT, 2 * DOT)):
            board.layer.solids.append(circle(standing.start, DOT))
    board.write(block, standing.centre, 0.0, standing.anchor, label.name)


def _stood(label: Label, place: Place) -> tuple[Block, Standing]:
    """A place is the turn of the leader, its step, how narrow the text is, and where it is led from."""
    turn, step, narrow, start = place
    block, led = label.blocks[min(int(narrow), len(label.narrow))], label.led_from(int(start))
    return block, _standing(led, block, _turned(led.outward, turn), label.nearest + step)


def _fits(board: Board, label: Label, place: Place) -> bool:
    """Whether a place is free, and the drawing no wider for it than wanted."""
    block, standing = _stood(label, place)
    return (
        board.fits(block, standing.centre)
        and (not standing.led or _is_clear(board, standing))
        and (
            not _beyond(board.wanted, block, standing.centre)
            or _width_with(board, block, standing) <= board.wanted.width
        )
    )


def _width_with(board: Board, block: Block, standing: Standing) -> float:
    extent, half = board.room.extent, block.width / 2
    return max(extent.right, standing.centre[0] + half) - min(extent.left, standing.centre[0] - half)


def _search(board: Board, label: Label) -> Place:
    """The cheapest free place, narrower blocks and other starts a little dearer; ``NOWHERE`` if none is free."""
    best, lowest = NOWHERE, inf
    for start in range(1 + len(label.others)):
        led = label.led_from(start)
        for narrow, block in enumerate(label.blocks):
            dearer = NARROW_COST * narrow + START_COST * start
            found, cost = _best(board, led, block, lowest - dearer)
            if found != NOWHERE:
                best, lowest = (*found, narrow, start), cost + dearer
    return best


def _best(board: Board, label: Label, block: Block, most: float) -> tuple[Place, float]:
    """The cheapest free place for a block that costs less than ``most``, and its cost."""
    best, lowest = NOWHERE, most
    ways = {turn: _turned(label.outward, turn) for turn in TURNS}
    least = dict.fromkeys(TURNS, 0.0)  # what a leader this way costs at least: a longer one crosses as much
    for cost, _, turn, step in _EITHER_WAY if label.either_way else _TRIES:
        if cost >= lowest:
            break
        if cost + least[turn] >= lowest:
            continue
        standing = _standing(label, block, ways[turn], label.nearest + step)
        total = cost + _beyond(board.wanted, block, standing.centre)
        if total + least[turn] >= lowest or not board.fits(block, standing.centre):
            continue
        if board.spare and not board.fits(block, standing.centre, 0.0, AIR + board.spare):
            total += SNUG_COST
        if standing.led:
            least[turn] = _leader_cost(board, label, standing.end, lowest - total)
        if total + least[turn] < lowest:
            best, lowest = (turn, step), total + least[turn]
    return best, lowest


def _leader_cost(board: Board, label: Label, end: Point, most: float) -> float:
    """What the lines cost that a leader crosses, found out up to ``most``; without end if it crosses a text."""
    if not board.room.clear(strip(label.at, end, 2 * AIR)):
        return inf
    cost = LEADER_COST * _leaders_met(board, label.at, end)
    return cost + CROSSING_COST * board.room.crossings(label.at, end, 5.0, (most - cost) / CROSSING_COST)


def _leaders_met(board: Board, start: Point, end: Point) -> int:
    """How many other leaders one meets; two from one place only part."""
    own = strip(start, end)
    return sum(begin != start and not apart(own, each) for begin, each in board.leaders)


def _is_clear(board: Board, standing: Standing) -> bool:
    """Whether a leader crosses no text and no other leader."""
    free = board.room.clear(strip(standing.start, standing.end, 2 * AIR))
    return free and not _leaders_met(board, standing.start, standing.end)


def _beyond(wanted: Extent, block: Block, centre: Point) -> float:
    left, right = wanted.left - centre[0] + block.width / 2, centre[0] + block.width / 2 - wanted.right
    return BEYOND_COST * ((left if left > 0 else 0.0) + (right if right > 0 else 0.0))


def _outside(board: Board, label: Label) -> tuple[Block, Standing]:
    """Beyond all that is drawn: on a leader that crosses no text if there is one, else below the drawing."""
    extent, block = board.room.extent, label.block
    reach = sqrt(extent.width**2 + extent.height**2) + block.width + block.height
    crossing: list[Standing] = []
    for turn in range(0, 360, 10):
        way, near, far = _turned(label.outward, turn), 0.0, reach
        for _ in range(12):
            length = (near + far) / 2
            centre = _standing(label, block, way, max(length, label.led)).centre
            near, far = (near, length) if _off(extent, block, centre) else (length, far)
        standing = _standing(label, block, way, max(far, label.led))
        if _is_clear(board, standing):
            return block, standing
        if board.room.clear(strip(label.at, standing.end, 2 * AIR)):
            crossing.append(standing)
    if crossing:
        return block, crossing[0]
    below = ((extent.left + extent.right) / 2, extent.bottom + block.height / 2 + 8)
    return block, Standing(below, below, below, "middle", False)


def _off(extent: Extent, block: Block, centre: Point) -> bool:
    across = max(extent.left - centre[0], centre[0] - extent.right) >= block.width / 2 + AIR
    return across or max(extent.top - centre[1], centre[1] - extent.bottom) >= block.height / 2 + AIR
