"""Where along its arc a radius is drawn: where it gets least in the way of the other lines of the piece."""

from __future__ import annotations

from chalkfold.draw.paths import turned
from chalkfold.geometry import outlines, points
from chalkfold.geometry.points import between, distance, dot, minus, shifted
from chalkfold.geometry.shapes import Outline, Point, Segment

SWUNG = (0.5, 0.62, 0.38, 0.75, 0.25, 0.87, 0.13)
"""How far along an arc its radius may be drawn, the best first: where it meets fewest other lines with its middle."""

BESIDE = (0.1, 0.17, 0.25, 0.38, 0.5, 0.62, 0.75, 0.83)
"""The same for a radius that crosses the piece: from its first end on, so that the middle is free for its name."""


def parts_of(arc: Segment, piece: Outline, before_fold: bool) -> tuple[float, ...]:
    """Where along its arc a radius may be drawn: anywhere if it keeps off the piece, else beside its end that lies
    farther from a fold, for there is a bracket; ``before_fold``: the edge that follows the arc is one.
    """
    centre, middle = (arc[4], arc[5]), turned(arc, 0.5)
    over = sum(outlines.encloses(piece, between(centre, middle, part / 10)) for part in range(1, 10))
    if over < 2:
        return SWUNG
    return BESIDE if before_fold else tuple(1 - part for part in BESIDE)


def tip(arc: Segment, seam: Segment, part: float) -> Point:
    """Where the radius ends on the cutting line; one beside an edge of the piece runs along its seam line."""
    if part in SWUNG:
        return turned(arc, part)
    centre, radius = (arc[4], arc[5]), distance((arc[0], arc[1]), (arc[4], arc[5]))
    return shifted(centre, points.unit(centre, turned(seam, part)), radius)


def met(start: Point, end: Point, lines: list[tuple[Point, Point]]) -> float:
    """How many lines the middle half of a line crosses, those of its own start counted by how close they run."""
    along, found = points.unit(start, end), 0.0
    for a, b in lines:
        if points.same(a, start):
            found += max(0.0, dot(along, points.unit(a, b)) - 0.8)
            continue
        at = points.crossing(start, along, a, points.unit(a, b))
        if at is not None and points.same(at, between(a, b, 0.5), distance(a, b) / 2):
            found += abs(dot(minus(at, start), along) / distance(start, end) - 0.5) < 0.3
    return found
