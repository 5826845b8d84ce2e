"""Hems and how deep they are turned: those of the order of sewing, else round edges called ``hem`` or ``outer``."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.blocks.built_in.made import Found
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.pieces import Piece
from chalkfold.blocks.seam_stitching import last_turning
from chalkfold.diagnostics import Span
from chalkfold.formula import Expression, Name, key_of

HEMS = ("hem", "outer")


def hems(desk: Desk) -> Iterator[Found]:
    """The flare of an arc is the part of a circle that all copies of it make; of other curves it is not known."""
    sewn: set[tuple[str, str]] = set()
    for seam in desk.seams:
        depth = last_turning(seam, desk)
        for term in seam.sides[0].edges if depth is not None else ():
            sewn.add(term.place)
            if term.piece is not None and depth is not None and not term.piece.carries:
                yield from _hem(term.piece, term.edge, depth, seam.sentence.said.span(), desk)
    for piece in desk.pieces.values():
        for name, edge in piece.outline.edges.items():
            if key_of(name) in HEMS and (key_of(piece.name), key_of(name)) not in sewn:
                yield from _hem(piece, name, edge.allowance, piece.span, desk)


def _hem(piece: Piece, edge: str, depth: Expression, place: Span, desk: Desk) -> Iterator[Found]:
    words = {"edge": f"{edge} of {piece.name}"}
    radius = Name(f"radius of {edge} of {piece.name}", place)
    if radius.key in desk.steps:
        whole = Name(f"total {edge} of {piece.name}", place)
        yield Found("round", place, words, {"depth": depth, "radius": radius, "whole": whole}, piece.name)
    else:
        yield Found("straight", place, words, {"depth": depth}, piece.name)
