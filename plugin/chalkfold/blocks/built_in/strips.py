"""A rectangle taken as a strip: how wide it is, and the allowances at its long edges."""

from __future__ import annotations

from chalkfold.blocks.pieces import Piece
from chalkfold.formula import Expression, apply

SIDES = {"top", "right", "bottom", "left"}


def is_rectangle(piece: Piece) -> bool:
    return set(piece.outline.edges) == SIDES


def width_of(piece: Piece) -> Expression:
    """The shorter of its two finished measures."""
    return apply("min", piece.called("width"), piece.called("height"), span=piece.span)


def seams_of(piece: Piece) -> Expression:
    """The allowances at both long edges together."""
    edges = piece.outline.edges
    lying = edges["top"].allowance + edges["bottom"].allowance
    standing = edges["left"].allowance + edges["right"].allowance
    return apply("if", apply(">=", piece.called("width"), piece.called("height")), lying, standing, span=piece.span)
