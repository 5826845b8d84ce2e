"""Cubic curves: measured against svgpathtools and scipy's quadrature, laid aside and met against shapely, and
shapes known by hand.
"""

from __future__ import annotations

from itertools import pairwise
from math import log, pi, sqrt, tan

import pytest
import shapely
import svgpathtools
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from chalkfold.geometry import (
    arcs,
    bezier,
    cubics,
    curves,
    edges,
    intersect,
    outlines,
    points,
    polynomials,
    run_on,
    segments,
)
from chalkfold.geometry.crossings import first_crossing, only_joined
from chalkfold.geometry.cubic_meetings import loop
from chalkfold.geometry.offset import offset
from chalkfold.geometry.parallels import STRAY
from chalkfold.geometry.shapes import JOIN, Point, Segment, cubic, end, line, start
from chalkfold.geometry.unfold import unfold
from geometry_help import FINE, as_path, as_polygon, cubics_made_up, dense, gentle_cubics, places

parts = st.integers(0, 1000).map(lambda thousandths: thousandths / 1000)
KAPPA = 4 / 3 * tan(pi / 8)
"""The usual handle of a quarter circle, in radii."""
QUARTER = cubic((100, 0), (0, 100), (100, 100 * KAPPA), (100 * KAPPA, 100))
gentle = st.tuples(places, places).filter(lambda ends: points.distance(*ends) > 30).flatmap(lambda e: gentle_cubics(*e))


def sharp(at: Point, a: Segment, b: Segment) -> bool:
    """Whether chords tell there what curves do: neither ends there, and they do not run beside each other."""
    ends = [end for each in (a, b) for end in (start(each), each[2:4])]
    ways = [segments.tangent_at(each, segments.nearest(each, at)) for each in (a, b)]
    return abs(points.cross(*ways)) > 0.02 and min(points.distance(at, (x, y)) for x, y in ends) > 0.1


def slow(draw: Segment) -> bool:
    return bezier.tightest(draw) < 0.1


@settings(max_examples=40)
@given(cubics_made_up(), parts)
def test_lengths_agree_with_svgpathtools(segment: Segment, at: float) -> None:
    (drawn,) = svgpathtools.parse_path(as_path(segment))
    assert cubics.length_to(segment, at) == pytest.approx(drawn.length(0, at), abs=0.01)
    there, ahead = drawn.point(at), drawn.derivative(at)
    along = cubics.length_to(segment, at)
    assert segments.point_at(segment, along) == pytest.approx((there.real, there.imag), abs=1e-3)
    assume(abs(ahead) > 1.0)
    assert segments.tangent_at(segment, along) == pytest.approx(
        (ahead.real / abs(ahead), ahead.imag / abs(ahead)), abs=1e-3
    )


@settings(max_examples=40)
@given(cubics_made_up())
def test_lengths_agree_with_quadrature(segment: Segment) -> None:
    assume(not slow(segment))
    whole, _ = quad(lambda t: bezier.speed(segment, t), 0, 1, limit=200)
    assert segments.length(segment) == pytest.approx(whole, abs=1e-3)


def test_a_parabola_by_its_closed_form() -> None:
    # chord b = 100, height h = 25: ½ √(b² + 16h²) + b²/8h · ln((4h + √(b² + 16h²)) / b)
    parabola = cubic((0, 0), (100, 0), (100 / 3, 100 / 3), (200 / 3, 100 / 3))
    assert segments.length(parabola) == pytest.approx(50 * sqrt(2) + 50 * log(1 + sqrt(2)), abs=1e-9)
    assert segments.box(parabola) == pytest.approx((0, 0, 100, 25))
    assert segments.area(parabola) == pytest.approx(-100 * 25 * 2 / 3)


def test_a_cusp_is_measured_to_its_tip() -> None:
    # x = 60t(1 − t)… back on itself: 0 → 45 → 0
    there_and_back = cubic((0, 0), (0, 0), (60, 0), (60, 0))
    assert segments.length(there_and_back) == pytest.approx(90, abs=0.01)


@given(cubics_made_up())
def test_an_area_is_that_of_the_polygon_through_its_points(segment: Segment) -> None:
    closed = [*dense((segment,)), (0.0, 0.0)]
    area = sum(points.cross(a, b) for a, b in zip(closed, [*closed[1:], closed[0]], strict=True)) / 2
    assert segments.area(segment) == pytest.approx(area, abs=FINE * (segments.length(segment) + 1))


