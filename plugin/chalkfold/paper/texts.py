"""The texts of a piece on paper: its name where it has most room, the grain, the fold, what edges and marks are called.

What has no room near its place is left out, but for the name: the page of the post has a table of them all.
"""

from __future__ import annotations

from itertools import product
from math import cos, radians, sin

from chalkfold.draw import inside, marks
from chalkfold.draw.dimensions import Notched, along_line, off_notches, reading_angle
from chalkfold.draw.inside import Area
from chalkfold.draw.labels import Board, Label, place_near
from chalkfold.draw.paths import Frame, flat, normal, unit
from chalkfold.draw.places import NOWHERE
from chalkfold.draw.room import AIR, box
from chalkfold.draw.room import inside as lies_in
from chalkfold.draw.sheet import Button, Callout, Dimension, Drill, Gap, Grain, NameBlock, Notch, OnFold, Sheet
from chalkfold.draw.words import LABEL, Block, Lettering
from chalkfold.geometry import edges
from chalkfold.geometry.points import between, shifted
from chalkfold.geometry.shapes import Edge, Point
from chalkfold.paper.room import PagedRoom

NAMES = (
    (Lettering("name", 40, bold=True, spacing=0.06), Lettering("lab", 20)),
    (Lettering("name", 26, bold=True, spacing=0.06), Lettering("lab", 16)),
)
"""How large a name is set where the piece has the room, and what stands below it (a unit is a quarter of a mm)."""

ARROWS = (600.0, 400.0, 260.0, 150.0, 80.0, 40.0)
"""Lengths of the grain line that are tried, in units: 15 cm down to 1 cm."""

CLOSE, NEAR, FAR = 90.0, 200.0, 320.0
"""Units of leader worth spending on a text at first, on the name of an edge, and on that of a mark."""

WIDEST, NARROW = 240.0, 125.0
"""Units a text is wide at most; the second where there is little room across."""

CLEAR = 12.0
"""Units a name keeps from every line where there is room for that."""

PARTS = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
"""Where along an edge its name is tried."""

BESIDE = 60.0
"""Units along an edge that its name leaves for what a notch is called."""

DEPTH = 100.0
"""Units from an edge (2.5 cm, more than most allowances) at which a place tells which side the piece is on."""


Bracket = tuple[Point, Point, Point]
"""Where the bar of a fold bracket begins and ends, and on which side of it the piece goes on."""


def write_piece(board: Board, room: PagedRoom, sheet: Sheet, frame: Frame, is_nest: bool) -> None:
    """Write all texts of a piece on a board of that room."""
    area = Area(flat(frame.edge(sheet.cloth)))
    brackets = [(item, _bracket(board, item, frame)) for item in sheet.items if isinstance(item, OnFold)]
    at = _name(board, area, sheet.name) if sheet.name else area.heart
    for item, bracket in brackets:
        _fold(board, item, bracket)
    room.within = area.outline
    _write_signs(board, room, area, sheet, frame, at, is_nest)
    room.within = []


def _write_signs(
    board: Board, room: PagedRoom, area: Area, sheet: Sheet, frame: Frame, near: Point, is_nest: bool
) -> None:
    """The grain near the name, then edges, lines and marks; those of a nest have no texts of their own."""
    at = [frame.point(item.at) for item in sheet.items if isinstance(item, Notch) and item.lines]
    notches = Notched(at, 2 * DEPTH, BESIDE)
    for item in sheet.items:
        if isinstance(item, Grain):
            _grain(board, area, item, near)
    for item in sheet.items:
        match item:
            case Dimension():
                _edge(board, item, frame, notches)
            case Callout():
                _callout(board, area, item, frame, sheet.cloth)
            case Notch() | Drill() | Button() | Gap() if not is_nest:
                _mark(board, room, item, frame)


def _name(board: Board, area: Area, given: NameBlock) -> Point:
    """The name as large as the piece allows, on one page if it can be."""
    for clear, (name, lines), most in product((CLEAR, 0.0), NAMES, (float("inf"), 420.0)):
        block = Block.joined(
            [*Block.of([(given.name.upper(),)], name, most).lines, *Block.of(given.lines, lines, most).lines]
        )
        found = inside.room_for(board, area, Block(block.lines, block.width + 2 * clear, block.height + 2 * clear))
        if found != NOWHERE:
            board.write(block, area.point(found))
            return area.point(found)
    return inside.name(board, area, given)


