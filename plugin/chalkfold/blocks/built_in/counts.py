"""Pieces and what is said of their number: in a number of the post, and in the order of sewing."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.blocks.built_in.facings import slit_of
from chalkfold.blocks.built_in.known import first_known
from chalkfold.blocks.built_in.made import Found
from chalkfold.blocks.desk import Desk
from chalkfold.formula import key_of


def counts(desk: Desk) -> Iterator[Found]:
    """A number called ``X pieces`` is how many of X are cut; what is cut in the main role is sewn somewhere.

    The facing of a slit is sewn along the slit, which is no edge.
    """
    for piece in desk.pieces.values():
        said = first_known([f"{piece.name} pieces"], piece.span, desk)
        if said is not None:
            values = {"said": said, "cut": piece.called("count")}
            yield Found("as many", piece.span, {"piece": piece.name}, values, piece.name)
    sewn = {term.place[0] for seam in desk.seams for side in seam.sides for term in side.edges}
    in_main = [piece for piece in desk.pieces.values() if key_of(piece.main.role) == "main"]
    if len(desk.seams) < len(in_main) or desk.seams_lost:
        return  # fewer lines than pieces are an excerpt, and no whole order
    for piece in in_main:
        if sewn and key_of(piece.name) not in sewn and slit_of(piece, desk) is None:
            edge = next(name for name, each in piece.outline.edges.items() if not each.on_fold)
            yield Found("never sewn", piece.span, {"piece": piece.name, "edge": edge})
