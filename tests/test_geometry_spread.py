"""Slash and spread: both parts keep their shape, and the edge opens by what is said."""

from __future__ import annotations

from math import dist

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from chalkfold.geometry import arcs, curves, edges, outlines, spread
from chalkfold.geometry.crossings import is_simple
from chalkfold.geometry.shapes import Edge, Outline, Point, end, line, start
from chalkfold.geometry.trouble import GeometryTrouble, Reason
from geometry_help import as_polygon, polygon, rectangle

SKIRT: Outline = (
    (arcs.bulging((0.0, 0.0), (180.0, -8.0), 700.0, "down"),),
    (arcs.bulging((180.0, -8.0), (240.0, 190.0), 600.0, "right"), line((240.0, 190.0), (245.0, 600.0))),
    (line((245.0, 600.0), (0.0, 600.0)),),
    (line((0.0, 600.0), (0.0, 0.0)),),
)
"""Edges waist, side, hem, fold."""
WAIST, SIDE, HEM, FOLD = range(4)
CURVED: Outline = (
    curves.curve((0.0, 0.0), (180.0, -8.0), 0.0, -12.0),
    (*curves.curve((180.0, -8.0), (240.0, 190.0), 78.0, 89.0), line((240.0, 190.0), (245.0, 600.0))),
    curves.curve((245.0, 600.0), (0.0, 590.0), 175.0, 190.0),
    (line((0.0, 590.0), (0.0, 0.0)),),
)
"""The same with cubics for arcs, and a hem that is one as well."""
SKIRTS = (SKIRT, CURVED)
LEVEL = tuple(skirt[number] for skirt in SKIRTS for number in (WAIST, HEM))
Slash = tuple[Point, Point]


def opened_out(outline: Outline, slash: tuple[Point, Point], wide: float, narrow: float, folds: list[int]) -> Outline:
    """Slashed from the hem to the waist: a bridge at a corner belongs to one of these."""
    named = [edge for edge in outline if edge in LEVEL or edges.backwards(edge) in LEVEL]
    part = spread.moving_part(outline, *slash, folds)
    cut = spread.opened(part, wide, narrow)
    return tuple(spread.spread(edge, part, cut, float(edge in named)) for edge in outline)


@st.composite
def slashed(draw: st.DrawFn) -> tuple[Outline, Slash]:
    """A skirt and a slash from its hem to its waist."""
    skirt = draw(st.sampled_from(SKIRTS))
    hem, waist = draw(st.floats(0.02, 0.98)), draw(st.just(0.0) | st.floats(0.01, 0.98))
    opens = edges.point_at(skirt[HEM], hem * edges.length(skirt[HEM]))
    return skirt, (opens, edges.point_at(skirt[WAIST], edges.length(skirt[WAIST]) * (1 - waist)))


@given(skirt_and_slash=slashed(), wide=st.floats(0, 150), turned_round=st.booleans())
def test_the_opened_edge_grows_by_what_is_said_and_no_other(
    skirt_and_slash: tuple[Outline, Slash], wide: float, turned_round: bool
) -> None:
    skirt, slash = skirt_and_slash
    outline = tuple(edges.backwards(edge) for edge in reversed(skirt)) if turned_round else skirt
    before = outlines.backwards(outline) if turned_round else outline
    found = opened_out(outline, slash, wide, 0.0, [0 if turned_round else FOLD])
    after = outlines.backwards(found) if turned_round else found
    grown = [edges.length(b) - edges.length(a) for a, b in zip(before, after, strict=True)]
    assert grown == pytest.approx([0, 0, wide, 0], abs=1e-6)
    assert outlines.gap(found)[1] < 1e-6
    assert after[FOLD] == before[FOLD]
    wedge = 0.5 * wide * (dist(*slash) ** 2 - wide**2 / 4) ** 0.5
    assert abs(outlines.area(found)) == pytest.approx(abs(outlines.area(outline)) + wedge, abs=0.01)
    if is_simple(found):
        assert as_polygon(found).area == pytest.approx(as_polygon(outline).area + wedge, rel=1e-4)


@given(skirt_and_slash=slashed(), wide=st.floats(0, 150), narrow=st.floats(0, 100))
def test_opened_at_both_ends_a_band_comes_in_between(
    skirt_and_slash: tuple[Outline, Slash], wide: float, narrow: float
) -> None:
    """The band is a trapezium with the slash as its two sides, of the mean opening times its height."""
    skirt, slash = skirt_and_slash
    found = opened_out(skirt, slash, wide, narrow, [FOLD])
    grown = [edges.length(b) - edges.length(a) for a, b in zip(skirt, found, strict=True)]
    assert grown == pytest.approx([narrow, 0, wide, 0], abs=1e-6)
    high = (dist(*slash) ** 2 - (wide - narrow) ** 2 / 4) ** 0.5
    assert outlines.area(found) == pytest.approx(outlines.area(skirt) + (wide + narrow) / 2 * high, abs=0.01)
    assert outlines.gap(found)[1] < 1e-6


