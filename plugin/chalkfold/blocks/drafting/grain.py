"""``grain:``, where the lengthwise thread runs, and what a piece takes of the cloth that way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.drafting.drawn import Side, opened_out
from chalkfold.blocks.pieces import Piece
from chalkfold.formula import Apply, Literal, Name, apply
from chalkfold.reading import Fields

GRAINS = {"down": 90.0, "across": 0.0, "bias": 45.0}
DOWN, SQUARE = 90.0, Literal(90.0, Kind.ANGLE, "90°")


def read_grain(fields: Fields, piece: Piece, desk: Desk) -> Name:
    """``down``, ``across``, ``bias``, or an angle from across."""
    said = fields.text("grain")
    words = "down" if said is None else said.value.casefold()
    place = piece.span if said is None else said.span()
    angle = GRAINS.get(words)
    expression = desk.formula(said) if angle is None else Literal(angle, Kind.ANGLE, f"{angle:g}°")
    grain = desk.step(f"grain of {piece.name}", SQUARE if expression is None else expression, place, kind=Kind.ANGLE)
    desk.want(grain)
    return grain


def laid_by_grain(piece: Piece, sides: Sequence[Side], grain: Name, desk: Desk) -> Piece:
    """The piece, with what its cutting line takes across the cloth and along it, folds opened."""
    runs = desk.steps[grain.key].expression
    if isinstance(runs, Literal) and runs.value == DOWN:
        return piece
    cut = opened_out(piece.called("cutting line"), sides, piece.main.lies, piece.span, desk)
    across, along = (Apply("outline along", (cut, angle), piece.span) for angle in (apply("-", grain, SQUARE), grain))
    return replace(piece, outline=replace(piece.outline, opened=(across, along)))
