"""A closed outline: how big, how long, which way round, what lies inside."""

from __future__ import annotations

from itertools import pairwise
from math import atan2, pi

from chalkfold.geometry import arcs, cubics, edges, segments
from chalkfold.geometry.points import cross, distance, dot, minus
from chalkfold.geometry.shapes import SAME, Box, Outline, Point, Segment, centre, end, is_arc, is_cubic, start
from chalkfold.geometry.trouble import GeometryTrouble, Reason


def area(outline: Outline) -> float:
    """In mm², exactly; positive when the outline runs clockwise on the page."""
    return sum(segments.area(segment) for edge in outline for segment in edge)


def orientation(outline: Outline) -> int:
    """1 for clockwise on the page, -1 for anticlockwise. Raises when the outline encloses nothing."""
    signed = area(outline)
    if abs(signed) <= SAME * length(outline):
        raise GeometryTrouble(
            Reason.NO_AREA, "the outline encloses nothing", "place its corners so that it has an inside in every size"
        )
    return 1 if signed > 0 else -1


def length(outline: Outline) -> float:
    """All the way round, in mm."""
    return sum(edges.length(edge) for edge in outline)


def reach(outline: Outline, towards: Point) -> tuple[float, float]:
    """Least and greatest extent (mm) in the direction of a unit vector."""
    found = [segments.reach(segment, towards) for edge in outline for segment in edge]
    return min(low for low, _ in found), max(high for _, high in found)


def box(outline: Outline) -> Box:
    """The smallest upright box around the outline, with the extremes of arcs and curves."""
    (left, right), (top, bottom) = reach(outline, (1.0, 0.0)), reach(outline, (0.0, 1.0))
    return left, top, right, bottom


def corners(outline: Outline) -> tuple[Point, ...]:
    """Where each edge begins."""
    return tuple(edges.first(edge) for edge in outline)


def backwards(outline: Outline) -> Outline:
    """The last edge first, each run the other way."""
    return tuple(edges.backwards(edge) for edge in reversed(outline))


def moved(outline: Outline, across: float, down: float) -> Outline:
    return tuple(edges.moved(edge, across, down) for edge in outline)


def turned(outline: Outline, angle: float, around: Point = (0.0, 0.0)) -> Outline:
    """Turned clockwise by ``angle`` degrees."""
    return tuple(edges.turned(edge, angle, around) for edge in outline)


def mirrored(outline: Outline, a: Point, b: Point) -> Outline:
    """Seen in the line A–B; it then runs the other way round."""
    return tuple(edges.mirrored(edge, a, b) for edge in outline)


def gap(outline: Outline) -> tuple[int, float]:
    """The widest gap: the index of the edge before it and its width in mm. A closed outline has none above ``SAME``.

    Also counts gaps between the segments inside an edge.
    """
    chain = [(index, segment) for index, edge in enumerate(outline) for segment in edge]
    following = chain[1:] + chain[:1]
    widths = [
        (index, distance(end(here), start(after))) for (index, here), (_, after) in zip(chain, following, strict=True)
    ]
    return max(widths, key=lambda found: found[1])


def is_closed(outline: Outline) -> bool:
    return bool(outline) and gap(outline)[1] <= SAME


def encloses(outline: Outline, point: Point) -> bool:
    """Does ``point`` lie inside the outline or on it? Counts exactly how often the outline winds round it.

    Source: winding number; an arc winds like its chord, and once more round what lies between the two.
    """
    chain = [segment for edge in outline for segment in edge]
    if any(segments.contains(segment, point) for segment in chain):
        return True
    return abs(sum(_winding(segment, point) for segment in chain)) > 0.5


def _winding(segment: Segment, point: Point) -> float:
    """Turns around ``point`` on the way from the start of the segment to its end."""
    if is_cubic(segment):
        stops = cubics.level_with(segment, point)
        return sum(_turns(one, other, point) for one, other in pairwise(stops))
    side = cross(minus(start(segment), point), minus(end(segment), point))
    turns = _turns(start(segment), end(segment), point)
    if not is_arc(segment) or distance(centre(segment), point) >= arcs.radius(segment):
        return turns
    whole = abs(segment[6]) >= 360.0
    if segment[6] > 0:
        return turns + 1.0 if whole or side < 0 else turns
    return turns - 1.0 if whole or side >= 0 else turns


def _turns(a: Point, b: Point, point: Point) -> float:
    """Straight from ``a`` to ``b``."""
    first, last = minus(a, point), minus(b, point)
    side = cross(first, last) + 0.0  # never -0.0, which would turn a point on the chord the other way
    return atan2(side, dot(first, last)) / (2.0 * pi)
