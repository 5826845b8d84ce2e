"""What a drawing says of an allowance that is turned up along a curve: by how much its edge differs from where it goes.

Source: the length of parallel curves (Steiner): as much as the edge of the allowance is longer than the fold, the line
that it is sewn to on the other side of the fold is shorter.
"""

from __future__ import annotations

from collections.abc import Sequence

from chalkfold.blocks.desk import Desk, times, zero
from chalkfold.blocks.drawn import Side, laid_outside
from chalkfold.blocks.pieces import Piece
from chalkfold.formula import Apply, Expression, apply, plain
from chalkfold.plan import Line, Style

ON_A_CURVE = "; a casing on a curve does not lie flat: cut a shaped band for it, with `facing of:`"


def hem_notes(piece: Piece, sides: Sequence[Side], desk: Desk) -> tuple[tuple[str, Line], ...]:
    """For each turned-up edge: that it is one, and where it is not straight the ease."""
    return tuple(
        (f"{side.name}, turned up", _ease(number, side, piece, sides, desk))
        for number, side in enumerate(sides)
        if side.turned
    )


def _ease(number: int, side: Side, piece: Piece, sides: Sequence[Side], desk: Desk) -> Line:
    if side.is_line:
        return ("its ends are the mirror image of the edges beside it",)
    place = side.span or piece.span
    fold_line = laid_outside(piece.called("outline"), sides, place, allowed={number: zero()})
    whole = min(2**side.folds, piece.main.layers)
    on_fold, edge = (
        times(Apply("length of", (Apply("edge of", (line, plain(number)), place),), place), whole)
        for line in (fold_line, piece.called("cutting line"))
    )
    sewn_to: Expression = 2 * on_fold - edge
    apart = apply("max", edge - sewn_to, sewn_to - edge)
    shown = (desk.shown(desk.hidden(each, place, Style.FINE)) for each in (edge, sewn_to, apart))
    edge_shown, line_shown, apart_shown = shown
    said: Line = ("its edge is ", edge_shown, ", the line it is sewn to ", line_shown, ": ", apart_shown, " of ease")
    return (*said, ON_A_CURVE) if piece.carries else said
