"""Areas, insides, and where outlines cross themselves. Other reckoning: shapely, and sums done by hand."""

from __future__ import annotations

from math import cos, pi, radians, sin

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from chalkfold.geometry import arcs, intersect, outlines, points
from chalkfold.geometry.crossings import Crossing, first_crossing, is_simple
from chalkfold.geometry.shapes import Outline, Point, arc, line
from chalkfold.geometry.trouble import GeometryTrouble, Reason
from geometry_help import (
    FINE,
    angles,
    as_polygon,
    disc,
    outlines_made_up,
    places,
    polygon,
    quarter_ring,
    rectangle,
)


def test_areas_by_hand() -> None:
    assert outlines.area(rectangle(600, 400)) == 240_000
    assert outlines.area(outlines.backwards(rectangle(600, 400))) == -240_000
    assert outlines.area(disc(100)) == pytest.approx(pi * 10_000)
    ring = quarter_ring(324.68, 600)  # it runs anticlockwise
    assert outlines.area(ring) == pytest.approx(-pi / 4 * (924.68**2 - 324.68**2))
    assert outlines.length(ring) == pytest.approx(pi / 2 * (924.68 + 324.68) + 1200)
    assert outlines.box(ring) == pytest.approx((0, 0, 924.68, 924.68))
    assert outlines.box(disc(100)) == pytest.approx((-100, -100, 100, 100))


@given(outlines_made_up())
def test_areas_agree_with_shapely(outline: Outline) -> None:
    assert abs(outlines.area(outline)) == pytest.approx(as_polygon(outline).area, abs=FINE * outlines.length(outline))
    assert outlines.orientation(outline) == -outlines.orientation(outlines.backwards(outline))


@given(outlines_made_up(), angles, places)
def test_area_and_length_do_not_change_with_the_view(outline: Outline, angle: float, around: Point) -> None:
    turned = outlines.turned(outline, angle, around)
    assert outlines.area(turned) == pytest.approx(outlines.area(outline), rel=1e-6)
    assert outlines.length(turned) == pytest.approx(outlines.length(outline))
    assert outlines.area(outlines.mirrored(outline, (0, 0), (3, 7))) == pytest.approx(-outlines.area(outline), rel=1e-6)


def test_an_outline_that_encloses_nothing() -> None:
    there_and_back = polygon((0, 0), (100, 0), (40, 0))
    with pytest.raises(GeometryTrouble) as caught:
        outlines.orientation(there_and_back)
    assert caught.value.reason is Reason.NO_AREA


def test_a_gap_is_found_after_its_edge() -> None:
    open_ = (*rectangle(60, 40)[:2], (line((60, 40), (0, 40.5)),), rectangle(60, 40)[3])
    assert outlines.gap(open_) == (2, 0.5)
    assert not outlines.is_closed(open_)
    assert outlines.is_closed(rectangle(60, 40))


@given(outlines_made_up(), st.floats(-700, 700), st.floats(-700, 700))
def test_what_lies_inside_agrees_with_shapely(outline: Outline, x: float, y: float) -> None:
    drawn = as_polygon(outline)
    assume(drawn.exterior.distance(shapely.Point(x, y)) > 0.01)
    assert outlines.encloses(outline, (x, y)) == drawn.contains(shapely.Point(x, y))


def test_points_on_a_chord_and_on_the_edge_are_inside() -> None:
    half = ((arcs.around((0, 0), (-50, 0), (50, 0)),), (line((50, 0), (50, 10)),),
            (line((50, 10), (-50, 10)),), (line((-50, 10), (-50, 0)),))  # fmt: skip
    for outline in (half, outlines.backwards(half)):
        assert outlines.encloses(outline, (0, 0))  # on the chord of the arc
        assert outlines.encloses(outline, (0, -50))  # on the arc
        assert outlines.encloses(outline, (0, -49.9)) and not outlines.encloses(outline, (0, -50.1))
    moon = ((arcs.around((0, 0), (-50, 0), (50, 0)),), (arcs.bulging((50, 0), (-50, 0), 80, "up"),))
    assert not outlines.encloses(moon, (0, 0)) and outlines.encloses(moon, (0, -40))


def test_meetings_by_hand() -> None:
    level = line((-100, 30), (100, 30))
    circle = arc((50, 0), (50, 0), (0, 0), 360.0)
    assert intersect.meetings(level, circle) == (pytest.approx((-40, 30)), pytest.approx((40, 30)))  # 3-4-5
    touching = line((-100, 50), (100, 50))
    assert intersect.meetings(touching, circle) == (pytest.approx((0, 50)),)
    assert intersect.meetings(line((-100, 50.01), (100, 50.01)), circle) == ()
    assert intersect.meetings(line((0, 0), (10, 0)), line((4, 0), (20, 0))) == ((4, 0), (10, 0))  # a stretch shared
    other = arc((130, 0), (130, 0), (80, 0), 360.0)
    assert sorted(intersect.meetings(circle, other)) == [pytest.approx((40, -30)), pytest.approx((40, 30))]
    inside = arc((50, 0), (50, 0), (20, 0), 360.0)
    assert intersect.meetings(circle, inside) == (pytest.approx((50, 0)),)


tenths = st.tuples(st.integers(-500, 500), st.integers(-500, 500)).map(lambda at: (at[0] / 10, at[1] / 10))


