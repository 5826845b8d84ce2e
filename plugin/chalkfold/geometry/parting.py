"""A piece parted along a line: where the line ends on the outline, and the stretches of the edges it ends on.

Source of all formulas: plane geometry.
"""

from __future__ import annotations

from chalkfold.geometry import edges, segments
from chalkfold.geometry.points import cross, distance, minus, same
from chalkfold.geometry.shapes import JOIN, SAME, Edge, Outline, Point
from chalkfold.geometry.trouble import GeometryTrouble, Reason, in_cm

OFF = -1.0
"""The place of a point that does not lie on the outline."""

POINTS = 8


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
    """About the centre of gravity of an outline: by it one part lies above another, or left of it.

    That of the polygon through ``POINTS`` points of every segment. Source: centroid of a polygon, plane geometry.
    """
    found = [
        segments.point_at(segment, segments.length(segment) * step / POINTS)
        for edge in outline
        for segment in edge
        for step in range(POINTS)
    ]
    origin = found[0]
    twice = across = down = 0.0
    for here, there in zip(found, [*found[1:], origin], strict=True):
        a, b = minus(here, origin), minus(there, origin)
        share = cross(a, b)
        twice, across, down = twice + share, across + share * (a[0] + b[0]), down + share * (a[1] + b[1])
    return (origin[0] + across / (3.0 * twice), origin[1] + down / (3.0 * twice)) if twice else origin
