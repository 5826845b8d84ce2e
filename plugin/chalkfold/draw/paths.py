"""From millimetres of cloth to units of a drawing, and arcs and curves as chords where only their room matters."""

from __future__ import annotations

import itertools
from collections.abc import Iterable
from math import acos, ceil, cos, degrees, radians, sin, sqrt
from typing import NamedTuple

from chalkfold.geometry import bezier
from chalkfold.geometry.points import distance
from chalkfold.geometry.shapes import ARC, CUBIC, Edge, Point, Segment

CHORD, STRAY = 8.0, 0.5
"""An arc is taken as chords of this many degrees at most, which stray from it by this much at most."""
MOST_CHORDS = 200


class Frame(NamedTuple):
    """How cloth lies on the page: units per mm, and where the cloth's (0, 0) comes to lie."""

    scale: float
    dx: float = 0.0
    dy: float = 0.0

    def point(self, point: Point) -> Point:
        return point[0] * self.scale + self.dx, point[1] * self.scale + self.dy

    def edge(self, edge: Edge) -> Edge:
        return tuple(self.segment(segment) for segment in edge)

    def segment(self, segment: Segment) -> Segment:
        """Arcs stay arcs: the frame neither turns nor mirrors."""
        pairs = zip(segment[0::2], segment[1::2], strict=False)
        placed = tuple(number for point in pairs for number in self.point(point))
        return (*placed, *segment[len(placed) :])


def start_of(edge: Edge) -> Point:
    return edge[0][0], edge[0][1]


def end_of(edge: Edge) -> Point:
    return edge[-1][2], edge[-1][3]


def radius_of(arc: Segment) -> float:
    x, y = arc[0] - arc[4], arc[1] - arc[5]
    return sqrt(x * x + y * y)


def flat(edge: Edge) -> list[Point]:
    """Points along an edge, one every few degrees of an arc, and as close on a curve."""
    points = [start_of(edge)] if edge else []
    for segment in edge:
        if len(segment) == ARC:
            steps = max(1, ceil(abs(segment[6]) / _chord(radius_of(segment))))
            points += [turned(segment, step / steps) for step in range(1, steps)]
        elif len(segment) == CUBIC:
            steps = _steps(segment)
            points += [bezier.point(segment, step / steps) for step in range(1, steps)]
        points.append((segment[2], segment[3]))
    return points


def _chord(radius: float) -> float:
    """Degrees of a chord: r (1 − cos(half)) is how far it strays."""
    if radius <= STRAY:
        return 45.0
    return max(0.25, min(CHORD, 2 * degrees(acos(1 - STRAY / radius))))


def _steps(curve: Segment) -> int:
    """Chords of a cubic: one of length h in t strays by at most h² / 8 of how fast its slope changes."""
    changes = max(sqrt(x * x + y * y) for x, y in (bezier.bend(curve, 0.0), bezier.bend(curve, 1.0)))
    return max(1, min(MOST_CHORDS, ceil(sqrt(changes / (8.0 * STRAY)))))


def turned(arc: Segment, part: float) -> Point:
    """The point at ``part`` (0 to 1) of an arc."""
    x, y, turn = arc[0] - arc[4], arc[1] - arc[5], radians(arc[6] * part)
    return arc[4] + x * cos(turn) - y * sin(turn), arc[5] + x * sin(turn) + y * cos(turn)


def middle(edge: Edge) -> tuple[Point, Point]:
    """The middle of an edge and the direction along it there (unit length)."""
    points = flat(edge)
    lengths = [distance(one, other) for one, other in itertools.pairwise(points)]
    left = sum(lengths) / 2
    for (one, other), length in zip(itertools.pairwise(points), lengths, strict=True):
        if left <= length and length > 0:
            part = left / length
            along = ((other[0] - one[0]) / length, (other[1] - one[1]) / length)
            return (one[0] + part * (other[0] - one[0]), one[1] + part * (other[1] - one[1])), along
        left -= length
    return points[0], (1.0, 0.0)


def aside(edge: Edge, outward: Point, by: float) -> Edge:
    """The edge shifted to the side of ``outward``, segment by segment; arcs keep their centre, curves their shape."""
    shifted: list[Segment] = []
    for segment in edge:
        if len(segment) == ARC:
            shifted.append(_wider(segment, outward, by))
        else:
            x, y = normal((segment[2] - segment[0], segment[3] - segment[1]), outward)
            shifted.append(tuple(number + by * (x, y)[index % 2] for index, number in enumerate(segment)))
    return tuple(shifted)


def _wider(arc: Segment, outward: Point, by: float) -> Segment:
    x, y = turned(arc, 0.5)
    away = (x - arc[4]) * outward[0] + (y - arc[5]) * outward[1] >= 0
    radius = radius_of(arc)
    grown = max(0.0, (radius + (by if away else -by)) / radius) if radius else 1.0
    cx, cy = arc[4], arc[5]
    x0, y0, x1, y1 = (
        cx + (arc[0] - cx) * grown,
        cy + (arc[1] - cy) * grown,
        cx + (arc[2] - cx) * grown,
        cy + (arc[3] - cy) * grown,
    )
    return (x0, y0, x1, y1, cx, cy, arc[6])


def unit(vector: Point) -> Point:
    """The direction of a vector; of a vector without length, up the page."""
    length = sqrt(vector[0] * vector[0] + vector[1] * vector[1])
    return (vector[0] / length, vector[1] / length) if length > 1e-12 else (0.0, -1.0)


def normal(along: Point, side: Point) -> Point:
    """The direction square to ``along`` on the side of ``side``."""
    x, y = unit(along)
    return (y, -x) if y * side[0] - x * side[1] >= 0 else (-y, x)


def circle(centre: Point, radius: float) -> Edge:
    """A full circle as two half turns, which any player can draw."""
    x, y = centre
    return (
        (x + radius, y, x - radius, y, x, y, 180.0),
        (x - radius, y, x + radius, y, x, y, 180.0),
    )


def lines_through(points: Iterable[Point]) -> Edge:
    """Straight segments from point to point."""
    row = list(points)
    return tuple((*one, *other) for one, other in itertools.pairwise(row))


class Extent(NamedTuple):
    """A box round things: left, top, right, bottom."""

    left: float
    top: float
    right: float
    bottom: float

    @classmethod
    def of(cls, points: Iterable[Point]) -> Extent:
        row = list(points)
        xs, ys = [x for x, _ in row], [y for _, y in row]
        return cls(min(xs), min(ys), max(xs), max(ys))

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top

    def holds(self, point: Point) -> bool:
        return self.left <= point[0] <= self.right and self.top <= point[1] <= self.bottom
