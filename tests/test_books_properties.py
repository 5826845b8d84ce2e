"""What holds in the shipped books for any numbers at all."""

from __future__ import annotations

from math import pi, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from books_help import plain, sums

millimetres = st.integers(50, 2000)
fractions = st.sampled_from(["1", "3/4", "1/2", "1/3", "1/4"])
shares = st.integers(1, 99)
quick = settings(max_examples=25, deadline=None)


def close(value: object, wanted: float) -> None:
    assert isinstance(value, float)
    assert value == pytest.approx(wanted, rel=1e-9, abs=1e-6)


@quick
@given(waist=millimetres, long=millimetres, fraction=fractions, joins=st.integers(0, 4))
def test_the_sweep_of_a_circle_skirt_does_not_depend_on_its_radius(
    waist: int, long: int, fraction: str, joins: int
) -> None:
    found = sums(
        "circle skirt", waist_edge=f"{waist} mm", skirt_length=f"{long} mm", fraction=fraction, joins=str(joins)
    )
    part = eval_fraction(fraction)
    close(found["hem_sweep"], waist + 2 * pi * part * long)
    whole_arc = 2 * pi * part * (plain(found["waist_radius"]) + long)
    close(found["hem_sweep"], whole_arc - plain(found["taken_by_seams"]))


def eval_fraction(written: str) -> float:
    above, _, below = written.partition("/")
    return int(above) / int(below or 1)


@quick
@given(waist=millimetres, fraction=st.sampled_from(["1", "1/2", "1/4"]))
def test_half_the_fraction_is_twice_the_radius(waist: int, fraction: str) -> None:
    whole = sums("circle skirt", waist_edge=f"{waist} mm", fraction=fraction)
    half = sums("circle skirt", waist_edge=f"{waist} mm", fraction=f"({fraction}) / 2")
    close(half["waist_radius"], 2 * plain(whole["waist_radius"]))


@quick
@given(waist=millimetres, long=millimetres, fraction=fractions)
def test_the_hem_book_finds_the_fraction_of_a_circle_skirt_again(waist: int, long: int, fraction: str) -> None:
    skirt = sums("circle skirt", waist_edge=f"{waist} mm", skirt_length=f"{long} mm", fraction=fraction)
    sweep = f"{plain(skirt['hem_sweep']):.9f} mm"
    hem = sums("hem", hem_sweep=sweep, edge_above=f"{waist} mm", flare_length=f"{long} mm")
    close(hem["flare_share"], eval_fraction(fraction))


@quick
@given(edge=st.integers(200, 2000), depth=st.integers(5, 100), width=st.integers(5, 100))
def test_pleats_take_twice_their_depth_and_three_times_the_edge_where_they_touch(
    edge: int, depth: int, width: int
) -> None:
    found = sums("pleats", pleated_edge=f"{edge} mm", pleat_depth=f"{depth} mm", wanted_pleat_width=f"{width} mm")
    count = plain(found["pleats"])
    close(found["cloth_for_knife_pleats"], edge + 2 * depth * count)
    close(count * plain(found["pleat_width"]), edge)
    touching = sums(
        "pleats",
        pleated_edge=f"{edge} mm",
        pleat_depth=f"{edge} mm / {count:.0f}",
        wanted_pleat_width=f"{edge} mm / {count:.0f}",
    )
    close(touching["cloth_for_knife_pleats"], 3 * edge)


@quick
@given(edge=st.integers(200, 2000), gap=st.integers(5, 60), ends=st.integers(0, 40))
def test_tucks_are_one_more_than_their_gaps_and_fill_the_width(edge: int, gap: int, ends: int) -> None:
    found = sums("tucks", tucked_width=f"{edge} mm", wanted_tuck_gap=f"{gap} mm", tuck_ends=f"{ends} mm")
    gaps = plain(found["tuck_gaps"])
    close(found["tucks"], gaps + 1)
    close(gaps * plain(found["tuck_gap"]), edge - 2 * ends)


@quick
@given(long=millimetres, wide=st.integers(5, 100))
def test_a_bias_strip_holds_no_more_than_its_square(long: int, wide: int) -> None:
    found = sums("bias strips", bias_length=f"{long} mm", bias_strip_width=f"{wide} mm")
    assert long * wide <= plain(found["bias_square"]) ** 2 + 1e-6
    assert plain(found["bias_square_with_loss"]) > plain(found["bias_square"])
    close(found["bias_spacing"], sqrt(2) * wide)


