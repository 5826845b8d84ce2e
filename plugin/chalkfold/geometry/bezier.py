"""A cubic curve at one place ``t``, from 0 at its start to 1 at its end; ``cubics.py`` measures along it in mm.

Source of all formulas: the definition by P. Bézier, and division by P. de Casteljau.
"""

from __future__ import annotations

from math import inf, sqrt

from chalkfold.geometry.points import between, cross, distance, minus
from chalkfold.geometry.polynomials import Polynomial, derivative, plus, times, zeros
from chalkfold.geometry.shapes import SAME, Point, Segment, cubic, end, handles, start

_PLACES = tuple(step / 64 for step in range(65))
_STILL = 1e-3
"""A curve that runs slower than this (mm for a whole ``t``) between its ends stops there, in a cusp or to turn back."""


def point(segment: Segment, t: float) -> Point:
    x0, y0, x1, y1, ax, ay, bx, by = segment
    u = 1.0 - t
    a, b, c, d = u * u * u, 3.0 * u * u * t, 3.0 * u * t * t, t * t * t
    return a * x0 + b * ax + c * bx + d * x1, a * y0 + b * ay + c * by + d * y1


def slope(segment: Segment, t: float) -> Point:
    """How fast it runs there, in mm for a whole ``t``."""
    x0, y0, x1, y1, ax, ay, bx, by = segment
    u = 1.0 - t
    a, b, c = 3.0 * u * u, 6.0 * u * t, 3.0 * t * t
    return a * (ax - x0) + b * (bx - ax) + c * (x1 - bx), a * (ay - y0) + b * (by - ay) + c * (y1 - by)


def speed(segment: Segment, t: float) -> float:
    x, y = slope(segment, t)
    return sqrt(x * x + y * y)


def bend(segment: Segment, t: float) -> Point:
    """How fast the slope changes there."""
    x0, y0, x1, y1, ax, ay, bx, by = segment
    a, b = 6.0 * (1.0 - t), 6.0 * t
    return a * (bx - 2.0 * ax + x0) + b * (x1 - 2.0 * bx + ax), a * (by - 2.0 * ay + y0) + b * (y1 - 2.0 * by + ay)


def tangent(segment: Segment, t: float) -> Point:
    """The unit vector of travel; where a handle lies on its end, towards or from the next point that lies apart."""
    found = slope(segment, t)
    if sqrt(found[0] * found[0] + found[1] * found[1]) <= SAME:
        found = _leaving(segment) if t < 0.5 else _arriving(segment)
    fast = sqrt(found[0] * found[0] + found[1] * found[1])
    return (found[0] / fast, found[1] / fast) if fast > 0.0 else (1.0, 0.0)


def _leaving(segment: Segment) -> Point:
    first, last = handles(segment)
    apart = (place for place in (first, last, end(segment)) if distance(place, start(segment)) > SAME)
    return minus(next(apart, end(segment)), start(segment))


def _arriving(segment: Segment) -> Point:
    first, last = handles(segment)
    apart = (place for place in (last, first, start(segment)) if distance(place, end(segment)) > SAME)
    return minus(end(segment), next(apart, start(segment)))


def curvature(segment: Segment, t: float) -> float:
    """One part of its radius (mm) there, positive where it turns clockwise on the page; 0 where it stands still."""
    ahead = slope(segment, t)
    fast = sqrt(ahead[0] * ahead[0] + ahead[1] * ahead[1])
    return cross(ahead, bend(segment, t)) / (fast * fast * fast) if fast > SAME else 0.0


def tightest(segment: Segment) -> float:
    """The least radius (mm) of its bends, looked for at many places and where it runs slowest; endless if straight."""
    ways = [derivative(way) for way in powers(segment)]
    slowest = derivative(plus(*(times(way, way) for way in ways)))
    (px, qx, rx), (py, qy, ry) = ways
    most = 0.0
    for t in (*_PLACES, *zeros(slowest)):
        x, y = px + t * (qx + t * rx), py + t * (qy + t * ry)
        fast = sqrt(x * x + y * y)
        if fast <= _STILL and 0.0 < t < 1.0:
            return 0.0
        if fast > SAME:
            most = max(most, abs(x * (qy + 2.0 * t * ry) - y * (qx + 2.0 * t * rx)) / (fast * fast * fast))
    return 1.0 / most if most > 0.0 else inf


def off_box(segment: Segment, place: Point) -> float:
    """How far (mm) a point is off the box round its ends and handles, and off the curve at least."""
    x = max(min(segment[0::2]) - place[0], place[0] - max(segment[0::2]), 0.0)
    y = max(min(segment[1::2]) - place[1], place[1] - max(segment[1::2]), 0.0)
    return sqrt(x * x + y * y)


def powers(segment: Segment) -> tuple[Polynomial, Polynomial]:
    """Across and down as polynomials of ``t``."""
    x0, y0, x1, y1, ax, ay, bx, by = segment
    return _powers(x0, ax, bx, x1), _powers(y0, ay, by, y1)


def _powers(first: float, a: float, b: float, last: float) -> Polynomial:
    return first, 3.0 * (a - first), 3.0 * (b - 2.0 * a + first), last - 3.0 * b + 3.0 * a - first


def divided(segment: Segment, a: float, b: float) -> Segment:
    """The stretch from ``a`` to ``b``."""
    begin, stop = point(segment, a), point(segment, b)
    third = (b - a) / 3.0
    out, home = slope(segment, a), slope(segment, b)
    return cubic(
        begin,
        stop,
        (begin[0] + out[0] * third, begin[1] + out[1] * third),
        (stop[0] - home[0] * third, stop[1] - home[1] * third),
    )


def middle_of(segment: Segment) -> tuple[Segment, Segment]:
    """The curve in two halves of ``t``, exactly."""
    first, last = handles(segment)
    near, across, far = between(start(segment), first, 0.5), between(first, last, 0.5), between(last, end(segment), 0.5)
    before, after = between(near, across, 0.5), between(across, far, 0.5)
    middle = between(before, after, 0.5)
    return cubic(start(segment), middle, near, before), cubic(middle, end(segment), after, far)
