"""``draft``: one piece, drawn from points and edges, for every size."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.allowances import read_allowances
from chalkfold.blocks.desk import Desk, MakeView
from chalkfold.blocks.drawn import Side, drawn_edges, lay_outline, measured_outline, on_seam
from chalkfold.blocks.edges import Drawn, Edges, edges_and_lines, name_edges, read_lines, read_outline
from chalkfold.blocks.flat_piece import FlatPiece
from chalkfold.blocks.fold_edges import read_folds, touches
from chalkfold.blocks.layers import Cut, read_cuts
from chalkfold.blocks.marks import Marks
from chalkfold.blocks.notches import Marked
from chalkfold.blocks.parallels import parallel_line
from chalkfold.blocks.pieces import Outline, Piece, lay_down, lay_line
from chalkfold.blocks.points import Points, add_points, read_points
from chalkfold.blocks.shape_pieces import read_shaped
from chalkfold.blocks.shapes import EDGES
from chalkfold.blocks.shapes_drawn import draw_shape
from chalkfold.blocks.shaping import KEYS as SHAPING
from chalkfold.blocks.shaping import Shaping, read_shaping, shaped_though_simple
from chalkfold.blocks.square_corners import note_corners_at_folds
from chalkfold.blocks.tape_checks import tape_checks
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Literal, Name, key_of, parse_name
from chalkfold.plan import Drawing, Frame, Group
from chalkfold.reading import Fields, Mapping, Text

MOST_EDGES = 40
MOST_POINTS = 200
MOST_MARKS = 100
MOST_LINES = 40
OUTLINE_IS = ("seam line", "cutting line")
GRAINS = {"down": 90.0, "across": 0.0, "bias": 45.0}
KEYS = (
    "points", "outline", "outline is", "on fold", "donor sides", "allowances", "marks", "grain", "lines", "carries",
    "turned", *EDGES, *SHAPING,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Shaped:
    """A piece's outline as read, by whichever way it was given."""

    outline: Outline
    sides: tuple[Side, ...]
    edges: Edges
    points: Points
    shaping: Shaping | None = None


def read(fields: Fields, desk: Desk) -> MakeView:
    """Read a piece; it joins the cut list, and its drawing stands here."""
    said = fields.required_text("piece")
    name = None if said is None else parse_name(said, desk.faults)
    title = name or "piece"
    frame = desk.frame(fields, (title[:1].upper() + title[1:],))
    cuts = read_cuts(fields.texts("cut"), desk) if fields.required("cut") else ()
    drawing = None
    if said is not None and name is not None and cuts and not _taken(said, desk):
        drawing = _drawing(fields, name, said, cuts, frame, desk)
    if name is not None and drawing is None:
        desk.broken.add(key_of(name))
    fields.also(*KEYS)
    fields.finish()
    return lambda plan: Group(frame, ()) if drawing is None else drawing


def _taken(said: Text, desk: Desk) -> bool:
    return desk.taken("piece", said, [piece.name for piece in desk.pieces.values()]) or desk.taken(
        "role", said, desk.roles
    )


def _drawing(fields: Fields, name: str, said: Text, cuts: tuple[Cut, ...], frame: Frame, desk: Desk) -> Drawing | None:
    outline = fields.mapping("outline")
    given = [key for key in ("outline", *EDGES) if fields.has(key)]
    hint = "write `points:` and `outline:`, or one of `rectangle:`, `circle:` and `flounce:`"
    if not given:
        fields.missing("outline", *EDGES, code=Code.DRAFT, message=f"{name} has no outline", hint=hint)
        return None
    if len(given) > 1:
        message = f"{name} has {' and also '.join(f'`{key}:`' for key in given)}"
        desk.faults.add(Code.DRAFT, message, said.span(), hint)
        return None
    if given == ["outline"]:
        shaped = None if outline is None else _from_points(fields, outline, name, cuts[0], said, desk)
    else:
        shaped = _from_shape(fields, name, cuts, desk)
    if shaped is None:
        return None
    carries, turned = fields.choice("carries", ("elastic", "cord")) or "", fields.yes_no("turned")
    piece = Piece(name, said.span(), cuts, shaped.outline, carries, turned, drawn=frame)
    desk.pieces[key_of(name)] = piece
    lay_down(piece, desk)
    return _described(fields, piece, shaped, frame, desk)


