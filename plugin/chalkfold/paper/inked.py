"""A large sheet with every piece on it: lines, signs and texts, in drawing units at full size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from chalkfold.draw import marks
from chalkfold.draw.drawn import Layer
from chalkfold.draw.labels import Board
from chalkfold.draw.lines import NESTED, LineType
from chalkfold.draw.nest import with_gaps, write_labels
from chalkfold.draw.paths import Extent, Frame, flat
from chalkfold.draw.room import Room, box
from chalkfold.draw.sheet import Button, Drill, Gap, Item, Notch, Sheet
from chalkfold.geometry.shapes import Edge, Point
from chalkfold.paper.arrange import Place, Shape, arranged
from chalkfold.paper.papers import UNITS, Paper
from chalkfold.paper.pieces import Piece
from chalkfold.paper.room import PagedRoom, counts
from chalkfold.paper.texts import write_piece
from chalkfold.paper.turning import quarter_turn

MOST_PAGES = 400
"""No reader tapes more; it also bounds the work."""


class TooManyPages(Exception):
    """The pieces would take more than ``MOST_PAGES`` pages of this paper."""


@dataclass(slots=True)
class Inked:
    """The whole sheet. ``outlines`` are the closed cutting lines, ``nested`` lines with the pattern of their size.

    ``block`` is where a title block as large as asked for may stand, if it was.
    """

    paper: Paper
    extent: Extent
    room: PagedRoom
    layer: Layer = field(default_factory=lambda: Layer("sheet"))
    outlines: list[list[Point]] = field(default_factory=list)
    nested: list[tuple[Edge, tuple[float, ...]]] = field(default_factory=list)
    names: list[tuple[str, Point]] = field(default_factory=list)
    block: Point | None = None


@dataclass(frozen=True, slots=True)
class Laid:
    """A piece where it lies: its sheets turned as they lie, and the frame that takes them there."""

    piece: Piece
    sheets: tuple[Sheet, ...]
    frame: Frame


def inked(pieces: Sequence[Piece], paper: Paper, block: tuple[float, float] | None = None) -> Inked:
    """Lay the pieces out and draw them; ``block`` keeps room for a box so wide and high (drawing units).

    Raises TooManyPages.
    """
    laid, corner = _laid(pieces, paper, block)
    extent = _extent(laid, corner, block)
    columns, rows = counts(paper, extent)
    if columns * rows > MOST_PAGES:
        raise TooManyPages
    work = Inked(paper, extent, PagedRoom(paper, extent), block=corner)
    if block and corner:
        (x, y), (width, height) = corner, block
        work.room.add_text(box((x + width / 2, y + height / 2), width, height))
    for each in laid:
        _draw(work, each)
    board = Board(work.room, work.layer, extent)
    for each in laid:
        at = write_piece(board, work.room, _labelled(each), each.frame, each.piece.is_nest)
        work.names.append((each.piece.name, at))
    return work


def _laid(pieces: Sequence[Piece], paper: Paper, block: tuple[float, float] | None) -> tuple[list[Laid], Point | None]:
    """Every piece at its place, and the upper left corner of the block."""
    turned = [tuple(quarter_turn(sheet) for sheet in piece.sheets) for piece in pieces]
    shapes = [Shape(_outlines(piece.sheets), _outlines(other)) for piece, other in zip(pieces, turned, strict=True)]
    if block:
        shapes.append(Shape((((0.0, 0.0), (block[0], 0.0), block, (0.0, block[1])),)))
    _check_size(shapes, paper)
    places = arranged(shapes, paper)
    corner = (places[-1].dx, places[-1].dy) if block else None
    return [
        Laid(piece, other if place.turned else piece.sheets, _frame(place))
        for piece, other, place in zip(pieces, turned, places, strict=False)
    ], corner


def _check_size(shapes: Sequence[Shape], paper: Paper) -> None:
    across, down = paper.step
    extents = [Extent.of(point for outline in shape.outlines for point in outline) for shape in shapes]
    if sum(each.width * each.height for each in extents) > MOST_PAGES * across * down:
        raise TooManyPages
    if any(max(each.width, each.height) > MOST_PAGES * max(across, down) for each in extents):
        raise TooManyPages


def _outlines(sheets: Sequence[Sheet]) -> tuple[tuple[Point, ...], ...]:
    frame = Frame(UNITS)
    return tuple(tuple(flat(frame.edge(sheet.cloth))) for sheet in sheets)


def _frame(place: Place) -> Frame:
    return Frame(UNITS, place.dx, place.dy)


def _extent(laid: Sequence[Laid], corner: Point | None, block: tuple[float, float] | None) -> Extent:
    points = [point for each in laid for sheet in each.sheets for point in flat(each.frame.edge(sheet.cloth))]
    if corner and block:
        points.append((corner[0] + block[0], corner[1] + block[1]))
    return Extent.of([(0.0, 0.0), *points])


def _labelled(laid: Laid) -> Sheet:
    """The sheet whose texts are written: the smallest, so that they lie within every size."""

    def size(sheet: Sheet) -> float:
        box = Extent.of(flat(sheet.cloth))
        return box.width * box.height

    return min(laid.sheets, key=size)


def _draw(work: Inked, laid: Laid) -> None:
    """The lines and signs of a piece; the cutting lines of a nest each in the pattern of its size."""
    lines: list[Edge] = []
    for sheet in laid.sheets:
        work.outlines.append(flat(laid.frame.edge(sheet.cloth)))
        outline: Edge = ()
        for stroke in sheet.strokes:
            edge = laid.frame.edge(stroke.edge)
            if laid.piece.is_nest and stroke.line in (LineType.CUTTING, LineType.SEAM):
                outline += edge if _is_outer(stroke.line, sheet) else ()
            else:
                marks.ink(work.room, work.layer, stroke.line, edge)
        lines.append(outline)
        for item in sheet.items:
            draw_sign(work.room, work.layer, item, laid.frame)
    if laid.piece.is_nest:
        _draw_nest(work, laid, lines)


def _is_outer(line: LineType, sheet: Sheet) -> bool:
    """Whether a line is the outermost one of its sheet: where sizes lie in each other only that is shown."""
    return line is LineType.CUTTING or all(stroke.line is not LineType.CUTTING for stroke in sheet.strokes)


def _draw_nest(work: Inked, laid: Laid, lines: list[Edge]) -> None:
    drawn = [(line, work.room.add_path(flat(line))) for line in lines]
    board = Board(work.room, work.layer, work.extent)
    gaps = write_labels(board, drawn, list(laid.piece.labels), [""] * len(lines))
    for line, numbers in zip(lines, laid.piece.numbers, strict=True):
        work.nested.append((with_gaps(line, gaps), NESTED[numbers[0] % len(NESTED)]))


def draw_sign(room: Room, layer: Layer, item: Item, frame: Frame) -> None:
    """Notches, drill marks, buttons, gaps: what has a sign of its own. Fold brackets and texts come later."""
    match item:
        case Notch():
            marks.notch(room, layer, frame.point(item.at), item.outward, item.double)
        case Drill() | Button():
            radius = max(5.0, item.diameter / 2 * frame.scale) if isinstance(item, Button) else 5.0
            marks.cross(room, layer, frame.point(item.at), radius)
        case Gap():
            marks.gap(room, layer, frame.edge(item.edge), item.outward)
