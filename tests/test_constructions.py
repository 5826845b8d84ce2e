"""Points found with compasses, square and ruler, on made-up edges; shapely answers the same questions."""

from __future__ import annotations

from math import pi

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import affinity

from chalkfold.geometry import choosing, constructions, edges, points, segments
from chalkfold.geometry.outlines import orientation
from chalkfold.geometry.shapes import Edge, Outline, Point, Segment, centre, is_arc, line
from chalkfold.geometry.trouble import GeometryTrouble, Reason
from chalkfold.plan.constructing import parallel_line
from geometry_help import (
    FINE,
    angles,
    arcs_made_up,
    as_polygon,
    dense,
    gentle_cubics,
    lines_made_up,
    outlines_made_up,
    places,
    segments_made_up,
)

NEAR = 10 * FINE
"""How far (mm) a polyline may lie off, and with it what shapely finds."""
lengths = st.floats(1.0, 900.0)


@st.composite
def soft_curves(draw: st.DrawFn) -> Segment:
    """Curves as a hand draws them: no loop, no point where they turn back."""
    a, b = draw(places), draw(places)
    assume(points.distance(a, b) > 1)
    return draw(gentle_cubics(a, b))


@st.composite
def edges_made_up(draw: st.DrawFn) -> Edge:
    """One segment, or two that follow each other."""
    first = draw(lines_made_up() | arcs_made_up() | soft_curves())
    if draw(st.booleans()):
        return (first,)
    target = draw(places)
    assume(points.distance(target, segments.end(first)) > 1)
    return first, line(segments.end(first), target)


def drawn(edge: Edge) -> shapely.LineString:
    return shapely.LineString(dense(edge))


@given(places, places, lengths, lengths)
def test_two_compasses(a: Point, b: Point, first: float, second: float) -> None:
    apart = points.distance(a, b)
    assume(apart > 1)
    circles = [shapely.Point(middle).buffer(radius, 512).boundary for middle, radius in ((a, first), (b, second))]
    if not abs(first - second) + 1 < apart < first + second - 1:
        assume(not circles[0].intersects(circles[1]))
        with pytest.raises(GeometryTrouble) as told:
            constructions.compasses(a, first, b, second)
        assert told.value.reason is Reason.NEVER_MEET
        return
    found = constructions.compasses(a, first, b, second)
    assert len(found) == 2
    for point in found:
        assert points.distance(point, a) == pytest.approx(first)
        assert points.distance(point, b) == pytest.approx(second)
    assert points.same(points.mirrored(found[0], a, b), found[1], 1e-4)
    right, left = found
    assert points.cross(points.minus(b, a), points.minus(right, a)) >= 0
    assert points.cross(points.minus(b, a), points.minus(left, a)) <= 0


@given(places, lengths, edges_made_up())
def test_a_compass_onto_an_edge(middle: Point, radius: float, edge: Edge) -> None:
    least, reach = (
        drawn(edge).distance(shapely.Point(middle)),
        [points.distance(middle, place) for place in dense(edge)],
    )
    if least + 1 < radius < max(reach) - 1:
        for point in constructions.compass_on(middle, radius, edge):
            assert points.distance(point, middle) == pytest.approx(radius, abs=1e-4)
            assert edges.contains(edge, point, 1e-4)
    elif radius < least - 1 or radius > max(reach) + 1:
        with pytest.raises(GeometryTrouble):
            constructions.compass_on(middle, radius, edge)


@given(edges_made_up(), places)
def test_the_foot_of_a_perpendicular(edge: Edge, point: Point) -> None:
    whole, far = drawn(edge), shapely.Point(point)
    try:
        foot = constructions.foot(edge, point)
    except GeometryTrouble as trouble:
        if trouble.reason is Reason.SEVERAL:
            assert any(points.same(point, centre(segment)) for segment in edge if is_arc(segment))
            return
        along = whole.project(far, normalized=True)  # the nearest place is an end or a corner, where nothing is square
        corners = [whole.project(shapely.Point(place), normalized=True) for place in edges.corners(edge)]
        assert min(abs(along - corner) for corner in corners) < 0.01
        return
    assert whole.distance(shapely.Point(foot)) < NEAR
    assert points.distance(foot, point) >= whole.distance(far) - NEAR
    way = edges.tangent_at(edge, edges.nearest(edge, foot))
    at_corner = any(points.same(foot, corner, 1) for corner in edges.corners(edge))
    assert at_corner or abs(points.dot(points.minus(point, foot), way)) < NEAR


@given(edges_made_up(), edges_made_up())
def test_where_edges_meet(a: Edge, b: Edge) -> None:
    assume(not set(a) & set(b))
    crossing = drawn(a).intersection(drawn(b))
    try:
        found = constructions.meetings(a, b)
    except GeometryTrouble as trouble:
        assert trouble.reason in (Reason.NEVER_MEET, Reason.PARALLEL)
        for met in getattr(crossing, "geoms", [crossing]):
            assert met.geom_type != "Point" or met.is_empty or grazes(a, b, (met.x, met.y))
        return
    for point in found:
        assert edges.contains(a, point, 1e-4) and edges.contains(b, point, 1e-4)
    for met in getattr(crossing, "geoms", [crossing]):
        if met.geom_type == "Point" and crosses_steeply(a, b, (met.x, met.y)):
            assert min(points.distance(point, (met.x, met.y)) for point in found) < 1


def grazes(a: Edge, b: Edge, place: Point) -> bool:
    """Polylines may touch where the edges just miss each other: at a flat angle, or at an end."""
    at_end = any(points.distance(place, corner) < 1 for corner in (*edges.corners(a), *edges.corners(b)))
    return at_end or not crosses_steeply(a, b, place)


