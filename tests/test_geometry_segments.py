"""Points, lines and arcs: made, measured, moved. Other reckoning: svgpathtools, shapely, and sums done by hand."""

from __future__ import annotations

from collections.abc import Callable
from math import pi, sqrt

import pytest
import svgpathtools
from hypothesis import assume, given
from hypothesis import strategies as st

from chalkfold.geometry import arcs, edges, points, segments
from chalkfold.geometry.shapes import Edge, Point, Segment, end, line, start
from chalkfold.geometry.trouble import GeometryTrouble, Reason
from geometry_help import FINE, angles, arcs_made_up, as_path, dense, lines_made_up, places, segments_made_up

parts = st.floats(0.0, 1.0)


def trouble_of(make: Callable[[], object]) -> GeometryTrouble:
    with pytest.raises(GeometryTrouble) as caught:
        make()
    return caught.value


def near(a: Point, b: Point, tolerance: float = 1e-6) -> bool:
    return points.distance(a, b) <= tolerance


def test_points_from_points() -> None:
    a, b = (10.0, 20.0), (40.0, 60.0)
    assert points.distance(a, b) == 50.0
    assert points.polar(a, 90, 5) == (10.0, 25.0)  # a right angle from across is straight down
    assert points.towards(a, b, 25) == (25.0, 40.0)
    assert points.between(a, b, 0.5) == (25.0, 40.0)
    assert points.square_corner(a, b) == (10.0, 60.0)
    assert points.direction(a, (10.0, 0.0)) == 270.0
    assert near(points.meeting((0, 0), (10, 10), (0, 10), (10, 0)), (5, 5))
    assert near(points.mirrored((3.0, 4.0), (0, 0), (0, 1)), (-3, 4))


def test_points_that_cannot_be_made() -> None:
    parallel = trouble_of(lambda: points.meeting((0, 0), (10, 0), (0, 5), (7, 5)))
    assert parallel.reason is Reason.PARALLEL
    assert parallel.message == "the two lines are parallel and never meet"
    assert trouble_of(lambda: points.towards((1, 1), (1, 1), 5)).reason is Reason.NO_DIRECTION


@given(places, angles, st.floats(1.0, 500.0))
def test_direction_undoes_polar(point: Point, angle: float, by: float) -> None:
    turn = points.direction(point, points.polar(point, angle, by)) - angle
    assert min(turn % 360, -turn % 360) < 1e-6


def test_an_arc_around_a_centre_takes_the_short_way() -> None:
    quarter = arcs.around((0, 0), (100, 0), (0, 100))
    assert quarter == (100, 0, 0, 100, 0, 0, 90.0)
    assert segments.length(quarter) == pytest.approx(50 * pi)
    assert arcs.around((0, 0), (0, 100), (100, 0))[6] == -90.0
    assert arcs.around((0, 0), (100, 0), (0, 100), long_way=True)[6] == -270.0


def test_a_half_circle_turns_clockwise_and_the_long_way_does_not() -> None:
    assert arcs.around((0, 0), (-50, 0), (50, 0))[6] == 180.0
    assert near(segments.point_at(arcs.around((0, 0), (-50, 0), (50, 0)), 25 * pi), (0, -50))  # over the top
    assert arcs.around((0, 0), (-50, 0), (50, 0), long_way=True)[6] == -180.0


def test_radii_that_differ_are_named() -> None:
    trouble = trouble_of(lambda: arcs.around((0, 0), (324.68, 0), (0, 324.74)))
    assert trouble.reason is Reason.RADII_DIFFER
    assert trouble.message == "the arc starts 32.468 cm from its centre and ends 32.474 cm from it"
    assert trouble.measures == pytest.approx((324.68, 324.74))


def test_radii_that_differ_by_a_hair_are_made_equal() -> None:
    arc = arcs.around((0, 0), (100, 0), (0, 100.04))
    assert arcs.radius(arc) == pytest.approx(points.distance(end(arc), (arc[4], arc[5])), abs=1e-9)
    assert near(segments.point_at(arc, segments.length(arc) - 1e-9), (0, 100.04))