fiftieths = st.integers(-99, 99).filter(lambda whole: whole not in (0, 50)).map(lambda whole: whole / 50)


@given(st.lists(fiftieths, min_size=2, max_size=6, unique=True))
def test_zeros_of_a_polynomial_of_known_zeros(known: list[float]) -> None:
    polynomial: polynomials.Polynomial = (1.0,)
    for zero in known:
        polynomial = polynomials.times(polynomial, (-zero, 1.0))
    assert polynomials.zeros(polynomial) == pytest.approx(sorted(z for z in known if 0 <= z <= 1), abs=1e-6)


@given(gentle, st.floats(2.0, 30.0), st.sampled_from([1, -1]))
def test_a_parallel_lies_at_its_distance(segment: Segment, by: float, side: int) -> None:
    laid = segments.beside(segment, side * by)
    assume(laid is not None)
    assert laid is not None
    seam = shapely.LineString(dense((segment,)))
    for piece, after in pairwise(laid):
        assert end(piece) == start(after)
        assert bezier.tangent(piece, 1.0) == pytest.approx(bezier.tangent(after, 0.0), abs=1e-6)
    for place in dense(laid)[1:-1]:
        along = segments.nearest(segment, place)
        if 0 < along < segments.length(segment):
            assert seam.distance(shapely.Point(place)) == pytest.approx(by, abs=STRAY + 2 * FINE)
    assert len(laid) < 60


@given(gentle, st.floats(1.0, 60.0))
def test_a_hollow_tighter_than_the_allowance_has_no_parallel(segment: Segment, by: float) -> None:
    bends = [bezier.curvature(segment, step / 500) for step in range(501)]
    tight = min(bends)  # negative where it turns to the left
    if tight < -1.02 / by:
        assert segments.beside(segment, by) is None
    elif tight > -0.98 / by:
        assert segments.beside(segment, by) is not None


@given(gentle, gentle)
def test_meetings_of_two_curves_agree_with_shapely(a: Segment, b: Segment) -> None:
    met = intersect.meetings(a, b)
    one, other = shapely.LineString(dense((a,))), shapely.LineString(dense((b,)))
    for place in met:
        assert max(one.distance(shapely.Point(place)), other.distance(shapely.Point(place))) < 2 * FINE
    crossing = one.intersection(other)
    assume(crossing.is_empty or not crossing.length)
    if crossing.is_empty:
        assert all(min(points.distance(p, q) for q in met) < 1 for p in met[1:])  # at most a touch
    for place in shapely.get_coordinates(crossing):
        at = (place[0], place[1])
        if sharp(at, a, b):
            assert met and min(points.distance(at, found) for found in met) < 1


def test_curves_that_touch_at_an_end_may_cross_farther_on() -> None:
    """The crossing is that of chords of 1/1000 of each curve, by shapely."""
    a = (381.0, 0.0, -287.0, 0.0, 194.4296875, 0.0, 10.596179078914872, 151.6328269130086)
    b = (*a[:4], 247.4, *a[5:])
    met = intersect.meetings(a, b)
    assert min(points.distance((-17.3, 67.4), place) for place in met) < 0.1


@given(gentle, places, places, st.floats(20, 900))
def test_meetings_with_lines_and_circles(segment: Segment, a: Point, b: Point, radius: float) -> None:
    assume(points.distance(a, b) > 1)
    drawn = shapely.LineString(dense((segment,)))
    half = arcs.around(a, points.polar(a, 10, radius), points.polar(a, 190, radius))
    for other in (line(a, b), half):
        met = intersect.meetings(segment, other)
        crossing = drawn.intersection(shapely.LineString(dense((other,))))
        assume(crossing.is_empty or not crossing.length)
        for place in shapely.get_coordinates(crossing):
            at = (place[0], place[1])
            if sharp(at, segment, other):
                assert met and min(points.distance(at, found) for found in met) < 1
        assert all(segments.contains(segment, place, 1e-5) and segments.contains(other, place, 1e-5) for place in met)


