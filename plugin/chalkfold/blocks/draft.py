"""``draft``: one piece, drawn from points and edges, for every size."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from chalkfold.blocks.allowances import turned_up
from chalkfold.blocks.desk import Desk, MakeView
from chalkfold.blocks.drafting.contour import Contour, Draft, Shaped, is_taken, titled
from chalkfold.blocks.drafting.cut_away import cut_away
from chalkfold.blocks.drafting.drawn import drawn_edges, lay_outline
from chalkfold.blocks.drafting.edges import Drawn, Edges, edges_and_lines, name_edges, read_lines, read_outline
from chalkfold.blocks.drafting.enclosed import enclosed, on_seam_line
from chalkfold.blocks.drafting.from_pieces import cuts_of, filled_in, from_piece, is_from_piece
from chalkfold.blocks.drafting.grain import laid_by_grain, read_grain
from chalkfold.blocks.drafting.hems import turned_hems
from chalkfold.blocks.drafting.marks import Marks
from chalkfold.blocks.drafting.notches import Marked
from chalkfold.blocks.drafting.own_parts import own_lines, said_folds, with_own
from chalkfold.blocks.drafting.panels import panel_keys, read_panels
from chalkfold.blocks.drafting.parallels import parallel_line
from chalkfold.blocks.drafting.points import Points, add_points, read_points
from chalkfold.blocks.drafting.shapes_drawn import draw_shape
from chalkfold.blocks.drafting.shaping import KEYS as SHAPING
from chalkfold.blocks.drafting.shaping import shaped_though_simple
from chalkfold.blocks.drafting.square_corners import note_corners_at_folds
from chalkfold.blocks.drafting.tape_checks import tape_checks
from chalkfold.blocks.drafting.trued import TRUED
from chalkfold.blocks.drafting.what_is_left import notches_of
from chalkfold.blocks.layers import Cut, read_cuts
from chalkfold.blocks.pieces import Piece, lay_down, lay_line
from chalkfold.blocks.purposes import read_purpose
from chalkfold.blocks.shape_pieces import read_shaped
from chalkfold.blocks.shapes import EDGES
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Name, key_of, parse_name
from chalkfold.plan import Drawing, Frame, Group, Mark, View
from chalkfold.reading import Fields, Mapping, Text

MOST_EDGES = 40
MOST_POINTS = 200
MOST_MARKS = 100
MOST_LINES = 40
KEYS = (
    "points", "outline", "outline is", "on fold", "donor sides", "allowances", "marks", "grain", "lines", "carries",
    "turned", "channel", "faces", "like", "facing of", "cut away", "panels", "cut whole", TRUED, *EDGES, *SHAPING,
)  # fmt: skip
OF_A_PANEL = (
    "points", "on fold", "allowances", "marks", "grain", "lines", "carries", "turned", "channel", "faces",
    TRUED, *SHAPING,
)  # fmt: skip


def read(fields: Fields, desk: Desk) -> MakeView:
    """Read a piece; it joins the cut list, and its drawing stands here."""
    before = len(desk.faults)
    said = fields.required_text("piece")
    name = None if said is None else parse_name(said, desk.faults)
    fields = filled_in(fields, said, desk)
    frame = desk.frame(fields, (titled(name or "piece"),))
    cuts = cuts_of(fields, said, desk)
    view: View | None = None
    if said is not None and name is not None and cuts and not is_taken(said, desk):
        view = _piece(fields, name, said, cuts, frame, desk)
    if name is None:
        desk.nameless = True
    elif view is None:
        desk.broken.update((key_of(name), *panel_keys(fields)))
    fields.also(*KEYS)
    fields.finish()
    if name is not None and len(desk.faults) > before:
        desk.patterns.pop(key_of(name), None)
    return lambda plan: Group(frame, ()) if view is None else view


def _piece(fields: Fields, name: str, said: Text, cuts: tuple[Cut, ...], frame: Frame, desk: Desk) -> View | None:
    """The drawing of a piece, and of its panels where it is parted into some."""
    before = len(desk.faults)
    shaped = _shaped(fields, name, said, cuts, desk)
    if shaped is None:
        return None
    in_panels = fields.has("panels")
    whole = read_cuts(fields.texts("cut whole"), desk, cuts) if fields.has("cut whole") else ()
    drawing = _built(fields, shaped, name, said, whole or cuts, frame, desk, is_cut=bool(whole) or not in_panels)
    if not in_panels:
        return drawing
    if len(desk.faults) > before:
        return None
    draft = desk.patterns[key_of(name)]
    draft = replace(draft, piece=replace(draft.piece, cuts=cuts))

    def panel(fields: Fields, contour: Contour, name: str, said: Text, cuts: tuple[Cut, ...]) -> Drawing | None:
        return _panel(fields, contour, name, said, cuts, desk)

    panels = read_panels(fields, draft, panel, desk)
    return Group(Frame(), (drawing, *panels)) if panels else None


def _panel(
    fields: Fields, contour: Contour, name: str, said: Text, cuts: tuple[Cut, ...], desk: Desk
) -> Drawing | None:
    frame = desk.frame(fields, (titled(name),))
    contour = with_own(contour, fields)
    shaped = enclosed(fields, contour, name, cuts[0], said, desk)
    drawing = None if shaped is None else _built(fields, shaped, name, said, cuts, frame, desk)
    fields.also(*OF_A_PANEL)
    fields.finish()
    return drawing


def _shaped(fields: Fields, name: str, said: Text, cuts: tuple[Cut, ...], desk: Desk) -> Shaped | None:
    """The outline of a piece: drawn, of a simple shape, or made from another piece; less what is cut away."""
    contour: Contour | None
    if is_from_piece(fields, name, desk):
        contour = from_piece(fields, name, said, cuts[0], desk)
    else:
        drawn = _drawn(fields, name, said, cuts, desk)
        if not isinstance(drawn, Contour):
            if drawn is None or not fields.has("cut away"):
                return drawn
            on_folds = frozenset(key_of(side.name) for side in drawn.sides if side.on_fold)
            drawn = replace(drawn.contour, folds=on_folds)
        contour = drawn
    if contour is not None and fields.has("cut away"):
        if not contour.sound:
            return None
        if contour.lines is None:
            contour = replace(contour, folds=said_folds(contour, fields))
            contour = replace(contour, lines=_all_lines(fields, name, contour, desk))
        contour = cut_away(contour, fields, desk)
    return None if contour is None else enclosed(fields, contour, name, cuts[0], said, desk)


def _drawn(fields: Fields, name: str, said: Text, cuts: tuple[Cut, ...], desk: Desk) -> Contour | Shaped | None:
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
    read_purpose(fields, name, desk, drawn=True)
    if given == ["outline"]:
        return None if outline is None else _from_points(fields, outline, name, desk)
    return _from_shape(fields, name, cuts, desk)


def _built(
    fields: Fields,
    shaped: Shaped,
    name: str,
    said: Text,
    cuts: tuple[Cut, ...],
    frame: Frame,
    desk: Desk,
    is_cut: bool = True,
) -> Drawing:
    purpose = read_purpose(fields, name, desk, drawn=True)
    piece = Piece(name, said.span(), cuts, shaped.outline, purpose.carries, purpose.turned, drawn=frame)
    grain = read_grain(fields, piece, desk)
    piece = laid_by_grain(piece, shaped.sides, grain, desk)
    if is_cut:
        desk.pieces[key_of(name)] = piece
    lay_down(piece, desk)
    drawing = _described(fields, piece, shaped, frame, grain, desk)
    return drawing if is_cut else replace(drawing, cuts=("as its panels",), is_cut=False)


def _from_shape(fields: Fields, name: str, cuts: tuple[Cut, ...], desk: Desk) -> Shaped | None:
    found = read_shaped(fields, name, cuts, desk)
    if not on_seam_line(fields, desk) or found is None or shaped_though_simple(fields, desk):
        return None
    shape, outline, allowances, folds = found
    edges, points, place = Edges(name, desk), Points(name, desk), fields.whole.where
    sides = draw_shape(shape, name, cuts[0].layers, allowances, folds, place, edges, points)
    turned = turned_up(fields, EDGES[shape], {})
    sides = tuple(replace(side, turned=key_of(side.name) in turned) for side in sides)
    more = fields.mapping("points")
    if more is not None and _few(len(more.entries), MOST_POINTS, "points", more.where, name, desk):
        add_points(more, points, edges.find)
    lay_outline(name, sides, False, place, desk)
    return Shaped(outline, sides, edges, points, Contour(edges, points))


def _from_points(fields: Fields, body: Mapping, name: str, desk: Desk) -> Contour | None:
    drawn_points = fields.mapping("points")
    if not _not_too_many(body, drawn_points, name, desk) or not fields.required("points"):
        return None
    edges = name_edges(body, name, desk)
    points = read_points(drawn_points, name, desk, edges_and_lines(edges, fields.mapping("lines")))
    start = read_outline(body, edges, points)
    return Contour(edges, points, sound=start is not None and not edges.broken)


def _not_too_many(outline: Mapping, points: Mapping | None, name: str, desk: Desk) -> bool:
    edges = sum(key_of(entry.key.value) != "start" for entry in outline)
    if edges < 2:
        hint = "draw at least 2, as in `side: line to P`"
        desk.faults.add(Code.DRAFT, f"{name} has {'only one edge' if edges else 'no edges'}", outline.where, hint)
        return False
    few = _few(edges, MOST_EDGES, "edges", outline.where, name, desk)
    return few and (points is None or _few(len(points.entries), MOST_POINTS, "points", points.where, name, desk))


def _described(fields: Fields, piece: Piece, shaped: Shaped, frame: Frame, grain: Name, desk: Desk) -> Drawing:
    lines = _lines(fields, piece, shaped, desk)
    shaping = shaped.shaping
    marks = _marks(fields, piece, shaped, desk)
    desk.patterns[key_of(piece.name)] = Draft(piece, shaped, fields.whole, lines, marks)
    outline, cutting = piece.called("outline"), piece.called("cutting line")
    desk.want(outline, cutting)
    if not fields.has("facing of"):  # a facing has the corners of its piece
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
        marks,
        tape_checks(piece, shaped.sides, desk),
        grain.key,
        turned_hems(piece, shaped.sides, desk),
        shapings=() if shaping is None else shaping.drawn(),
    )


def _marks(fields: Fields, piece: Piece, shaped: Shaped, desk: Desk) -> tuple[Mark, ...]:
    """The marks that are written, or those taken over from another piece; its notches match its seams."""
    shaping, found = shaped.shaping, shaped.contour.marks
    notches = notches_of(found, shaped.edges.drawn, desk)
    if fields.has("marks") and not shaped.contour.marks_taken:
        flat = None if shaping is None else shaping.flat
        marks, said = Marks(piece.name, desk, shaped.edges, shaped.points, outline=flat), fields.texts("marks")
        few = not said or _few(len(said), MOST_MARKS, "marks", said[0].span(), piece.name, desk)
        found = tuple(mark for text in said if few and (mark := marks.read(text)))
        notches = tuple(marks.notches)
    if shaping is not None:
        found, notches = tuple(map(shaping.mark, found)), tuple(map(shaping.notch, notches))
    desk.drafts[key_of(piece.name)] = Marked(shaped.edges.drawn, shaped.points.names, notches)
    return found


def _lines(fields: Fields, piece: Piece, shaped: Shaped, desk: Desk) -> dict[str, Drawn]:
    """Level and style lines, measured like edges; marks may stand on them as on edges."""
    shaping = shaped.shaping
    flat = None if shaping is None else shaping.flat
    body, lines = fields.mapping("lines"), shaped.contour.lines
    if lines is None and body is not None:
        if not _few(len(body.entries), MOST_LINES, "lines", body.where, piece.name, desk):
            desk.broken.add(key_of(piece.name))
            return {}
        parallel = partial(parallel_line, sides=shaped.sides, edges=shaped.edges, flat=flat)
        lines = read_lines(body, shaped.edges, shaped.points, parallel)
    lines = drawn = lines or {}
    if shaping is not None:
        lines = shaping.lines(lines)
    folds = tuple(shaped.edges.drawn[key_of(side.name)].step for side in shaped.sides if side.on_fold)
    for line in lines.values():
        lay_line(line.name, line.step, folds, piece, desk)
    shaped.edges.drawn.update(drawn)  # marks are placed on lines as drawn
    shaped.edges.names.update({key: line.name for key, line in drawn.items()})
    return lines


def _all_lines(fields: Fields, name: str, contour: Contour, desk: Desk) -> dict[str, Drawn]:
    """The lines that are written."""
    body = fields.mapping("lines")
    if body is not None and not _few(len(body.entries), MOST_LINES, "lines", body.where, name, desk):
        desk.broken.add(key_of(name))
        return {}
    return own_lines(body, contour)


def _few(count: int, most: int, what: str, where: Span, name: str, desk: Desk) -> bool:
    """Refuse a drawing beyond any piece before anything of it is read."""
    if count > most:
        desk.faults.add(Code.DRAFT, f"{name} has {count} {what}", where, f"draw it with at most {most} {what}")
    return count <= most
