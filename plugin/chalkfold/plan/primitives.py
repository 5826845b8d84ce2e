"""The primitives: about forty small total functions that every step is made from.

Given finite numbers each returns a value or raises ``Trouble`` (or OverflowError); none loops longer than
``MOST_MARKS``. The page's script has the same table (``evaluator.js`` of the theme), and
``tests/vectors/primitives.json`` holds both to it. Lengths in mm, angles in degrees.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from chalkfold.amounts import to_mark
from chalkfold.amounts.rounding import marks_down, marks_in, marks_up
from chalkfold.diagnostics import Code
from chalkfold.geometry import sector
from chalkfold.plan.constructing import CONSTRUCTING
from chalkfold.plan.drafting import DRAFTING
from chalkfold.plan.from_pieces import FROM_PIECES
from chalkfold.plan.trouble import Trouble

MOST_MARKS = 2_000
"""Longest row of marks along a length; more is a slip of a unit, not a garment."""
SAME = 1e-6
"""Lengths closer than this (mm), and plain numbers closer than this, count as equal."""

Row = tuple[float, ...]


def divide(a: float, b: float) -> float:
    if b == 0:
        raise Trouble(Code.WORK_DIVIDE, "this divides by zero", "make sure that what stands after `/` is never 0")
    return a / b


def power(base: float, exponent: float) -> float:
    """``base`` to a plain exponent between -8 and 8; whole exponents by repeated multiplication."""
    if not -8 <= exponent <= 8:
        raise Trouble(Code.WORK_DOMAIN, "an exponent may be at most 8", "write an exponent from -8 to 8")
    if exponent == int(exponent):
        result = 1.0
        for _ in range(abs(int(exponent))):
            result *= base
        return divide(1.0, result) if exponent < 0 else result
    if base < 0:
        raise Trouble(
            Code.WORK_DOMAIN,
            "a negative number has no such power",
            "make sure that what stands before `^` is never below 0",
        )
    if base == 0 and exponent < 0:
        return divide(1.0, 0.0)
    return float(base**exponent)


def square_root(x: float) -> float:
    """What counts as equal to nothing has a root of nothing."""
    if x < -SAME:
        raise Trouble(
            Code.WORK_DOMAIN,
            "a negative number has no square root",
            "make sure that what stands in `sqrt( )` is never below 0",
        )
    return math.sqrt(max(0.0, x))


def tangent(degrees: float) -> float:
    if abs(math.cos(math.radians(degrees))) < 1e-12:
        raise Trouble(Code.WORK_DOMAIN, "a right angle has no tangent", "keep the angle in `tan( )` below 90°")
    return math.tan(math.radians(degrees))


def arc_sine(x: float) -> float:
    """The angle (degrees) of a sine; what counts as equal to 1 is 1."""
    if abs(x) > 1 + SAME:
        raise Trouble(
            Code.WORK_DOMAIN,
            "the distance is longer than the radius",
            "make the radius larger or the distance smaller",
        )
    return math.degrees(math.asin(max(-1.0, min(1.0, x))))


def on_mark(length: float, mark: float) -> float:
    """``length`` rounded to the nearest ``mark`` (both mm); a half goes up."""
    if mark <= 0:
        raise Trouble(Code.WORK_DOMAIN, "a tape mark of nothing", "make the mark more than 0")
    return to_mark(length, mark)


def equal(a: float, b: float) -> bool:
    return abs(a - b) <= SAME


def series(first: float, step: float, count: float) -> Row:
    """``count`` positions from ``first``, each ``step`` (mm) after the one before."""
    whole = marks_in(count, 1)
    if whole > MOST_MARKS:
        raise Trouble(
            Code.WORK_RANGE,
            f"this makes more than {MOST_MARKS} marks",
            "check the unit of the space, or give a `count:`",
        )
    return tuple(first + i * step for i in range(whole))


def positions_between(positions: Row, start: float, end: float) -> Row:
    """Those of ``positions`` from ``start`` up to, not including, ``end``, measured from ``start``."""
    return tuple(max(0.0, p - start) for p in positions if start - SAME <= p < end - SAME)


def clear_shift(step: float, seams: Row) -> float:
    """Where the first of evenly spaced marks starts so that all keep farthest from the seams.

    Seams are taken modulo ``step``; the mark stands in the middle of the widest stretch between two of them.
    """
    if step <= SAME:
        return 0.0
    rests = sorted(s % step for s in seams)
    if not rests:
        return 0.0
    widest, at = -1.0, 0.0
    for here, after in zip(rests, [*rests[1:], rests[0] + step], strict=True):
        if after - here > widest + SAME:
            widest, at = after - here, (here + after) / 2
    return at % step


def clearance(positions: Row, seams: Row, around: float) -> float:
    """Distance (mm) from the seams to the mark nearest to any of them.

    ``around`` is the girth of a closed edge, on which the short way counts; 0 for a flat row.
    """
    if not positions or not seams:
        return 1e6
    gaps = (abs(p - s) for p in positions for s in seams)
    return min(min(g, abs(around - g)) for g in gaps) if around else min(gaps)


PRIMITIVES: dict[str, Callable[..., Any]] = {
    "+": lambda a, b: a + b,
    "-": lambda a, b: a - b,
    "*": lambda a, b: a * b,
    "of": lambda a, b: a * b,
    "/": divide,
    "^": power,
    "neg": lambda a: -a,
    "=": equal,
    "!=": lambda a, b: not equal(a, b),
    "<": lambda a, b: a < b - SAME,
    "<=": lambda a, b: a <= b + SAME,
    ">": lambda a, b: a > b + SAME,
    ">=": lambda a, b: a >= b - SAME,
    "not": lambda a: not a,
    "min": lambda *each: min(each),
    "max": lambda *each: max(each),
    "sqrt": square_root,
    "sin": lambda a: math.sin(math.radians(a)),
    "cos": lambda a: math.cos(math.radians(a)),
    "tan": tangent,
    "asin": arc_sine,
    "round": lambda a: float(marks_in(a, 1)),
    "round up": lambda a: float(marks_up(a, 1)),
    "round down": lambda a: float(marks_down(a, 1)),
    "to mark": on_mark,
    "series": series,
    "row": lambda *lengths: lengths,
    "positions between": positions_between,
    "clear shift": clear_shift,
    "clearance": clearance,
    "count of series": lambda row: float(len(row)),
    "sector width": sector.width,
    "sector height": sector.height,
    "point": lambda across, down: (across, down),
    "across of": lambda p: p[0],
    "down of": lambda p: p[1],
    "distance": lambda p, q: math.sqrt((p[0] - q[0]) * (p[0] - q[0]) + (p[1] - q[1]) * (p[1] - q[1])),
    **DRAFTING,
    **FROM_PIECES,
    **CONSTRUCTING,
}
"""All but ``if``, ``and`` and ``or``: the evaluator works those, so that only the operand needed is worked."""
