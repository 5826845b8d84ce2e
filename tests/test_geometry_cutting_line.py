"""The cutting line: worked by hand, and held against shapely.

At its allowance everywhere away from corners; a mitred ``buffer`` for equal allowances; larger allowances outside
smaller ones.
"""

from __future__ import annotations

from math import atan2, cos, degrees, hypot, pi, radians, sin, sqrt, tan

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from chalkfold.geometry import arcs, edges, outlines, points
from chalkfold.geometry.crossings import is_simple
from chalkfold.geometry.cut_corners import MITRE_LIMIT
from chalkfold.geometry.offset import offset
from chalkfold.geometry.shapes import Outline, line
from chalkfold.geometry.trouble import GeometryTrouble, Reason
from geometry_help import angles, as_polygon, disc, outlines_made_up, polygon, quarter_ring, rectangle

widths = st.sampled_from([0.0, 5.0, 10.0, 15.0, 30.0])
CUTS = 0.05
"""How far (mm) a cutting line may be off its allowance."""


def laid(outline: Outline, allowances: list[float]) -> Outline:
    """The cutting line, for outlines whose edges have room for it."""
    try:
        return offset(outline, allowances)
    except GeometryTrouble as trouble:
        assert trouble.reason in (Reason.ALLOWANCE_TOO_WIDE, Reason.ALLOWANCES_CROSS)
        assert trouble.edges
        assume(False)
        raise


def some(outline: Outline, choose: st.DataObject) -> list[float]:
    return [choose.draw(widths) for _ in outline]


def test_a_rectangle_with_a_deeper_hem() -> None:
    cut = offset(rectangle(600, 400), [10, 10, 30, 10])
    assert outlines.corners(cut) == ((-10, -10), (610, -10), (610, 430), (-10, 430))
    assert outlines.area(cut) == 620 * 440


def test_a_quarter_ring_on_a_fold() -> None:
    waist, back, hem, fold = offset(quarter_ring(324.68, 600), [10, 15, 10, 0], folds={3})
    assert arcs.radius(waist[0]) == pytest.approx(314.68)
    assert arcs.radius(hem[0]) == pytest.approx(934.68)
    assert edges.first(waist) == pytest.approx((314.68, 0))  # square on the fold line
    assert edges.last(waist) == pytest.approx((-15, sqrt(314.68**2 - 15**2)))
    assert edges.last(back) == pytest.approx((-15, sqrt(934.68**2 - 15**2)))
    assert fold == (pytest.approx((934.68, 0, 314.68, 0)),)
    assert edges.length(waist) == pytest.approx(314.68 * (pi / 2 + atan2(15, sqrt(314.68**2 - 15**2))))


def test_a_circle_skirt_in_quarters_on_two_folds() -> None:
    # waist 72 cm, length 60 cm: radius 72 / 2π = 11.46 cm (reference value C06; plane geometry)
    waist, _, hem, _ = offset(quarter_ring(114.59, 600), [10, 0, 20, 0], folds={1, 3})
    assert arcs.radius(waist[0]) == pytest.approx(104.59)
    assert arcs.radius(hem[0]) == pytest.approx(734.59)
    assert waist[0][6] == pytest.approx(90) and hem[0][6] == pytest.approx(-90)


def test_a_disc_only_grows() -> None:
    assert offset(disc(100), [10]) == ((pytest.approx((110, 0, 110, 0, 0, 0, 360)),),)


def test_a_corner_with_one_allowance_of_nothing_runs_on_along_its_edge() -> None:
    right_triangle = polygon((0, 0), (400, 0), (0, 300))
    cut = offset(right_triangle, [0, 10, 0])
    assert outlines.corners(cut) == (
        pytest.approx((0, 0)),
        pytest.approx((400 + 10 / 0.6, 0)),
        pytest.approx((0, 300 + 10 / 0.8)),
    )


