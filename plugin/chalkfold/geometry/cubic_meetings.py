"""Where cubic curves meet lines, circles, one another and themselves.

With a line or a circle the places are zeros of a polynomial; two cubics are halved until they are nearly straight
where their boxes overlap, and the meeting is then sharpened by Newton's method. Source: plane geometry.
"""

from __future__ import annotations

from math import sqrt

from chalkfold.geometry import arcs, polynomials
from chalkfold.geometry.bezier import middle_of, point, powers, slope
from chalkfold.geometry.points import cross, distance, dot, left_of, minus, same, unit
from chalkfold.geometry.shapes import SAME, Point, Segment, centre, end, handles, is_cubic, is_line, start

_FLAT = 0.05
"""A stretch whose handles stand off its chord by less (mm) is as good as straight."""
_MOST_PAIRS = 4000
_MOST_MEETINGS = 9
"""Two cubics that share more points than this share a stretch (É. Bézout)."""
_TOUCH = 0.5
"""Where two curves touch, they lie on each other as near as can be told for about as long as this (mm): one place."""
_MOST_STEPS = 60


def endless(a: Segment, b: Segment) -> tuple[Point, ...]:
    """Where a cubic meets another, or the endless line or whole circle of ``a`` or ``b``."""
    if is_cubic(a) and is_cubic(b):
        return with_cubic(a, b)
    curve, other = (a, b) if is_cubic(a) else (b, a)
    if is_line(other):
        return with_line(curve, start(other), unit(start(other), end(other)))
    return with_circle(curve, centre(other), arcs.radius(other))


def with_line(curve: Segment, place: Point, along: Point) -> tuple[Point, ...]:
    """With the endless line through ``place`` in the direction of a unit vector."""
    out = left_of(along)
    offs = [dot(minus(each, place), out) for each in _corners(curve)]
    if min(offs) > SAME or max(offs) < -SAME:
        return ()
    x, y = powers(tuple(number - place[index % 2] for index, number in enumerate(curve)))
    off = polynomials.plus(tuple(out[0] * c for c in x), tuple(out[1] * c for c in y))
    return tuple(point(curve, t) for t in polynomials.zeros(off, SAME))


def with_circle(curve: Segment, middle: Point, radius: float) -> tuple[Point, ...]:
    offs = [minus(each, middle) for each in _corners(curve)]
    beyond = radius + SAME
    if any(min(sides) > beyond or max(sides) < -beyond for sides in zip(*offs, strict=True)):
        return ()
    x, y = powers(tuple(number - middle[index % 2] for index, number in enumerate(curve)))
    square = polynomials.plus(polynomials.times(x, x), polynomials.times(y, y))
    off = (square[0] - radius * radius, *square[1:])
    return tuple(point(curve, t) for t in polynomials.zeros(off, 2.0 * radius * SAME))


def with_cubic(a: Segment, b: Segment) -> tuple[Point, ...]:
    """Not the stretches that the two share."""
    found: list[Point] = []
    pairs, looked = [((a, 0.0, 1.0), (b, 0.0, 1.0))], 0
    while pairs and looked < _MOST_PAIRS:
        looked += 1
        (one, s0, s1), (other, t0, t1) = pairs.pop()
        if apart(one, other):
            continue
        first, second = _off_chord(one), _off_chord(other)
        if max(first, second) <= _FLAT:
            tries = ((s0, t0), (s1, t1), ((s0 + s1) / 2.0, (t0 + t1) / 2.0))
            found = _once([*found, *(met for s, t in tries if (met := _sharpened(a, b, s, t)) is not None)])
            if len(found) > _MOST_MEETINGS and len(_once(found, _TOUCH)) > _MOST_MEETINGS:
                return ()
        elif first >= second:
            s = (s0 + s1) / 2.0
            near, far = middle_of(one)
            pairs += [((near, s0, s), (other, t0, t1)), ((far, s, s1), (other, t0, t1))]
        else:
            t = (t0 + t1) / 2.0
            near, far = middle_of(other)
            pairs += [((one, s0, s1), (near, t0, t)), ((one, s0, s1), (far, t, t1))]
    return tuple(found)


def _once(found: list[Point], near: float = 2.0 * SAME) -> list[Point]:
    kept: list[Point] = []
    for place in found:
        if not any(same(place, other, near) for other in kept):
            kept.append(place)
    return kept


def apart(a: Segment, b: Segment) -> bool:
    """Do the boxes round their ends and handles keep clear of each other? Then so do the two."""
    for one, other in zip(zip(*_corners(a), strict=True), zip(*_corners(b), strict=True), strict=True):
        if min(one) > max(other) + SAME or min(other) > max(one) + SAME:
            return True
    return False


def _corners(segment: Segment) -> tuple[Point, ...]:
    return (start(segment), *handles(segment), end(segment))


def _off_chord(segment: Segment) -> float:
    """How far (mm) the handles stand off the third parts of the chord; nothing for an evenly run line."""
    x0, y0, x1, y1, ax, ay, bx, by = segment
    first = abs(ax - (2.0 * x0 + x1) / 3.0) + abs(ay - (2.0 * y0 + y1) / 3.0)
    last = abs(bx - (x0 + 2.0 * x1) / 3.0) + abs(by - (y0 + 2.0 * y1) / 3.0)
    return max(first, last)


def _sharpened(a: Segment, b: Segment, s: float, t: float) -> Point | None:
    """The meeting that Newton's method leads to from two places; ``None`` when the curves do not meet there."""
    for _ in range(_MOST_STEPS):
        gap = minus(point(b, t), point(a, s))
        along, other = slope(a, s), slope(b, t)
        turn = cross(along, other)
        if abs(turn) <= SAME:
            break
        further, later = cross(gap, other) / turn, cross(gap, along) / turn
        was = s, t
        s, t = min(max(s + further, 0.0), 1.0), min(max(t + later, 0.0), 1.0)
        if abs(s - was[0]) + abs(t - was[1]) <= 1e-15:
            break
    here = point(a, s)
    return here if distance(here, point(b, t)) <= SAME else None


def loop(curve: Segment) -> tuple[float, float] | None:
    """The two places where a cubic passes through one point; one place twice, where it stops in a cusp.

    With p = A t³ + B t² + C t + D, p(s) = p(t) means (s² + st + t²) A + (s + t) B + C = 0; crossed with A and with B
    this gives s + t and st.
    """
    x, y = powers(curve)
    (_, cx, bx, ax), (_, cy, by, ay) = x, y
    a, b, c = (ax, ay), (bx, by), (cx, cy)
    whole = cross(a, b)
    if whole == 0.0:
        return None
    total = cross(c, a) / whole
    product = total * total - cross(b, c) / whole
    inside = total * total - 4.0 * product
    if inside < 0.0:
        return None
    first, last = (total - sqrt(inside)) / 2.0, (total + sqrt(inside)) / 2.0
    return (first, last) if first >= 0.0 and last <= 1.0 else None
