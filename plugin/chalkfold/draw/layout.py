"""Gives everything of a sheet its place: the scale, the signs, the labels, and the letters for narrow screens.

No text touches another or any line but its own leader. The labels and the letters are placed apart, as only one of
the two is ever shown.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import lru_cache

from chalkfold.draw import inside, marks
from chalkfold.draw.dimensions import along_line, dimension
from chalkfold.draw.drawn import Drawn, Layer
from chalkfold.draw.inside import Area
from chalkfold.draw.labels import Board, Label, place
from chalkfold.draw.lines import LineType
from chalkfold.draw.paths import Extent, Frame, circle, end_of, flat, middle, normal, start_of
from chalkfold.draw.places import AT_FIRST, Places, Placing
from chalkfold.draw.room import Room
from chalkfold.draw.sheet import (
    Button,
    Callout,
    Check,
    Dimension,
    Drill,
    Gap,
    Grain,
    Item,
    Notch,
    OnFold,
    Radius,
    Sheet,
    Spot,
)
from chalkfold.draw.words import LABEL, Block, Words, letter_of, plain
from chalkfold.geometry import outlines
from chalkfold.geometry.points import between, distance
from chalkfold.geometry.shapes import LINE, Edge, Point

WIDTH = 640.0
"""Units a drawing is wide; a page shows one as one CSS pixel where there is room."""

PIECE = (450.0, 520.0)
"""How wide and high the piece itself is at first, labels not counted."""

LARGEST = 5.0
"""Units a millimetre has at most: small pieces are not blown up beyond this."""

MARGIN = 8.0
WIDEST = 190.0
"""Units a label is wide at most; longer lines are broken."""

NARROW = (165.0, 125.0)
"""Units a label is wide at most where there is little room across, and where there is still less."""

SPARE = 4.0
"""Units of air labels of the first size are given where they can have it, so that other sizes find the place free."""

TRIES = 5
"""How often a piece is made smaller, so that its labels find room."""

LETTER = 30.0
"""Size of the letters: in a drawing 640 wide they are 15 px high on a screen of 320, 13.5 in a page with margins."""


@dataclass(slots=True)
class _Named:
    """A place that has a text and a letter. ``along``: the line the text may be written beside. ``others``: where else
    it may be led from."""

    key: str
    at: Point
    outward: Point
    lines: tuple[Words, ...]
    letter: str
    along: tuple[Point, Point] | None = None
    nearest: float = 10.0
    led: float = 16.0
    dot: bool = False
    either_way: bool = False
    others: tuple[tuple[Point, Point], ...] = ()


@dataclass(slots=True)
class _Work:
    """One attempt at a scale."""

    sheet: Sheet
    frame: Frame
    room: Room = field(default_factory=Room)
    base: Layer = field(default_factory=Layer)
    named: list[_Named] = field(default_factory=list)


@lru_cache(maxsize=2**9)
def laid_out(sheet: Sheet, before: Placing = AT_FIRST) -> Drawn:
    """The sheet as a drawing ``WIDTH`` units wide, or wider where its texts leave no other way.

    ``before`` is the ``placing`` of the same piece in another size: where a place is free here too, it is kept.
    """
    extent = Extent(*outlines.box((sheet.cloth, *(stroke.edge for stroke in sheet.strokes))))
    largest = min(PIECE[0] / max(extent.width, 1e-6), PIECE[1] / max(extent.height, 1e-6), LARGEST)
    part, tried = before.part, list[Drawn]()
    for _ in range(TRIES):
        tried.append(_drawn(sheet, extent, largest, LETTER, replace(before, part=part)))
        own, width = part * largest * extent.width, tried[-1].extent.width
        if width <= WIDTH + 1e-6:
            return tried[-1]
        if own <= 120:
            break
        part *= max(0.5, (own - (width - WIDTH) - 4) / own)
    best = max(tried, key=lambda each: (each.placing.part / each.extent.width, each.placing.part))
    return _drawn(sheet, extent, largest, LETTER * best.extent.width / WIDTH, best.placing)


def _drawn(sheet: Sheet, mm: Extent, largest: float, letter_size: float, before: Placing) -> Drawn:
    frame = Frame(largest * before.part)
    work = _Work(sheet, frame)
    outline = flat(frame.edge(sheet.cloth))
    extent = Extent(*frame.point(mm[:2]), *frame.point(mm[2:]))
    _draw_base(work, extent)
    half = (WIDTH / 2 - MARGIN, (extent.left + extent.right) / 2)
    wanted = Extent(half[1] - half[0], extent.top, half[1] + half[0], extent.bottom)
    area = Area(outline)
    spare = 0.0 if before.full or before.letters else SPARE
    full = Board(work.room.copy(), Layer("full"), wanted, Places(before.full), spare)
    grains = _write_full(work, full, area)
    small = Board(work.room.copy(), Layer("letters"), wanted, Places(before.letters), spare)
    for item, (start, end) in grains:
        small.room.add_line(start, end)
        work.named.append(_Named(_key(item), between(start, end, 0.5), _side((start, end)), (), item.letter))
    _write_letters(work, small, area, letter_size)
    shown = _shown(full.room.extent, small.room.extent)
    placing = Placing(before.part, full.places.found, small.places.found)
    return Drawn(shown, frame.edge(sheet.cloth), work.base, full.layer, small.layer, placing)


def _shown(full: Extent, small: Extent) -> Extent:
    """Everything with a margin, and never narrower than a drawing is meant to be."""
    extent = Extent(*map(min, full[:2], small[:2]), *map(max, full[2:], small[2:]))
    slack = max(MARGIN, (WIDTH - extent.width) / 2)
    return Extent(extent.left - slack, extent.top - MARGIN, extent.right + slack, extent.bottom + MARGIN)


def _draw_base(work: _Work, extent: Extent) -> None:
    """Everything that is drawn for every reader; fills ``work.named`` with what is to be labelled."""
    for stroke in work.sheet.strokes:
        marks.ink(work.room, work.base, stroke.line, work.frame.edge(stroke.edge))
    for item in work.sheet.items:
        _draw_item(work, extent, item)


def _key(item: Item) -> str:
    """What an item is called in every size."""
    named = plain(item.lines[0]) if isinstance(item, Spot) and item.lines else item.letter
    return f"{type(item).__name__} {named}"


def _draw_item(work: _Work, extent: Extent, item: Item) -> None:
    room, base, frame, named, key = work.room, work.base, work.frame, work.named, _key(item)
    match item:
        case Radius():
            ends = marks.radius(room, base, extent, frame.point(item.centre), frame.point(item.on_arc))
            beyond = ((ends[1], (ends[1][0] - ends[0][0], ends[1][1] - ends[0][1])),)
            said = (item.text,)
            named.append(_Named(key, between(*ends, 0.5), _side(ends), said, item.letter, ends, led=0, others=beyond))
        case Callout():
            at, others = frame.point(item.at), tuple((frame.point(at), outward) for at, outward in item.others)
            named.append(_Named(key, at, item.outward, item.lines, item.letter, None, 24, 0, True, True, others))
        case Notch():
            at = frame.point(item.at)
            marks.notch(room, base, at, item.outward, item.double)
            named.append(_Named(key, at, _back(item.outward), item.lines, item.letter, led=20, either_way=True))
        case Drill() | Button():
            at = frame.point(item.at)
            radius = max(4.0, item.diameter / 2 * frame.scale) if isinstance(item, Button) else 4.0
            marks.cross(room, base, at, radius)
            named.append(_Named(key, at, (1, 0), item.lines, item.letter, None, radius + 4, radius + 12))
        case Gap():
            edge = frame.edge(item.edge)
            marks.gap(room, base, edge, item.outward)
            named.append(_Named(key, middle(edge)[0], item.outward, item.lines, item.letter, led=20))
        case OnFold():
            one, other, side = marks.bracket(room, base, frame.point(item.start), frame.point(item.end), item.inward)
            named.append(_Named(key, between(one, other, 0.5), side, (item.text,), item.letter, (one, other)))
        case Check():
            _draw_check(work, frame.edge(item.edge), item)
        case Spot():
            at = frame.point(item.at)
            if not marks.is_far(extent, at):
                marks.solid(room, base, circle(at, 3.0))
                named.append(_Named(key, at, (0, -1), item.lines, item.letter, led=20))


def _draw_check(work: _Work, edge: Edge, item: Check) -> None:
    marks.ink(work.room, work.base, LineType.CHECK, edge)
    at, along = middle(edge)
    ends = (start_of(edge), end_of(edge)) if len(edge) == 1 and len(edge[0]) == LINE else None
    work.named.append(_Named(_key(item), at, normal(along, (0.0, -1.0)), item.lines, item.letter, ends))


def _side(ends: tuple[Point, Point]) -> Point:
    return normal((ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]), (0.0, -1.0))


def _back(direction: Point) -> Point:
    return -direction[0], -direction[1]


def _write_full(work: _Work, board: Board, area: Area) -> list[tuple[Grain, tuple[Point, Point]]]:
    """All labels, those with least choice first: what does not fit beside its line is led off before the name takes the
    room. Gives the grain lines it has drawn, with their ends."""
    frame, items = work.frame, work.sheet.items
    left = [each for each in work.named if not _written_along(board, each)]
    rows = [item for item in items if isinstance(item, Dimension)]
    notches = [frame.point(item.at) for item in items if isinstance(item, Notch)]
    for item in sorted(rows, key=lambda each: distance(each.start, each.end)):
        ends = frame.point(item.start), frame.point(item.end)
        dimension(board, area.outline, ends, item.outward, item.text, _key(item), notches)
    _lead_off(board, [each for each in left if each.along])
    near = inside.name(board, area, work.sheet.name) if work.sheet.name else area.heart
    grains = [(each, inside.grain(board, work.base, area, each, near)) for each in items if isinstance(each, Grain)]
    _lead_off(board, [each for each in left if not each.along])
    return grains


def _lead_off(board: Board, left: list[_Named]) -> None:
    for each in left:
        block = Block.of(each.lines, LABEL, WIDEST)
        less = tuple(Block.of(each.lines, LABEL, narrow) for narrow in NARROW if block.width > narrow)
        looks = (each.nearest, each.led, each.dot, "", each.either_way)
        place(board, Label(each.at, each.outward, block, *looks, less, each.key, each.others))


def _written_along(board: Board, named: _Named) -> bool:
    if named.along is None or len(named.lines) != 1:
        return False
    return along_line(board, *named.along, Block.of(named.lines, LABEL, float("inf")), named.key)


def _write_letters(work: _Work, board: Board, area: Area, size: float) -> None:
    def letter(key: str, at: Point, outward: Point, letter: str) -> None:
        place(board, Label(at, outward, _letter(letter, size), nearest=7.0, led=30.0, key=key))

    for item in work.sheet.items:
        if isinstance(item, Dimension):
            ends = work.frame.point(item.start), work.frame.point(item.end)
            side = normal((ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]), item.outward)
            letter(_key(item), between(*ends, 0.5), side, item.letter)
    for each in work.named:
        letter(each.key, each.at, each.outward, each.letter)
    if work.sheet.name:
        inside.large_name(board, area, work.sheet.name, letter_of(size))


@lru_cache(maxsize=2**8)
def _letter(letter: str, size: float) -> Block:
    """With room at its sides, so that two letters don't read as one word."""
    block = Block.of(((letter,),), letter_of(size))
    return replace(block, width=block.width + size / 3)
