"""Corners that should be square: edges that meet a fold, always; others where ``must hold`` says so.

Folded in half, an edge that does not meet the fold square opens out to a point or a dip; a seam whose ends are not
square leaves a step where the pieces join. Common practice, no source, as is the tolerance of ``NEARLY`` degrees.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk, zero
from chalkfold.blocks.drafting.drawn import Side
from chalkfold.blocks.pieces import Piece
from chalkfold.diagnostics import Code
from chalkfold.formula import Apply, Expression, Literal, Name, apply, key_of
from chalkfold.plan import Fact
from chalkfold.reading import Text

NAME = "square at the fold"
NEARLY = 3.0
ALONG = 89.9
"""An edge so far off runs on along the fold, which is told where its allowance is laid."""
_SQUARE = re.compile(r"(?P<one>.+?)\s+square\s+to\s+(?P<other>.+)", re.I)
_EDGE = re.compile(r"(?P<edge>.+?)\s+of\s+(?P<piece>.+)", re.I)


def note_corners_at_folds(piece: Piece, sides: Sequence[Side], desk: Desk) -> None:
    """Remember where edges of a piece meet its folds, until the whole post is read."""
    if not piece.main.lies.startswith("on "):
        return
    told = {edge.span for other, edge, _ in desk.at_folds if other.name != piece.name}
    for before, after in zip((*sides[-1:], *sides[:-1]), sides, strict=True):
        if before.on_fold is not after.on_fold:
            edge, fold = (after, before) if before.on_fold else (before, after)
            if edge.span is None or edge.span not in told:  # a copy or a panel has the corner of its piece
                desk.at_folds.append((piece, edge, fold))


def demand_square_at_folds(desk: Desk) -> None:
    """Demand it for each edge, unless the post says that the check is not needed."""
    if NAME in desk.not_needed:
        return
    for piece, edge, fold in desk.at_folds:
        place = edge.span or piece.span
        off = _off_square(edge.flat or edge.step, fold.step, piece, desk)
        desk.demand(
            apply("or", apply("<=", off, _nearly()), _told_already(off, piece)),
            (f"{edge.name} of {piece.name} meets its fold ", desk.shown(off), " off square, and opens out to a point"),
            place,
            "lead it to the fold square, as a curve `arriving across`; where a point is meant write in "
            f"`checks`: `not needed: {{{NAME}: the neck is a V}}`",
            about=f"{edge.name} of {piece.name} at the fold",
        )


def _told_already(off: Name, piece: Piece) -> Expression:
    """An edge that runs on along the fold is told elsewhere; so is a fold that is not straight: it has no cutting line,
    and what is asked of that has no answer.
    """
    along = apply(">=", off, Literal(ALONG, Kind.ANGLE, f"{ALONG:g}°"))
    return apply("or", along, apply("<", Apply("outline width", (piece.called("cutting line"),)), zero()))


def square_check(said: Text, desk: Desk) -> Fact | None:
    """``hem of skirt square to side of skirt``; None where it is no such check, or after a fault."""
    match = _SQUARE.fullmatch(said.value)
    if match is None:
        return None
    one, other = (_edge(said.part(*match.span(which)), desk) for which in ("one", "other"))
    if one is None or other is None:
        return None
    off = desk.step(f"= {said.value}", Apply("off square", (one, other), said.span()), said.span(), kind=Kind.ANGLE)
    message = (f"{said.value}: it is ", desk.shown(off), " off")
    desk.demand(apply("<=", off, _nearly()), message, said.span(), "turn one of the two edges at their corner")
    return Fact((" ".join(said.value.split()),), (desk.shown(off), " off"))


def is_square_check(said: Text) -> bool:
    return _SQUARE.fullmatch(said.value) is not None


def _edge(said: Text, desk: Desk) -> Name | None:
    match = _EDGE.fullmatch(said.value)
    spread = Name(f"= spread edge {said.value}", said.span())
    if spread.key in desk.steps:
        return spread
    drawn = desk.drafts.get(key_of(match["piece"])) if match is not None else None
    edge = drawn.edges.get(key_of(match["edge"])) if match is not None and drawn is not None else None
    if match is not None and (edge is not None or desk.nameless or key_of(match["piece"]) in desk.broken):
        return None if edge is None else Name(edge.step.name, said.span())
    message, hint = f"`{said.value}` is no edge of a drawn piece", "write an edge and its piece, as in `hem of skirt`"
    desk.faults.add(Code.CHECKS, message, said.span(), hint)
    return None


def _off_square(edge: Name, fold: Name, piece: Piece, desk: Desk) -> Name:
    return desk.hidden(Apply("off square", (edge, fold), piece.span), piece.span)


def _nearly() -> Literal:
    return Literal(NEARLY, Kind.ANGLE, f"{NEARLY:g}°")