def _from_shape(fields: Fields, name: str, cuts: tuple[Cut, ...], desk: Desk) -> Shaped | None:
    found = read_shaped(fields, name, cuts, desk)
    if not _on_seam_line(fields, desk) or found is None or shaped_though_simple(fields, desk):
        return None
    shape, outline, allowances, folds = found
    edges, points, place = Edges(name, desk), Points(name, desk), fields.whole.where
    sides = draw_shape(shape, name, cuts[0].layers, allowances, folds, place, edges, points)
    more = fields.mapping("points")
    if more is not None and _few(len(more.entries), MOST_POINTS, "points", more.where, name, desk):
        add_points(more, points, edges.find)
    lay_outline(name, sides, False, place, desk)
    return Shaped(outline, sides, edges, points)


def _on_seam_line(fields: Fields, desk: Desk) -> bool:
    """Whether a simple shape is drawn as it must be: its measures are the finished ones."""
    said = fields.text("outline is")
    if said is None or fields.choice("outline is", OUTLINE_IS) != "cutting line":
        return True
    hint = (
        "leave this out and take the allowances off, as in `rectangle: {across: 30 cm - 2 cm, down: 38 cm - 2 cm}`; "
        "or draw it with `points:` and `outline:`"
    )
    desk.faults.add(Code.DRAFT, "a simple shape is given by its finished measures", said.span(), hint)
    return False


def _from_points(fields: Fields, body: Mapping, name: str, cut: Cut, said: Text, desk: Desk) -> Shaped | None:
    drawn_points = fields.mapping("points")
    if not _not_too_many(body, drawn_points, name, desk) or not fields.required("points"):
        return None
    edges = name_edges(body, name, desk)
    points = read_points(drawn_points, name, desk, edges_and_lines(edges, fields.mapping("lines")))
    start = read_outline(body, edges, points)
    folds = read_folds(fields, edges, cut, desk)
    allowances = read_allowances(fields, tuple(edges.names.values()), name, folds or frozenset(), desk)
    given = fields.choice("outline is", OUTLINE_IS)
    if folds is None:
        return None
    shaping = read_shaping(fields, FlatPiece(name, said.span(), edges, points, folds, desk), given == "cutting line")
    if start is None or edges.broken or allowances is None or shaping is None:
        return None
    on_folds = [drawn for key, drawn in edges.drawn.items() if key in folds]
    sides = tuple(
        Side(
            drawn.name,
            drawn.step,
            allowances[drawn.name],
            sum(touches(drawn, fold) for fold in on_folds if fold is not drawn),
            drawn in on_folds,
            drawn.is_arc,
            drawn.centre,
            drawn.span,
            drawn.is_curved,
        )
        for drawn in edges.drawn.values()
    )
    sides = shaping.sides(sides)
    place, on_cutting_line = said.span(), given == "cutting line"
    lay_outline(name, sides, on_cutting_line, place, desk, shaping.op)
    outline = measured_outline(name, sides, on_cutting_line, cut.lies, place, desk)
    return Shaped(outline, on_seam(name, sides, place, desk) if on_cutting_line else sides, edges, points, shaping)


def _not_too_many(outline: Mapping, points: Mapping | None, name: str, desk: Desk) -> bool:
    edges = sum(key_of(entry.key.value) != "start" for entry in outline)
    if edges < 2:
        hint = "draw at least 2, as in `side: line to P`"
        desk.faults.add(Code.DRAFT, f"{name} has {'only one edge' if edges else 'no edges'}", outline.where, hint)
        return False
    few = _few(edges, MOST_EDGES, "edges", outline.where, name, desk)
    return few and (points is None or _few(len(points.entries), MOST_POINTS, "points", points.where, name, desk))