def test_an_inner_corner_is_trimmed() -> None:
    l_shape = polygon((0, 0), (300, 0), (300, 200), (100, 200), (100, 400), (0, 400))
    cut = offset(l_shape, [10] * 6)
    assert outlines.corners(cut)[3] == pytest.approx((110, 210))
    assert outlines.area(cut) == pytest.approx(320 * 220 + 120 * 200)


def test_a_long_point_is_cut_off_square_to_its_bisector() -> None:
    # a point of 20°: uncut it would stand 10 / sin 10° = 57.6 mm off the seam
    point = polygon((0, 0), (600, -600 * tan(radians(10))), (600, 600 * tan(radians(10))))
    cut = offset(point, [10, 10, 10])
    assert outlines.box(cut)[0] == pytest.approx(-MITRE_LIMIT * 10)
    before_point = cut[2]
    half = (10 - 25 * sin(radians(10))) / cos(radians(10))
    assert before_point[-1] == pytest.approx((-25, half, -25, -half))
    assert [len(edge) for edge in cut] == [1, 1, 2]


def test_a_point_on_a_fold_is_cut_off_square_to_the_fold() -> None:
    slope = tan(radians(10))
    half = polygon((0, 0), (600, 0), (600, 600 * slope))
    cut = offset(half, [0, 10, 10], folds={0})
    assert edges.first(cut[0]) == pytest.approx((-25, 0))
    assert cut[2][-1][:2] == pytest.approx((-25, (10 - 25 * sin(radians(10))) / cos(radians(10))))
    assert cut[2][-1][2:] == pytest.approx((-25, 0))


def test_a_neck_that_leaves_the_fold_slanting_meets_its_own_mirror_image() -> None:
    # a V neck at 45° to a fold down the left; the allowance of 10 meets the fold 10 √2 above the point
    front = polygon((0, 100), (100, 0), (300, 0), (300, 500), (0, 500))
    cut = offset(front, [10, 10, 10, 10, 0], folds={4})
    assert edges.first(cut[0]) == pytest.approx((0, 100 - 10 * sqrt(2)))
    assert edges.first(cut[4]) == pytest.approx((0, 510))


def _half_with_hem(side: arcs.Side) -> Outline:
    return ((line((0, 0), (200, 0)),), (line((200, 0), (200, 300)),),
            (arcs.bulging((200, 300), (0, 350), 400, side),), (line((0, 350), (0, 0)),))  # fmt: skip


def test_a_hem_that_comes_short_of_the_fold_runs_out_straight() -> None:
    hollow = _half_with_hem("up")
    lean = radians(edges.direction_at(hollow[2], 0, from_end=True) - 90)  # between hem and fold
    _, _, (_, straight), fold = offset(hollow, [10, 10, 40, 0], folds={3})
    assert straight[:2] == pytest.approx((40 * cos(lean), 350 + 40 * sin(lean)))
    assert straight[2:] == pytest.approx((0, 350 + 40 / sin(lean)), abs=1e-9)
    assert fold == (pytest.approx((0, 350 + 40 / sin(lean), 0, -10)),)


def test_a_hem_that_overshoots_the_fold_is_trimmed_to_it() -> None:
    dipped = _half_with_hem("down")
    x, y = dipped[2][0][4:6]
    _, _, (hem,), _ = offset(dipped, [10, 10, 40, 0], folds={3})
    assert hem[2:4] == pytest.approx((0, y + sqrt(440**2 - x**2)), abs=1e-9)


def test_edges_that_run_on_smoothly_get_a_square_step() -> None:
    side = polygon((0, 0), (300, 0), (300, 200), (300, 400), (0, 400))
    cut = offset(side, [10, 10, 25, 10, 10])
    assert cut[1] == (pytest.approx((310, -10, 310, 200)), pytest.approx((310, 200, 325, 200)))
    assert cut[2] == (pytest.approx((325, 200, 325, 410)),)
    backwards = offset(outlines.backwards(side), [10, 10, 25, 10, 10])
    assert as_polygon(backwards).equals_exact(as_polygon(outlines.backwards(cut)), 1e-9)


