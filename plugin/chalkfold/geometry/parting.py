"""A piece parted along a line: where the line ends on the outline, and the stretches of the edges it ends on.

Source of all formulas: plane geometry.
"""

from __future__ import annotations

from chalkfold.geometry import edges, outlines
from chalkfold.geometry.points import between, distance, same
from chalkfold.geometry.shapes import JOIN, SAME, Edge, Outline, Point
from chalkfold.geometry.trouble import GeometryTrouble, Reason, in_cm

OFF = -1.0
"""The place of a point that does not lie on the outline."""


def place_round(outline: Outline, point: Point) -> float:
    """Where on the outline a point lies: the index of its edge, and behind the point which part of it comes before.

    Just the index at the corner where an edge starts; ``OFF`` when the point lies farther than ``JOIN`` from all edges.
    """
    for index, edge in enumerate(outline):
        if same(edges.first(edge), point, JOIN):
            return float(index)
    for index, edge in enumerate(outline):
        along = edges.nearest(edge, point)
        if same(edges.point_at(edge, along), point, JOIN):
            return index + along / edges.length(edge)
    return OFF


def up_to(edge: Edge, point: Point) -> Edge:
    """The stretch from the start of an edge to a point on it. Raises when it does not lie on it, or at its start."""
    return edges.part(edge, 0.0, _along(edge, point))


def on_from(edge: Edge, point: Point) -> Edge:
    """The stretch from a point on an edge to its end."""
    return edges.part(edge, _along(edge, point), edges.length(edge))


def stretch(edge: Edge, first: Point, last: Point) -> Edge:
    """The stretch between two points on an edge, of which ``first`` comes first. Raises when it does not."""
    begin, stop = _along(edge, first), _along(edge, last)
    if stop <= begin + SAME:
        raise GeometryTrouble(
            Reason.NO_LENGTH,
            "the two ends of the line change places on the edge, or lie in one point",
            "place them in the same order, apart from each other, in every size",
        )
    return edges.part(edge, begin, stop)


def _along(edge: Edge, point: Point) -> float:
    along = edges.nearest(edge, point)
    off = distance(edges.point_at(edge, along), point)
    if off > JOIN:
        raise GeometryTrouble(
            Reason.OFF_THE_EDGE,
            f"the line ends {in_cm(off)} off the edge",
            "let it end on the edge in every size, at a point `{along: EDGE, at: 9 cm, from: P}`",
            measures=(off,),
        )
    return along


def middle(outline: Outline) -> Point:
    """The middle of the smallest upright box round an outline: by it one part lies above or left of the other."""
    left, top, right, bottom = outlines.box(outline)
    return between((left, top), (right, bottom), 0.5)
