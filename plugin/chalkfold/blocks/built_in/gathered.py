"""Gathered seams: how full they are, against the weight of the cloth that is drawn up."""

from __future__ import annotations

import re
from collections.abc import Iterator

from chalkfold.blocks.built_in.made import Found
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.seams import Seam
from chalkfold.formula import Expression, Name, key_of, plain

OUNCE = 33.906
"""g/m² to an oz/yd²."""
_WEIGHT = re.compile(r"(?P<number>\d+(?:\.\d+)?) *(?P<unit>g|oz)\b", re.I)


def gathered(desk: Desk) -> Iterator[Found]:
    """Every seam that is gathered; the most it takes is asked where the weight is known."""
    for seam in desk.seams:
        way, place = seam.sentence.way, seam.sentence.said.span()
        if way is None or way.word != "gathered":
            continue
        values: dict[str, Expression] = {"ratio": Name(f"ratio of {seam.name}", place)}
        words = {"edge": seam.label(0)}
        yield Found("hardly", place, words, values, seam.name)
        for name, weight in _weights(seam, desk).items():
            yield Found("too full", place, {**words, "cloth": name}, {**values, "weight": plain(weight)}, seam.name)


def _weights(seam: Seam, desk: Desk) -> dict[str, float]:
    """The weight, in g/m², of each cloth that is drawn up."""
    cloths = {key_of(role): goods for role, (goods, _) in desk.roles.items() if goods.kind == "fabric"}
    found: dict[str, float] = {}
    for term in seam.sides[0].edges:
        goods = cloths.get(key_of(term.piece.main.role)) if term.piece is not None else None
        weight = _WEIGHT.search(goods.texts.get("weight", "")) if goods is not None else None
        if goods is not None and weight is not None:
            found[goods.name] = float(weight["number"]) * (1 if weight["unit"].lower() == "g" else OUNCE)
    return found
