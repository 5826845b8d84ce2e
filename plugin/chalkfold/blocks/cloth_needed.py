"""How much cloth a set of pieces takes, laid in rows: one kind of piece a row, grain along the length.

As many as fit side by side on the usable width make a row; rows are laid one after another. That always fits; a
lay plan may do with less. Where the width is not known the area is given. Source: plane arithmetic.
"""

from __future__ import annotations

from collections.abc import Sequence

from chalkfold.blocks.desk import Desk, times
from chalkfold.blocks.pieces import Piece
from chalkfold.diagnostics import Span
from chalkfold.formula import Expression, Name, apply, key_of
from chalkfold.plan import Line, Style


def cloth_needed(pieces: Sequence[Piece], role: str, called: str, place: Span, to_buy: bool, desk: Desk) -> Line:
    """Return what to write for the cloth of ``pieces`` cut in ``role``."""
    area = _area(pieces, role, called, place, desk)
    goods = next((goods for name, (goods, _) in desk.roles.items() if key_of(name) == key_of(role)), None)
    if goods is None or goods.amount("usable width", None) is None:
        return (desk.shown(area), ", counted with allowances")
    width = Name(f"usable width of {role}", place)
    rows: list[Expression] = []
    for piece in pieces:
        rows.append(_rows(piece, role, width, called, place, desk))
    total = rows[0]
    for row in rows[1:]:
        total = total + row
    style = Style.TO_BUY if to_buy else Style.USUAL
    length = desk.step(f"length of {called}", total, place, style=style, note="Pieces in rows, one kind a row.")
    return (desk.shown(length), " at ", desk.shown(width), " usable width")


def _area(pieces: Sequence[Piece], role: str, called: str, place: Span, desk: Desk) -> Name:
    total: Expression | None = None
    for piece in pieces:
        area = times(piece.called("cut area"), piece.copies_in(role))
        total = area if total is None else total + area
    assert total is not None
    return desk.step(f"area of {called}", total, place)


def _rows(piece: Piece, role: str, width: Name, called: str, place: Span, desk: Desk) -> Expression:
    """The length of the rows of one piece, opened out where it is cut on a fold."""
    across, down = _opened(piece)
    side_by_side = desk.step(
        f"{piece.name} side by side for {called}", apply("round down", width / across), place, style=Style.COUNT
    )
    desk.demand(
        apply(">=", side_by_side, 1),
        (
            piece.name,
            " is wider than the cloth: ",
            desk.shown(piece.called("cut width")),
            " drawn, on ",
            desk.shown(width),
        ),
        place,
        "cut it in more parts, turn it, or take a wider cloth",
    )
    return apply("round up", piece.copies_in(role) / apply("max", 1, side_by_side)) * down


def _opened(piece: Piece) -> tuple[Expression, Expression]:
    """Across and down of one piece with its folds opened, on the cutting line."""
    edges = piece.outline.edges
    across, down = piece.called("cut width"), piece.called("cut height")
    if not edges.keys() & {"left", "top"}:  # round pieces: the drawing lies on the fold with one side, or two
        return times(across, 2 if piece.main.layers == 4 else 1), times(down, 2 if piece.main.layers > 1 else 1)
    sideways = sum(edges[edge].on_fold for edge in ("left", "right"))
    upright = sum(edges[edge].on_fold for edge in ("top", "bottom"))
    return times(across, 2 if sideways else 1), times(down, 2 if upright else 1)
