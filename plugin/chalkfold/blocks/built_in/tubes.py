"""Strips that are folded lengthwise, sewn and turned."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.blocks.built_in.made import Found
from chalkfold.blocks.built_in.strips import is_rectangle, seams_of, width_of
from chalkfold.blocks.desk import Desk


def tubes(desk: Desk) -> Iterator[Found]:
    """Each rectangle that is ``turned``; of other shapes it is not known how they are folded."""
    for piece in desk.pieces.values():
        if piece.turned and is_rectangle(piece):
            values = {"strip": width_of(piece), "seams": seams_of(piece)}
            yield Found("nothing left", piece.span, {"piece": piece.name}, values, piece.name)
            yield Found("too narrow", piece.span, {"piece": piece.name}, values, piece.name)
