"""One edge, made of one segment or several: measured, cut, joined, moved."""

from __future__ import annotations

from collections.abc import Callable

from chalkfold.geometry import bezier, points, segments
from chalkfold.geometry.shapes import (
    JOIN,
    SAME,
    Edge,
    Point,
    Segment,
    arc,
    centre,
    end,
    is_arc,
    is_cubic,
    is_line,
    line,
    start,
)
from chalkfold.geometry.trouble import GeometryTrouble, Reason, in_cm

_ROUNDING = 1e-9
"""Two halves of a circle may come to this much (degrees) more than a whole one."""


def first(edge: Edge) -> Point:
    return start(edge[0])


def last(edge: Edge) -> Point:
    return end(edge[-1])


def length(edge: Edge) -> float:
    """In mm."""
    return sum(segments.length(segment) for segment in edge)


def point_at(edge: Edge, along: float, *, from_end: bool = False) -> Point:
    """The point ``along`` mm from the start, or from the end. Raises when the edge is not that long."""
    segment, rest = _place(edge, along, from_end)
    return segments.point_at(segment, rest)


def tangent_at(edge: Edge, along: float, *, from_end: bool = False) -> Point:
    """The unit vector of travel there; at a corner inside the edge, that of the segment which ends there."""
    segment, rest = _place(edge, along, from_end)
    return segments.tangent_at(segment, rest)


def direction_at(edge: Edge, along: float, *, from_end: bool = False) -> float:
    """The direction of travel there, in degrees."""
    segment, rest = _place(edge, along, from_end)
    return segments.direction_at(segment, rest)


def _place(edge: Edge, along: float, from_end: bool) -> tuple[Segment, float]:
    rest = _on(edge, length(edge) - along if from_end else along, along)
    for segment in edge[:-1]:
        here = segments.length(segment)
        if rest <= here + SAME:
            return segment, min(rest, here)
        rest -= here
    return edge[-1], min(rest, segments.length(edge[-1]))


def _on(edge: Edge, along: float, asked: float) -> float:
    """``along`` brought onto the edge, when only rounding leads off it."""
    whole = length(edge)
    if not -SAME <= along <= whole + SAME:
        raise GeometryTrouble(
            Reason.PAST_THE_END,
            f"{in_cm(asked)} is not on the edge, which is {in_cm(whole)} long",
            f"write a distance from 0 to {in_cm(whole)}",
            measures=(asked, whole),
        )
    return min(max(along, 0.0), whole)


def backwards(edge: Edge) -> Edge:
    return tuple(segments.backwards(segment) for segment in reversed(edge))


def part(edge: Edge, begin: float, stop: float) -> Edge:
    """The stretch between two distances (mm) from the start; backwards, when ``stop`` comes before ``begin``."""
    if stop < begin:
        return backwards(part(edge, stop, begin))
    begin, stop = _on(edge, begin, begin), _on(edge, stop, stop)
    kept, passed = [], 0.0
    for segment in edge:
        here = segments.length(segment)
        low, high = max(begin - passed, 0.0), min(stop - passed, here)
        if high - low > SAME:
            kept.append(segments.part(segment, low, high))
        passed += here
    if not kept:
        raise GeometryTrouble(
            Reason.NO_LENGTH, "a stretch of an edge has no length", "write two distances that differ in every size"
        )
    return tuple(kept)


def split(edge: Edge, along: float) -> tuple[Edge, Edge]:
    """The edge in two, parted ``along`` mm from the start. Raises when that leaves one of them without length."""
    return part(edge, 0.0, along), part(edge, along, length(edge))


def joined(*pieces: Edge) -> Edge:
    """One edge of several that follow each other; straight lines in line, and arcs of one circle, become one."""
    whole: list[Segment] = []
    for segment in (segment for piece in pieces for segment in piece):
        both = _in_one(whole[-1], segment) if whole else None
        if both is None:
            whole.append(segment)
        else:
            whole[-1] = both
    return tuple(whole)


def _in_one(a: Segment, b: Segment) -> Segment | None:
    if is_line(a) and is_line(b):
        ahead = points.dot(points.minus(end(a), start(a)), points.minus(end(b), start(b)))
        both = line(start(a), end(b))
        return both if ahead > 0 and segments.contains(both, end(a)) else None
    if is_arc(a) and is_arc(b) and points.same(centre(a), centre(b)) and a[6] * b[6] > 0:
        sweep = a[6] + b[6]
        if abs(sweep) <= 360.0 + _ROUNDING:
            return arc(start(a), end(b), centre(a), max(-360.0, min(sweep, 360.0)))
    return None


def is_straight(edge: Edge) -> bool:
    """Lines only, nowhere farther than ``JOIN`` from the line between its ends, never turning back."""
    if not all(is_line(segment) for segment in edge):
        return False
    ends = line(first(edge), last(edge))
    near = all(segments.contains(ends, end(segment), JOIN) for segment in edge)
    return near and length(edge) - segments.length(ends) <= JOIN


def bow(edge: Edge) -> float:
    """The area (mm²) between the edge and the line between its ends, positive where it turns clockwise on the page."""
    chord = segments.area(line(first(edge), last(edge)))
    return sum(segments.area(segment) for segment in edge) - chord


def corners(edge: Edge) -> tuple[Point, ...]:
    """Where its segments begin and end."""
    return (first(edge), *(end(segment) for segment in edge))


def nearest(edge: Edge, point: Point) -> float:
    """How far along (mm) the point of the edge lies that is nearest to ``point``; the first, where several are."""
    best, found, passed = float("inf"), 0.0, 0.0
    for segment in edge:
        if not is_cubic(segment) or bezier.off_box(segment, point) < best:
            along = segments.nearest(segment, point)
            off = points.distance(segments.point_at(segment, along), point)
            if off < best - SAME:
                best, found = off, passed + along
        passed += segments.length(segment)
    return found


def contains(edge: Edge, point: Point, tolerance: float = SAME) -> bool:
    return any(segments.contains(segment, point, tolerance) for segment in edge)


def moved(edge: Edge, across: float, down: float) -> Edge:
    return _each(edge, lambda segment: segments.moved(segment, across, down))


def turned(edge: Edge, angle: float, around: Point = (0.0, 0.0)) -> Edge:
    """Turned clockwise by ``angle`` degrees."""
    return _each(edge, lambda segment: segments.turned(segment, angle, around))


def mirrored(edge: Edge, a: Point, b: Point) -> Edge:
    """Seen in the line A–B; it still runs from first to last."""
    return _each(edge, lambda segment: segments.mirrored(segment, a, b))


def _each(edge: Edge, change: Callable[[Segment], Segment]) -> Edge:
    return tuple(change(segment) for segment in edge)