def test_smooth_joins_of_line_and_arc_stay_smooth() -> None:
    stadium = (
        (line((0, 0), (100, 0)), arcs.around((100, 30), (100, 0), (100, 60)), line((100, 60), (0, 60))),
        (arcs.around((0, 30), (0, 60), (0, 0)),),
    )
    cut = offset(stadium, [10, 10])
    assert [len(edge) for edge in cut] == [3, 1]
    assert outlines.area(cut) == pytest.approx(100 * 80 + pi * 40**2)


def _hollow(radius: float) -> Outline:
    return ((line((0, 0), (40, 0)),), (arcs.bulging((40, 0), (60, 0), radius, "down"),), (line((60, 0), (100, 0)),),
            (line((100, 0), (100, 90)),), (line((100, 90), (0, 90)),), (line((0, 90), (0, 0)),))  # fmt: skip


def test_a_hollow_tighter_than_its_allowance_names_the_edge() -> None:
    with pytest.raises(GeometryTrouble) as caught:
        offset(_hollow(12), [0, 12, 0, 10, 10, 10])
    assert (caught.value.reason, caught.value.edges) == (Reason.ALLOWANCE_TOO_WIDE, (1,))
    assert offset(_hollow(12), [0, 3, 0, 10, 10, 10])


def test_allowances_that_run_into_each_other_name_the_edges() -> None:
    slot = polygon((0, 0), (100, 0), (100, 300), (130, 300), (130, 0), (230, 0), (230, 400), (0, 400))
    assert offset(slot, [10] * 8)
    with pytest.raises(GeometryTrouble) as caught:
        offset(slot, [16] * 8)
    assert (caught.value.reason, caught.value.edges) == (Reason.ALLOWANCE_TOO_WIDE, (2,))
    # two arms of a ring that nearly close
    ring = ((arcs.around((0, 0), (100, 0), points.polar((0, 0), -5, 100), long_way=True),),
            (line(points.polar((0, 0), -5, 100), points.polar((0, 0), -5, 60)),),
            (arcs.around((0, 0), points.polar((0, 0), -5, 60), (60, 0), long_way=True),),
            (line((60, 0), (100, 0)),))  # fmt: skip
    with pytest.raises(GeometryTrouble) as caught:
        offset(ring, [5, 10, 5, 10])
    assert caught.value.reason is Reason.ALLOWANCES_CROSS


def test_folds_and_allowances_that_cannot_be() -> None:
    with pytest.raises(GeometryTrouble) as caught:
        offset(rectangle(60, 40), [10, -1, 10, 10])
    assert (caught.value.reason, caught.value.edges) == (Reason.ALLOWANCE_NEGATIVE, (1,))
    with pytest.raises(GeometryTrouble) as caught:
        offset(quarter_ring(100, 100), [10, 10, 10, 10], folds={0})
    assert (caught.value.reason, caught.value.edges) == (Reason.FOLD_NOT_STRAIGHT, (0,))
    along_fold = polygon((0, 0), (100, 0), (100, 200), (0, 200), (0, 100))
    with pytest.raises(GeometryTrouble) as caught:
        offset(along_fold, [10] * 5, folds={4})  # the edge before runs on along the fold
    assert (caught.value.reason, caught.value.edges) == (Reason.FOLD_CORNER, (3,))
    over_fold = polygon((0, 0), (100, 0), (100, 300), (-50, 300), (0, 100))
    with pytest.raises(GeometryTrouble) as caught:
        offset(over_fold, [10] * 5, folds={4})
    assert (caught.value.reason, caught.value.edges) == (Reason.FOLD_CORNER, (3,))


