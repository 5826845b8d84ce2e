"""Darts and pleats: where their tip lies, and how the edge runs over them so that it is right once they are folded.

A leg is a line from the edge to the tip; the two legs of a pleat run side by side. Distances along an edge in mm.
Truing with the dart folded is common practice in pattern cutting, no source; the formulas are those of a mirror.
"""

from __future__ import annotations

from chalkfold.geometry import edges, outlines
from chalkfold.geometry.intersect import meetings
from chalkfold.geometry.points import between, crossing, distance, left_of, mirrored, same, shifted, unit
from chalkfold.geometry.shapes import SAME, Edge, Outline, Point, line
from chalkfold.geometry.trouble import GeometryTrouble, Reason, in_cm

EQUAL_LEGS = 0.5
"""The legs of a dart may differ by this much (mm): less than a chalk line. Common practice, no source."""
_HALVINGS = 60
_LEAST = 2.0
"""Where a dart takes less (mm) its place is found as if it took this, so that rounding does not decide."""
_FAR = 4.0
"""The edge is looked for as far out as this many leg lengths."""


def inwards(outline: Outline, edge: Edge, begin: float, stop: float) -> Point:
    """The unit vector into the piece, square to the chord between two places of an edge of it."""
    first, last = edges.point_at(edge, begin), edges.point_at(edge, stop)
    along = edges.tangent_at(edge, begin) if same(first, last) else unit(first, last)
    out = left_of(along)
    return (-out[0], -out[1]) if outlines.orientation(outline) > 0 else out


def square_in(outline: Outline, edge: Edge, begin: float, stop: float, depth: float, at: float = 0.5) -> Point:
    """The point ``depth`` mm into the piece, square to the chord from ``begin`` to ``stop`` at the part ``at`` of it:
    half-way it is equally far from both ends, so that both legs of a dart to it are alike.
    """
    foot = between(edges.point_at(edge, begin), edges.point_at(edge, stop), at)
    return shifted(foot, inwards(outline, edge, begin, stop), depth)


def square_place(edge: Edge, tip: Point, takes: float) -> float:
    """How far along an edge the middle of a dart to ``tip`` stands, if its legs are to be alike: found by halving.

    Raises when that is nowhere: the edge has no place square below the tip, or none with room for the dart.
    """
    foot, half = edges.nearest(edge, tip), max(takes, _LEAST) / 2.0
    low, high = max(half, foot - takes - 1.0), min(edges.length(edge) - half, foot + takes + 1.0)

    def longer(middle: float) -> float:
        legs = (edges.point_at(edge, middle + side * half) for side in (1.0, -1.0))
        far, near = (distance(tip, leg) for leg in legs)
        return far - near

    if low > high or longer(low) > SAME or longer(high) < -SAME:
        raise GeometryTrouble(
            Reason.NOT_SQUARE,
            "no place on the edge lies square to the tip with room for the dart",
            "move the tip, so that a line square to the edge leads to it, or take in less",
        )
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        low, high = (middle, high) if longer(middle) < 0 else (low, middle)
    return (low + high) / 2.0


def cap(edge: Edge, near: Edge, far: Edge) -> Point:
    """Where the outline turns between two legs: the edge, seen in the ``near`` leg, meets the line half-way between.

    The dart is pressed so that it lies beyond the near leg. Folded, its layers then end where the edge does. A part of
    the edge that is too short to be seen runs on straight. Raises when the legs are not equally long, or the edge runs
    along them.
    """
    start, other = edges.first(near), edges.first(far)
    if same(start, other):
        return start
    lengths = edges.length(near), edges.length(far)
    if abs(lengths[0] - lengths[1]) > EQUAL_LEGS:
        raise GeometryTrouble(
            Reason.LEGS_DIFFER,
            f"one leg is {in_cm(lengths[0])} long and the other {in_cm(lengths[1])}, so they do not meet when sewn",
            "place the tip square to the edge, half-way between the legs, and let no slash run between them",
            measures=lengths,
        )
    tip = mirrored(between(edges.last(near), edges.last(far), 0.5), start, edges.last(near))
    foot = mirrored(between(start, other, 0.5), start, edges.last(near))
    way = unit(tip, foot)
    seen = line(tip, shifted(tip, way, _FAR * lengths[0]))
    for segment in _away(edge, start, other):
        met = meetings(segment, seen)
        if met:
            return mirrored(met[0], start, edges.last(near))
    here = edges.nearest(edge, start)
    found = crossing(start, edges.tangent_at(edge, here), tip, way)
    if found is None:
        raise GeometryTrouble(
            Reason.PARALLEL, "the edge runs along a leg of it", "place the tip farther from the edge, or take in less"
        )
    return mirrored(found, start, edges.last(near))


def _away(edge: Edge, start: Point, other: Point) -> Edge:
    """The edge from ``start``, away from ``other``; nothing where it ends there."""
    here, there, whole = edges.nearest(edge, start), edges.nearest(edge, other), edges.length(edge)
    if here < there:
        return edges.part(edge, here, 0.0) if here > SAME else ()
    return edges.part(edge, here, whole) if whole - here > SAME else ()


def through(edge: Edge, first: Point, top: Point, last: Point) -> Edge:
    """The edge with the stretch from ``first`` to ``last``, both on it, led straight out to ``top`` and back."""
    if same(first, last):
        return edge
    whole = edges.length(edge)
    begin, stop = edges.nearest(edge, first), edges.nearest(edge, last)
    if begin > stop:
        begin, stop, first, last = stop, begin, last, first
    before = edges.part(edge, 0.0, begin) if begin > SAME else ()
    after = edges.part(edge, stop, whole) if whole - stop > SAME else ()
    return edges.joined(before, (line(first, top), line(top, last)), after)


def beside(a: Point, b: Point, at: float, by: float) -> Point:
    """The point ``by`` mm to the left of the line from ``a`` to ``b``, at the part ``at`` of the way."""
    return shifted(between(a, b, at), left_of(unit(a, b)), by)


def square_across(outline: Outline, edge: Edge, begin: float, stop: float, at: float, other: Edge) -> Point:
    """Where a line into the piece meets another edge first: square to the chord from ``begin`` to ``stop``, at the
    part ``at`` of it. Raises when it does not.
    """
    foot = between(edges.point_at(edge, begin), edges.point_at(edge, stop), at)
    left, top, right, bottom = outlines.box(outline)
    reach = distance((left, top), (right, bottom))
    ahead = line(foot, shifted(foot, inwards(outline, edge, begin, stop), reach))
    met = [point for segment in other for point in meetings(segment, ahead)]
    if not met:
        raise GeometryTrouble(
            Reason.NOT_SQUARE,
            "a line square to the edge does not meet the edge it should reach",
            "name an edge across from it, or write `length:`",
        )
    return min(met, key=lambda point: distance(foot, point))