@settings(max_examples=60)
@given(cubics_made_up())
def test_a_loop_is_told(segment: Segment) -> None:
    assume(not slow(segment))
    crossed = not shapely.LineString(dense((segment,))).is_simple
    found = loop(segment)
    if found is not None:
        s, t = found
        assert bezier.point(segment, s) == pytest.approx(bezier.point(segment, t), abs=1e-3)
    assume(found is None or (t - s > 0.05))  # a loop wide enough to show in a polyline
    assert crossed is (found is not None)


def test_curves_that_share_a_stretch_meet_at_its_ends() -> None:
    (whole,) = curves.curve((0, 0), (1500, 1200), 90, 10)
    rest = bezier.divided(whole, 0.3, 1.0)
    met = intersect.meetings(whole, rest)
    assert [points.distance(place, end_) < 1e-6 for place, end_ in zip(met, (start(rest), end(rest)), strict=True)] == [
        True,
        True,
    ]


def test_an_outline_that_loops_crosses_itself() -> None:
    looped = cubic((0, 0), (100, 0), (200, 150), (-100, 150))
    crossing = first_crossing(((looped,), (line((100, 0), (50, -50)), line((50, -50), (0, 0)))))
    assert crossing is not None and (crossing.first, crossing.second) == (0, 0)
    assert crossing.at[0] == pytest.approx(50)


def _leaf() -> tuple[tuple[Segment, ...], ...]:
    return (
        curves.curve((0, 0), (200, 0), 300, 60),
        curves.curve((200, 0), (0, 0), 120, 240),
    )


@given(st.tuples(st.floats(-10, 210), st.floats(-90, 90)))
def test_what_lies_inside_agrees_with_shapely(place: Point) -> None:
    leaf, point = as_polygon(_leaf()), shapely.Point(place)
    assume(leaf.boundary.distance(point) > 2 * FINE)
    assert outlines.encloses(_leaf(), place) is bool(leaf.contains(point))


def test_a_parallel_is_run_on_straight_and_trimmed() -> None:
    laid = segments.beside(QUARTER, -10)
    assert laid is not None
    longer = cubics.led_to(laid, (90, -20), end(laid[-1]))
    assert longer is not None and longer[0] == (90, -20, 90, 0)
    half = edges.point_at(laid, edges.length(laid) / 2)
    shorter = cubics.led_to(laid, half, end(laid[-1]))
    assert shorter is not None and edges.first(shorter) == half
    assert edges.length(shorter) == pytest.approx(edges.length(laid) / 2, abs=1e-3)
    assert cubics.led_to(laid, end(laid[-1]), start(laid[0])) is None
    # its straight run-on and a line meet where both are led on
    assert run_on.endless(laid, (line((0, -50), (100, -50)),)) == (pytest.approx((90, -50)),)


def test_a_quarter_on_a_fold_is_laid_aside_and_unfolded() -> None:
    quarter = ((QUARTER,), (line((0, 100), (0, 0)),), (line((0, 0), (100, 0)),))
    cut = offset(quarter, [10, 0, 0], folds={1, 2})
    assert outlines.area(cut) == pytest.approx(110 * 110 * pi / 4, rel=1e-3)
    whole = unfold(quarter, {1, 2}).whole.outline
    assert outlines.area(whole) == pytest.approx(4 * outlines.area(quarter))
    assert outlines.box(whole) == pytest.approx((-100, -100, 100, 100))


@settings(max_examples=60)
@given(cubics_made_up(), parts, places)
def test_what_is_only_joined_meets_nowhere_else(segment: Segment, at: float, beyond: Point) -> None:
    """The two halves of a curve, and a curve with a line going on from its end."""
    assume(0.05 < at < 0.95)
    halves = bezier.divided(segment, 0.0, at), bezier.divided(segment, at, 1.0)
    for a, b in (halves, (segment, line(end(segment), beyond))):
        if only_joined(a, b):
            assert all(points.same(met, end(a), JOIN) for met in intersect.meetings(a, b))


def test_halves_of_a_plain_curve_are_only_joined_and_a_line_turned_back_is_not() -> None:
    near, far = bezier.divided(QUARTER, 0.0, 0.5), bezier.divided(QUARTER, 0.5, 1.0)
    assert only_joined(near, far)
    assert not only_joined(near, line(end(near), (90, 40)))
    assert not only_joined(far, near)