def test_other_arcs_that_cannot_be_made() -> None:
    assert trouble_of(lambda: arcs.around((0, 0), (0, 0), (0, 10))).reason is Reason.NO_RADIUS
    assert trouble_of(lambda: arcs.around((0, 0), (10, 0), (10, 0))).reason is Reason.NO_LENGTH
    assert trouble_of(lambda: arcs.bulging((0, 0), (10, 0), 0, "up")).reason is Reason.NO_RADIUS
    wide = trouble_of(lambda: arcs.bulging((0, 0), (100, 0), 40, "up"))
    assert (wide.reason, wide.hint) == (Reason.CHORD_TOO_LONG, "write a radius of at least 5 cm")
    along = trouble_of(lambda: arcs.bulging((0, 0), (100, 0), 60, "left"))
    assert (along.reason, along.hint) == (Reason.NO_SIDE, "write bulging up or down")


def test_an_arc_bulges_to_the_side_named() -> None:
    # chord 80, radius 50: the middle stands 50 − √(50² − 40²) = 20 off the chord
    up = arcs.bulging((0, 0), (80, 0), 50, "up")
    assert near(segments.point_at(up, segments.length(up) / 2), (40, -20))
    right = arcs.bulging((0, 80), (0, 0), 50, "right")
    assert near(segments.point_at(right, segments.length(right) / 2), (20, 40))


@given(places, places, st.floats(0.5, 5.0), st.sampled_from(["left", "right", "up", "down"]))
def test_an_arc_by_radius_has_that_radius_and_side(a: Point, b: Point, times: float, side: arcs.Side) -> None:
    across, down = b[0] - a[0], b[1] - a[1]
    lean = abs(down) if side in ("left", "right") else abs(across)
    assume(lean > 1.0)
    chord = points.distance(a, b)
    arc = arcs.bulging(a, b, chord * times, side)
    middle = segments.point_at(arc, segments.length(arc) / 2)
    off = points.minus(middle, points.between(a, b, 0.5))
    assert {"left": -off[0], "right": off[0], "up": -off[1], "down": off[1]}[side] > 0
    assert arcs.radius(arc) == pytest.approx(chord * times)
    stands_off = arcs.radius(arc) - (arcs.radius(arc) ** 2 - chord**2 / 4) ** 0.5
    assert stands_off == pytest.approx(points.distance(off, (0, 0)), abs=1e-6)
    assert near(segments.point_at(arc, segments.length(arc) * (1 - 1e-12)), b)


@given(lines_made_up() | arcs_made_up(), parts)
def test_lengths_points_and_tangents_agree_with_svgpathtools(segment: Segment, at: float) -> None:
    assume(abs(segment[-1]) < 350 or len(segment) == 4)  # SVG loses nearly whole circles
    (drawn,) = svgpathtools.parse_path(as_path(segment))
    whole = segments.length(segment)
    assert whole == pytest.approx(drawn.length(), rel=1e-4)
    there, ahead = drawn.point(at), drawn.unit_tangent(at)
    assert near(segments.point_at(segment, at * whole), (there.real, there.imag), 1e-3)
    assert near(segments.tangent_at(segment, at * whole), (ahead.real, ahead.imag), 1e-4)


@given(segments_made_up)
def test_boxes_hold_every_point_and_touch_the_outermost(segment: Segment) -> None:
    left, top, right, bottom = segments.box(segment)
    xs, ys = zip(*dense((segment,)), strict=True)
    assert (left, top, right, bottom) == pytest.approx((min(xs), min(ys), max(xs), max(ys)), abs=2 * FINE)
    assert left <= min(xs) + 1e-9 and right >= max(xs) - 1e-9 and top <= min(ys) + 1e-9 and bottom >= max(ys) - 1e-9


@given(segments_made_up, st.floats(0.01, 0.99))
def test_a_split_segment_is_the_same_in_two(segment: Segment, at: float) -> None:
    whole = segments.length(segment)
    first, second = segments.split(segment, at * whole)
    assert start(first) == start(segment) and end(second) == end(segment) and end(first) == start(second)
    assert segments.length(first) == pytest.approx(at * whole)
    assert segments.length(first) + segments.length(second) == pytest.approx(whole)


@given(segments_made_up)
def test_reversed_twice_is_the_same(segment: Segment) -> None:
    assert segments.backwards(segments.backwards(segment)) == segment
    assert start(segments.backwards(segment)) == end(segment)


@given(segments_made_up, angles, places, parts)
def test_turned_and_moved_segments_keep_their_shape(segment: Segment, angle: float, around: Point, at: float) -> None:
    along = at * segments.length(segment)
    there = segments.point_at(segment, along)
    turned = segments.moved(segments.turned(segment, angle, around), 3.0, -4.0)
    expected = points.turned(there, angle, around)
    assert segments.length(turned) == pytest.approx(segments.length(segment))
    assert near(segments.point_at(turned, along), (expected[0] + 3, expected[1] - 4))


