"""The parallel of a cubic curve is none: as many cubics as stay within ``STRAY`` of it, joined without corners.

Each is laid with the ends, the directions and the speed of the parallel: on a curve of curvature k, the parallel ``by``
mm to its left runs at 1 + by · k times its speed. Source: plane geometry; the cubic of C. Hermite.
"""

from __future__ import annotations

from chalkfold.geometry.bezier import curvature, point, slope, tangent
from chalkfold.geometry.points import distance, left_of, shifted
from chalkfold.geometry.shapes import Edge, Point, Segment, cubic

STRAY = 0.02
"""Farthest (mm) a parallel is off its allowance."""
_TRIED = tuple(step / 10.0 for step in range(1, 10))
_ASKED = 0.8 * STRAY
"""At the places that are tried, so that between them it stays within ``STRAY``."""
_HALVINGS = 9


def beside(segment: Segment, by: float) -> Edge | None:
    """The parallel ``by`` mm to the left as one travels; ``None`` when a hollow is tighter than that."""
    return _laid(segment, by, 0.0, 1.0, _HALVINGS)


def _laid(segment: Segment, by: float, a: float, b: float, deep: int) -> Edge | None:
    places = (a, *(a + (b - a) * part for part in _TRIED), b)
    if any(_quicker(segment, by, t) <= 0.0 for t in places):
        return None
    one = _hermite(segment, by, a, b)
    strays = (distance(point(one, part), _aside(segment, by, a + (b - a) * part)) for part in _TRIED)
    if max(strays) <= _ASKED:
        return (one,)
    middle = (a + b) / 2.0
    before = _laid(segment, by, a, middle, deep - 1) if deep else None
    after = None if before is None else _laid(segment, by, middle, b, deep - 1)
    return None if before is None or after is None else before + after


def _quicker(segment: Segment, by: float, t: float) -> float:
    """How many times as fast the parallel runs; below 0 it runs backwards."""
    return 1.0 + by * curvature(segment, t)


def _aside(segment: Segment, by: float, t: float) -> Point:
    return shifted(point(segment, t), left_of(tangent(segment, t)), by)


def _hermite(segment: Segment, by: float, a: float, b: float) -> Segment:
    begin, stop = _aside(segment, by, a), _aside(segment, by, b)
    third = (b - a) / 3.0
    out, home = third * _quicker(segment, by, a), third * _quicker(segment, by, b)
    first, last = slope(segment, a), slope(segment, b)
    return cubic(
        begin,
        stop,
        (begin[0] + first[0] * out, begin[1] + first[1] * out),
        (stop[0] - last[0] * home, stop[1] - last[1] * home),
    )