def _bracket(board: Board, item: OnFold, frame: Frame) -> Bracket:
    return marks.bracket(board.room, board.layer, frame.point(item.start), frame.point(item.end), item.inward)


def _fold(board: Board, item: OnFold, bracket: Bracket) -> None:
    one, other, side = bracket
    block = Block.of((item.text,), LABEL, float("inf"))
    if not along_line(board, one, other, block, "on the fold"):
        place_near(board, Label(between(one, other, 0.5), side, block, 10.0, 16.0), FAR)


def _grain(board: Board, area: Area, given: Grain, near: Point) -> None:
    """The grain line with its text on one page; where there is no room for both, the line alone in the middle."""
    block = Block.of((given.text,), LABEL, float("inf"))
    angle = reading_angle((0.0, 0.0), (cos(radians(given.direction)), sin(radians(given.direction))))
    places = area.nearest(near)
    for length in ARROWS:
        whole, thick = max(length, block.width), block.height + 10
        for each in map(area.point, places):
            if board.room.free(box(each, whole + 2 * AIR, thick + 2 * AIR, angle)):
                inside.draw_grain(board, board.layer, block, each, angle, whole, inside.OVER)
                return
    nothing = Block((), 0.0, 0.0)
    inside.draw_grain(board, board.layer, nothing, area.heart, angle, ARROWS[-1], inside.OVER)


def _edge(board: Board, item: Dimension, frame: Frame, notches: Notched) -> None:
    """A straight edge is named along it, within the piece, and off its notches, whose names need room as well."""
    start, end = frame.point(item.start), frame.point(item.end)
    into = normal((end[0] - start[0], end[1] - start[1]), (-item.outward[0], -item.outward[1]))
    block = Block.of((item.text,), LABEL, float("inf"))
    inner = shifted(start, into, block.height / 2 + 6), shifted(end, into, block.height / 2 + 6)
    angle = reading_angle(start, end)
    for part in off_notches(PARTS, (start, end), into, block.width / 2 + 4, notches):
        centre = between(*inner, part)
        if board.fits(block, centre, angle):
            board.write(block, centre, angle)
            return


def _callout(board: Board, area: Area, item: Callout, frame: Frame, cloth: Edge) -> None:
    """The name of a line on the side of it where the piece is; of a line inside, where it was.

    Of a nest only the outermost line is drawn; what is called by its seam line is then led from there.
    """
    at, (x, y) = frame.point(item.at), unit(item.outward)
    if board.room.free(box(at, 2.0, 2.0)):
        at = frame.point(edges.point_at(cloth, edges.nearest(cloth, item.at)))
    inner = (x, y) if lies_in(shifted(at, (x, y), DEPTH), area.outline) else (-x, -y)
    place_near(board, Label(at, inner, Block.of(item.lines, LABEL, WIDEST), 16.0, 0.0, True), NEAR)


def _mark(board: Board, room: PagedRoom, item: Notch | Drill | Button | Gap, frame: Frame) -> None:
    """What a mark is called, in the piece; across a seam or beside the piece where there is no other way."""
    at = item.edge[0][:2] if isinstance(item, Gap) else item.at
    outward = item.outward if isinstance(item, Notch | Gap) else (-1.0, 0.0)
    place, farthest = frame.point((at[0], at[1])), NEAR if isinstance(item, Notch) else FAR
    wide, narrow = (Block.of(item.lines, LABEL, width) for width in (WIDEST, NARROW))
    labels = [Label(place, (-outward[0], -outward[1]), block, 12.0, 18.0) for block in (wide, narrow)]
    outline = room.within
    for room.strict, room.within in ((True, outline), (False, outline), (True, [])):
        if any(place_near(board, label, most) for most in (CLOSE, farthest) for label in labels):
            break
    room.strict, room.within = True, outline
