"""One segment, of whatever kind: where it runs, how long it is, and the segment moved, turned, mirrored or cut.

A new kind of segment is a module like ``lines.py`` and an entry in ``_KINDS``.
"""

from __future__ import annotations

from collections.abc import Callable
from math import atan2, degrees
from typing import Protocol

from chalkfold.geometry import arcs, cubics, lines, points
from chalkfold.geometry.bezier import off_box
from chalkfold.geometry.shapes import ARC, CUBIC, LINE, SAME, Box, Edge, Point, Segment, end, is_cubic, start


class Kind(Protocol):
    """What every kind of segment answers; lengths in mm, measured from the start."""

    def length(self, segment: Segment) -> float: ...
    def point_at(self, segment: Segment, along: float) -> Point: ...
    def tangent_at(self, segment: Segment, along: float) -> Point: ...
    def backwards(self, segment: Segment) -> Segment: ...
    def reach(self, segment: Segment, towards: Point) -> tuple[float, float]: ...
    def nearest(self, segment: Segment, point: Point) -> float: ...
    def part(self, segment: Segment, first: float, last: float) -> Segment: ...
    def area(self, segment: Segment) -> float: ...
    def beside(self, segment: Segment, by: float) -> Edge | None: ...
    def led_to(self, cut: Edge, first: Point, last: Point) -> Edge | None: ...


_KINDS: dict[int, Kind] = {LINE: lines, ARC: arcs, CUBIC: cubics}


def kind_of(segment: Segment) -> Kind:
    return _KINDS[len(segment)]


def length(segment: Segment) -> float:
    """In mm."""
    return kind_of(segment).length(segment)


def point_at(segment: Segment, along: float) -> Point:
    """The point ``along`` mm from the start, its ends exactly; beyond them it runs on, a curve straight."""
    if along == 0:
        return start(segment)
    return end(segment) if along == length(segment) else kind_of(segment).point_at(segment, along)


def tangent_at(segment: Segment, along: float) -> Point:
    """The unit vector of travel ``along`` mm from the start."""
    return kind_of(segment).tangent_at(segment, along)


def direction_at(segment: Segment, along: float) -> float:
    """The direction of travel in degrees, from 0 up to 360."""
    x, y = tangent_at(segment, along)
    return degrees(atan2(y, x)) % 360.0


def backwards(segment: Segment) -> Segment:
    return kind_of(segment).backwards(segment)


def reach(segment: Segment, towards: Point) -> tuple[float, float]:
    """Least and greatest extent (mm) in the direction of a unit vector."""
    return kind_of(segment).reach(segment, towards)


def box(segment: Segment) -> Box:
    """The smallest upright box around the segment, with the extremes of arcs and curves."""
    (left, right), (top, bottom) = reach(segment, (1.0, 0.0)), reach(segment, (0.0, 1.0))
    return left, top, right, bottom


def area(segment: Segment) -> float:
    """Its share of the area (mm²) of an outline, by Green's theorem."""
    return kind_of(segment).area(segment)


def nearest(segment: Segment, point: Point) -> float:
    """How far along (mm) the point of the segment lies that is nearest to ``point``."""
    return kind_of(segment).nearest(segment, point)


def contains(segment: Segment, point: Point, tolerance: float = SAME) -> bool:
    """Does ``point`` lie on the segment?"""
    if is_cubic(segment):  # most points lie far off, and a length along it is not wanted
        return off_box(segment, point) <= tolerance and points.same(
            cubics.nearest_point(segment, point), point, tolerance
        )
    return points.same(point_at(segment, nearest(segment, point)), point, tolerance)


def part(segment: Segment, first: float, last: float) -> Segment:
    """The stretch from ``first`` to ``last`` mm; both ends of the segment are kept exactly."""
    ends = (*point_at(segment, first), *point_at(segment, last))
    return (*ends, *kind_of(segment).part(segment, first, last)[4:])


def split(segment: Segment, along: float) -> tuple[Segment, Segment]:
    """The segment in two, parted ``along`` mm from the start."""
    return part(segment, 0.0, along), part(segment, along, length(segment))


def beside(segment: Segment, by: float) -> Edge | None:
    """The parallel ``by`` mm to the left as one travels: a line or an arc, or several cubics.

    ``None`` when a hollow arc or curve is tighter than that.
    """
    return kind_of(segment).beside(segment, by)


def led_to(cut: Edge, first: Point, last: Point) -> Edge | None:
    """A parallel trimmed or run on to two points: a line straight, an arc along its circle, cubics straight.

    ``None`` when nothing is left.
    """
    return kind_of(cut[0]).led_to(cut, first, last)


def moved(segment: Segment, across: float, down: float) -> Segment:
    return _mapped(segment, lambda point: (point[0] + across, point[1] + down))


def turned(segment: Segment, angle: float, around: Point = (0.0, 0.0)) -> Segment:
    """Turned clockwise by ``angle`` degrees."""
    return _mapped(segment, lambda point: points.turned(point, angle, around))


def mirrored(segment: Segment, a: Point, b: Point) -> Segment:
    """Seen in the line A–B; it still runs from start to end."""
    seen = _mapped(segment, lambda point: points.mirrored(point, a, b))
    return (*seen[:6], -seen[6]) if len(seen) == ARC else seen


def _mapped(segment: Segment, move: Callable[[Point], Point]) -> Segment:
    """Every point of the segment moved; a number left over (the sweep of an arc) stays."""
    pairs = zip(segment[0::2], segment[1::2], strict=False)
    placed = [number for point in pairs for number in move(point)]
    return (*placed, *segment[len(placed) :])
