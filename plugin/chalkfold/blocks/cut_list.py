"""``cut-list``: every piece to cut, how many, in what, and how large with its allowances."""

from __future__ import annotations

from chalkfold.blocks.desk import BY_SIZE, Desk, MakeView
from chalkfold.blocks.layers import read_cuts
from chalkfold.blocks.pieces import Piece, lay_down
from chalkfold.blocks.purposes import read_purpose
from chalkfold.blocks.shape_pieces import read_shaped
from chalkfold.diagnostics import Code, Faults
from chalkfold.formula import Literal, Name, key_of, parse_name
from chalkfold.plan import Line, Manner, Shown, Style, Table
from chalkfold.reading import Fields, Mapping, Node, Text

COLUMNS: tuple[Line, ...] = (("Piece",), ("Cut",), ("Across × down, with allowances",))


def read(fields: Fields, desk: Desk) -> MakeView:
    """Read the pieces given in place; the list shows every piece of the post."""
    frame = desk.frame(fields, ("Cut list",))
    notes: dict[str, Line] = {}
    for item in fields.items("pieces"):
        if not isinstance(item, Mapping):
            desk.faults.add(
                Code.DATA_SHAPE,
                "a piece needs its name, shape and cut",
                item.where,
                "write `- piece: waistband` and below it `rectangle:`, `allowances:` and `cut:`",
            )
            _lost(item, desk)
            continue
        before = len(desk.pieces)
        _piece(Fields(item, desk.faults, "a piece", otherwise=BY_SIZE), notes, desk)
        if len(desk.pieces) == before:
            _lost(item.get("piece"), desk)
    fields.finish()
    if not desk.pieces and not desk.broken and (not fields.has("pieces") or not fields.items("pieces")):
        desk.faults.add(
            Code.DATA_EMPTY,
            "there is nothing to cut",
            fields.whole.where,
            "write `pieces:` and below it `- piece: …`",
        )
    pieces = tuple(desk.pieces.values())
    rows = tuple(_row(piece, notes.get(piece.name, ()), desk) for piece in pieces)
    table = Table(frame, COLUMNS, rows, all_sizes=(2,), leads_to=tuple(piece.drawn for piece in pieces))
    return lambda plan: table


def _lost(name: Node | None, desk: Desk) -> None:
    """Keep in mind that a piece was faulty, so that its measures are not missed as well."""
    desk.pieces_lost = True
    if isinstance(name, Text) and parse_name(name, Faults()) is not None:
        desk.broken.add(key_of(name.value))
    else:
        desk.nameless = True


def _is_taken(said: Text, desk: Desk) -> bool:
    return desk.taken("piece", said, desk.pieces) or desk.taken("role", said, desk.roles, f"{said.value} piece")


def _piece(fields: Fields, notes: dict[str, Line], desk: Desk) -> None:
    said = fields.required_text("piece")
    cuts = read_cuts(fields.texts("cut"), desk) if fields.required("cut") else ()
    name = None if said is None else parse_name(said, desk.faults)
    note = desk.line(fields.text("note"))
    purpose = read_purpose(fields, name, desk)
    shaped = read_shaped(fields, name, cuts, desk)
    taken = said is not None and _is_taken(said, desk)
    fields.finish()
    if said is not None and name is not None and shaped is not None and not taken:
        piece = Piece(name, said.span(), cuts, shaped[1], purpose.carries, purpose.turned)
        desk.pieces[key_of(name)] = piece
        notes[name] = note
        lay_down(piece, desk)


def _row(piece: Piece, note: Line, desk: Desk) -> tuple[Line, ...]:
    purpose = ", ".join(_purpose(piece))
    name: Line = (piece.name, *((f" – {purpose}",) if purpose else ()), *((" – ", *note) if note else ()))
    cuts = ", ".join(f"{cut.said} in {cut.role}" for cut in piece.cuts)
    return name, (cuts,), _measure(piece, desk)


def _purpose(piece: Piece) -> list[str]:
    carries = [f"carries {piece.carries}"] if piece.carries else []
    return [*carries, "turned right side out"] if piece.turned else carries


def _measure(piece: Piece, desk: Desk) -> Line:
    if not piece.outline.radial:
        across_down = desk.product(piece.called("cut width"), piece.called("cut height"))
        return (across_down, ", from the fold") if piece.main.lies.startswith("on ") else (across_down,)
    line: list[str | Shown] = []
    for words in piece.outline.radial:
        label = {"cut radius": "radius", "cut radius of inner": "inner radius", "cut radius of outer": "outer radius"}
        line += [", " if line else "", f"{label[words]} ", desk.shown(piece.called(words))]
    if "left end" in piece.outline.edges:
        line += [", ", desk.shown(piece.called("fraction"), Manner(style=Style.OF_A_CIRCLE))]
        line += _ends(piece, desk)
    return tuple(part for part in line if part)


def _ends(piece: Piece, desk: Desk) -> list[str | Shown]:
    """What is cut beyond the ends of a part of a circle: no radius tells it."""
    ends = [(name, piece.outline.edges[name].allowance) for name in ("left end", "right end")]
    added = [(name, said) for name, said in ends if isinstance(said, Name) and not _is_nothing(said, desk)]
    if not added:
        return []
    same = len(added) == 2 and len({desk.steps[said.key].expression for _, said in added}) == 1
    told = [("each end", added[0][1])] if same else [(f"the {name}", said) for name, said in added]
    parts: list[str | Shown] = []
    for name, said in told:
        parts += [" and " if parts else ", and ", desk.shown(said), f" beyond {name}"]
    return parts


def _is_nothing(allowance: Name, desk: Desk) -> bool:
    said = desk.steps[allowance.key].expression
    return isinstance(said, Literal) and said.value == 0
