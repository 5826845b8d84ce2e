"""The shapes every function here speaks of, as plain tuples of numbers, and the tolerances.

Coordinates in mm, ``x`` across to the right, ``y`` down. Angles in degrees from across turning towards down, which is
clockwise on the page. Segments are told apart by how many numbers they have:

* a line is ``(x0, y0, x1, y1)``;
* an arc is ``(x0, y0, x1, y1, cx, cy, sweep)``: from start to end around a centre, ``sweep`` positive clockwise;
* a cubic curve is ``(x0, y0, x1, y1, c1x, c1y, c2x, c2y)``: it leaves towards its first handle, and arrives from its
  second.
"""

from __future__ import annotations

Point = tuple[float, float]
Segment = tuple[float, ...]
Edge = tuple[Segment, ...]
"""Segments, each starting where the one before ends."""
Outline = tuple[Edge, ...]
"""Edges in order; the last ends where the first starts."""
Box = tuple[float, float, float, float]
"""Left, top, right, bottom."""

SAME = 1e-6
"""Points closer than this (mm) are one point."""
JOIN = 0.01
"""Nothing drawn or cut shows a difference smaller than this (mm)."""
EQUAL_RADII = 0.05
"""The two ends of an arc may differ by this much (mm) in their distance from its centre."""

LINE = 4
ARC = 7
CUBIC = 8


def is_line(segment: Segment) -> bool:
    return len(segment) == LINE


def is_arc(segment: Segment) -> bool:
    return len(segment) == ARC


def is_cubic(segment: Segment) -> bool:
    return len(segment) == CUBIC


def start(segment: Segment) -> Point:
    return segment[0], segment[1]


def end(segment: Segment) -> Point:
    return segment[2], segment[3]


def centre(arc: Segment) -> Point:
    return arc[4], arc[5]


def line(a: Point, b: Point) -> Segment:
    return *a, *b


def arc(a: Point, b: Point, around: Point, sweep: float) -> Segment:
    return *a, *b, *around, sweep


def handles(cubic: Segment) -> tuple[Point, Point]:
    return (cubic[4], cubic[5]), (cubic[6], cubic[7])


def cubic(a: Point, b: Point, first: Point, last: Point) -> Segment:
    return *a, *b, *first, *last
