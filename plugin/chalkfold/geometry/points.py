"""Points made from points. Source of all formulas: plane geometry."""

from __future__ import annotations

from math import atan2, cos, degrees, radians, sin, sqrt

from chalkfold.geometry.shapes import SAME, Point
from chalkfold.geometry.trouble import GeometryTrouble, Reason

PARALLEL = 1e-9
"""Two lines whose directions differ by less than this (radians) never meet on any cloth."""
_QUARTERS = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}


def facing(angle: float) -> Point:
    """The unit vector at ``angle`` degrees; exact for quarter turns, so that square things stay square."""
    whole = angle % 360.0
    return _QUARTERS.get(whole) or (cos(radians(whole)), sin(radians(whole)))


def distance(a: Point, b: Point) -> float:
    """In mm."""
    x, y = b[0] - a[0], b[1] - a[1]
    return sqrt(x * x + y * y)


def same(a: Point, b: Point, tolerance: float = SAME) -> bool:
    return distance(a, b) <= tolerance


def direction(a: Point, b: Point) -> float:
    """The angle in degrees, from 0 up to 360, in which ``b`` lies from ``a``. Raises when they are one point."""
    x, y = unit(a, b)
    return degrees(atan2(y, x)) % 360.0


def unit(a: Point, b: Point) -> Point:
    """The vector of length 1 from ``a`` towards ``b``. Raises when they are one point."""
    length = distance(a, b)
    if length <= SAME:
        raise GeometryTrouble(
            Reason.NO_DIRECTION,
            "two points that should give a direction lie on each other",
            "name two points that lie apart in every size",
        )
    return (b[0] - a[0]) / length, (b[1] - a[1]) / length


def shifted(point: Point, along: Point, by: float) -> Point:
    """``point`` moved ``by`` mm along the unit vector ``along``."""
    return point[0] + along[0] * by, point[1] + along[1] * by


def polar(start: Point, angle: float, by: float) -> Point:
    """The point ``by`` mm from ``start`` at ``angle`` degrees."""
    return shifted(start, facing(angle), by)


def towards(start: Point, target: Point, by: float) -> Point:
    """The point ``by`` mm from ``start`` on the way to ``target`` (and past it, if ``by`` is longer)."""
    return shifted(start, unit(start, target), by)


def between(a: Point, b: Point, at: float) -> Point:
    """The point at the part ``at`` of the way from ``a`` (0) to ``b`` (1)."""
    return a[0] + (b[0] - a[0]) * at, a[1] + (b[1] - a[1]) * at


def square_corner(down_from: Point, across_from: Point) -> Point:
    """Square down from the one and square across from the other."""
    return down_from[0], across_from[1]


def meeting(a: Point, b: Point, c: Point, d: Point) -> Point:
    """Where the endless lines A–B and C–D meet. Raises when they are parallel, or a pair is one point."""
    found = crossing(a, unit(a, b), c, unit(c, d))
    if found is None:
        raise GeometryTrouble(
            Reason.PARALLEL,
            "the two lines are parallel and never meet",
            "name two lines that run in different directions in every size",
        )
    return found


def crossing(a: Point, along_a: Point, b: Point, along_b: Point) -> Point | None:
    """Where two endless lines, each a point and a unit vector, meet; ``None`` when parallel."""
    turn = cross(along_a, along_b)
    if abs(turn) < PARALLEL:
        return None
    return shifted(a, along_a, cross((b[0] - a[0], b[1] - a[1]), along_b) / turn)


def cross(a: Point, b: Point) -> float:
    """Positive when ``b`` lies clockwise from ``a`` on the page."""
    return a[0] * b[1] - a[1] * b[0]


def dot(a: Point, b: Point) -> float:
    return a[0] * b[0] + a[1] * b[1]


def minus(a: Point, b: Point) -> Point:
    return a[0] - b[0], a[1] - b[1]


def left_of(along: Point) -> Point:
    """A quarter turn anticlockwise on the page: the outer side of an outline that runs clockwise."""
    return along[1], -along[0]


def turned(point: Point, angle: float, around: Point = (0.0, 0.0)) -> Point:
    """``point`` turned clockwise by ``angle`` degrees."""
    x, y = minus(point, around)
    c, s = facing(angle)
    return around[0] + x * c - y * s, around[1] + x * s + y * c


def mirrored(point: Point, a: Point, b: Point) -> Point:
    """``point`` seen in the line A–B. Raises when A and B are one point."""
    along = unit(a, b)
    across = left_of(along)
    return shifted(point, across, -2.0 * dot(minus(point, a), across))
