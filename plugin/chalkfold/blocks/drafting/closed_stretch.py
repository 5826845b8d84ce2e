"""A stretch of a piece's edges with its darts and pleats closed, as a facing is traced from it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from chalkfold.blocks.desk import Desk, zero
from chalkfold.blocks.drafting.contour import Draft, laid, place_of
from chalkfold.blocks.drafting.darts import Dart, TwoTips
from chalkfold.blocks.drafting.edges import Drawn
from chalkfold.blocks.drafting.flat_piece import all_of
from chalkfold.blocks.drafting.pleats_drawn import Row
from chalkfold.blocks.drafting.taken_shapings import corners, feet
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, Name, apply, key_of


@dataclass(frozen=True, slots=True)
class _Folded:
    """An edge with the legs of its darts and pleats, two by two in its order, and whether they can be folded."""

    edge: Name
    legs: tuple[Name, ...]
    holds: Expression | None

    def turned(self, desk: Desk, place: Span) -> _Folded:
        """The same from its other end."""
        return _Folded(laid(Apply("backwards", (self.edge,), place), place, desk), self.legs[::-1], self.holds)

    def closed(self, op: str, *of: Name, otherwise: Name) -> Expression:
        drawn = Apply(op, (*of, *self.legs), otherwise.span)
        return drawn if self.holds is None else Apply("if", (self.holds, drawn, otherwise), otherwise.span)


def closed_stretch(flat: Draft, stretch: Sequence[Drawn], desk: Desk) -> list[Drawn]:
    """Edges that follow each other, the darts and pleats of all but the first and last closed.

    The first stays where it is, or the last where it alone lies on a fold. ``flat`` is as ``flattened`` gives it.
    """
    folded = [_folded(each, flat, desk) for each in stretch]
    folded[0], folded[-1] = (replace(each, legs=()) for each in (folded[0], folded[-1]))
    if not any(each.legs for each in folded):
        return list(stretch)
    on_fold = [key_of(each.name) in flat.folds for each in (stretch[0], stretch[-1])]
    place = flat.piece.span
    if on_fold == [False, True]:
        steps = _closed([each.turned(desk, place) for each in reversed(folded)], place, desk)
        steps = [laid(Apply("backwards", (step,), place), place, desk) for step in reversed(steps)]
    else:
        steps = _closed(folded, place, desk)
    return [
        replace(each, step=step, is_line=each.is_line and not legs.legs, is_arc=False, centre=None)
        for each, step, legs in zip(stretch, steps, folded, strict=True)
    ]


def _folded(drawn: Drawn, flat: Draft, desk: Desk) -> _Folded:
    legs: list[Name] = []
    holds: list[Name] = []
    for item in on_edge(flat, drawn):
        inside = [(item.tip, item.tip)] if isinstance(item, Dart) else [fold.inside for fold in item.folds]
        for ends in zip(feet(item), inside, strict=True):
            legs += [laid(Apply("line", leg, item.span), item.span, desk) for leg in zip(*ends, strict=True)]
        holds += [] if item.holds is None else [item.holds]
    return _Folded(drawn.step, tuple(legs), all_of(holds) if holds else None)


def on_edge(flat: Draft, drawn: Drawn) -> list[Dart | Row]:
    """The darts and pleats that start at an edge."""
    items = [item for item in flat.shaped.contour.shapings if not isinstance(item, TwoTips)]
    return [item for item in items if item.edge == key_of(drawn.name)]


def _closed(folded: Sequence[_Folded], place: Span, desk: Desk) -> list[Name]:
    """Each edge taken in, and moved with those before it."""
    steps: list[Name] = []
    for number, each in enumerate(folded):
        step = each.edge
        if each.legs:
            step = laid(each.closed("taken in", each.edge, otherwise=each.edge), place, desk)
        for before in reversed(folded[:number]):
            if before.legs:
                step = laid(before.closed("carried along", step, before.edge, otherwise=step), place, desk)
        steps.append(step)
    return steps


def demand_clear(flat: Draft, stretch: Sequence[Drawn], depth: Name, inner: tuple[Name, Name], desk: Desk) -> None:
    """That the darts along the stretch are longer than it is deep, and that none lies across its ends.

    ``inner`` is where the free edge of the facing begins and ends; ``stretch`` its edges with the darts closed.
    """
    for item in (item for each in stretch[1:-1] for item in on_edge(flat, each)):
        if isinstance(item, Dart):
            _demand_longer(item, depth, desk)
    at_ends = ((stretch[0], inner[0], True), (stretch[-1], inner[1], False))
    for drawn, end, from_end in at_ends:
        for item in on_edge(flat, drawn):
            _demand_before(item, drawn, end, from_end, desk)
    for inside in flat.shaped.contour.shapings:
        if isinstance(inside, TwoTips):
            _demand_beyond(inside, flat, stretch, depth, desk)


def _demand_longer(dart: Dart, depth: Name, desk: Desk) -> None:
    fits = apply("or", apply("<=", depth, dart.length), apply("<=", dart.takes, zero()))
    deep, long = desk.shown(depth), desk.shown(dart.length)
    message = ("the facing is ", deep, f" deep, and {dart.name}, which is closed for it, only ", long, " long")
    hint = "make the facing less deep than its darts are long, in every size"
    desk.demand(fits, message, _place(depth), hint, code=Code.WORK_DRAFT)


def _demand_before(item: Dart | Row, drawn: Drawn, end: Name, from_end: bool, desk: Desk) -> None:
    here = Apply("how far along", (drawn.step, end))
    first, last = (Apply("how far along", (item.drawn.step, foot)) for foot in (feet(item)[0][0], feet(item)[-1][-1]))
    clear = apply(">=", here, last) if from_end else apply("<=", here, first)
    message = (f"the facing reaches over {item.name} on {drawn.name}",)
    hint = f"make the facing less deep, or close {item.name} under `spread:` first and let it open elsewhere"
    desk.demand(apply("or", clear, apply("<=", item.takes, zero())), message, _place(end), hint, code=Code.WORK_DRAFT)


def _demand_beyond(item: TwoTips, flat: Draft, stretch: Sequence[Drawn], depth: Name, desk: Desk) -> None:
    edges = flat.shaped.edges.drawn
    away: list[Expression] = []
    for drawn in (edges[key_of(each.name)] for each in stretch[1:-1]):
        for point in corners(item):
            nearest = Apply("along", (drawn.step, Apply("how far along", (drawn.step, point))), place_of(drawn))
            away.append(apply(">=", Apply("distance", (point, nearest)), depth))
    message = (f"the facing reaches over {item.name}, which lies inside of {flat.piece.name}",)
    hint = "make the facing less deep, so that it ends before the dart, in every size"
    desk.demand(all_of(away), message, _place(depth), hint, code=Code.WORK_DRAFT)


def _place(name: Name) -> Span:
    assert name.span is not None
    return name.span
