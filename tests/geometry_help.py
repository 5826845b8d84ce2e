"""Outlines to try geometry on, and the same outlines as shapely and svgpathtools see them."""

from __future__ import annotations

from math import ceil, cos, hypot, pi, radians, sin

import shapely
from hypothesis import assume
from hypothesis import strategies as st

from chalkfold.geometry import arcs, outlines, points, segments
from chalkfold.geometry.bezier import bend, point
from chalkfold.geometry.crossings import is_simple
from chalkfold.geometry.shapes import Edge, Outline, Point, Segment, cubic, end, handles, is_arc, is_cubic, line, start

CENTRE: Point = (0.0, 0.0)
FINE = 0.005
"""Farthest (mm) a polyline stands off the arc it stands for."""


def polygon(*corners: Point) -> Outline:
    return tuple((line(a, b),) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))


def rectangle(across: float, down: float) -> Outline:
    """Edges top, right, bottom, left."""
    return polygon((0.0, 0.0), (across, 0.0), (across, down), (0.0, down))


def quarter_ring(inner: float, depth: float) -> Outline:
    """Edges waist, back, hem, fold: the draft of the language's own example."""
    outer = inner + depth
    return (
        (arcs.around(CENTRE, (inner, 0.0), (0.0, inner)),),
        (line((0.0, inner), (0.0, outer)),),
        (arcs.around(CENTRE, (0.0, outer), (outer, 0.0)),),
        (line((outer, 0.0), (inner, 0.0)),),
    )


def disc(radius: float) -> Outline:
    return ((arcs.around(CENTRE, (radius, 0.0), (radius, 0.0), long_way=True),),)


def dense(edge: Edge) -> list[Point]:
    """Points along an edge, close enough together that the line through them stays within ``FINE`` of it."""
    found = [start(edge[0])]
    for segment in edge:
        steps = 1
        if is_arc(segment):
            steps = max(2, ceil(radians(abs(segment[6])) * (arcs.radius(segment) / (8 * FINE)) ** 0.5))
        whole = segments.length(segment)
        if is_cubic(segment):
            steps = ceil((max(hypot(*bend(segment, t)) for t in (0.0, 1.0)) / (8 * FINE)) ** 0.5) or 1
            found += [point(segment, step / steps) for step in range(1, steps)] + [end(segment)]
            continue
        found += [segments.point_at(segment, whole * step / steps) for step in range(1, steps + 1)]
    return found


def as_polygon(outline: Outline) -> shapely.Polygon:
    return shapely.Polygon([point for edge in outline for point in dense(edge)[:-1]])


def as_path(segment: Segment) -> str:
    """The segment as SVG writes it (its sweep flag is 1 for clockwise on the page)."""
    (x0, y0), (x1, y1) = start(segment), end(segment)
    if is_cubic(segment):
        (ax, ay), (bx, by) = handles(segment)
        return f"M {x0!r} {y0!r} C {ax!r} {ay!r} {bx!r} {by!r} {x1!r} {y1!r}"
    if not is_arc(segment):
        return f"M {x0!r} {y0!r} L {x1!r} {y1!r}"
    radius, large, clockwise = arcs.radius(segment), int(abs(segment[6]) > 180), int(segment[6] > 0)
    return f"M {x0!r} {y0!r} A {radius!r} {radius!r} 0 {large} {clockwise} {x1!r} {y1!r}"


def _spoke(turn: float, out: float) -> Point:
    return out * cos(turn), out * sin(turn)


@st.composite
def outlines_made_up(draw: st.DrawFn, *, curved: bool = True) -> Outline:
    """Pieces of 3 to 8 edges, lines and arcs, with outer and inner corners, either way round; none crosses itself."""
    count = draw(st.integers(3, 8))
    turns = [2 * pi * (place + draw(st.floats(-0.3, 0.3))) / count for place in range(count)]
    corners = [_spoke(turn, draw(st.floats(120.0, 600.0))) for turn in turns]
    edges = []
    for (line_,) in polygon(*corners):
        a, b = start(line_), end(line_)
        kind = draw(st.sampled_from(["line", "arc", "cubic"])) if curved else "line"
        if kind == "cubic":
            edges.append((draw(gentle_cubics(a, b)),))
        elif kind == "arc":
            radius = points.distance(a, b) * draw(st.floats(0.7, 3.0))
            upright = abs(b[1] - a[1]) > abs(b[0] - a[0])
            side = draw(st.sampled_from(["left", "right"] if upright else ["up", "down"]))
            edges.append((arcs.bulging(a, b, radius, side),))
        else:
            edges.append((line_,))
    outline = tuple(edges)
    assume(is_simple(outline))
    return outline if draw(st.booleans()) else outlines.backwards(outline)


coordinates = st.floats(-1000.0, 1000.0)
places = st.tuples(coordinates, coordinates)
angles = st.floats(0.0, 360.0)


@st.composite
def arcs_made_up(draw: st.DrawFn) -> Segment:
    middle, radius, begin = draw(places), draw(st.floats(1.0, 1000.0)), draw(angles)
    sweep = draw(st.floats(1.0, 359.0)) * draw(st.sampled_from([1.0, -1.0]))
    a = points.polar(middle, begin, radius)
    return (*a, *points.turned(a, sweep, middle), *middle, sweep)


@st.composite
def lines_made_up(draw: st.DrawFn) -> Segment:
    a, b = draw(places), draw(places)
    assume(points.distance(a, b) > 1.0)
    return line(a, b)


@st.composite
def gentle_cubics(draw: st.DrawFn, a: Point, b: Point) -> Segment:
    """Between two points, its handles up to 80° off the chord, either way."""
    chord, ahead = points.distance(a, b), points.direction(a, b)
    lean = st.floats(-80.0, 80.0)
    long = st.floats(0.2, 0.6)
    return cubic(
        a,
        b,
        points.polar(a, ahead + draw(lean), chord * draw(long)),
        points.polar(b, ahead + 180.0 + draw(lean), chord * draw(long)),
    )


@st.composite
def cubics_made_up(draw: st.DrawFn) -> Segment:
    """Any, also with loops."""
    a, b = draw(places), draw(places)
    assume(points.distance(a, b) > 1.0)
    return cubic(a, b, draw(places), draw(places))


segments_made_up = st.one_of(lines_made_up(), arcs_made_up(), cubics_made_up())
