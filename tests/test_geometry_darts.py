"""Darts: folded, the layers end at the seam; legs alike; the edge goes on as it was."""

from __future__ import annotations

from math import dist, hypot

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from chalkfold.geometry import arcs, curves, darts, edges
from chalkfold.geometry.points import between, mirrored
from chalkfold.geometry.shapes import Edge, Outline, Point, line
from chalkfold.geometry.trouble import GeometryTrouble, Reason
from geometry_help import dense, polygon

BLOCK = polygon((0.0, 0.0), (220.0, -10.0), (250.0, 600.0), (0.0, 600.0))


def dart_on(edge: Edge, at: float, takes: float, depth: float, outline: Outline) -> tuple[Edge, Edge, Point]:
    """The two legs of a dart, and the cap when it is pressed towards where the edge begins."""
    begin, stop = at - takes / 2, at + takes / 2
    tip = darts.square_in(outline, edge, begin, stop, depth)
    legs = tuple((line(edges.point_at(edge, along), tip),) for along in (begin, stop))
    return legs[0], legs[1], darts.cap(edge, legs[0], legs[1])


def off(edge: Edge, point: Point) -> float:
    return shapely.LineString(dense(edge)).distance(shapely.Point(point))


WAISTS = st.one_of(
    st.tuples(st.floats(-60, 60), st.just(0.0)).map(lambda drop: ((line((0.0, 0.0), (220.0, drop[0])),))),
    st.floats(250, 900).map(lambda radius: (arcs.bulging((0.0, 0.0), (220.0, -10.0), radius, "down"),)),
    st.floats(250, 900).map(lambda radius: (arcs.bulging((0.0, 0.0), (220.0, -10.0), radius, "up"),)),
    st.tuples(st.floats(-30, 30), st.floats(-30, 30)).map(lambda ways: curves.curve((0.0, 0.0), (220.0, -10.0), *ways)),
)


@given(edge=WAISTS, at=st.floats(60, 160), takes=st.floats(2, 50), depth=st.floats(80, 180))
def test_folded_the_cap_lies_on_the_seam_of_the_side_it_is_pressed_to(
    edge: Edge, at: float, takes: float, depth: float
) -> None:
    """Fold the paper along the near leg: the layer next to it comes to lie on the piece, and its end on the seam."""
    rest = (line(edges.last(edge), (250.0, 600.0)), line((250.0, 600.0), (0.0, 600.0)), line((0.0, 600.0), (0.0, 0.0)))
    outline: Outline = (edge, *((each,) for each in rest))
    for near_first in (True, False):
        first, last, _ = dart_on(edge, at, takes, depth, outline)
        near, far = (first, last) if near_first else (last, first)
        top = darts.cap(edge, near, far)
        tip = edges.last(near)
        folded = mirrored(top, edges.first(near), tip)
        assert off(edge, folded) < 0.01
        before = edges.nearest(edge, folded) < edges.nearest(edge, edges.first(near))
        assert before is near_first
        # The other layer is folded along the middle: its leg comes to lie on the near leg.
        assert dist(mirrored(edges.first(far), top, tip), edges.first(near)) < 1e-6
        assert dist(between(edges.first(near), edges.first(far), 0.5), tip) == pytest.approx(depth, abs=1e-6)


@given(edge=WAISTS, at=st.floats(40, 180), takes=st.floats(2, 60), depth=st.floats(60, 180))
def test_the_legs_are_alike_and_the_rest_of_the_edge_is_kept(edge: Edge, at: float, takes: float, depth: float) -> None:
    first, last, top = dart_on(edge, at, takes, depth, ((*edge,), *BLOCK[1:]))
    assert edges.length(first) == pytest.approx(edges.length(last))
    capped = darts.through(edge, edges.first(first), top, edges.first(last))
    added = dist(edges.first(first), top) + dist(top, edges.first(last))
    assert edges.length(capped) == pytest.approx(edges.length(edge) - takes + added)
    assert dist(edges.first(capped), edges.first(edge)) < 1e-9 and dist(edges.last(capped), edges.last(edge)) < 1e-9


def test_a_cap_worked_by_hand() -> None:
    """Legs from (−10, 0) and (10, 0) to (0, 100) on a level edge. The near leg leans by t = 10/100; its mirror turns
    the edge by twice that angle, so at the middle, 10 away, it stands 10 × 2t / (1 − t²) = 2.0202 above.
    """
    edge = (line((-100.0, 0.0), (100.0, 0.0)),)
    top = darts.cap(edge, (line((-10.0, 0.0), (0.0, 100.0)),), (line((10.0, 0.0), (0.0, 100.0)),))
    assert top == pytest.approx((0.0, -10 * 0.2 / 0.99))