def crosses_steeply(a: Edge, b: Edge, place: Point) -> bool:
    """Where edges cross at a flat angle the polylines that stand for them cross elsewhere."""
    ways = (edges.tangent_at(edge, edges.nearest(edge, place)) for edge in (a, b))
    return abs(points.cross(*ways)) > 0.1


@given(edges_made_up(), st.floats(0, 1), lengths)
def test_square_off_an_edge(edge: Edge, part: float, by: float) -> None:
    place = edges.point_at(edge, edges.length(edge) * part)
    left, right = constructions.square_from(edge, place, by)
    assert points.same(points.between(left, right, 0.5), place, 1e-4)
    assert points.distance(left, place) == pytest.approx(by)
    way = edges.tangent_at(edge, edges.nearest(edge, place))
    assert points.dot(points.minus(left, place), way) == pytest.approx(0, abs=1e-3)
    assert points.cross(way, points.minus(left, place)) < 0  # left as one travels, on a page with y down
    (across,) = constructions.square_line(edge, place)
    assert segments.contains(across, left, 1e-3) and segments.contains(across, right, 1e-3)


@given(places, places, places, angles)
def test_copies_turns_and_mirrors_as_shapely_has_them(point: Point, a: Point, b: Point, by: float) -> None:
    assume(points.distance(a, b) > 1)
    seen = shapely.Point(point)
    copied = affinity.translate(seen, b[0] - a[0], b[1] - a[1])
    assert points.same(constructions.copied(point, a, b), (copied.x, copied.y), 1e-6)
    turned = affinity.rotate(seen, by, origin=a)  # anticlockwise with y up is clockwise with y down
    assert points.same(points.turned(point, by, a), (turned.x, turned.y), 1e-6)
    mirrored = constructions.mirrored(point, (line(a, b),))
    assert points.same(constructions.mirrored(mirrored, (line(a, b),)), point, 1e-5)
    axis = shapely.LineString(
        [segments.start(constructions.carried_on(a, b)[0]), segments.end(constructions.carried_on(a, b)[0])]
    )
    assert axis.distance(shapely.Point(points.between(point, mirrored, 0.5))) < 1e-4
    assert points.dot(points.minus(mirrored, point), points.minus(b, a)) == pytest.approx(0, abs=1e-2)


@given(segments_made_up, st.booleans(), st.floats(0.1, 100))
def test_an_edge_goes_on_smoothly_past_its_end(segment: tuple[float, ...], at_start: bool, by: float) -> None:
    edge = (segment,)
    end = edges.first(edge) if at_start else edges.last(edge)
    on = edges.backwards(edge) if at_start else edge
    nearly = constructions.carried_past(edge, end, 1e-3)
    assert points.distance(nearly, points.shifted(end, edges.tangent_at(on, edges.length(on)), 1e-3)) < 1e-5
    past = constructions.carried_past(edge, end, by)
    assert points.distance(end, past) <= by + 1e-6
    with pytest.raises(GeometryTrouble):
        constructions.carried_past(edge, points.shifted(end, (1.0, 0.0), 0.5), by)


@given(outlines_made_up(), st.integers(0, 7), st.floats(1, 60))
def test_a_parallel_line_lies_inside_at_its_distance(outline: Outline, number: int, by: float) -> None:
    index = number % len(outline)
    try:
        beside = parallel_line(outline, float(index), by, 0.0)
    except GeometryTrouble as trouble:
        assert trouble.reason is Reason.ALLOWANCE_TOO_WIDE
        return
    piece, edge = as_polygon(outline).buffer(NEAR), drawn(outline[index])
    for place in dense(beside):
        spot = shapely.Point(place)
        assert piece.contains(spot)
        if 1 < edges.nearest(outline[index], place) < edges.length(outline[index]) - 1:  # beside it, not at a corner
            assert edge.distance(spot) == pytest.approx(by, abs=NEAR)


@given(outlines_made_up(), st.integers(0, 7), st.floats(0.2, 0.8))
def test_inwards_is_inside(outline: Outline, number: int, part: float) -> None:
    edge = outline[number % len(outline)]
    place = edges.point_at(edge, edges.length(edge) * part)
    found = constructions.square_from(edge, place, 0.5)
    piece = as_polygon(outline)
    assert piece.contains(shapely.Point(choosing.inwards(found, outline)))
    assert not piece.contains(shapely.Point(choosing.inwards(found, outline, outwards=True)))
    assert orientation(outline) in (1, -1)


@given(st.lists(places, min_size=2, max_size=4, unique=True), places)
def test_the_one_that_is_meant(found: list[Point], place: Point) -> None:
    candidates = tuple(found)
    assume(all(points.distance(a, b) > 0.1 for a in found for b in found if a is not b))
    with pytest.raises(GeometryTrouble):
        choosing.only(candidates)
    try:
        chosen = choosing.nearest(candidates, place)
        assert min(points.distance(each, place) for each in found) == points.distance(chosen, place)
    except GeometryTrouble as trouble:
        assert trouble.reason is Reason.SEVERAL
    for side, axis, way in (("left", 0, -1), ("right", 0, 1), ("up", 1, -1), ("down", 1, 1)):
        try:
            chosen = choosing.farthest(candidates, side)  # type: ignore[arg-type]
            assert chosen[axis] * way == max(each[axis] * way for each in found)
        except GeometryTrouble as trouble:
            assert trouble.reason is Reason.NO_SIDE
    assert choosing.only((found[0],)) == found[0]


def test_a_full_turn_along_an_arc_comes_back() -> None:
    quarter: Edge = ((100.0, 0.0, 0.0, 100.0, 0.0, 0.0, 90.0),)
    assert points.same(constructions.carried_past(quarter, (0.0, 100.0), 100 * 1.5 * pi), (100.0, 0.0), 1e-6)
