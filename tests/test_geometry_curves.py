"""Curves by directions, through points and to a length, and bowed arcs: known shapes, and scipy's splines."""

from __future__ import annotations

from itertools import pairwise
from math import cos, hypot, pi, radians, sin, tan

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.interpolate import CubicSpline

from chalkfold.geometry import (
    arcs,
    bezier,
    curves,
    edges,
    points,
    segments,
)
from chalkfold.geometry.shapes import Point, cubic, line
from chalkfold.geometry.trouble import GeometryTrouble, Reason
from geometry_help import places

KAPPA = 4 / 3 * tan(pi / 8)
"""The usual handle of a quarter circle, in radii."""
QUARTER = cubic((100, 0), (0, 100), (100, 100 * KAPPA), (100 * KAPPA, 100))


class TestHandles:
    def test_a_quarter_circle_is_round_to_three_parts_in_ten_thousand(self) -> None:
        (made,) = curves.curve((100, 0), (0, 100), 90, 180)
        assert made == pytest.approx(QUARTER)
        radii = [hypot(*bezier.point(made, step / 200)) for step in range(201)]
        assert min(radii) + 1e-9 >= 100 and max(radii) < 100.03

    @given(st.floats(10.0, 200.0), st.floats(20.0, 500.0))
    def test_any_arc_has_the_usual_handles(self, sweep: float, radius: float) -> None:
        a, b = (radius, 0.0), (radius * cos(radians(sweep)), radius * sin(radians(sweep)))
        (made,) = curves.curve(a, b, 90, 90 + sweep)
        assert points.distance(a, made[4:6]) == pytest.approx(4 / 3 * tan(radians(sweep) / 4) * radius, rel=1e-9)

    @given(st.floats(0.4, 2.6))
    def test_a_quarter_of_an_ellipse(self, times: float) -> None:
        (made,) = curves.curve((100 * times, 0), (0, 100), 90, 180)
        assert made[4:] == pytest.approx((100 * times, 100 * KAPPA, 100 * times * KAPPA, 100))

    @given(st.floats(0.0, 130.0), st.floats(0.0, 130.0), st.booleans())
    def test_directions_are_kept(self, first: float, last: float, same_side: bool) -> None:
        try:
            edge = curves.curve((0, 0), (200, 0), first, -last if same_side else last)
        except GeometryTrouble as trouble:
            assert trouble.reason is Reason.LOOP and first + last > 150
            return
        for angle, at_end in ((first, False), (-last if same_side else last, True)):
            off = (edges.direction_at(edge, 0, from_end=at_end) - angle) % 360
            assert min(off, 360 - off) < 1e-6


@given(st.floats(20.0, 80.0), st.floats(20.0, 80.0), st.floats(1.02, 1.4))
def test_a_curve_to_a_length_has_it_or_says_how_long_it_can_be(first: float, last: float, times: float) -> None:
    try:
        edge = curves.of_length((0, 0), (200, 0), first, -last, 200 * times)
    except GeometryTrouble as trouble:
        assert trouble.reason is Reason.LENGTH_NOT_MET
        length, bound = trouble.measures
        assert length == 200 * times and (bound < length if "at most" in trouble.message else bound > 0)
        return
    assert edges.length(edge) == pytest.approx(200 * times, abs=1e-6)
    assert edges.direction_at(edge, 0) == pytest.approx(first)


def test_a_length_that_cannot_be_is_told_with_both_lengths() -> None:
    with pytest.raises(GeometryTrouble) as caught:
        curves.of_length((0, 0), (200, 0), 30, -30, 190)
    assert caught.value.message == "the curve cannot be 19 cm long: the straight way is 20 cm already"
    with pytest.raises(GeometryTrouble) as caught:
        curves.of_length((0, 0), (200, 0), 0, 0, 230)
    assert caught.value.message == "the curve cannot be 23 cm long: with these directions it is at most 20 cm"


@given(st.lists(places, min_size=3, max_size=7), st.sampled_from(["free", "leaving", "both"]))
def test_curves_through_points_are_scipys_splines(through: list[Point], ends: str) -> None:
    gaps = [points.distance(a, b) for a, b in pairwise(through)]
    assume(min(gaps) > 20)
    ahead, home = (1.0, 0.0), (0.0, -1.0)
    first = (1, ahead) if ends != "free" else (2, (0.0, 0.0))
    last = (1, home) if ends == "both" else (2, (0.0, 0.0))
    knots = [sum(gaps[:place]) for place in range(len(through))]
    known = CubicSpline(knots, through, bc_type=(first, last))
    try:
        made = curves.through(through, 0.0 if ends != "free" else None, -90.0 if ends == "both" else None)
    except GeometryTrouble as trouble:
        assert trouble.reason is Reason.LOOP
        assume(False)
        raise
    for place, (segment, gap) in enumerate(zip(made, gaps, strict=True)):
        for t in (0.0, 0.3, 0.7, 1.0):
            assert bezier.point(segment, t) == pytest.approx(tuple(known(knots[place] + t * gap)), abs=1e-6)


class TestBowed:
    @given(places, places, st.floats(0.5, 200.0), st.sampled_from(["left", "right", "up", "down"]))
    def test_its_middle_stands_off_by_the_bow(self, a: Point, b: Point, bow: float, side: arcs.Side) -> None:
        assume(min(abs(a[0] - b[0]), abs(a[1] - b[1])) > 5)
        arc = arcs.bowed(a, b, bow, side)
        middle = segments.point_at(arc, segments.length(arc) / 2)
        off = points.minus(middle, points.between(a, b, 0.5))
        assert hypot(*off) == pytest.approx(bow)
        assert {"left": -off[0], "right": off[0], "up": -off[1], "down": off[1]}[side] > 0
        again = arcs.through(a, middle, b)
        assert (*arc[:6], arc[6]) == pytest.approx(again, rel=1e-6, abs=1e-3)

    def test_no_bow_is_a_line(self) -> None:
        assert arcs.bowed((0, 0), (80, 0), 0, "up") == line((0, 0), (80, 0))

    def test_what_cannot_be(self) -> None:
        for make, reason in (
            (lambda: arcs.bowed((0, 0), (80, 0), 5, "left"), Reason.NO_SIDE),
            (lambda: arcs.bowed((0, 0), (80, 0), -5, "up"), Reason.NO_SIDE),
            (lambda: arcs.through((0, 0), (40, 0), (80, 0)), Reason.STRAIGHT),
        ):
            with pytest.raises(GeometryTrouble) as caught:
                make()
            assert caught.value.reason is reason


def test_curves_that_cannot_be() -> None:
    with pytest.raises(GeometryTrouble) as caught:
        curves.curve((0, 0), (100, 0), 180, 180)
    assert caught.value.reason is Reason.LOOP
    with pytest.raises(GeometryTrouble) as caught:
        curves.curve((5, 5), (5, 5), 0, 90)
    assert caught.value.reason is Reason.NO_LENGTH
