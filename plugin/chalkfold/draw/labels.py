"""Finds places for labels: near what they name, on nothing else.

Every label has a bounded number of places to try, in a fixed order; the cheapest free one wins. Where none is free
the label goes outside all that is drawn, which is always free. So placing ends, and is the same every time.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import cos, inf, radians, sin, sqrt
from typing import NamedTuple

from chalkfold.draw.drawn import Layer, Written
from chalkfold.draw.lines import LineType
from chalkfold.draw.paths import Extent, circle, unit
from chalkfold.draw.places import NOWHERE, Place, Places
from chalkfold.draw.room import AIR, Room, box, strip
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

DOT = 2.0
"""Radius of the dot a leader may start from."""

_TRIES = sorted((step + TURN_COST * abs(turn), abs(turn), turn, step) for turn in TURNS for step in STEPS)
_EITHER_WAY = sorted(
    (step + TURN_COST * min(abs(turn), 180 - abs(turn)), abs(turn), turn, step) for turn in TURNS for step in STEPS
)


@dataclass(frozen=True, slots=True)
class Board:
    """Where labels of one layer go: what is taken, what is written, how wide it is meant to become, which places.

    ``spare`` is air that a place had better have beyond the least.
    """

    room: Room
    layer: Layer
    wanted: Extent
    places: Places = field(default_factory=Places)
    spare: float = 0.0

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
    lines, for where there is more room down than across. ``key`` names it in every size.
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

    @property
    def blocks(self) -> tuple[Block, ...]:
        return (self.block, *self.narrow)


class _Standing(NamedTuple):
    end: Point
    centre: Point
    anchor: Anchor
    led: bool


def _standing(label: Label, block: Block, way: Point, length: float) -> _Standing:
    """Where a text comes to stand at the end of a leader."""
    u, v = way
    x, y = label.at[0] + u * length, label.at[1] + v * length
    led = length >= label.led
    if block.width < 2.5 * block.height:
        reach = abs(u) * block.width / 2 + abs(v) * block.height / 2 + (4 if led else 0)
        return _Standing((x, y), (x + u * reach, y + v * reach), "middle", led)
    if abs(u) >= 0.35:
        side = block.width / 2 + 4
        return _Standing((x, y), (x + side if u > 0 else x - side, y), "start" if u > 0 else "end", led)
    down = block.height / 2 + 3
    return _Standing((x, y), (x, y + down if v > 0 else y - down), "middle", led)


def _turned(outward: Point, turn: float) -> Point:
    """A direction turned by degrees."""
    (x, y), c, s = unit(outward), cos(radians(turn)), sin(radians(turn))
    return x * c - y * s, x * s + y * c


def place(board: Board, label: Label) -> None:
    """Write a label at the best free place, with its leader."""
    if not label.block.lines:
        return
    found = board.places.settle(label.key, lambda before: _fits(board, label, before), lambda: _search(board, label))
    _put(board, label, *(_outside(board, label) if found == NOWHERE else _stood(label, found)))


def place_near(board: Board, label: Label, most: float) -> bool:
    """Write a label only where that costs less than ``most`` units of leader; whether it did."""
    found, _ = _best(board, label, label.block, most) if label.block.lines else (NOWHERE, most)
    if found != NOWHERE:
        _put(board, label, *_stood(label, (*found, 0)))
    return found != NOWHERE


def _put(board: Board, label: Label, block: Block, standing: _Standing) -> None:
    if standing.led:
        board.draw(LineType.EXTENSION, label.at, standing.end)
        if label.dot and board.room.clear(box(label.at, 2 * DOT, 2 * DOT)):
            board.layer.solids.append(circle(label.at, DOT))
    board.write(block, standing.centre, 0.0, standing.anchor, label.name)


def _stood(label: Label, place: Place) -> tuple[Block, _Standing]:
    """A place is the turn of the leader, its step, and how narrow the text is."""
    turn, step, narrow = place
    block = label.blocks[min(int(narrow), len(label.narrow))]
    return block, _standing(label, block, _turned(label.outward, turn), label.nearest + step)


def _fits(board: Board, label: Label, place: Place) -> bool:
    """Whether a place is free, and the drawing no wider for it than wanted."""
    block, standing = _stood(label, place)
    return (
        board.fits(block, standing.centre)
        and (not standing.led or board.room.clear(strip(label.at, standing.end, 2 * AIR)))
        and (
            not _beyond(board.wanted, block, standing.centre)
            or _width_with(board, block, standing) <= board.wanted.width
        )
    )


def _width_with(board: Board, block: Block, standing: _Standing) -> float:
    extent, half = board.room.extent, block.width / 2
    return max(extent.right, standing.centre[0] + half) - min(extent.left, standing.centre[0] - half)


def _search(board: Board, label: Label) -> Place:
    """The cheapest free place, each narrower block a little dearer; ``NOWHERE`` if none is free."""
    best, lowest = NOWHERE, inf
    for narrow, block in enumerate(label.blocks):
        found, cost = _best(board, label, block, lowest - NARROW_COST * narrow)
        if found != NOWHERE:
            best, lowest = (*found, narrow), cost + NARROW_COST * narrow
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
    return CROSSING_COST * board.room.crossings(label.at, end, 5.0, most / CROSSING_COST)


def _beyond(wanted: Extent, block: Block, centre: Point) -> float:
    left, right = wanted.left - centre[0] + block.width / 2, centre[0] + block.width / 2 - wanted.right
    return BEYOND_COST * ((left if left > 0 else 0.0) + (right if right > 0 else 0.0))


def _outside(board: Board, label: Label) -> tuple[Block, _Standing]:
    """Beyond all that is drawn: on a leader that crosses no text if there is one, else below the drawing."""
    extent, block = board.room.extent, label.block
    reach = sqrt(extent.width**2 + extent.height**2) + block.width + block.height
    for turn in range(0, 360, 10):
        way, near, far = _turned(label.outward, turn), 0.0, reach
        for _ in range(12):
            length = (near + far) / 2
            centre = _standing(label, block, way, max(length, label.led)).centre
            near, far = (near, length) if _off(extent, block, centre) else (length, far)
        standing = _standing(label, block, way, max(far, label.led))
        if board.room.clear(strip(label.at, standing.end, 2 * AIR)):
            return block, standing
    below = ((extent.left + extent.right) / 2, extent.bottom + block.height / 2 + 8)
    return block, _Standing(below, below, "middle", False)


def _off(extent: Extent, block: Block, centre: Point) -> bool:
    across = max(extent.left - centre[0], centre[0] - extent.right) >= block.width / 2 + AIR
    return across or max(extent.top - centre[1], centre[1] - extent.bottom) >= block.height / 2 + AIR