@given(outlines_made_up(), st.data())
def test_the_cutting_line_is_closed_simple_and_outside(outline: Outline, choose: st.DataObject) -> None:
    cut = laid(outline, some(outline, choose))
    assert outlines.is_closed(cut) and is_simple(cut) and len(cut) == len(outline)
    assert outlines.orientation(cut) == outlines.orientation(outline)
    assert abs(outlines.area(cut)) >= abs(outlines.area(outline)) - 1e-6
    drawn = as_polygon(cut)
    assert drawn.is_valid
    assert drawn.buffer(CUTS).contains(as_polygon(outline))


@settings(max_examples=60)
@given(outlines_made_up(), st.data())
def test_the_cutting_line_lies_everywhere_at_its_allowance(outline: Outline, choose: st.DataObject) -> None:
    allowances = some(outline, choose)
    corner = 0.5 + max(allowances)
    for seam, cut, allowance in zip(outline, laid(outline, allowances), allowances, strict=True):
        whole = edges.length(seam)
        for at in range(51):
            point = edges.point_at(cut, edges.length(cut) * at / 50)
            along = edges.nearest(seam, point)
            far = min(points.distance(point, end) for end in (edges.first(seam), edges.last(seam)))
            if corner < along < whole - corner and far > MITRE_LIMIT * max(allowances):
                there = edges.point_at(seam, along)
                assert points.distance(there, point) == pytest.approx(allowance, abs=CUTS)


@given(outlines_made_up(curved=False), st.floats(1.0, 30.0))
def test_equal_allowances_agree_with_a_mitred_buffer(outline: Outline, allowance: float) -> None:
    ours = as_polygon(laid(outline, [allowance] * len(outline)))
    theirs = as_polygon(outline).buffer(allowance, join_style="mitre", mitre_limit=MITRE_LIMIT)
    assert ours.symmetric_difference(theirs).area < CUTS * theirs.length


@given(outlines_made_up(curved=False), st.data())
def test_larger_allowances_lie_outside_smaller_ones(outline: Outline, choose: st.DataObject) -> None:
    smaller = some(outline, choose)
    larger = [allowance + choose.draw(widths) for allowance in smaller]
    inner, outer = as_polygon(laid(outline, smaller)), as_polygon(laid(outline, larger))
    assert outer.buffer(CUTS).contains(inner)


@settings(max_examples=50)
@given(outlines_made_up(), st.data(), angles)
def test_the_cutting_line_turns_with_its_seam_line(outline: Outline, choose: st.DataObject, angle: float) -> None:
    allowances = some(outline, choose)
    one = laid(outlines.turned(outline, angle), allowances)
    other = outlines.turned(laid(outline, allowances), angle)
    assert shapely.hausdorff_distance(as_polygon(one), as_polygon(other)) < CUTS


@settings(max_examples=50)
@given(outlines_made_up(), st.data())
def test_the_cutting_line_is_the_same_whichever_way_round(outline: Outline, choose: st.DataObject) -> None:
    allowances = some(outline, choose)
    one = laid(outlines.backwards(outline), allowances[::-1])
    assert shapely.hausdorff_distance(as_polygon(one), as_polygon(laid(outline, allowances))) < CUTS


def test_a_point_is_sharp_when_its_arcs_meet_soon() -> None:
    """Two arcs that close like a leaf are run on along their circles, and meet sooner than straight lines would."""
    leaf = ((arcs.bulging((0, 0), (400, 0), 300, "up"),), (arcs.bulging((400, 0), (0, 0), 300, "down"),))
    cut = offset(leaf, [10, 10])
    drop = sqrt(300**2 - 200**2)
    assert outlines.corners(cut) == (
        pytest.approx((200 - sqrt(310**2 - drop**2), 0)),
        pytest.approx((200 + sqrt(310**2 - drop**2), 0)),
    )
    assert degrees(atan2(200, drop)) < 45  # a sharp point
    assert hypot(*points.minus(outlines.corners(cut)[0], (0, 0))) < MITRE_LIMIT * 10
