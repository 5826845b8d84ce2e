"""How much cloth a set of pieces takes, laid in rows: one kind of piece a row, grain along the length.

As many as fit side by side on the usable width make a row; rows are laid one after another. That always fits; a
lay plan may do with less. What the cloth loses in the wash is not counted, and the page says so where it is known to
lose. Where the width is not known the area is given. Source: plane arithmetic.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from chalkfold.blocks.desk import Desk, times
from chalkfold.blocks.pieces import Piece
from chalkfold.diagnostics import Span
from chalkfold.formula import Expression, Name, apply, key_of
from chalkfold.plan import Line, Shown, Style


@dataclass(frozen=True, slots=True)
class Cloth:
    """``length`` is None where the usable width is not known, and ``needed`` an area then."""

    needed: Shown
    length: Name | None
    remark: Line

    @property
    def line(self) -> Line:
        return (self.needed, *self.remark)


def cloth_needed(pieces: Sequence[Piece], role: str, called: str, place: Span, to_buy: bool, desk: Desk) -> Cloth:
    """Return how much cloth the ``pieces`` cut in ``role`` take, and the words behind it."""
    goods = next((goods for name, (goods, _) in desk.roles.items() if key_of(name) == key_of(role)), None)
    if goods is None or goods.amount("usable width", None) is None:
        area = _area(pieces, role, called, place, desk)
        return Cloth(desk.shown(area), None, (", counted with allowances",))
    width = Name(f"usable width of {role}", place)
    rows: list[Expression] = []
    for piece in pieces:
        rows.append(_rows(piece, role, width, called, place, desk))
    total = rows[0]
    for row in rows[1:]:
        total = total + row
    style = Style.TO_BUY if to_buy else Style.USUAL
    length = desk.step(f"length of {called}", total, place, style=style, note="Pieces in rows, one kind a row.")
    remark: Line = (" at ", desk.shown(width), " usable width")
    if goods.amount("shrinkage", None) is not None:
        remark += (", before it shrinks",)
    return Cloth(desk.shown(length), length, remark)


def _area(pieces: Sequence[Piece], role: str, called: str, place: Span, desk: Desk) -> Name:
    total: Expression | None = None
    for piece in pieces:
        area = times(piece.called("cut area"), piece.copies_in(role))
        total = area if total is None else total + area
    assert total is not None
    return desk.step(f"area of {called}", total, place, style=Style.TO_BUY)


def _rows(piece: Piece, role: str, width: Name, called: str, place: Span, desk: Desk) -> Expression:
    """The length of the rows of one piece, opened out where it is cut on a fold.

    A piece wider than the cloth is laid across it; whether it may be, is asked by the check for usable width.
    """
    across, down = opened(piece)
    fits = apply("<=", across, width)
    lies = desk.step(f"{piece.name} across the cloth for {called}", apply("if", fits, across, down), place)
    runs = desk.step(f"{piece.name} along the cloth for {called}", apply("if", fits, down, across), place)
    side_by_side = desk.step(
        f"{piece.name} side by side for {called}", apply("round down", width / lies), place, style=Style.COUNT
    )
    desk.demand(
        apply(">=", side_by_side, 1),
        (piece.name, " is wider than the cloth either way: ", desk.shown(lies), " on ", desk.shown(width)),
        place,
        "cut it in more parts, or take a wider cloth",
        about=f"{piece.name} in {role}",
    )
    return apply("round up", piece.copies_in(role) / apply("max", 1, side_by_side)) * runs


def opened(piece: Piece) -> tuple[Expression, Expression]:
    """Across and down of one piece with its folds opened, on the cutting line."""
    if piece.outline.opened is not None:
        return piece.outline.opened
    across, down = piece.called("cut width"), piece.called("cut height")
    return times(across, _opens(piece, "left", "right")), times(down, _opens(piece, "top", "bottom"))


def _opens(piece: Piece, *sides: str) -> int:
    """How often the drawing of a simple shape lies between these sides of the opened piece.

    A round piece on one fold has it at the top; in the round a piece lies flat and is not opened.
    """
    edges, layers = piece.outline.edges, piece.main.layers
    if piece.main.lies == "in the round":
        return 1
    if "left" not in edges:
        return 2 if layers == 4 or (layers == 2 and "top" in sides) else 1
    return 2 if any(edges[edge].on_fold for edge in sides) else 1


def is_folded(piece: Piece) -> bool:
    return piece.main.lies.startswith("on ")