@given(segments_made_up, places, places, parts)
def test_a_mirror_image_mirrors_every_point_and_twice_is_the_same(
    segment: Segment, a: Point, b: Point, at: float
) -> None:
    assume(points.distance(a, b) > 1.0)
    along = at * segments.length(segment)
    image = segments.mirrored(segment, a, b)
    assert near(segments.point_at(image, along), points.mirrored(segments.point_at(segment, along), a, b))
    assert segments.mirrored(image, a, b) == pytest.approx(segment, abs=1e-6)


@given(segments_made_up, places)
def test_no_point_of_a_segment_is_nearer_than_the_nearest(segment: Segment, point: Point) -> None:
    found = segments.point_at(segment, segments.nearest(segment, point))
    assert segments.contains(segment, found)
    assert points.distance(found, point) <= min(points.distance(other, point) for other in dense((segment,))) + 1e-6


@given(arcs_made_up(), lines_made_up())
def test_a_point_beside_a_segment_is_not_on_it(arc: Segment, straight: Segment) -> None:
    for segment in (arc, straight):
        half = segments.length(segment) / 2
        there = segments.point_at(segment, half)
        out = points.left_of(segments.tangent_at(segment, half))
        assert segments.contains(segment, there)
        assert not segments.contains(segment, points.shifted(there, out, 0.01))


CORNERED: Edge = (line((0, 0), (30, 0)), arcs.around((30, 10), (30, 0), (40, 10)), line((40, 10), (40, 50)))


def test_an_edge_of_several_segments_is_measured_from_either_end() -> None:
    bend = 5 * pi
    assert edges.length(CORNERED) == pytest.approx(70 + bend)
    assert edges.point_at(CORNERED, 10) == (10, 0)
    assert edges.point_at(CORNERED, 10, from_end=True) == pytest.approx((40, 40))
    assert edges.point_at(CORNERED, 30 + bend / 2) == pytest.approx((30 + sqrt(50), 10 - sqrt(50)))
    assert edges.direction_at(CORNERED, 30 + bend / 2) == pytest.approx(45)
    assert edges.tangent_at(CORNERED, 0, from_end=True) == pytest.approx((0, 1))
    assert edges.nearest(CORNERED, (50, 50)) == pytest.approx(70 + bend)


def test_a_distance_past_the_end_of_an_edge_is_named() -> None:
    straight: Edge = (line((0, 0), (60, 0)),)
    trouble = trouble_of(lambda: edges.point_at(straight, 90))
    assert trouble.reason is Reason.PAST_THE_END
    assert (trouble.message, trouble.hint) == (
        "9 cm is not on the edge, which is 6 cm long",
        "write a distance from 0 to 6 cm",
    )
    assert trouble_of(lambda: edges.point_at(straight, 90, from_end=True)).message == trouble.message
    assert trouble_of(lambda: edges.part(straight, 20, 20)).reason is Reason.NO_LENGTH


@given(parts, parts)
def test_a_stretch_of_an_edge_has_the_length_between(one: float, other: float) -> None:
    whole = edges.length(CORNERED)
    assume(abs(one - other) > 1e-3)
    stretch = edges.part(CORNERED, one * whole, other * whole)
    assert edges.length(stretch) == pytest.approx(abs(one - other) * whole)
    assert edges.first(stretch) == pytest.approx(edges.point_at(CORNERED, one * whole), abs=1e-5)
    assert edges.last(stretch) == pytest.approx(edges.point_at(CORNERED, other * whole), abs=1e-5)


def test_stretches_of_one_line_or_circle_join_into_one() -> None:
    first, second = edges.split(CORNERED, 30 + 2 * pi)
    assert (len(first), len(second)) == (2, 2)
    assert edges.joined(first, second) == tuple(pytest.approx(segment) for segment in CORNERED)
    half = arcs.around((0, 0), (10, 0), (-10, 0))
    assert edges.joined((half,), (segments.turned(half, 180),)) == ((10, 0, 10, 0, 0, 0, 360.0),)


def test_a_straight_edge_turns_neither_aside_nor_back() -> None:
    assert edges.is_straight((line((0, 0), (5, 0)), line((5, 0), (9, 0))))
    assert not edges.is_straight((line((0, 0), (5, 0.1)), line((5, 0.1), (9, 0))))
    assert not edges.is_straight((line((0, 0), (9, 0)), line((9, 0), (5, 0))))
    assert not edges.is_straight(CORNERED)
