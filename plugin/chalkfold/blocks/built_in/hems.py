"""Hems and how deep they are turned: those of the order of sewing, else round edges called ``hem`` or ``outer``."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.blocks.built_in.made import Found
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.pieces import Piece
from chalkfold.blocks.sewing.seam_stitching import last_turning
from chalkfold.diagnostics import Span
from chalkfold.formula import Apply, Expression, Name, apply, key_of, plain

HEMS = ("hem", "outer")


def hems(desk: Desk) -> Iterator[Found]:
    """The flare of an edge is the part of a circle through which all copies of it turn."""
    sewn: set[tuple[str, str]] = set()
    for seam in desk.seams:
        sewn |= {term.place for side in seam.sides for term in side.edges}
        depth = last_turning(seam, desk)
        for term in seam.sides[0].edges:
            if term.piece is not None and depth is not None and not term.piece.carries:
                yield from _hem(term.piece, term.edge, depth, seam.sentence.said.span(), desk)
    for piece in desk.pieces.values():
        for name, edge in piece.outline.edges.items():
            if key_of(name) in HEMS and (key_of(piece.name), key_of(name)) not in sewn:
                yield from _hem(piece, name, edge.allowance, piece.span, desk)


def _hem(piece: Piece, edge: str, depth: Expression, place: Span, desk: Desk) -> Iterator[Found]:
    words = {"edge": f"{edge} of {piece.name}"}
    turn = _turn(piece, edge, place, desk)
    if turn is None:
        yield Found("straight", place, words, {"depth": depth}, piece.name)
    else:
        yield Found("round", place, words, {"depth": depth, "turn": turn}, piece.name)


def _turn(piece: Piece, edge: str, place: Span, desk: Desk) -> Expression | None:
    """The angle, in radians, through which all copies of an edge turn together; None for a straight one."""
    radius = Name(f"radius of {edge} of {piece.name}", place)
    if radius.key in desk.steps:
        return Name(f"total {edge} of {piece.name}", place) / radius
    outline = piece.called("outline")
    draft = desk.drafts.get(key_of(piece.name))
    drawn = None if draft is None else draft.edges.get(key_of(edge))
    names = [part.name for part in desk.steps[outline.key].parts] if outline.key in desk.steps else []
    if drawn is None or not drawn.is_curved or edge not in names:
        return None
    turn = Apply("turn outwards", (outline, plain(names.index(edge))), place)
    return piece.main.layers * piece.copies * apply("max", turn, 0 - turn)
