"""All sizes of a piece over each other, at one origin: which line is whose, the chosen one heavier.

Every size stands in the drawing once, of the class ``n0``, ``n1`` …, and the style sheet makes the chosen one heavy and
continuous: it is the one to cut. A label sits on its own line, which stops for it, where the neighbours leave room;
else it stands outside on a leader.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import atan2, cos, degrees, sin, sqrt

from chalkfold.draw.drawn import Layer, trace
from chalkfold.draw.labels import Board, Label, place
from chalkfold.draw.lines import NESTED
from chalkfold.draw.paths import Extent, Frame, flat, radius_of, turned
from chalkfold.draw.rake import rake
from chalkfold.draw.room import Box, Room, box
from chalkfold.draw.surface import Surface
from chalkfold.draw.words import SIZE, Block
from chalkfold.geometry import bezier, polynomials
from chalkfold.geometry.points import distance
from chalkfold.geometry.shapes import ARC, CUBIC, Edge, Point, Segment

WIDTH = 320.0
"""Units a nest is wide: its labels of 13.5 are still 12 px high where a page leaves it 285."""

OUTLINES = (250.0, 300.0)
"""How wide and high the largest size is, labels not counted."""

MARGIN = 6.0
CLEAR = 7.0
"""Units a label on a line keeps from the neighbours' lines."""

APART = (2.0, 8.0, 20.0)
"""Twice the distances to other sizes that are told apart, in units."""

ELSEWHERE = (0.0, 0.15, -0.15, 0.4)
"""How much farther along its line a leader may start, in parts of it, the best first."""

TRIED = 48
"""How many places along an outline are tried."""


@dataclass(frozen=True, slots=True)
class Nested:
    """One size: its label and the line to draw, in mm, at the origin all sizes share.

    ``numbers`` are those of the sizes that have this line, where several do.
    """

    label: str
    outline: Edge
    numbers: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Nest:
    """The placed drawing: the outlines with gaps for the labels in them."""

    extent: Extent
    outlines: tuple[Edge, ...]
    labels: Layer
    names: tuple[str, ...]
    heavy: int
    """Which outline is the sample size's."""

    def play(self, surface: Surface) -> None:
        for number, outline in enumerate(self.outlines):
            if outline:
                trace(surface, outline)
                surface.dashed(self.names[number], NESTED[number % len(NESTED)], number == self.heavy)
        self.labels.play(surface)


def name_of(number: int, sizes: tuple[int, ...], sample: int) -> str:
    """The classes of an outline: its pattern, the numbers of its sizes, and whether it is the sample size's."""
    numbers = " ".join(f"n{each}" for each in sizes)
    return f"size p{number % len(NESTED)} {numbers}{' s' if sample in sizes else ''}"


def nested(sizes: Sequence[Nested], sample: int = 0) -> Nest:
    """Place the sizes in ``WIDTH`` units, smallest or largest first alike; every size gets its label."""
    return _nested(tuple(sizes), sample)


@lru_cache(maxsize=2**7)
def _nested(sizes: tuple[Nested, ...], sample: int) -> Nest:
    extent = Extent.of(point for size in sizes for point in flat(size.outline))
    scale = min(OUTLINES[0] / max(extent.width, 1e-6), OUTLINES[1] / max(extent.height, 1e-6))
    frame = Frame(scale)
    outlines = [frame.edge(size.outline) for size in sizes]
    own = Extent.of(point for outline in outlines for point in flat(outline))
    half, middle = WIDTH / 2 - MARGIN, (own.left + own.right) / 2
    board = Board(Room(), Layer("labels"), Extent(middle - half, own.top, middle + half, own.bottom))
    lines = [board.room.add_path(flat(outline)) for outline in outlines]
    owners = [size.numbers or (number,) for number, size in enumerate(sizes)]
    names = tuple(name_of(number, owner, sample) for number, owner in enumerate(owners))
    gaps = write_labels(board, list(zip(outlines, lines, strict=True)), [size.label for size in sizes], names)
    broken = tuple(with_gaps(outline, gaps) for outline in outlines)
    heavy = next((number for number, owner in enumerate(owners) if sample in owner), 0)
    return Nest(_shown(board.room.extent), broken, board.layer, names, heavy)


