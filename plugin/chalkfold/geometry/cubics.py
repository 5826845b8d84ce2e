"""Cubic curves (of Bézier): what is asked of every kind of segment (see ``lines.py``).

A cubic is ``(x0, y0, x1, y1, c1x, c1y, c2x, c2y)``: from start to end, leaving towards the first handle, arriving from
the second. ``t`` runs from 0 to 1 along it, not evenly. Lengths are Gauss–Legendre quadrature of the speed, halved
until it agrees to ``EXACT``; far below 0.01 mm on any cloth.
Source: the definition by P. Bézier and P. de Casteljau; nodes and weights from Abramowitz and Stegun, table 25.4.
"""

from __future__ import annotations

from bisect import bisect_left
from functools import lru_cache
from itertools import pairwise
from math import sqrt

from chalkfold.geometry import parallels, polynomials
from chalkfold.geometry.bezier import divided, off_box, point, powers, speed, tangent
from chalkfold.geometry.points import cross, distance, dot, minus, same, shifted
from chalkfold.geometry.shapes import JOIN, SAME, Edge, Point, Segment, cubic, end, handles, line, start

EXACT = 1e-11
"""Two ways to measure a stretch agree to this part of the whole."""
_MET = 1e-12
"""A place along a curve has its length to this much (mm)."""
_HALVINGS = 12
_MOST_STEPS = 40
_NODES = (
    (0.1834346424956498, 0.3626837833783620),
    (0.5255324099163290, 0.3137066458778873),
    (0.7966664774136267, 0.2223810344533745),
    (0.9602898564975363, 0.1012285362903763),
)
_NODES_BOTH_WAYS = tuple((way * node, weight) for node, weight in _NODES for way in (-1.0, 1.0))


def length(segment: Segment) -> float:
    return _measured(segment)[1][-1]


def length_to(segment: Segment, t: float) -> float:
    """How long (mm) the curve is from its start to ``t``."""
    stops, lengths = _measured(segment)
    place = max(1, bisect_left(stops, t))
    if place >= len(stops):
        return lengths[-1]
    return lengths[place] if t == stops[place] else lengths[place - 1] + _stretch(segment, stops[place - 1], t)


def t_at(segment: Segment, along: float) -> float:
    """Where (0 to 1) the curve has run ``along`` mm: by Newton's method, else by halves."""
    stops, lengths = _measured(segment)
    if along <= 0.0 or along >= lengths[-1]:
        return 0.0 if along <= 0.0 else 1.0
    place = bisect_left(lengths, along)
    begin, a, b = stops[place - 1], stops[place - 1], stops[place]
    rest, whole = along - lengths[place - 1], lengths[place] - lengths[place - 1]
    t = a + (b - a) * rest / whole
    for _ in range(_MOST_STEPS):
        off = _stretch(segment, begin, t) - rest
        a, b = (a, t) if off > 0.0 else (t, b)
        fast = speed(segment, t)
        ahead = t - off / fast if fast > SAME else a
        ahead = ahead if a < ahead < b else (a + b) / 2.0
        if abs(ahead - t) <= 1e-15 or abs(off) <= _MET:
            break
        t = ahead
    return t