@given(tenths, tenths, tenths, tenths)
def test_lines_meet_where_shapely_says(a: Point, b: Point, c: Point, d: Point) -> None:
    assume(a != b and c != d)
    found = shapely.LineString([a, b]).intersection(shapely.LineString([c, d]))
    met = intersect.meetings(line(a, b), line(c, d))
    if found.geom_type == "Point":
        assert met == (pytest.approx((found.x, found.y), abs=1e-6),)
    elif not found.is_empty:
        assert sorted(met) == [pytest.approx(end, abs=1e-6) for end in sorted(found.coords)]
    else:  # shapely knows no tolerance: what touches to a millionth of a mm may not touch for it
        assert all(shapely.LineString([a, b]).distance(shapely.Point(point)) < 2e-6 for point in met)
        assert not met or shapely.LineString([a, b]).distance(shapely.LineString([c, d])) < 2e-6


@given(places, angles, angles, st.floats(10.0, 900.0), st.floats(10.0, 900.0))
def test_two_circles_through_a_point_meet_there_and_in_its_mirror_image(
    shared: Point, first: float, second: float, one: float, other: float
) -> None:
    assume(20.0 < abs(first - second) % 180.0 < 160.0)
    a, b = points.polar(shared, first, one), points.polar(shared, second, other)
    begin_a, begin_b = points.polar(a, first + 60, one), points.polar(b, second + 60, other)
    met = intersect.meetings(arc(begin_a, begin_a, a, 360.0), arc(begin_b, begin_b, b, 360.0))
    expected = [shared, points.mirrored(shared, a, b)]
    assert sorted(met) == [pytest.approx(point, abs=1e-5) for point in sorted(expected)]


def test_the_first_crossing_names_its_edges_and_the_place() -> None:
    bow = polygon((0, 0), (100, 0), (0, 60), (100, 60))
    assert first_crossing(bow) == Crossing(1, 3, (pytest.approx(50), pytest.approx(30)))
    touching = polygon((0, 0), (100, 0), (100, 60), (50, 0), (0, 60))
    assert first_crossing(touching) == Crossing(0, 2, (50.0, 0.0))
    folded_back = polygon((0, 0), (100, 0), (100, 60), (100, 20), (0, 60))
    found = first_crossing(folded_back)
    assert found is not None and (found.first, found.second) == (1, 2)


def test_a_line_that_cuts_through_a_hollow_is_found() -> None:
    hollow = arcs.bulging((100, 80), (0, 80), 55, "up")  # rises 55 − √(55² − 50²) = 32.1
    for low, crosses in ((40, False), (60, True)):
        outline = ((line((0, low), (100, low)),), (line((100, low), (100, 80)),), (hollow,),
                   (line((0, 80), (0, low)),))  # fmt: skip
        assert is_simple(outline) != crosses


def test_curves_that_run_smoothly_into_each_other_do_not_cross() -> None:
    stadium = (
        (line((0, 0), (100, 0)),),
        (arcs.around((100, 30), (100, 0), (100, 60)),),
        (line((100, 60), (0, 60)),),
        (arcs.around((0, 30), (0, 60), (0, 0)),),
    )
    for angle in range(0, 360, 7):
        assert is_simple(outlines.turned(stadium, angle))
    assert is_simple(disc(100))


def test_curves_that_lie_on_each_other_are_found() -> None:
    out, back = arcs.around((0, 0), (100, 0), (0, 100)), arcs.around((0, 0), (0, 100), (60, 80))
    found = first_crossing(((out,), (back,), (line((60, 80), (100, 0)),)))
    assert found is not None and (found.first, found.second) == (0, 1)


@given(st.lists(places, min_size=3, max_size=7, unique=True))
def test_shapely_calls_the_same_polygons_simple(corners: list[Point]) -> None:
    apart = [points.distance(a, b) for place, a in enumerate(corners) for b in corners[place + 1 :]]
    assume(min(apart) > 1.0)
    ring = shapely.LinearRing(corners)
    sides = [shapely.LineString(pair) for pair in zip(corners, (*corners[1:], corners[0]), strict=True)]
    nearly = any(0 < side.distance(shapely.Point(point)) < 1e-3 for side in sides for point in corners)
    assume(not nearly)
    assert is_simple(polygon(*corners)) == ring.is_simple


def _zigzag(count: int, angle: float) -> Outline:
    """Long strokes to and fro, each beside the last: every box overlaps every other."""
    strokes = [point for x in range(count // 2 - 1) for point in ((x + 0.3, 1000.0), (x + 0.8, 0.0))]
    return outlines.turned(polygon((0, 0), *strokes, (count / 2, -50.0), (0, -50.0)), angle)


def _star(count: int) -> Outline:
    return polygon(*(
        ((1000 + place % 2 * 50) * cos(radians(360 * place / count)),
         (1000 + place % 2 * 50) * sin(radians(360 * place / count)))
        for place in range(count)
    ))  # fmt: skip


@pytest.mark.parametrize(
    "outline", [_star(2000), _zigzag(2000, 0), _zigzag(2000, 33)], ids=["star", "zigzag", "leaning"]
)
def test_two_thousand_edges_are_looked_through_quickly(outline: Outline) -> None:
    assert is_simple(outline)
