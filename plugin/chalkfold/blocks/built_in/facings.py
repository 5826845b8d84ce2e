"""Facings of slits: told with ``faces:``, or called ``X facing`` where the post has a number ``X length``."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.blocks.built_in.known import first_known
from chalkfold.blocks.built_in.made import Found
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.pieces import Piece
from chalkfold.blocks.purposes import purpose_of
from chalkfold.formula import Name, key_of

FACING = " facing"


def facings(desk: Desk) -> Iterator[Found]:
    """A facing is drawn as the slit runs, downwards."""
    for piece in desk.pieces.values():
        slit = slit_of(piece, desk)
        if slit is not None:
            values = {"slit": slit, "width": piece.called("width"), "height": piece.called("height")}
            yield Found("too short", piece.span, {"piece": piece.name}, values, piece.name)
            yield Found("too narrow", piece.span, {"piece": piece.name}, values, piece.name)


def slit_of(piece: Piece, desk: Desk) -> Name | None:
    """How long the slit is that a piece faces, if it is a facing of one."""
    key = key_of(piece.name)
    told = purpose_of(key, desk).faces
    if told is not None or not key.endswith(FACING):
        return told
    return first_known([f"{key.removesuffix(FACING)} length"], piece.span, desk)
