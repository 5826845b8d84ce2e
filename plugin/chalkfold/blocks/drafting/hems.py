"""What a drawing says of an allowance turned up along a curve: how much its edge is longer than where it is sewn to.

Source: the length of parallel curves (J. Steiner): for every radian that the fold turns, a parallel ``d`` farther out
is ``d`` longer. The edge of the allowance lies ``d`` outside of the fold, the line that it is sewn to ``d`` inside.
"""

from __future__ import annotations

from collections.abc import Sequence

from chalkfold.blocks.desk import Desk, times
from chalkfold.blocks.drafting.drawn import Side
from chalkfold.blocks.pieces import Piece
from chalkfold.formula import Apply, apply, plain
from chalkfold.plan import Hem, Line, Style

ON_A_CURVE = "; as a casing it would not lie flat on this curve: take a shaped band for that"


def turned_hems(piece: Piece, sides: Sequence[Side], desk: Desk) -> tuple[Hem, ...]:
    """What is to be said of every allowance that is turned up."""
    return tuple(_hem(number, side, piece, desk) for number, side in enumerate(sides) if side.turned)


def _hem(number: int, side: Side, piece: Piece, desk: Desk) -> Hem:
    place, at = side.span or piece.span, plain(number)
    whole = min(2**side.folds, piece.main.layers)
    edge = times(Apply("length of", (Apply("edge of", (piece.called("cutting line"), at), place),), place), whole)
    turn = Apply("turn outwards", (piece.called("outline"), at), place)
    longer = times(2 * side.allowance * turn, whole)
    ease = desk.hidden(apply("max", longer, 0 - longer), place, Style.FINE)
    edge_shown, line_shown = (desk.shown(desk.hidden(each, place, Style.FINE)) for each in (edge, edge - longer))
    said: Line = (
        "its edge is ",
        edge_shown,
        ", the line it is sewn to ",
        line_shown,
        ": ",
        desk.shown(ease),
        " of ease",
    )
    return Hem(side.name, (*said, ON_A_CURVE) if piece.carries else said, ease.key)
