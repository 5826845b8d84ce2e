"""Finds places for labels: near what they name, on nothing else.

Every label has a bounded number of places to try, in a fixed order; the cheapest free one wins. Where none is free
the label goes outside all that is drawn, which is always free. So placing ends, and is the same every time.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin, sqrt

from chalkfold.draw.drawn import Layer, Written
from chalkfold.draw.lines import LineType
from chalkfold.draw.paths import Extent, circle, unit
from chalkfold.draw.room import AIR, Box, Room, box
from chalkfold.draw.words import Anchor, Block
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
    """Where labels of one layer go: what is taken, what is written, how wide it is meant to become."""

    room: Room
    layer: Layer
    wanted: Extent

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
        self.room.add_box(box(centre, block.width, block.height, angle))

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
    there is more room down than across.
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


@dataclass(frozen=True, slots=True)
class _Place:
    end: Point
    centre: Point
    anchor: Anchor
    led: bool
    block: Block


def place(board: Board, label: Label) -> None:
    """Write a label at the best free place, with its leader."""
    if not label.block.lines:
        return
    found, cost = _best(board, label, label.block, float("inf"))
    if label.narrow is not None and cost > NARROW_COST:
        narrow, _ = _best(board, label, label.narrow, cost - NARROW_COST)
        found = narrow or found
    _put(board, label, found or _outside(board, label))


def place_near(board: Board, label: Label, most: float) -> bool:
    """Write a label only where that costs less than ``most`` units of leader; whether it did."""
    found, _ = _best(board, label, label.block, most) if label.block.lines else (None, most)
    if found is not None:
        _put(board, label, found)
    return found is not None


def _put(board: Board, label: Label, found: _Place) -> None:
    if found.led:
        board.draw(LineType.EXTENSION, label.at, found.end)
        if label.dot and board.room.clear(box(label.at, 2 * DOT, 2 * DOT)):
            board.layer.solids.append(circle(label.at, DOT))
    board.write(found.block, found.centre, 0.0, found.anchor, label.name)


def strip(start: Point, end: Point, width: float) -> Box:
    """A line with room to both sides."""
    x, y = unit((end[0] - start[0], end[1] - start[1]))
    u, v = -y * width / 2, x * width / 2
    return (
        (start[0] + u, start[1] + v),
        (end[0] + u, end[1] + v),
        (end[0] - u, end[1] - v),
        (start[0] - u, start[1] - v),
    )


def _best(board: Board, label: Label, block: Block, most: float) -> tuple[_Place | None, float]:
    """The cheapest free place for a block that costs less than ``most``, and its cost."""
    best, lowest = None, most
    for cost, _, turn, step in _EITHER_WAY if label.either_way else _TRIES:
        if cost >= lowest:
            break
        found = _at(label, block, turn, label.nearest + step)
        total = cost + _beyond(board.wanted, block, found.centre)
        if total >= lowest or not board.fits(block, found.centre):
            continue
        if found.led:
            total += CROSSING_COST * board.room.crossings(label.at, found.end, 5.0)
            if total >= lowest or not board.room.clear(strip(label.at, found.end, 2 * AIR)):
                continue
        best, lowest = found, total
    return best, lowest


def _at(label: Label, block: Block, turn: float, length: float) -> _Place:
    """Where the text comes to stand at the end of a leader turned away from straight outwards."""
    x, y = unit(label.outward)
    c, s = cos(radians(turn)), sin(radians(turn))
    u, v = x * c - y * s, x * s + y * c
    end = (label.at[0] + u * length, label.at[1] + v * length)
    led = length >= label.led
    if block.width < 2.5 * block.height:
        reach = abs(u) * block.width / 2 + abs(v) * block.height / 2 + (4 if led else 0)
        return _Place(end, (end[0] + u * reach, end[1] + v * reach), "middle", led, block)
    if abs(u) >= 0.35:
        side = 1 if u > 0 else -1
        centre = (end[0] + side * (block.width / 2 + 4), end[1])
        return _Place(end, centre, "start" if u > 0 else "end", led, block)
    side = 1 if v > 0 else -1
    return _Place(end, (end[0], end[1] + side * (block.height / 2 + 3)), "middle", led, block)


def _beyond(wanted: Extent, block: Block, centre: Point) -> float:
    left, right = centre[0] - block.width / 2, centre[0] + block.width / 2
    return BEYOND_COST * (max(0.0, wanted.left - left) + max(0.0, right - wanted.right))


def _outside(board: Board, label: Label) -> _Place:
    """Beyond all that is drawn: on a leader that crosses no text if there is one, else below the drawing."""
    extent = board.room.extent
    reach = sqrt(extent.width**2 + extent.height**2) + label.block.width + label.block.height
    for turn in range(0, 360, 10):
        near, far = 0.0, reach
        for _ in range(12):
            length = (near + far) / 2
            found = _at(label, label.block, turn, max(length, label.led))
            near, far = (near, length) if _off(extent, label.block, found.centre) else (length, far)
        found = _at(label, label.block, turn, max(far, label.led))
        if board.room.clear(strip(label.at, found.end, 2 * AIR)):
            return found
    centre = ((extent.left + extent.right) / 2, extent.bottom + label.block.height / 2 + 8)
    return _Place(centre, centre, "middle", False, label.block)


def _off(extent: Extent, block: Block, centre: Point) -> bool:
    across = max(extent.left - centre[0], centre[0] - extent.right) >= block.width / 2 + AIR
    return across or max(extent.top - centre[1], centre[1] - extent.bottom) >= block.height / 2 + AIR
