"""The primitives of constructions: points found with compasses, a square and a ruler. Lengths in mm, angles in degrees.

Those that may find several points give a row of them, of which another primitive takes the one that is meant.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from chalkfold.geometry import choosing, constructions, points
from chalkfold.geometry.arcs import SIDES
from chalkfold.geometry.offset import inset
from chalkfold.geometry.shapes import Edge, Outline
from chalkfold.geometry.trouble import GeometryTrouble, Reason
from chalkfold.plan.drafting import constructed
from chalkfold.plan.fold_bits import which


def parallel_line(outline: Outline, index: float, by: float, folds: float) -> Edge:
    """The line inside an outline ``by`` mm beside one of its edges, from the one neighbour to the other."""
    edge = int(index)
    if by <= 0:
        message = "a parallel line lies inside the piece, at a distance above 0"
        raise _beside(edge, message, "write a distance above 0, in every size")
    aside = tuple(by if number == edge else 0.0 for number in range(len(outline)))
    try:
        return inset(outline, aside, which(folds))[edge]
    except GeometryTrouble as trouble:
        message = "there is no room in the piece for a parallel line so far from this edge"
        raise _beside(edge, message, "write a smaller distance, in every size") from trouble


def _beside(edge: int, message: str, hint: str) -> GeometryTrouble:
    return GeometryTrouble(Reason.ALLOWANCE_TOO_WIDE, message, hint, edges=(edge,))


_PLAIN: dict[str, Callable[..., Any]] = {
    "copied": constructions.copied,
    "turned": lambda point, around, by: points.turned(point, by, around),
    "mirrored": constructions.mirrored,
    "carried on": constructions.carried_on,
    "carried past": constructions.carried_past,
    "foot": constructions.foot,
    "square from": constructions.square_from,
    "square line": constructions.square_line,
    "meetings": constructions.meetings,
    "compasses": constructions.compasses,
    "compass on": constructions.compass_on,
    "only": choosing.only,
    "nearest": choosing.nearest,
    **{f"farthest {side}": partial(choosing.farthest, side=side) for side in SIDES},
    "those below": choosing.below,
    "those above": partial(choosing.below, above=True),
    "inwards": choosing.inwards,
    "outwards": partial(choosing.inwards, outwards=True),
    "parallel line": parallel_line,
}

CONSTRUCTING: dict[str, Callable[..., Any]] = {name: constructed(work) for name, work in _PLAIN.items()}
