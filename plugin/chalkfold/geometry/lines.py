"""What is asked of every kind of segment, for straight lines. ``arcs.py`` answers the same questions for arcs."""

from __future__ import annotations

from chalkfold.geometry.points import cross, distance, dot, left_of, minus, shifted, unit
from chalkfold.geometry.shapes import SAME, Edge, Point, Segment, end, line, start


def length(segment: Segment) -> float:
    return distance(start(segment), end(segment))


def point_at(segment: Segment, along: float) -> Point:
    """``along`` mm from the start; before the start or past the end the line simply runs on."""
    return shifted(start(segment), tangent_at(segment, along), along)


def tangent_at(segment: Segment, along: float) -> Point:
    """The unit vector of travel, everywhere the same."""
    return unit(start(segment), end(segment))


def backwards(segment: Segment) -> Segment:
    return line(end(segment), start(segment))


def reach(segment: Segment, towards: Point) -> tuple[float, float]:
    """Least and greatest extent (mm) in the direction of a unit vector."""
    first, last = dot(start(segment), towards), dot(end(segment), towards)
    return min(first, last), max(first, last)


def nearest(segment: Segment, point: Point) -> float:
    """How far along (mm) the point of the segment lies that is nearest to ``point``."""
    whole = length(segment)
    if whole == 0:
        return 0.0
    ahead = dot(minus(point, start(segment)), minus(end(segment), start(segment))) / whole
    return min(max(ahead, 0.0), whole)


def part(segment: Segment, first: float, last: float) -> Segment:
    return line(point_at(segment, first), point_at(segment, last))


def area(segment: Segment) -> float:
    """Its share of the area (mm²) of an outline, by Green's theorem: half of ∫ x dy − y dx."""
    return cross(start(segment), end(segment)) / 2.0


def beside(segment: Segment, by: float) -> Edge:
    """The parallel ``by`` mm to the left as one travels."""
    out = left_of(tangent_at(segment, 0.0))
    return (line(shifted(start(segment), out, by), shifted(end(segment), out, by)),)


def led_to(cut: Edge, first: Point, last: Point) -> Edge | None:
    """The line trimmed or run on to two points of it; ``None`` when nothing is left."""
    ahead = dot(minus(last, first), tangent_at(cut[0], 0.0))
    return (line(first, last),) if ahead > SAME else None