@quick
@given(long=millimetres, waste=shares)
def test_twice_the_seam_is_twice_the_thread_and_waste_multiplies(long: int, waste: int) -> None:
    said = {"thread_waste": f"{waste} %"}
    names = ("lockstitched", "chainstitched", "zigzagged", "overlocked", "coverstitched")
    once = sums("thread", **said, **{f"{each}_length": f"{long} mm" for each in names})
    twice = sums("thread", **said, **{f"{each}_length": f"{2 * long} mm" for each in names})
    bare = sums("thread", thread_waste="0", **{f"{each}_length": f"{long} mm" for each in names})
    for name in once:
        if name != "thread_waste":
            close(twice[name], 2 * plain(once[name]))
            close(once[name], (1 + waste / 100) * plain(bare[name]))
    close(once["bobbin_thread"], plain(once["thread_for_lockstitch"]) / 2)


@quick
@given(stretch=st.integers(5, 150), used=st.integers(1, 50))
def test_worn_stretch_brings_a_knit_back_to_the_body(stretch: int, used: int) -> None:
    found = sums("negative ease", cloth_stretch=f"{stretch} %", stretch_to_use=f"{used} %", bust_girth="92 cm")
    close(plain(found["knit_girth_at_the_bust"]) * (1 + plain(found["worn_stretch"])), 920)
    assert plain(found["cut_to"]) >= plain(found["smallest_share"]) - 1e-9


@quick
@given(length=millimetres, percent=st.integers(0, 30))
def test_the_wash_brings_the_length_back(length: int, percent: int) -> None:
    found = sums("shrinkage", wanted_length=f"{length} mm", shrinkage=f"{percent} %")
    close(plain(found["length_unwashed"]) * (1 - percent / 100), length)


@quick
@given(length=millimetres, width=st.integers(300, 2000), own=st.integers(300, 2000))
def test_length_times_width_stays(length: int, width: int, own: int) -> None:
    found = sums("cloth width", reckoned_length=f"{length} mm", reckoned_width=f"{width} mm", own_width=f"{own} mm")
    close(plain(found["own_length"]) * own, length * width)


@quick
@given(waist=st.integers(400, 1400), hips=st.integers(400, 1400), stretch=st.integers(10, 150), snug=shares)
def test_whatever_the_body_the_elastic_can_be_pulled_on(waist: int, hips: int, stretch: int, snug: int) -> None:
    body = {"waist_girth": f"{waist} mm", "hip_girth": f"{hips} mm"}
    said = {"elastic_stretch": f"{stretch} %", "snugness": f"{snug} %"}
    cased, exposed = sums("elastic casing", **body, **said), sums("exposed elastic", **body, **said)
    for out, needs in (
        (cased["elastic_pulled_out"], cased["stretch_it_needs"]),
        (exposed["exposed_elastic_pulled_out"], exposed["exposed_elastic_needs"]),
    ):
        assert plain(out) >= max(waist, hips) - 1e-6
        assert plain(needs) <= stretch / 100 + 1e-9


@quick
@given(width=st.integers(3, 80), seam=st.integers(3, 20))
def test_the_strip_cut_for_a_tube_makes_that_tube(width: int, seam: int) -> None:
    cut = sums("tube", tube_width=f"{width} mm", tube_seam=f"{seam} mm")["tube_width_to_cut"]
    again = sums("tube", tube_width=f"{width} mm", tube_seam=f"{seam} mm", strip_at_hand=f"{plain(cut)} mm")
    close(again["width_from_the_strip"], width)


@quick
@given(edge=millimetres, pieces=st.integers(1, 8), fraction=fractions, deep=st.integers(20, 400))
def test_a_flounce_gains_its_depth_times_the_angle(edge: int, pieces: int, fraction: str, deep: int) -> None:
    found = sums(
        "flounce",
        flounced_edge=f"{edge} mm",
        flounce_pieces=str(pieces),
        flounce_fraction=fraction,
        flounce_depth=f"{deep} mm",
    )
    one = 2 * pi * eval_fraction(fraction)
    close(found["flounce_sweep"], pieces * one * plain(found["flounce_outer_radius"]))
    close(pieces * plain(found["flounce_edge"]), edge)