@given(skirt_and_slash=slashed(), wide=st.floats(0, 150), spot=st.tuples(st.floats(1, 239), st.floats(1, 599)))
def test_a_point_moves_with_its_part_as_shapely_sees_it(
    skirt_and_slash: tuple[Outline, Slash], wide: float, spot: Point
) -> None:
    skirt, slash = skirt_and_slash
    part = spread.moving_part(skirt, *slash, [FOLD])
    cut = spread.opened(part, wide, 0.0)
    moved = spread.spread_point(spot, part, cut)
    on_part = as_polygon(part)
    if on_part.exterior.distance(shapely.Point(spot)) > 0.1:
        if on_part.contains(shapely.Point(spot)):
            assert dist(moved, slash[1]) == pytest.approx(dist(spot, slash[1]))
            assert dist(moved, start(cut[0])) == pytest.approx(dist(spot, slash[0]))
        else:
            assert moved == spot


def test_a_wedge_worked_by_hand() -> None:
    """A square of 100, slashed up its middle from below and hinged at the top: opened by 120 at the hem, the slash of
    100 makes a triangle with sides 100, 100, 120; half of 120 is 60, so it is 80 high and each side leans by asin 0.6.
    The right half turns about (50, 0) by 2 × asin 0.6, whose cosine is 0.28 and sine 0.96: the corner (100, 0) comes to
    lie at (50 + 50 × 0.28, −50 × 0.96).
    """
    square = polygon((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0))
    found = opened_out(square, ((50.0, 100.0), (50.0, 0.0)), 120.0, 0.0, [3])
    assert edges.last(found[0]) == pytest.approx((64.0, -48.0))
    assert end(found[2][1]) == pytest.approx((50.0, 100.0))
    assert dist(start(found[2][1]), (50.0, 100.0)) == pytest.approx(120)


def test_opened_at_the_corner_the_bridge_belongs_to_the_edge_named() -> None:
    square = rectangle(100.0, 100.0)
    part = spread.moving_part(square, (0.0, 100.0), (100.0, 0.0), [3])
    cut = spread.opened(part, 20.0, 0.0)
    named = spread.spread(square[2], part, cut, 1.0)
    assert edges.length(named) == pytest.approx(120) and edges.last(named) == pytest.approx((0.0, 100.0))
    assert edges.length(spread.spread(square[2], part, cut, 0.0)) == pytest.approx(100)


def test_without_a_fold_the_start_stays() -> None:
    square = rectangle(100.0, 100.0)
    found = opened_out(square, ((50.0, 100.0), (50.0, 0.0)), 20.0, 0.0, [])
    assert found[3] == square[3] and found[1] != square[1]


@pytest.mark.parametrize(
    ("opens", "hinge", "reason"),
    [
        ((50.0, 100.0), (50.0, 40.0), Reason.SLASH_LEAVES),
        ((20.0, 100.0), (80.0, 100.0), Reason.SLASH_LEAVES),
        ((50.0, 100.0), (50.0, 100.0), Reason.SLASH_LEAVES),
        ((50.0, 100.0), (0.0, 40.0), Reason.SLASH_ON_FOLD),
    ],
)
def test_slashes_that_are_none(opens: Point, hinge: Point, reason: Reason) -> None:
    with pytest.raises(GeometryTrouble) as caught:
        spread.moving_part(rectangle(100.0, 100.0), opens, hinge, [3])
    assert caught.value.reason is reason


def test_a_slash_across_a_hollow_leaves_the_piece() -> None:
    hollow = polygon((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (50.0, 20.0), (0.0, 100.0))
    with pytest.raises(GeometryTrouble) as caught:
        spread.moving_part(hollow, (90.0, 84.0), (0.0, 80.0), [])
    assert caught.value.reason is Reason.SLASH_LEAVES


def test_opened_farther_than_it_can_be() -> None:
    part = spread.moving_part(rectangle(100.0, 100.0), (50.0, 100.0), (50.0, 0.0), [3])
    with pytest.raises(GeometryTrouble) as caught:
        spread.opened(part, 201.0, 0.0)
    assert caught.value.reason is Reason.OPENED_TOO_FAR


@given(takes=st.just(0.0) | st.floats(0.01, 50), deep=st.floats(50, 250), at=st.floats(40, 140), hem=st.floats(10, 235))
def test_a_closed_dart_opens_the_hem_by_as_many_degrees(takes: float, deep: float, at: float, hem: float) -> None:
    """Pivoting: the part beyond the dart turns about its tip; the waist loses the dart, the hem gains the wedge."""
    edge: Edge = (line((0.0, 0.0), (180.0, 0.0)),)
    outline: Outline = (edge, (line((180.0, 0.0), (245.0, 600.0)),), *SKIRT[HEM:])
    first, last, tip = (at - takes / 2, 0.0), (at + takes / 2, 0.0), (at, deep)
    opens, legs = (hem, 600.0), (line(first, last),)
    part = spread.dart_part(outline, opens, tip, legs, [FOLD])
    cut = spread.closed(part, legs)
    found = (
        spread.closed_edge(edge, legs, part, cut),
        *(spread.spread(each, part, cut, 1.0) for each in outline[1:]),
    )
    reach, leg = dist(opens, tip), dist(first, tip)
    grown = [edges.length(b) - edges.length(a) for a, b in zip(outline, found, strict=True)]
    assert grown == pytest.approx([-takes, 0, takes / leg * reach, 0], abs=1e-6)
    assert outlines.gap(found)[1] < 1e-6
