"""Channels for an elastic or a cord: how deep each is, and what runs in it."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.blocks.built_in.known import first_known, notions
from chalkfold.blocks.built_in.made import Found
from chalkfold.blocks.built_in.strips import is_rectangle, seams_of, width_of
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.pieces import Piece
from chalkfold.blocks.purposes import purpose_of
from chalkfold.blocks.sewing.seam_stitching import last_turning
from chalkfold.formula import Expression, Name

THICK = {"elastic": ("elastic width", "width"), "cord": ("cord thickness", "thickness")}
"""What is carried → the number of the post that says how thick it is, and the same of a notion."""


def casings(desk: Desk) -> Iterator[Found]:
    """Each piece that carries something; what is not known of it is asked for."""
    for piece in desk.pieces.values():
        if not piece.carries:
            continue
        words = {"piece": piece.name, "carries": piece.carries}
        thick, channel = _thick(piece, desk), channel_of(piece, desk)
        if thick is None:
            if not desk.project.broken and not desk.project.incomplete:  # what is faulty may have told it
                yield Found(f"no {piece.carries}", piece.span, words)
        elif channel is not None:
            values = {"thick": thick, "channel": channel}
            yield Found(f"takes {piece.carries}", piece.span, words, values, piece.name)
            if piece.carries == "elastic":
                yield Found("turns over", piece.span, words, values, piece.name)
        elif is_rectangle(piece):
            values = {"thick": thick, "channel": width_of(piece) / 2, "seams": seams_of(piece)}
            yield Found(f"takes {piece.carries}, folded", piece.span, words, values, piece.name)
            if piece.carries == "elastic":
                yield Found("turns over", piece.span, words, values, piece.name)
        else:
            yield Found("no channel", piece.span, words)


def _thick(piece: Piece, desk: Desk) -> Name | None:
    number, amount = THICK[piece.carries]
    return first_known([number, *notions(amount, piece.carries, desk)], piece.span, desk)


def channel_of(piece: Piece, desk: Desk) -> Expression | None:
    """As told, or the last turning of a hem of the piece; None for a strip that is folded."""
    told = purpose_of(piece.name, desk).channel
    if told is not None:
        return told
    for seam in desk.seams:
        if any(term.piece is piece for side in seam.sides for term in side.edges):
            turning = last_turning(seam, desk)
            if turning is not None:
                return turning
    return None
