"""Gathered seams: how full they are, against the weight of the cloth that is drawn up."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.blocks.built_in.known import is_known
from chalkfold.blocks.built_in.made import Found
from chalkfold.blocks.desk import Desk
from chalkfold.formula import Expression, Name, key_of


def gathered(desk: Desk) -> Iterator[Found]:
    """Every seam that is gathered; the most it takes is asked where the weight is known."""
    for seam in desk.seams:
        way, place = seam.sentence.way, seam.sentence.said.span()
        if way is None or way.word != "gathered":
            continue
        values: dict[str, Expression] = {"ratio": Name(f"ratio of {seam.name}", place)}
        words = {"edge": seam.label(0)}
        yield Found("hardly", place, words, values, seam.name)
        pieces = [term.piece for term in seam.sides[0].edges if term.piece is not None]
        for role in dict.fromkeys(key_of(piece.main.role) for piece in pieces):
            if is_known(f"weight of {role}", desk):
                values["weight"] = Name(f"weight of {role}", place)
                words["cloth"] = next(goods.name for name, (goods, _) in desk.roles.items() if key_of(name) == role)
                yield Found("too full", place, {**words}, {**values}, seam.name)
