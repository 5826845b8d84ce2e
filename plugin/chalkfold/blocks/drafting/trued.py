"""``trued: hem``: edges redrawn as fair curves over the corners that slashes and closed darts left in them."""

from __future__ import annotations

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.drafting.darts import Dart, TwoTips
from chalkfold.blocks.drafting.edges import Drawn
from chalkfold.blocks.drafting.pleats_drawn import Row
from chalkfold.blocks.drafting.slashes import Slashes
from chalkfold.diagnostics import Code
from chalkfold.formula import Apply, apply, key_of, length
from chalkfold.geometry.trueing import TRUED_WITHIN
from chalkfold.reading import Fields, Text

TRUED = "trued"


def true_edges(fields: Fields, slashes: Slashes, shapings: list[Dart | TwoTips | Row]) -> None:
    """True the edges that are named, as the slashes left them; ``shapings`` are the darts and pleats of the piece."""
    for said in fields.texts(TRUED):
        known = slashes.piece.edges.find(said) is not None
        drawn = slashes.piece.edges.drawn.get(key_of(said.value))
        if known and drawn is not None and _can_be_trued(said, drawn, slashes, shapings):
            _true(said, drawn, slashes)


def _can_be_trued(said: Text, drawn: Drawn, slashes: Slashes, shapings: list[Dart | TwoTips | Row]) -> bool:
    on_it = [each.name for each in shapings if not isinstance(each, TwoTips) and each.edge == key_of(drawn.name)]
    if not slashes.made and not slashes.piece.darts_closed:
        message = f"{slashes.piece.name} is not slashed, and {drawn.name} stays as it is drawn"
        hint = f"draw it as a curve, `{drawn.name}: curve to P leaving … arriving …`; `trued:` goes with `spread:`"
    elif on_it:
        message = f"{on_it[0]} stands on {drawn.name}, which cannot be trued as one curve"
        hint = f"leave {drawn.name} out of `trued:`; over a dart or pleat an edge is trued already"
    elif key_of(drawn.name) in slashes.piece.folds:
        message, hint = f"{drawn.name} lies on the fold, and stays straight", "name another edge"
    elif key_of(drawn.name) in slashes.trued:
        message, hint = f"{drawn.name} is named twice", "name each edge once"
    else:
        return True
    slashes.piece.fault(message, said.span(), hint)
    return False


def _true(said: Text, drawn: Drawn, slashes: Slashes) -> None:
    piece, key = slashes.piece, key_of(drawn.name)
    before = slashes.edges[key]
    after = piece.step(f"trued edge {drawn.name}", Apply("trued", (before,), said.span()), said.span(), Kind.EDGE)
    slashes.edges[key] = after
    slashes.trued.add(key)
    was, now = (Apply("length of", (edge,), said.span()) for edge in (before, after))
    shown = piece.desk.shown(piece.desk.hidden(was - now, said.span()))
    message = (f"trued, {drawn.name} is ", shown, " shorter than it was with its corners")
    hint = "make more slashes, and open each less, so that its corners are flatter"
    close = apply("<=", was - now, length(TRUED_WITHIN))
    piece.desk.demand(close, message, said.span(), hint, code=Code.WORK_DRAFT)