def _shown(extent: Extent) -> Extent:
    slack = max(MARGIN, (WIDTH - extent.width) / 2)
    return Extent(extent.left - slack, extent.top - MARGIN, extent.right + slack, extent.bottom + MARGIN)


def write_labels(
    board: Board, outlines: list[tuple[Edge, list[Box]]], labels: list[str], names: Sequence[str]
) -> list[Box]:
    """Those that have room on their own line first, then the others on leaders; the boxes the lines stop for."""
    gaps: list[Box] = []
    led: list[Label] = []
    for number, (outline, lines) in enumerate(outlines):
        block, name = Block.of(((labels[number],),), SIZE), names[number]
        others = _Others(board.room, lines)
        fan = (number + 0.5) / len(labels)
        places = _along(outline)
        gap = _on_line(board, others, places, fan, block, name)
        if gap:
            gaps.append(gap)
        elif places:
            (at, out), *elsewhere = _clearest(places, others, fan)
            label = Label(at, out, block, nearest=14.0, dot=True, name=name, either_way=True, others=tuple(elsewhere))
            led.append(label)
    _lead_off(board, led)
    return gaps


def write_on_lines(board: Board, lines: list[tuple[Edge, list[Box]]], labels: list[str]) -> list[Box]:
    """Labels of lines inside the piece, only where they have room on their own line; the boxes the lines stop for."""
    gaps = (
        _on_line(board, _Others(board.room, own), _along(line), 0.5, Block.of(((label,),), SIZE), "")
        for (line, own), label in zip(lines, labels, strict=True)
    )
    return [gap for gap in gaps if gap]


def _lead_off(board: Board, labels: list[Label]) -> None:
    """Labels on leaders: each on its own if none crosses another; else all in one row; else from other places."""
    first = [replace(each, others=()) for each in labels]
    trial = board.copy()
    for each in first:
        place(trial, each)
    if trial.crossed and rake(board, first, board.room.extent):
        return
    for each in labels if trial.crossed else first:
        place(board, each)


class _Others:
    """The lines of all sizes but one, and the labels that are written."""

    def __init__(self, room: Room, own: list[Box]) -> None:
        self.room, self.own = room, {id(line) for line in own}  # sizes may have equal lines

    def free(self, given: Box) -> bool:
        return all(id(line) in self.own for line in self.room.met(given))


def _on_line(
    board: Board, others: _Others, places: list[tuple[Point, Point]], fan: float, block: Block, name: str
) -> Box | None:
    """Write a label on its line, at the part ``fan`` of the places where no other line comes near; its box."""
    gaps = [(at, box(at, block.width + 2 * CLEAR, block.height + 2)) for at, _ in places]
    fitting = [(at, gap) for at, gap in gaps if others.free(gap)]
    if not fitting:
        return None
    at, gap = fitting[int(len(fitting) * fan)]
    board.write(block, at, name=name)
    return gap


def _clearest(places: list[tuple[Point, Point]], others: _Others, fan: float) -> list[tuple[Point, Point]]:
    """The places farthest from other sizes, each with a direction off its line: first the one at the part ``fan`` of
    them, so that labels fan out, then others."""
    clearest = places
    for each in APART:
        clear = [place for place in clearest if others.free(box(place[0], each, each))]
        if not clear:
            break
        clearest = clear
    found = [clearest[int(len(clearest) * ((fan + turn) % 1))] for turn in ELSEWHERE]
    return [(at, (v, -u)) for at, (u, v) in dict.fromkeys(found)]


