"""A piece as it lies flat on the table: slashed and spread, its darts and pleats drawn on it and not yet closed.

Pieces made from it start here; the darts and pleats go along as they are (``taken_shapings.py``).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from chalkfold.blocks.contour import Draft, edges_of
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.points import Points
from chalkfold.blocks.shaping import Shaping
from chalkfold.blocks.taken_shapings import elsewhere
from chalkfold.formula import Name, key_of


@dataclass
class MovedPoints(Points):
    """The points of a piece where they have come to lie, under names that no writer can type."""

    words: str = ""

    def step_name(self, key: str) -> str:
        return f"= {self.words} point {key} of {self.piece}"


def flattened(origin: Draft, desk: Desk) -> Draft:
    """The piece with its edges, points, lines and marks as the slashes leave them, before darts and pleats are capped."""
    shaped, shaping = origin.shaped, origin.shaped.shaping
    if shaping is None or not shaped.is_shaped:
        return origin
    slashes, name = shaping.slashes, origin.piece.name
    drawn = tuple(
        replace(
            each,
            step=slashes.edges[key_of(each.name)],
            is_line=each.is_line and not slashes.made,
            centre=None if slashes.made else each.centre,
        )
        for each in origin.outline
    )
    edges = edges_of(name, drawn, desk)
    points = _points(shaped.points, shaping) if slashes.made else shaped.points
    darts = tuple(elsewhere(dart, edges.drawn) for dart in shaping.darts)
    pleats = tuple(elsewhere(row, edges.drawn, slashes.point) for row in shaping.pleats)
    contour = replace(shaped.contour, edges=edges, points=points, shapings=(*darts, *pleats))
    capped = {
        shaping.edges[was.step.key].key: flat.step.key for was, flat in zip(origin.outline, drawn, strict=True)
    }
    marks = tuple(replace(mark, edge=capped.get(mark.edge, mark.edge)) for mark in origin.marks)
    return replace(origin, shaped=replace(shaped, edges=edges, points=points, contour=contour), marks=marks)


def _points(origin: Points, shaping: Shaping) -> Points:
    points = MovedPoints(origin.piece, origin.desk, dict(origin.names), set(origin.broken), "spread")
    for key in origin.names.keys() - origin.broken:
        step = Name(origin.step_name(key), shaping.piece.place)
        points.lay(key, shaping.slashes.point(step), shaping.piece.place)
    return points
