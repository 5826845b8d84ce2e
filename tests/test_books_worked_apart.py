"""Books for which nothing is published, held to another way of reckoning: cloth folded on a table, and shapely.

Each test lays the cloth down as the book says to cut it, folds or sews it, and measures what has become of it.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from shapely import LineString, Point, Polygon, box

from books_help import plain, sums
from folding_help import folded, overlap, spread, thick
from outside import worked_apart

MM = pytest.approx
AGREES = 1e-9


def lengths(book: str, **said: str) -> dict[str, float]:
    return {name: value for name, value in sums(book, **said).items() if isinstance(value, float)}


@worked_apart("boxed corner", 4)
@pytest.mark.parametrize(("seam", "across"), [(10, 10), (15, 10), (6, 12), (20, 5)])
def test_the_seam_across_a_boxed_corner_is_as_long_as_the_bag_is_deep(seam: int, across: int) -> None:
    """One panel flat, its corner cut out. Where the seam across runs, from the side seam to the bottom seam, it is half
    of the loop that becomes the depth twice; so on one panel it is the depth.
    """
    found = lengths("boxed corner", bag_depth="12 cm", bag_seam=f"{seam} mm", corner_seam=f"{across} mm")
    cut = found["corner_to_cut_out"]
    panel = box(0, 0, 400, 500)
    sewn = panel.buffer(-seam, join_style="mitre")
    runs = box(-1000, -1000, cut, cut).buffer(across, join_style="mitre").boundary.intersection(sewn)
    assert runs.length == MM(120)
    within = sewn.difference(box(-1000, -1000, cut + across, cut + across))
    left_of_bottom = min(x for x, y in within.exterior.coords if y == MM(seam))
    assert left_of_bottom - seam == MM(found["corner_on_the_seams"]) == MM(found["taken_off_the_height"])
    assert found["taken_off_the_width"] == MM(2 * (left_of_bottom - seam))


@worked_apart("drawstring bag", 3)
def test_a_drawstring_bag_hemmed_and_sewn_up() -> None:
    found = lengths("drawstring bag", bag_width="30 cm", bag_height="38 cm", channel_depth="15 mm", bag_heading="2 cm")
    turn, mouth = found["channel_turn"], found["mouth_depth"]
    from_the_top = folded(found["bag_height_to_cut"] - found["bag_side_seam"], [turn, turn + mouth])
    assert spread(from_the_top) == MM(380)
    top = min(left for left, _ in from_the_top)
    assert [thick(from_the_top, top + below) for below in (2, 30, 36)] == [2, 3, 1], "the turn lies inside the hem"
    assert spread(folded(found["bag_width_to_cut"] - 20, [])) == MM(300)
    assert 380 - mouth == MM(found["side_to_sew"])


@worked_apart("envelope cover", 2)
@pytest.mark.parametrize("lap", [100, 150, 380])
def test_an_envelope_cover_folded_round_its_pad(lap: int) -> None:
    found = lengths("envelope cover", cushion_width="40 cm", cushion_height="45 cm", cover_lap=f"{lap} mm")
    high, hem = found["cover_height"], found["cover_hem"]
    hemmed = found["cover_strip"] - 2 * hem
    first_back = (hemmed - high) / 2
    upper, front, lower = folded(hemmed, [first_back, first_back + high])
    assert spread([front]) == MM(high) == MM(430)
    assert overlap(upper, lower) == MM(lap)
    assert spread([upper, front, lower]) == MM(high)
    assert spread(folded(found["cover_width_to_cut"] - 2 * found["cover_seam"], [])) == MM(380)


@worked_apart("patch pocket", 2)
def test_a_patch_pocket_pressed() -> None:
    found = lengths("patch pocket", pocket_width="15 cm", pocket_depth="17 cm")
    turn, hem, seam = found["pocket_hem_turn"], found["pocket_hem"], found["pocket_seam"]
    deep = found["pocket_depth_to_cut"]
    down = folded(deep, [turn, turn + hem, deep - seam])
    assert spread(down) == MM(170)
    mouth = min(left for left, _ in down)
    assert [thick(down, mouth + below) for below in (5, 15, 25)] == [2, 3, 1], "the turn lies inside the hem"
    wide = found["pocket_width_to_cut"]
    assert spread(folded(wide, [seam, wide - seam], start=seam)) == MM(150)


@worked_apart("vent", 2)
def test_a_vent_opens_by_what_lies_under() -> None:
    """Both pieces seen at the hem, the seam at 0. The upper one is folded along it; the other lies under, its
    edge turned in.
    """
    found = lengths("vent", vent_length="18 cm")
    added, turn = found["vent_allowance"], found["vent_turn"]
    upper = folded(300 + added, [300], start=-300)[0]
    turned, under = folded(added + 300, [added + 300 - turn], start=300)[::-1]
    assert spread([turned]) == MM(turn)
    under_edge = 300 - spread([under])
    assert overlap(upper, (under_edge, 300)) == MM(found["vent_width"])
    apart = found["gained_at_the_hem"]
    assert overlap(upper, (under_edge + apart, 300 + apart)) == MM(0), "it only just begins to gape"


@worked_apart("facing", 2)
@pytest.mark.parametrize("finish", [0, 8])
def test_a_facing_turned_to_the_inside_of_a_round_neck(finish: int) -> None:
    found = lengths("facing", facing_finish=f"{finish} mm")
    neck = 120.0
    edge, outer = neck - found["facing_seam"], neck - found["facing_seam"] + found["facing_depth_to_cut"]
    cut = Point(0, 0).buffer(outer, 256).difference(Point(0, 0).buffer(edge, 256))
    finished = Point(0, 0).buffer(outer - finish, 256).difference(Point(0, 0).buffer(neck, 256))
    assert spread([(neck, outer - finish)]) == MM(found["facing_depth"])
    fused = Point(0, 0).buffer(neck + found["facing_depth"], 256)
    fused = fused.difference(Point(0, 0).buffer(neck + found["facing_depth"] - found["interfacing_depth"], 256))
    assert fused.within(cut.buffer(AGREES)), "interfacing never stands out"
    assert finished.within(fused.buffer(AGREES)), "and backs all that is seen"


@worked_apart("faced slit", 4)
@pytest.mark.parametrize("turn", [0, 10])
def test_a_facing_reaches_all_round_its_slit(turn: int) -> None:
    found = lengths("faced slit", slit_length="16 cm", slit_facing_turn=f"{turn} mm")
    slit, beside = LineString([(0, 0), (0, 160)]), found["facing_beside"]
    needed = slit.buffer(beside, cap_style="square").intersection(box(-1000, 0, 1000, 1000))
    assert needed.bounds == MM((-found["slit_facing_width"] / 2, 0, found["slit_facing_width"] / 2, 190))
    assert needed.bounds[3] == MM(found["slit_facing_length"])
    wide, long = found["slit_facing_width_to_cut"], found["slit_facing_length_to_cut"]
    across = folded(wide, [turn, wide - turn], start=turn)
    assert spread(across) == MM(found["slit_facing_width"])
    assert spread(folded(long, [turn, long - turn], start=turn)) == MM(found["slit_facing_length"])
    stitched = Polygon([(-found["slit_seam"], 0), (found["slit_seam"], 0), (0, 160)])
    assert stitched.buffer(turn).within(needed.buffer(turn))


@worked_apart("tucks", 1)
@pytest.mark.parametrize(("depth", "gap"), [(5, 30), (12, 20), (25, 25)])
def test_cloth_for_tucks_comes_out_as_wide_as_wanted(depth: int, gap: int) -> None:
    said = {"tucked_width": "40 cm", "tuck_ends": "1 cm", "wanted_tuck_gap": f"{gap} mm"}
    found = lengths("tucks", **said, tuck_depth=f"{depth} mm")
    at, creases = found["tuck_ends"], []
    for _ in range(round(found["tucks"])):
        creases += [at + depth, at + 2 * depth]
        at += found["tuck_gap"] + 2 * depth
    layers = folded(found["cloth_for_tucks"], creases)
    assert layers[-1][1] - layers[0][0] == MM(400)
    assert found["cloth_for_tucks"] - creases[-1] == MM(found["tuck_ends"])


@worked_apart("pinch out", 1)
@pytest.mark.parametrize(("pinched", "seams"), [(10, 2), (7, 1), (5, 4)])
def test_folds_pinched_in_a_girth(pinched: int, seams: int) -> None:
    found = lengths("pinch out", pinched=f"{pinched} mm", seams_pinched=str(seams))
    quarter = 1000 / seams
    creases = [quarter * each + along for each in range(seams) for along in (100, 100 + pinched)]
    layers = folded(1000, creases)
    assert 1000 - (layers[-1][1] - layers[0][0]) == MM(found["off_the_girth"])


@worked_apart("knit bands", 2)
def test_a_band_of_knit_folded_and_pulled() -> None:
    said = {"banded_edge": "48 cm", "knit_band_share": "4/5", "knit_band_stretch": "3/4", "knit_band_depth": "2 cm"}
    found = lengths("knit bands", **said)
    wide, seam = found["knit_band_across_to_cut"], found["knit_seam"]
    outer, inner = folded(wide, [wide / 2])
    assert overlap(outer, inner) - seam == MM(20)
    assert found["knit_band_opens_to"] == MM(float(480 * Fraction(4, 5) * (1 + Fraction(3, 4))))
    sewn = Fraction(480) / (480 * Fraction(4, 5)) - 1
    assert found["band_stretch_while_sewing"] == MM(float(sewn))


@worked_apart("tiers", 4)
def test_tiers_by_repeated_fractions() -> None:
    said = {"top_edge": "80 cm", "first_fullness": "5/4", "next_fullness": "5/3", "tiers": "4", "tiers_length": "90 cm"}
    found = lengths("tiers", **said)
    edge = Fraction(800) * Fraction(5, 4)
    for number in range(1, 5):
        assert found[f"tier_{number}_edge"] == MM(float(edge))
        edge *= Fraction(5, 3)
    assert found["last_tier_edge"] == MM(found["tier_4_edge"])


@worked_apart("wrap", 2)
@pytest.mark.parametrize(("girth", "lap"), [(800, 300), (950, 240)])
def test_a_wrapped_edge_laid_round_the_body(girth: int, lap: int) -> None:
    found = lengths("wrap", wrapped_girth=f"{girth} mm", wrap_lap=f"{lap} mm")
    begin, end = 0.0, found["wrap_edge"]
    once_round = (begin + girth, end + girth)
    assert overlap((begin, end), once_round) == MM(lap)
    middle = (once_round[0] + end) / 2
    assert end - middle == MM(found["wrap_past_the_middle"])


@worked_apart("strap", 1)
def test_a_strap_is_four_layers_everywhere() -> None:
    found = lengths("strap", strap_width="25 mm", strap_length="40 cm")
    cut = found["strap_width_to_cut"]
    layers = folded(cut, [cut / 4, cut / 2, cut * 3 / 4])
    assert [thick(layers, at) for at in (1, 12, 24)] == [4, 4, 4]
    assert spread(layers) == MM(25)


@worked_apart("waistband", 2)
def test_a_waistband_folded_over_its_seams() -> None:
    found = lengths("waistband", band_girth="80 cm", band_depth="4 cm", band_lap="3 cm")
    cut, seam = found["band_strip_to_cut"], found["band_seam"]
    layers = folded(cut, [seam, cut / 2, cut - seam])
    assert spread(layers) == MM(40)
    fold = min(left for left, _ in layers)
    assert [thick(layers, fold + below) for below in (5, 35)] == [2, 4]
    assert found["band_length_to_cut"] - 2 * seam - 800 == MM(30)


@worked_apart("linen as yardage", 1)
def test_a_sheet_and_the_cloth_it_stands_for_have_one_area() -> None:
    found = lengths("linen as yardage", linen_across="180 cm", linen_down="260 cm", bought_width="140 cm")
    sheet = box(0, 0, 1800, 2600).difference(box(0, 0, 1800, 100)).difference(box(0, 2575, 1800, 2600))
    assert box(0, 0, 1400, found["as_cloth_by_the_metre"]).area == MM(sheet.area)


@worked_apart("flounce", 2)
@pytest.mark.parametrize("pieces", [1, 2, 3])
def test_a_flounce_measured_on_its_rings(pieces: int) -> None:
    said = {"flounced_edge": "90 cm", "flounce_pieces": str(pieces), "flounce_fraction": "1", "flounce_depth": "15 cm"}
    found = lengths("flounce", **said)
    inner, outer = (Point(0, 0).buffer(found[f"flounce_{each}radius"], 512).exterior for each in ("", "outer_"))
    assert inner.length * pieces == MM(900, rel=1e-5)
    assert outer.length * pieces == MM(found["flounce_sweep"], rel=1e-5)
    assert inner.distance(outer) == MM(150, rel=1e-5)
    assert plain(found["flounce_outer_radius"]) > plain(found["flounce_radius"])
