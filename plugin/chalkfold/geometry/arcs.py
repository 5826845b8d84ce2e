"""Circular arcs: how they are made, and what is asked of every kind of segment (see ``lines.py``).

Source of all formulas: plane geometry of the circle.
"""

from __future__ import annotations

from math import atan2, degrees, radians, sqrt
from typing import Literal

from chalkfold.geometry.points import (
    between,
    cross,
    crossing,
    direction,
    distance,
    dot,
    left_of,
    minus,
    same,
    shifted,
    turned,
    unit,
)
from chalkfold.geometry.shapes import EQUAL_RADII, SAME, Edge, Point, Segment, arc, centre, end, line, start
from chalkfold.geometry.trouble import GeometryTrouble, Reason, in_cm

Side = Literal["left", "right", "up", "down"]
SIDES: dict[Side, Point] = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "up": (0.0, -1.0), "down": (0.0, 1.0)}
_ALIGNED = 1e-9
_FLAT = 1e-4
"""Three points are on one line when their arc would turn by less than this (degrees)."""
_EXACT = 1e-9
"""Radii (mm) closer than this differ by rounding only."""


def around(middle: Point, a: Point, b: Point, *, long_way: bool = False) -> Segment:
    """The arc from ``a`` to ``b`` around ``middle``, the short way unless asked.

    A half circle turns clockwise on the page, and the long way anticlockwise; a full circle (``a`` and ``b`` one
    point, the long way) clockwise. Raises when the radii differ by more than ``EQUAL_RADII`` or are zero. Radii that
    differ by less are made equal by moving the centre along the chord, so that the arc passes through both ends.
    """
    first, last = distance(middle, a), distance(middle, b)
    if min(first, last) <= SAME:
        raise _no_radius()
    if abs(first - last) > EQUAL_RADII:
        raise GeometryTrouble(
            Reason.RADII_DIFFER,
            f"the arc starts {in_cm(first)} from its centre and ends {in_cm(last)} from it",
            "place both ends equally far from the centre",
            measures=(first, last),
        )
    if same(a, b):
        if not long_way:
            raise GeometryTrouble(
                Reason.NO_LENGTH, "the arc starts and ends at one point", "end the arc at a point away from its start"
            )
        return arc(a, a, middle, 360.0)
    if abs(first - last) > _EXACT:
        along = unit(a, b)
        middle = shifted(middle, along, dot(minus(between(a, b, 0.5), middle), along))
    return arc(a, b, middle, _way_round(middle, a, b, long_way))


def _way_round(middle: Point, a: Point, b: Point, long_way: bool) -> float:
    opposite = (2.0 * middle[0] - a[0], 2.0 * middle[1] - a[1])
    sweep = 180.0 if same(opposite, b) else swing(arc(a, b, middle, 0.0), a, b)
    if not long_way:
        return sweep
    return sweep - 360.0 if sweep > 0 else sweep + 360.0


def bulging(a: Point, b: Point, radius: float, side: Side) -> Segment:
    """The flatter arc of ``radius`` mm from ``a`` to ``b`` that bulges to ``side`` of its chord, seen on the page.

    Raises when the chord is longer than twice the radius, or runs along ``side`` so that it has no such side.
    """
    if radius <= SAME:
        raise _no_radius()
    along, chord = unit(a, b), distance(a, b)
    if chord > 2.0 * radius + SAME:
        raise GeometryTrouble(
            Reason.CHORD_TOO_LONG,
            f"an arc with radius {in_cm(radius)} cannot span {in_cm(chord)}",
            f"write a radius of at least {in_cm(chord / 2.0)}",
            measures=(radius, chord),
        )
    out = left_of(along)
    lean = dot(out, SIDES[side])
    if abs(lean) < _ALIGNED:
        raise _no_side("bulging", "bulge", side)
    clockwise = lean > 0
    inset = sqrt(max(0.0, radius * radius - chord * chord / 4.0))
    middle = shifted(between(a, b, 0.5), out, -inset if clockwise else inset)
    sweep = 2.0 * degrees(atan2(chord / 2.0, inset))
    return arc(a, b, middle, sweep if clockwise else -sweep)


def bowed(a: Point, b: Point, bow: float, side: Side) -> Segment:
    """The arc from ``a`` to ``b`` whose middle stands ``bow`` mm off the middle of its chord, to ``side`` of it.

    Nothing gives the straight line. Source: r = (c² / 4 + bow²) / (2 bow).
    """
    if bow < 0.0:
        message = f"an arc cannot be bowed by {in_cm(bow)}"
        raise GeometryTrouble(Reason.NO_SIDE, message, "write 0 or more, and the other side", measures=(bow,))
    along, chord = unit(a, b), distance(a, b)
    out = left_of(along)
    lean = dot(out, SIDES[side])
    if abs(lean) < _ALIGNED:
        raise _no_side("bowed", "be bowed", side)
    if bow <= SAME:
        return line(a, b)
    radius = (chord * chord / 4.0 + bow * bow) / (2.0 * bow)
    clockwise = lean > 0
    middle = shifted(between(a, b, 0.5), out, (bow - radius) if clockwise else (radius - bow))
    sweep = 4.0 * degrees(atan2(2.0 * bow, chord))
    return arc(a, b, middle, sweep if clockwise else -sweep)