def _along(outline: Edge) -> list[tuple[Point, Point]]:
    """Places spread evenly along an outline, and the direction there."""
    points = flat(outline)
    pairs = [(one, other, distance(one, other)) for one, other in itertools.pairwise(points)]
    whole, passed = sum(length for _, _, length in pairs), 0.0
    found: list[tuple[Point, Point]] = []
    for (x0, y0), (x1, y1), length in pairs:
        while length > 0 and len(found) < TRIED and whole * (len(found) + 0.5) / TRIED <= passed + length:
            u, v = (x1 - x0) / length, (y1 - y0) / length
            left = whole * (len(found) + 0.5) / TRIED - passed
            found.append(((x0 + u * left, y0 + v * left), (u, v)))
        passed += length
    return found


def with_gaps(outline: Edge, gaps: list[Box]) -> Edge:
    """The outline without what lies in the boxes of the labels; arcs stay arcs, curves curves."""
    pieces = list(outline)
    for gap in gaps:
        pieces = [part for segment in pieces for part in _outside(segment, gap)]
    return tuple(pieces)


def _outside(segment: Segment, gap: Box) -> list[Segment]:
    left, top, right, bottom = gap.extent
    cuts = sorted({0.0, 1.0, *(each for each in _crossings(segment, gap) if 0 < each < 1)})
    kept: list[tuple[float, float]] = []
    for start, end in itertools.pairwise(cuts):
        x, y = _at(segment, (start + end) / 2)
        if left < x < right and top < y < bottom:
            continue
        if kept and kept[-1][1] == start:
            kept[-1] = (kept[-1][0], end)
        else:
            kept.append((start, end))
    return [segment if part == (0.0, 1.0) else _part(segment, *part) for part in kept]


def _at(segment: Segment, part: float) -> Point:
    if len(segment) == ARC:
        return turned(segment, part)
    if len(segment) == CUBIC:
        return bezier.point(segment, part)
    return segment[0] + part * (segment[2] - segment[0]), segment[1] + part * (segment[3] - segment[1])


def _part(segment: Segment, start: float, end: float) -> Segment:
    if len(segment) == CUBIC:
        return bezier.divided(segment, start, end)
    ends = (*_at(segment, start), *_at(segment, end))
    return (*ends, segment[4], segment[5], segment[6] * (end - start)) if len(segment) == ARC else ends


def _crossings(segment: Segment, gap: Box) -> list[float]:
    """Where along a segment, as a part of it, it meets the four lines a level box lies between."""
    left, top, right, bottom = gap.extent
    if len(segment) == CUBIC:
        across, down = bezier.powers(segment)
        bounds = ((across, left), (across, right), (down, top), (down, bottom))
        return [t for place, to in bounds for t in polynomials.zeros((place[0] - to, *place[1:]))]
    if len(segment) != ARC:
        runs = ((segment[0], segment[2], left), (segment[0], segment[2], right))
        falls = ((segment[1], segment[3], top), (segment[1], segment[3], bottom))
        return [(to - start) / (end - start) for start, end, to in (*runs, *falls) if end != start]
    radius, found = radius_of(segment), []
    for number, to in ((4, left), (4, right), (5, top), (5, bottom)):
        share = (to - segment[number]) / radius if radius else 2.0
        if abs(share) <= 1:
            rest = sqrt(1 - share * share)
            found += [_turn_to(segment, (share, y) if number == 4 else (y, share)) for y in (rest, -rest)]
    return found


def _turn_to(arc: Segment, direction: Point) -> float:
    """The part of an arc after which it has turned to a direction from its centre."""
    first = atan2(arc[1] - arc[5], arc[0] - arc[4])
    c, s = cos(first), sin(first)
    turn = degrees(atan2(c * direction[1] - s * direction[0], c * direction[0] + s * direction[1]))
    return (turn if arc[6] >= 0 else -turn) % 360 / abs(arc[6]) if arc[6] else 0.0