def test_where_the_edge_ends_at_the_leg_it_is_run_on_straight() -> None:
    edge = (line((-10.0, 0.0), (100.0, 0.0)),)
    top = darts.cap(edge, (line((-10.0, 0.0), (0.0, 100.0)),), (line((10.0, 0.0), (0.0, 100.0)),))
    assert top == pytest.approx((0.0, -10 * 0.2 / 0.99))


def test_a_dart_that_takes_nothing_leaves_the_edge() -> None:
    edge = BLOCK[0]
    first, last, top = dart_on(edge, 100.0, 0.0, 120.0, BLOCK)
    assert darts.through(edge, edges.first(first), top, edges.first(last)) == edge


def test_legs_that_differ_are_refused() -> None:
    edge = (line((-100.0, 0.0), (100.0, 0.0)),)
    with pytest.raises(GeometryTrouble) as caught:
        darts.cap(edge, (line((-10.0, 0.0), (5.0, 100.0)),), (line((10.0, 0.0), (5.0, 100.0)),))
    assert caught.value.reason is Reason.LEGS_DIFFER


@given(edge=WAISTS, at=st.floats(60, 160), takes=st.floats(0, 60), depth=st.floats(60, 120))
def test_the_place_square_to_a_tip_is_found_again(edge: Edge, at: float, takes: float, depth: float) -> None:
    tip = darts.square_in(((*edge,), *BLOCK[1:]), edge, at - takes / 2, at + takes / 2, depth)
    assert darts.square_place(edge, tip, takes) == pytest.approx(at, abs=0.01)


def test_no_place_is_square_to_a_tip_beside_the_edge() -> None:
    with pytest.raises(GeometryTrouble) as caught:
        darts.square_place(((0.0, 0.0, 100.0, 0.0),), (150.0, 80.0), 20.0)
    assert caught.value.reason is Reason.NOT_SQUARE


@given(by=st.floats(-50, 50), at=st.floats(0, 1))
def test_beside_lies_square_to_the_line(by: float, at: float) -> None:
    found = darts.beside((0.0, 0.0), (30.0, 40.0), at, by)
    foot = between((0.0, 0.0), (30.0, 40.0), at)
    assert hypot(found[0] - foot[0], found[1] - foot[1]) == pytest.approx(abs(by))
    assert (found[0] - foot[0]) * 30 + (found[1] - foot[1]) * 40 == pytest.approx(0, abs=1e-6)


@given(edge=WAISTS, at=st.floats(60, 140), takes=st.floats(2, 50), first=st.booleans())
def test_a_pleat_folded_under_ends_at_the_seam(edge: Edge, at: float, takes: float, first: bool) -> None:
    """Its lines run side by side: folded along the near one, the middle of the pleat comes to lie on the edge."""
    outline: Outline = (edge, *BLOCK[1:])
    begin, stop = at - takes / 2, at + takes / 2
    legs = [
        (line(edges.point_at(edge, along), darts.square_in(outline, edge, begin, stop, 100.0, part)),)
        for along, part in ((begin, 0.0), (stop, 1.0))
    ]
    near, far = legs if first else legs[::-1]
    top = darts.cap(edge, near, far)
    assert off(edge, mirrored(top, edges.first(near), edges.last(near))) < 0.01
    middle = [between(edges.first(near), edges.first(far), 0.5), between(edges.last(near), edges.last(far), 0.5)]
    assert dist(mirrored(top, middle[0], middle[1]), top) < 1e-6


@given(at=st.floats(0, 1), begin=st.floats(10, 90), takes=st.floats(0, 60))
def test_a_line_square_across_reaches_the_other_edge(at: float, begin: float, takes: float) -> None:
    found = darts.square_across(BLOCK, BLOCK[0], begin, begin + takes, at, BLOCK[2])
    assert found[1] == pytest.approx(600)
    foot = between(edges.point_at(BLOCK[0], begin), edges.point_at(BLOCK[0], begin + takes), at)
    along = (220.0, -10.0)
    assert (found[0] - foot[0]) * along[0] + (found[1] - foot[1]) * along[1] == pytest.approx(0, abs=1e-3)
