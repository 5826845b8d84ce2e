"""A large sheet with every piece on it: lines, signs and texts, in drawing units at full size."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from chalkfold.draw import marks
from chalkfold.draw.drawn import Layer
from chalkfold.draw.labels import Board, Label, place_near
from chalkfold.draw.lines import NESTED, LineType
from chalkfold.draw.nest import with_gaps, write_labels, write_on_lines
from chalkfold.draw.paths import Extent, Frame, end_of, flat, start_of
from chalkfold.draw.room import Room, box
from chalkfold.draw.sheet import Button, Drill, Gap, Item, Notch, Sheet, Stroke
from chalkfold.draw.words import SIZE, Block
from chalkfold.geometry.shapes import Edge, Point
from chalkfold.paper.arrange import Place, Shape, arranged
from chalkfold.paper.papers import UNITS, Paper
from chalkfold.paper.pieces import Piece
from chalkfold.paper.room import PagedRoom, counts
from chalkfold.paper.texts import write_piece
from chalkfold.paper.turning import quarter_turn

ONLY_HERE = 12.0
"""Units of leader a size beside a drill mark is worth."""

OUTLINE = (LineType.CUTTING, LineType.SEAM, LineType.FOLD)

MOST_PAGES = 400
"""No reader tapes more; it also bounds the work."""


class TooManyPages(Exception):
    """The pieces would take more than ``MOST_PAGES`` pages of this paper."""


@dataclass(slots=True)
class Inked:
    """The whole sheet. ``outlines`` are the closed cutting lines, ``nested`` lines with the pattern of their size.

    ``names`` are those of the pieces, with the outline they stand in.
    ``block`` is where a title block as large as asked for may stand, if it was.
    """

    paper: Paper
    extent: Extent
    room: PagedRoom
    layer: Layer = field(default_factory=lambda: Layer("sheet"))
    outlines: list[list[Point]] = field(default_factory=list)
    nested: list[tuple[Edge, tuple[float, ...]]] = field(default_factory=list)
    names: list[tuple[str, list[Point]]] = field(default_factory=list)
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
        labelled = _labelled(each)
        write_piece(board, work.room, labelled, each.frame, each.piece.is_nest)
        work.names.append((each.piece.name, flat(each.frame.edge(labelled.cloth))))
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
    for sheet in laid.sheets:
        work.outlines.append(flat(laid.frame.edge(sheet.cloth)))
        for stroke in sheet.strokes:
            if not laid.piece.is_nest or stroke.line is LineType.FOLD:
                marks.ink(work.room, work.layer, stroke.line, laid.frame.edge(stroke.edge))
        for item in sheet.items:
            draw_sign(work.room, work.layer, item, laid.frame)
    if laid.piece.is_nest:
        _draw_nest(work, laid)


def _is_outer(line: LineType, sheet: Sheet) -> bool:
    """Whether a line is the outermost one of its sheet: where sizes lie in each other only that is shown."""
    cut = any(stroke.line is LineType.CUTTING for stroke in sheet.strokes)
    return line is (LineType.CUTTING if cut else LineType.SEAM)


def _draw_nest(work: Inked, laid: Laid) -> None:
    """Every line in the pattern of its size; on the outlines its label, and on lines inside where they have room."""
    board = Board(work.room, work.layer, work.extent)
    outlines, inner = list[Edge](), list[tuple[int, Stroke]]()
    for number, sheet in enumerate(laid.sheets):
        outer = [stroke.edge for stroke in sheet.strokes if _is_outer(stroke.line, sheet)]
        outlines.append(laid.frame.edge(tuple(segment for edge in outer for segment in edge)))
        inner += [(number, stroke) for stroke in sheet.strokes if stroke.line not in OUTLINE]
    lines = [*enumerate(outlines), *((number, laid.frame.edge(stroke.edge)) for number, stroke in inner)]
    drawn = [(line, work.room.add_path(flat(line))) for _, line in lines]
    labels = laid.piece.labels
    gaps = write_labels(board, drawn[: len(outlines)], list(labels), [""] * len(outlines))
    styles = [place for place, (_, stroke) in enumerate(inner, len(outlines)) if stroke.line is LineType.STYLE]
    gaps += write_on_lines(board, [drawn[place] for place in styles], [labels[lines[place][0]] for place in styles])
    _label_drills(board, laid)
    for number, line in lines:
        work.nested.append((with_gaps(line, gaps), NESTED[laid.piece.numbers[number][0] % len(NESTED)]))


def _label_drills(board: Board, laid: Laid) -> None:
    """At every drill mark, and so at the tip of a dart, its size: where no other has it there and there is room."""
    places = [
        (laid.frame.point(item.at), _away(sheet, item.at), label)
        for sheet, label in zip(laid.sheets, laid.piece.labels, strict=True)
        for item in sheet.items
        if isinstance(item, Drill)
    ]
    often = Counter((round(x), round(y)) for (x, y), _, _ in places)
    for at, way, label in places:
        if often[round(at[0]), round(at[1])] == 1:
            place_near(board, Label(at, way, Block.of(((label,),), SIZE), 10.0, 14.0), ONLY_HERE)


def _away(sheet: Sheet, tip: Point) -> Point:
    """On from a tip, the way the lines run that end there; down, where none does."""
    ends = [(start_of(stroke.edge), end_of(stroke.edge)) for stroke in sheet.strokes if stroke.line not in OUTLINE]
    ways = [(tip[0] - one[0], tip[1] - one[1]) for pair in ends for one, two in (pair, pair[::-1]) if two == tip]
    return (sum(x for x, _ in ways), sum(y for _, y in ways)) if ways else (0.0, 1.0)


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