def _described(fields: Fields, piece: Piece, shaped: Shaped, frame: Frame, desk: Desk) -> Drawing:
    lines = _lines(fields, piece, shaped, desk)
    shaping = shaped.shaping
    flat = None if shaping is None else shaping.flat
    marks = Marks(piece.name, desk, shaped.edges, shaped.points, outline=flat)
    said = fields.texts("marks")
    few = not said or _few(len(said), MOST_MARKS, "marks", said[0].span(), piece.name, desk)
    found = tuple(mark for text in said if few and (mark := marks.read(text)))
    notches = tuple(marks.notches if shaping is None else map(shaping.notch, marks.notches))
    desk.drafts[key_of(piece.name)] = Marked(shaped.edges.drawn, shaped.points.names, notches)
    outline, cutting = piece.called("outline"), piece.called("cutting line")
    desk.want(outline, cutting)
    note_corners_at_folds(piece, shaped.sides, desk)
    return Drawing(
        frame,
        piece.name,
        tuple(f"{cut.said} in {cut.role}" for cut in piece.cuts),
        piece.main.layers,
        piece.main.lies,
        outline.key,
        cutting.key,
        drawn_edges(piece, shaped.sides, desk),
        tuple((line.name, line.step.key, desk.shown(piece.called(line.name)).key) for line in lines.values()),
        found if shaping is None else tuple(map(shaping.mark, found)),
        tape_checks(piece, shaped.sides, desk),
        _grain(fields, piece, desk).key,
        () if shaping is None else shaping.drawn(),
    )


def _lines(fields: Fields, piece: Piece, shaped: Shaped, desk: Desk) -> dict[str, Drawn]:
    """Level and style lines, measured like edges; marks may stand on them as on edges."""
    body = fields.mapping("lines")
    if body is not None and not _few(len(body.entries), MOST_LINES, "lines", body.where, piece.name, desk):
        desk.broken.add(key_of(piece.name))
        return {}
    shaping = shaped.shaping
    flat = None if shaping is None else shaping.flat
    parallel = partial(parallel_line, sides=shaped.sides, edges=shaped.edges, flat=flat)
    lines = drawn = read_lines(body, shaped.edges, shaped.points, parallel)
    if shaping is not None:
        lines = shaping.lines(lines)
    folds = tuple(shaped.edges.drawn[key_of(side.name)].step for side in shaped.sides if side.on_fold)
    for line in lines.values():
        lay_line(line.name, line.step, folds, piece, desk)
    shaped.edges.drawn.update(drawn)  # marks are placed on lines as drawn
    shaped.edges.names.update({key: line.name for key, line in drawn.items()})
    return lines


def _few(count: int, most: int, what: str, where: Span, name: str, desk: Desk) -> bool:
    """Refuse a drawing beyond any piece before anything of it is read."""
    if count > most:
        desk.faults.add(Code.DRAFT, f"{name} has {count} {what}", where, f"draw it with at most {most} {what}")
    return count <= most


def _grain(fields: Fields, piece: Piece, desk: Desk) -> Name:
    """``down``, ``across``, ``bias``, or an angle from across."""
    said = fields.text("grain")
    words = "down" if said is None else said.value.casefold()
    place = piece.span if said is None else said.span()
    angle = GRAINS.get(words)
    expression = desk.formula(said) if angle is None else Literal(angle, Kind.ANGLE, f"{angle:g}°")
    if expression is None:
        expression = Literal(90.0, Kind.ANGLE, "90°")
    name = desk.step(f"grain of {piece.name}", expression, place, kind=Kind.ANGLE)
    desk.want(name)
    return name
