"""Curves as a writer describes them: by the directions at their ends, through points, to a length; and bowed arcs.

**Handles** (our own rule). Of a curve that turns by θ in all, θ₀ away from its chord c at the start and θ₁ at the end,
the handle at the start is

    2c/3 · 1 / (1 + cos(θ/2)) · max(1/2, sin θ₁ / sin(θ/2))        (θ = θ₀ + θ₁, as sizes without sign)

and the one at the end the same with θ₀. Where θ₀ = θ₁ this is the usual cubic for a circular arc, with handles of
4/3 · tan(θ/4) radii, which strays from a quarter circle by 0.027 % of its radius; where they differ it is that arc
stretched to a part of an ellipse, up to a length 2.7 times the width. Source: plane geometry of the circle.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import cos, radians, sin, sqrt

from chalkfold.geometry import cubics, splines
from chalkfold.geometry.bezier import tightest
from chalkfold.geometry.cubic_meetings import loop
from chalkfold.geometry.points import direction, distance, facing, polar, same
from chalkfold.geometry.shapes import SAME, Edge, Point, Segment, cubic
from chalkfold.geometry.trouble import GeometryTrouble, Reason, in_cm

SHARPEST = 1.0
"""A bend tighter than this radius (mm) is a point, which no one means when writing a curve. Our own limit."""
_LEAST_SHARE = 0.5
_MOST_TURN = 120.0
"""Half of the turn (degrees) up to which handles grow."""
_STEP, _STEPS = 0.125, 32
"""For a length, handles are tried in such parts of their usual length, up to four times as long."""
_HALVINGS = 60
_MET = 1e-10
"""A curve to a length has it to this much (mm)."""


def curve(a: Point, b: Point, leaving: float, arriving: float) -> Edge:
    """From ``a`` to ``b``; directions of travel in degrees. Raises where it would loop or come to a point."""
    _not_one_point(a, b)
    made = _with_handles(a, b, leaving, arriving, 1.0)
    _smooth(made)
    return (made,)


def of_length(a: Point, b: Point, leaving: float, arriving: float, length: float) -> Edge:
    """The same with both handles longer or shorter in one proportion, so that it is ``length`` mm long.

    Raises when the straight way is longer, or none of that length runs smoothly.
    """
    _not_one_point(a, b)
    straight = distance(a, b)
    if length <= straight + SAME:
        raise _not_so_long(length, f"the straight way is {in_cm(straight)} already", "more", straight)
    longest = 0.0
    for step in range(_STEPS):
        tried = _with_handles(a, b, leaving, arriving, (step + 1) * _STEP)
        here = cubics.length(tried)
        if (here < length and here <= longest) or _fault_in(tried) is not None:
            continue
        longest = max(longest, here)
        if here >= length:
            break
    else:
        most = f"with these directions it is at most {in_cm(longest)}" if longest else "it would loop"
        raise _not_so_long(length, most, "less", longest)
    made = _closed_in(a, b, (leaving, arriving), length, step * _STEP)
    if _fault_in(made) is not None:
        raise _not_so_long(length, f"with these directions it is at least {in_cm(here)}", "more", here)
    return (made,)


def _closed_in(a: Point, b: Point, directions: tuple[float, float], length: float, low: float) -> Segment:
    """The one that has the length, with handles between ``low`` and one step more times their usual length."""
    high = low + _STEP
    made = _with_handles(a, b, *directions, high)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        made = _with_handles(a, b, *directions, middle)
        here = cubics.length(made)
        if abs(here - length) <= _MET:
            break
        low, high = (low, middle) if here > length else (middle, high)
    return made


def _not_so_long(length: float, why: str, what: str, bound: float) -> GeometryTrouble:
    message = f"the curve cannot be {in_cm(length)} long: {why}"
    hint = f"write a length of {what} than that, move an end, or turn a direction"
    return GeometryTrouble(Reason.LENGTH_NOT_MET, message, hint, measures=(length, bound))


def _with_handles(a: Point, b: Point, leaving: float, arriving: float, scale: float) -> Segment:
    first, last = _handles(a, b, leaving, arriving)
    return cubic(a, b, polar(a, leaving, scale * first), polar(b, arriving + 180.0, scale * last))


def _handles(a: Point, b: Point, leaving: float, arriving: float) -> tuple[float, float]:
    """How long (mm) the rule above makes them."""
    chord = direction(a, b)
    first, last = _turn(chord, leaving), _turn(chord, arriving)
    half = min((first + last) / 2.0, _MOST_TURN)
    usual = 2.0 / 3.0 * distance(a, b) / (1.0 + cos(radians(half)))
    if half <= SAME:
        return usual, usual

    def share(turn: float) -> float:
        return max(_LEAST_SHARE, sin(radians(turn)) / sin(radians(half)))

    return usual * share(last), usual * share(first)


def _turn(one: float, other: float) -> float:
    """Between two directions, from 0 to 180 degrees."""
    apart = abs(one - other) % 360.0
    return min(apart, 360.0 - apart)


def through(places: Sequence[Point], leaving: float | None = None, arriving: float | None = None) -> Edge:
    """One smooth curve through all the places, in directions of travel (degrees) or free at its ends.

    Source: the cubic spline over the lengths of the chords; a free end has no curvature there ("natural").
    """
    for a, b in pairwise(places):
        _not_one_point(a, b)
    first, last = (None if angle is None else facing(angle) for angle in (leaving, arriving))
    edge = splines.through(places, first, last)
    for segment in edge:
        _smooth(segment)
    return edge


def _not_one_point(a: Point, b: Point) -> None:
    if same(a, b):
        raise GeometryTrouble(
            Reason.NO_LENGTH, "the curve starts and ends at one point", "lead the curve to a point away from its start"
        )


def _smooth(made: Segment) -> None:
    fault = _fault_in(made)
    if fault is not None:
        hint = "turn a direction so that the curve leaves towards its end and arrives coming from its start"
        raise GeometryTrouble(Reason.LOOP, fault, hint)


def _fault_in(made: Segment) -> str | None:
    if loop(made) is not None:
        return "the curve crosses itself in a loop"
    return "the curve comes to a point instead of running smoothly" if tightest(made) < SHARPEST else None


def across(a: Point, b: Point) -> float:
    """The horizontal direction (0 or 180 degrees) in which ``b`` lies from ``a``. Raises when it lies in neither."""
    if abs(b[0] - a[0]) <= SAME:
        raise GeometryTrouble(
            Reason.NO_DIRECTION,
            "the two ends lie straight above each other, so that across could be left or right",
            "write `left` or `right`",
        )
    return 0.0 if b[0] > a[0] else 180.0


def square(ahead: Point, a: Point, b: Point) -> float:
    """The direction square to that of an edge that leads more from ``a`` towards ``b`` than back. Raises if neither."""
    chord = (b[0] - a[0], b[1] - a[1])
    lean = ahead[1] * chord[0] - ahead[0] * chord[1]
    if abs(lean) <= SAME * sqrt(chord[0] * chord[0] + chord[1] * chord[1]):
        raise GeometryTrouble(
            Reason.NO_DIRECTION,
            "the curve lies along the edge, so that square to it could be either side",
            "write a direction instead, such as `left` or `down`",
        )
    out = (ahead[1], -ahead[0]) if lean > 0 else (-ahead[1], ahead[0])
    return direction((0.0, 0.0), out)