@lru_cache(maxsize=1024)
def _measured(segment: Segment) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Places from 0 to 1, and the length up to each."""
    first, last = handles(segment)
    slack = EXACT * (distance(start(segment), first) + distance(first, last) + distance(last, end(segment)))
    stops, lengths = [0.0], [0.0]
    for stop, long in _halved(segment, 0.0, 1.0, _stretch(segment, 0.0, 1.0), slack, _HALVINGS):
        stops.append(stop)
        lengths.append(lengths[-1] + long)
    return tuple(stops), tuple(lengths)


def _halved(
    segment: Segment, a: float, b: float, whole: float, slack: float, deep: int
) -> tuple[tuple[float, float], ...]:
    middle = (a + b) / 2.0
    first, second = _stretch(segment, a, middle), _stretch(segment, middle, b)
    if deep == 0 or abs(first + second - whole) <= slack:
        return (middle, first), (b, second)
    before = _halved(segment, a, middle, first, slack, deep - 1)
    return before + _halved(segment, middle, b, second, slack, deep - 1)


def _stretch(segment: Segment, a: float, b: float) -> float:
    """How long it is from ``a`` to ``b``. Most time goes here, so the slope is put in as powers of ``t``."""
    x0, y0, x1, y1, ax, ay, bx, by = segment
    px, qx, rx = 3.0 * (ax - x0), 6.0 * (bx - 2.0 * ax + x0), 3.0 * (x1 - 3.0 * bx + 3.0 * ax - x0)
    py, qy, ry = 3.0 * (ay - y0), 6.0 * (by - 2.0 * ay + y0), 3.0 * (y1 - 3.0 * by + 3.0 * ay - y0)
    middle, half = (a + b) / 2.0, (b - a) / 2.0
    total = 0.0
    for node, weight in _NODES_BOTH_WAYS:
        t = middle + half * node
        x, y = px + t * (qx + t * rx), py + t * (qy + t * ry)
        total += weight * sqrt(x * x + y * y)
    return total * half


def point_at(segment: Segment, along: float) -> Point:
    """``along`` mm from the start; before the start or past the end it runs on straight."""
    if along < 0.0:
        return shifted(start(segment), tangent(segment, 0.0), along)
    whole = length(segment)
    if along > whole:
        return shifted(end(segment), tangent(segment, 1.0), along - whole)
    return point(segment, t_at(segment, along))


def tangent_at(segment: Segment, along: float) -> Point:
    return tangent(segment, t_at(segment, along))


def level_with(segment: Segment, place: Point) -> list[Point]:
    """Points in order along the curve, from each to the next it stays above ``place`` or below, and turns less than
    half a circle around it: its ends, where it is level with ``place``, and half-way between those.
    """
    _, down = powers(segment)
    stops = [0.0, *polynomials.zeros((down[0] - place[1], *down[1:])), 1.0]
    halves = [each for a, b in pairwise(stops) for each in (a, (a + b) / 2.0)]
    return [point(segment, t) for t in (*halves, 1.0)]


def backwards(segment: Segment) -> Segment:
    first, last = handles(segment)
    return cubic(end(segment), start(segment), last, first)


def reach(segment: Segment, towards: Point) -> tuple[float, float]:
    """Least and greatest extent (mm) in the direction of a unit vector, exact where the curve turns."""
    x, y = powers(segment)
    out = polynomials.plus(tuple(towards[0] * c for c in x), tuple(towards[1] * c for c in y))
    found = [dot(start(segment), towards), dot(end(segment), towards)]
    found += [polynomials.value(out, t) for t in polynomials.zeros(polynomials.derivative(out))]
    return min(found), max(found)


def nearest_t(segment: Segment, place: Point) -> float:
    """Where (0 to 1) the curve is nearest to a point; there the way to it is square to the curve, or it is an end."""
    for t, tip in ((0.0, start(segment)), (1.0, end(segment))):
        if tip == place:
            return t
    x, y = powers(tuple(number - place[index % 2] for index, number in enumerate(segment)))
    square = polynomials.plus(
        polynomials.times(x, polynomials.derivative(x)), polynomials.times(y, polynomials.derivative(y))
    )
    best, found = distance(start(segment), place), 0.0
    for t in (*polynomials.zeros(square), 1.0):
        off = distance(point(segment, t), place)
        if off < best:
            best, found = off, t
    return found


def nearest_point(segment: Segment, place: Point) -> Point:
    return point(segment, nearest_t(segment, place))


def nearest(segment: Segment, place: Point) -> float:
    return length_to(segment, nearest_t(segment, place))


def part(segment: Segment, first: float, last: float) -> Segment:
    return divided(segment, t_at(segment, first), t_at(segment, last))


def area(segment: Segment) -> float:
    """Its share of the area (mm²) of an outline: half of ∫ x dy − y dx along the curve, exactly."""
    a, d, (b, c) = start(segment), end(segment), handles(segment)
    near = 6.0 * (cross(a, b) + cross(c, d)) + 3.0 * (cross(a, c) + cross(b, c) + cross(b, d))
    return (near + cross(a, d)) / 20.0


def beside(segment: Segment, by: float) -> Edge | None:
    return parallels.beside(segment, by)


def led_to(cut: Edge, first: Point, last: Point) -> Edge | None:
    """Cubics that follow each other, trimmed or run on straight to two points; ``None`` when nothing is left."""
    begin, stop = _place_on(cut, first), _place_on(cut, last)
    beyond = dot(minus(first, start(cut[0])), tangent(cut[0], 0.0)) > 0.0
    if begin is None and beyond:
        return None
    kept = _between(cut, begin or (0, 0.0), stop or (len(cut) - 1, 1.0))
    if not kept:
        return None
    lead: Edge = (line(first, start(kept[0])),) if begin is None else ()
    trail: Edge = (line(end(kept[-1]), last),) if stop is None else ()
    if begin is not None:
        kept[0] = (*first, *kept[0][2:])
    if stop is not None:
        kept[-1] = (*kept[-1][:2], *last, *kept[-1][4:])
    return (*lead, *kept, *trail)


def _place_on(cut: Edge, place: Point) -> tuple[int, float] | None:
    """Which cubic a point lies on, and where (0 to 1); ``None`` when it lies off them."""
    near = [(index, segment) for index, segment in enumerate(cut) if off_box(segment, place) <= JOIN]
    found = [(index, nearest_t(segment, place)) for index, segment in near]
    index, t = min(found, key=lambda each: distance(point(cut[each[0]], each[1]), place), default=(0, 0.0))
    return (index, t) if same(point(cut[index], t), place, JOIN) else None


def _between(cut: Edge, begin: tuple[int, float], stop: tuple[int, float]) -> list[Segment]:
    kept = []
    for index in range(begin[0], stop[0] + 1):
        a, b = begin[1] if index == begin[0] else 0.0, stop[1] if index == stop[0] else 1.0
        piece = divided(cut[index], a, b)
        if a < b and length(piece) > SAME:
            kept.append(piece)
    return kept