def through(a: Point, place: Point, b: Point) -> Segment:
    """The arc from ``a`` through ``place`` to ``b``. Raises when the three lie on one line or two are one point."""
    first, last = unit(a, place), unit(place, b)
    turn = degrees(atan2(cross(first, last), dot(first, last)))
    if abs(turn) < _FLAT or abs(turn) > 180.0 - _FLAT:
        message = "the three points lie on one line, and no arc runs through them"
        raise GeometryTrouble(Reason.STRAIGHT, message, "write `line to`, or move a point in every size")
    middle = crossing(between(a, place, 0.5), left_of(first), between(place, b, 0.5), left_of(last))
    if middle is None:
        raise _no_radius()
    sweep = 2.0 * turn
    return arc(a, b, middle, sweep)


def _no_side(said: str, verb: str, side: Side) -> GeometryTrouble:
    others = "up or down" if side in ("left", "right") else "left or right"
    message = f"the two ends lie so that no arc between them can {verb} {side}"
    return GeometryTrouble(Reason.NO_SIDE, message, f"write {said} {others}")


def _no_radius() -> GeometryTrouble:
    return GeometryTrouble(Reason.NO_RADIUS, "the arc has no radius", "write a radius above 0 in every size")


def radius(segment: Segment) -> float:
    return distance(centre(segment), start(segment))


def length(segment: Segment) -> float:
    return radius(segment) * abs(radians(segment[6]))


def sweep_to(segment: Segment, along: float) -> float:
    """The signed angle (degrees) turned after ``along`` mm."""
    turn = degrees(along / radius(segment))
    return turn if segment[6] >= 0 else -turn


def point_at(segment: Segment, along: float) -> Point:
    """``along`` mm from the start; before the start or past the end the circle simply runs on."""
    return turned(start(segment), sweep_to(segment, along), centre(segment))


def tangent_at(segment: Segment, along: float) -> Point:
    """The unit vector of travel, square to the radius."""
    outwards = unit(centre(segment), point_at(segment, along))
    ahead = left_of(outwards)
    return (-ahead[0], -ahead[1]) if segment[6] >= 0 else ahead


def backwards(segment: Segment) -> Segment:
    return arc(end(segment), start(segment), centre(segment), -segment[6])


def covers(segment: Segment, point: Point) -> bool:
    """Does a point of the circle lie on the arc's part of it? Ends count, to ``SAME``."""
    turn = direction(centre(segment), point) - direction(centre(segment), start(segment))
    turn = turn % 360.0 if segment[6] >= 0 else -turn % 360.0
    slack = degrees(SAME / radius(segment))
    return turn <= abs(segment[6]) + slack or turn >= 360.0 - slack


def reach(segment: Segment, towards: Point) -> tuple[float, float]:
    """Least and greatest extent (mm) in the direction of a unit vector, exact at the arc's extremes."""
    found = [dot(start(segment), towards), dot(end(segment), towards)]
    for side in (1.0, -1.0):
        extreme = shifted(centre(segment), towards, side * radius(segment))
        if covers(segment, extreme):
            found.append(dot(extreme, towards))
    return min(found), max(found)


def nearest(segment: Segment, point: Point) -> float:
    """How far along (mm) the point of the arc lies that is nearest to ``point``; ties go to the start."""
    if not same(point, centre(segment)):
        turn = direction(centre(segment), point) - direction(centre(segment), start(segment))
        turn = turn % 360.0 if segment[6] >= 0 else -turn % 360.0
        if turn <= abs(segment[6]):
            return radius(segment) * radians(turn)
    return 0.0 if distance(start(segment), point) <= distance(end(segment), point) else length(segment)


def part(segment: Segment, first: float, last: float) -> Segment:
    turn = sweep_to(segment, last) - sweep_to(segment, first)
    return arc(point_at(segment, first), point_at(segment, last), centre(segment), turn)


def area(segment: Segment) -> float:
    """Its share of the area (mm²) of an outline: half of ∫ x dy − y dx along the arc, exactly."""
    (x0, y0), (x1, y1), (cx, cy) = start(segment), end(segment), centre(segment)
    return (cx * (y1 - y0) - cy * (x1 - x0) + radius(segment) ** 2 * radians(segment[6])) / 2.0


def beside(segment: Segment, by: float) -> Edge | None:
    """The parallel ``by`` mm to the left as one travels, an arc around the same centre; ``None`` if none is left."""
    grown = radius(segment) + (by if segment[6] >= 0 else -by)
    if grown <= SAME:
        return None
    middle = centre(segment)
    first = shifted(middle, unit(middle, start(segment)), grown)
    last = shifted(middle, unit(middle, end(segment)), grown)
    return (arc(first, last, middle, segment[6]),)


def led_to(cut: Edge, first: Point, last: Point) -> Edge | None:
    """The arc trimmed or run on along its circle to two points of it; ``None`` when nothing is left."""
    (segment,) = cut
    sweep = segment[6] + swing(segment, end(segment), last) - swing(segment, start(segment), first)
    if sweep * segment[6] <= 0 or radius(segment) * abs(radians(sweep)) <= SAME:
        return None
    return (arc(first, last, centre(segment), sweep),)


def swing(segment: Segment, a: Point, b: Point) -> float:
    """The smaller signed angle (degrees) from ``a`` to ``b`` seen from the centre."""
    from_a, to_b = minus(a, centre(segment)), minus(b, centre(segment))
    return degrees(atan2(cross(from_a, to_b), dot(from_a, to_b)))
