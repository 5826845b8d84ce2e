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
from chalkfold.geometry.points import shifted
from chalkfold.geometry.shapes import Point

TURNS = (0, 25, -25, 50, -50, 80, -80, 115, -115, 150, -150, 180)
"""Degrees a leader may turn away from straight outwards."""

STEPS = (0, 8, 17, 28, 42, 60, 84, 114, 152, 200, 260, 330)
"""Units a leader may be longer than its least length."""

TURN_COST, CROSSING_COST, BEYOND_COST = 0.22, 34.0, 1.5
"""Units of leader a degree of turn, a line crossed, a unit beyond the wanted width are worth."""

NARROW_COST = 16.0
"""Units of leader that shorter lines of text are worth."""

DOT = 2.0
"""Radius of the dot a leader may start from."""

_TRIES = sorted((step + TURN_COST * abs(turn), abs(turn), turn, step) for turn in TURNS for step in STEPS)
_EITHER_WAY = sorted(
    (step + TURN_COST * min(abs(turn), 180 - abs(turn)), abs(turn), turn, step) for turn in TURNS for step in STEPS
)


@dataclass(frozen=True, slots=True)
class Board:
    """Where labels of one layer go: what is taken, what is written, how wide it is meant to become, which places."""

    room: Room
    layer: Layer
    wanted: Extent
    places: Places = field(default_factory=Places)

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

    def fits(self, block: Block, centre: Point, angle: float = 0.0) -> bool:
        """Whether a block would touch nothing there, with air round it."""
        return self.room.free(box(centre, block.width + 2 * AIR, block.height + 2 * AIR, angle))


@dataclass(frozen=True, slots=True)
class Label:
    """A text for a place. Its leader is at least ``nearest`` long and drawn from ``led`` on, with a dot if asked.

    ``either_way``: the opposite of ``outward`` is as good. ``narrow`` is the same text in shorter lines, for where
    there is more room down than across. ``key`` names it in every size.
    """

    at: Point
    outward: Point
    block: Block
    nearest: float = 24.0
    led: float = 0.0
    dot: bool = False
    name: str = ""
    either_way: bool = False
    narrow: Block | None = None
    key: str = ""

    def standing(self, block: Block, turn: float, length: float) -> _Standing:
        """Where a text comes to stand at the end of a leader turned away from straight outwards."""
        x, y = unit(self.outward)
        c, s = cos(radians(turn)), sin(radians(turn))
        u, v = x * c - y * s, x * s + y * c
        end = (self.at[0] + u * length, self.at[1] + v * length)
        led = length >= self.led
        if block.width < 2.5 * block.height:
            reach = abs(u) * block.width / 2 + abs(v) * block.height / 2 + (4 if led else 0)
            return _Standing(end, shifted(end, (u, v), reach), "middle", led)
        if abs(u) >= 0.35:
            side = block.width / 2 + 4
            return _Standing(end, (end[0] + (side if u > 0 else -side), end[1]), "start" if u > 0 else "end", led)
        down = block.height / 2 + 3
        return _Standing(end, (end[0], end[1] + (down if v > 0 else -down)), "middle", led)


class _Standing(NamedTuple):
    end: Point
    centre: Point
    anchor: Anchor
    led: bool


def place(board: Board, label: Label) -> None:
    """Write a label at the best free place, with its leader."""
    if not label.block.lines:
        return
    found = board.places.settle(label.key, lambda before: _fits(board, label, before), lambda: _search(board, label))
    block, standing = _outside(board, label) if found == NOWHERE else _stood(label, found)
    if standing.led:
        board.draw(LineType.EXTENSION, label.at, standing.end)
        if label.dot and board.room.clear(box(label.at, 2 * DOT, 2 * DOT)):
            board.layer.solids.append(circle(label.at, DOT))
    board.write(block, standing.centre, 0.0, standing.anchor, label.name)


def _stood(label: Label, place: Place) -> tuple[Block, _Standing]:
    """A place is the turn of the leader, its step, how many lines it crosses, and whether the text is narrow."""
    turn, step, _, narrow = place
    block = label.narrow if narrow and label.narrow is not None else label.block
    return block, label.standing(block, turn, label.nearest + step)


def _fits(board: Board, label: Label, place: Place) -> bool:
    """Whether a place is free, and its leader crosses no text and no more lines than it did."""
    block, standing = _stood(label, place)
    if not board.fits(block, standing.centre):
        return False
    clear = not standing.led or board.room.clear(strip(label.at, standing.end, 2 * AIR))
    return clear and (not standing.led or _crossings(board, label, standing) <= place[2])


def _crossings(board: Board, label: Label, standing: _Standing) -> int:
    return board.room.crossings(label.at, standing.end, 5.0)


def _search(board: Board, label: Label) -> Place:
    """The cheapest free place, a little dearer for shorter lines of text; ``NOWHERE`` if none is free."""
    found, cost = _best(board, label, label.block, inf)
    if label.narrow is not None and cost > NARROW_COST:
        narrow, _ = _best(board, label, label.narrow, cost - NARROW_COST)
        found = (*narrow[:3], True) if narrow else found
    return found


def _best(board: Board, label: Label, block: Block, most: float) -> tuple[Place, float]:
    """The cheapest free place for a block that costs less than ``most``, and its cost."""
    best, lowest = NOWHERE, most
    for cost, _, turn, step in _EITHER_WAY if label.either_way else _TRIES:
        if cost >= lowest:
            break
        standing = label.standing(block, turn, label.nearest + step)
        total = cost + _beyond(board.wanted, block, standing.centre)
        if total >= lowest or not board.fits(block, standing.centre):
            continue
        crossings = 0
        if standing.led:
            crossings = _crossings(board, label, standing)
            total += CROSSING_COST * crossings
            if total >= lowest or not board.room.clear(strip(label.at, standing.end, 2 * AIR)):
                continue
        best, lowest = (turn, step, crossings, False), total
    return best, lowest


def _beyond(wanted: Extent, block: Block, centre: Point) -> float:
    left, right = centre[0] - block.width / 2, centre[0] + block.width / 2
    return BEYOND_COST * (max(0.0, wanted.left - left) + max(0.0, right - wanted.right))


def _outside(board: Board, label: Label) -> tuple[Block, _Standing]:
    """Beyond all that is drawn: on a leader that crosses no text if there is one, else below the drawing."""
    extent, block = board.room.extent, label.block
    reach = sqrt(extent.width**2 + extent.height**2) + block.width + block.height
    for turn in range(0, 360, 10):
        near, far = 0.0, reach
        for _ in range(12):
            length = (near + far) / 2
            centre = label.standing(block, turn, max(length, label.led)).centre
            near, far = (near, length) if _off(extent, block, centre) else (length, far)
        standing = label.standing(block, turn, max(far, label.led))
        if board.room.clear(strip(label.at, standing.end, 2 * AIR)):
            return block, standing
    below = ((extent.left + extent.right) / 2, extent.bottom + block.height / 2 + 8)
    return block, _Standing(below, below, "middle", False)


def _off(extent: Extent, block: Block, centre: Point) -> bool:
    across = max(extent.left - centre[0], centre[0] - extent.right) >= block.width / 2 + AIR
    return across or max(extent.top - centre[1], centre[1] - extent.bottom) >= block.height / 2 + AIR
