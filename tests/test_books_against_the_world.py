"""Whole published tables against the shipped books and charts. Single figures stand in ``spec/books_*.md``."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise, product

import pytest

from books_help import SHELF, plain, sums
from chalkfold.diagnostics import Faults
from chalkfold.formula import key_of
from chalkfold.trade.measures import takings
from outside import published
from post_help import number, post, row

INCH, CM = 25.4, 10.0
YARD = 36 * INCH


def in_quarters(written: str) -> Fraction:
    """``1 3/4`` as a number."""
    return sum((Fraction(part) for part in written.split()), Fraction(0))


BALDT = """
0.5 0-6 | 1 1-3 | 1.5 2-1 | 2 2-6 | 2.5 3-4 | 3 4-2 | 3.5 5-0 | 4 5-5 | 4.5 6-3 | 5 7-1 | 5.5 7-6 | 6 8-4 | 6.5 9-1
| 7 9-7 | 7.5 10-5 | 8 11-2 | 8.5 12-0 | 9 12-6 | 9.5 13-3 | 10 14-1 | 10.5 14-7 | 11 15-4
"""


@published("bias strips", BALDT.count("|") + 1)
@pytest.mark.parametrize("entry", BALDT.split("|"), ids=lambda entry: entry.split()[0])
def test_spacing_of_bias_strips_along_the_selvedge(entry: str) -> None:
    """L. I. Baldt, Clothing for Women, 1916, ch. XXII, in inches and eighths: 22 widths, all within 1/8 in."""
    width, spacing = entry.split()
    inches, eighths = map(int, spacing.split("-"))
    found = plain(sums("bias strips", bias_strip_width=f"{width} in")["bias_spacing"])
    assert found == pytest.approx((inches + eighths / 8) * INCH, abs=INCH / 8)


WIDTHS = (36, 39, 42, 45, 50, 54, 60, 66)
YARDS = """
1 3/4,1 1/2,1 1/2,1 3/8,1 1/4,1 1/8,1,7/8; 2,1 3/4,1 3/4,1 5/8,1 1/2,1 3/8,1 1/4,1 1/8;
2 1/4,2,2,1 3/4,1 5/8,1 1/2,1 3/8,1 1/4; 2 1/2,2 1/4,2 1/4,2 1/8,1 3/4,1 3/4,1 5/8,1 1/2;
2 7/8,2 1/2,2 1/2,2 1/4,2,1 7/8,1 3/4,1 5/8; 3 1/8,2 3/4,2 3/4,2 1/2,2 1/4,2,1 7/8,1 3/4;
3 3/8,3,2 7/8,2 3/4,2 3/8,2 1/4,2,1 7/8; 3 3/4,3 1/4,3 1/8,2 7/8,2 5/8,2 3/8,2 1/4,2 1/8;
4 1/4,3 1/2,3 3/8,3 1/8,2 3/4,2 5/8,2 3/8,2 1/4; 4 1/2,3 3/4,3 5/8,3 3/8,3,2 3/4,2 5/8,2 1/2;
4 3/4,4,3 7/8,3 5/8,3 1/4,2 7/8,2 3/4,2 5/8; 5,4 1/4,4 1/8,3 7/8,3 3/8,3 1/8,2 7/8,2 3/4
"""
CHART = [[in_quarters(cell) for cell in line.split(",")] for line in YARDS.split(";")]


@published("cloth width", sum(map(len, CHART)))
def test_another_width_of_cloth_for_each_of_the_96_lengths_of_the_chart() -> None:
    """http://www.greenspun.com/bboard/q-and-a-fetch-msg.tcl?msg_id=008fgB, last entry of the first row from a second
    copy. The chart rounds to 1/8 yd; with the book's margin no entry is longer than what the book asks for.
    """
    unit = sums("cloth width", reckoned_length="1 yd", reckoned_width="36 in", own_width="60 in")
    assert plain(unit["own_length"]) == pytest.approx(0.6 * YARD)
    margin = plain(unit["width_margin"])
    off = [
        float(line[into] * WIDTHS[into] / (line[of] * WIDTHS[of])) - 1
        for line in CHART
        for of, into in product(range(8), repeat=2)
    ]
    assert max(off) <= margin
    assert max(off) > margin - 0.01, "the margin is no larger than it has to be"
    from_36_in = [float(line[into] * WIDTHS[into] / (line[0] * 36)) - 1 for line in CHART for into in range(8)]
    assert min(from_36_in) >= -0.11 and max(from_36_in) <= 0.1 + 1e-9


NOMINAL = {16: 10.5, 18: 11.6, 20: 12.7, 24: 15.0, 28: 17.8, 30: 19.0, 32: 20.5, 36: 22.9, 40: 25.4, 60: 38.1}


@published("buttons", len(NOMINAL))
@pytest.mark.parametrize("ligne", NOMINAL)
def test_ligne_of_nominal_buttons(ligne: int) -> None:
    """https://www.sizes.com/people/buttons.htm: within 0.4 mm, which is less than one ligne."""
    found = plain(sums("buttons", button_width=f"{NOMINAL[ligne]} mm")["ligne"])
    assert abs(found - ligne) <= 1
    assert abs(ligne * 0.635 - NOMINAL[ligne]) <= 0.4


LEAFLET = [("25", "3 5/8"), ("36", "5 1/8"), ("42", "6"), ("49", "7")]


@published("circle skirt", len(LEAFLET))
@pytest.mark.parametrize(("hips", "table"), LEAFLET)
def test_a_radius_for_the_hips_is_never_below_that_of_a_leaflet_that_counts_on_stretch(hips: str, table: str) -> None:
    """kipdf.com, a simple circle skirt for square dancing: a seventh of the hips, to the nearest 1/8 in."""
    found = plain(sums("circle skirt", waist_edge=f"{hips} in", fraction="1")["waist_radius"])
    assert found >= float(in_quarters(table)) * INCH
    assert float(in_quarters(table)) == pytest.approx(int(hips) / 7, abs=0.071)


def test_a_slip_in_a_table_of_strips() -> None:
    """NIMI p. 220 prints 10 cm × 1.4 = 7.14; that is 10 / 1.4. Its sum of 15.12 cm comes out with the division."""
    found = sums("bias strips", bias_length="5 m", bias_strip_width="2.5 cm", cloth_width="86 cm")
    assert plain(found["bias_cloth_length"]) == pytest.approx(15.12 * CM, abs=0.1)
    multiplied = (500 * 2.5 + 14.0**2) / 86
    assert abs(multiplied - 15.12) > 1


def column(chart: str, measure: str) -> list[float]:
    """A measure of a shipped chart, size by size, in mm."""
    text = post(f"wanted: {measure}", head=f"sizes: {chart}")
    return [value for value in row(text, SHELF, "wanted") if isinstance(value, float)]


ASTM = {
    "bust girth": "31 1/8, 31 3/4, 33, 34 1/8, 35 1/4, 36 1/4, 37 1/4, 38 3/4, 40 3/8, 42 1/8, 44, 46",
    "under-bust girth": "25 3/4, 26 1/2, 27 1/4, 28, 29, 30, 31, 32 1/2, 34, 35 3/4, 37 5/8, 39 5/8",
}
ASTM_WAISTS = {
    "misses curvy": "23 7/8, 24 5/8, 25 3/8, 26 1/8, 27, 28, 29, 30 3/4, 32 1/2, 34 1/2, 36 3/4, 39",
    "misses straight": "25 3/8, 26 1/8, 26 7/8, 27 5/8, 28 1/2, 29 1/2, 30 1/2, 32 1/4, 34, 36, 38 1/4, 40 1/2",
}


class TestCharts:
    @pytest.mark.parametrize("chart", ASTM_WAISTS)
    def test_the_columns_of_astm_d5585(self, chart: str) -> None:
        """http://www.astm.org/Standards/D5585.htm (D5585-11e1), as printed there."""
        for measure, printed in {**ASTM, "waist girth": ASTM_WAISTS[chart]}.items():
            wanted = [float(in_quarters(each)) * INCH for each in printed.split(",")]
            assert column(chart, measure) == pytest.approx(wanted)

    def test_straight_is_an_inch_and_a_half_more_than_curvy_in_all_12_sizes(self) -> None:
        """Derived from the same table; size 8 is 71.1 cm round the waist and 92.1 cm round the bust."""
        straight, curvy = (column(chart, "waist girth") for chart in ("misses straight", "misses curvy"))
        assert [a - b for a, b in zip(straight, curvy, strict=True)] == pytest.approx([1.5 * INCH] * 12)
        assert curvy[5] == pytest.approx(71.1 * CM, abs=0.5)
        assert column("misses curvy", "bust girth")[5] == pytest.approx(92.1 * CM, abs=0.5)

    def test_a_child_s_size_is_its_height_in_steps_of_6_cm(self) -> None:
        """https://apparelmerchandisinglearner.blogspot.com/2017/05/apparel-department-and-size-range.html"""
        heights = column("children by height", "height")
        assert heights == pytest.approx([(80 + 6 * step) * CM for step in range(15)])
        trade = [80, 86, 92, 98, 104, 110, 116, 122, 128, 140, 152, 164]
        assert {each * CM for each in trade} <= set(heights)

    GIRLS = (
        [89.5, 98.1, 105.0, 112.8, 118.0, 124.8, 131.6, 137.0, 144.0],
        [48.1, 50.3, 52.8, 55.1, 56.7, 59.9, 64.2, 66.8, 68.6],
    )
    BOYS = ([91.5, 99.6, 105.6, 114.6, 120.3, 126.6, 133.2, 137.1], [48.7, 51.6, 53.8, 55.5, 57.2, 60.1, 64.8, 67.4])

    @pytest.mark.parametrize("measured", [GIRLS, BOYS], ids=["girls of 2 to 10", "boys of 2 to 9"])
    def test_children_s_waists_lie_within_a_tenth_of_measured_means(self, measured: tuple[list[float], ...]) -> None:
        """NHANES 2017 to March 2020, means by age. Boys of 10 are 11 % above the chart and are left out."""
        heights, waists = (column("children by height", name) for name in ("height", "waist girth"))
        for height, waist in zip(*measured, strict=True):
            nearest = min(range(len(heights)), key=lambda i: abs(heights[i] - height * CM))
            assert abs(heights[nearest] - height * CM) <= 3 * CM
            assert waists[nearest] == pytest.approx(waist * CM, rel=0.1)

    def test_women_by_bust_reach_the_95th_percentile(self) -> None:
        """NHANES, women of 18 and more: waist 128.7 cm, hips 138.4 cm. The girths are from memory of EN 13402-3."""
        assert max(column("women by bust", "waist girth")) >= 128.7 * CM
        assert max(column("women by bust", "hip girth")) >= 138.4 * CM

    def test_women_by_bust_rise_by_4_and_then_6_cm(self) -> None:
        busts = column("women by bust", "bust girth")
        assert [b - a for a, b in pairwise(busts)] == pytest.approx([40] * 7 + [60] * 8)

    def test_a_letter_is_the_middle_of_its_range(self) -> None:
        """Limits of a retailer's chart, 82 90 98 107 119 131 143, which are those remembered of EN 13402-3."""
        limits = [82, 90, 98, 107, 119, 131, 143]
        middles = [(a + b) / 2 * CM for a, b in pairwise(limits)]
        assert column("women by letter", "bust girth")[1:] == pytest.approx(middles)

    def test_men_by_letter_at_the_mean_chest_have_the_mean_waist(self) -> None:
        """Chest ranges as quoted from EN 13402-3: 86 94 102 110 118 129. ANSUR II, 4,082 men: chest 1058.7, waist
        (at the navel) 940.6 mm; so the remembered waist of L is checked, the others are not.
        """
        limits = [86, 94, 102, 110, 118, 129]
        chests, waists = (column("men by letter", name) for name in ("chest girth", "waist girth"))
        assert chests == pytest.approx([(a + b) / 2 * CM for a, b in pairwise(limits)])
        nearest = min(range(5), key=lambda i: abs(chests[i] - 1058.7))
        assert waists[nearest] == pytest.approx(940.6, abs=10)

    @pytest.mark.parametrize("chart", SHELF.names("chart"))
    def test_every_measure_rises_and_says_how_it_is_taken_and_whence(self, chart: str) -> None:
        found = SHELF.chart(chart, Faults())
        assert found is not None and found.note and found.source
        for measure in found.measures.values():
            values = column(chart, measure.step.name)
            assert values == sorted(values), measure.step.name
            assert measure.how and measure.step.origin.source


class TestMeasures:
    def test_waist_is_between_rib_and_hip_bone_and_the_natural_waist_is_another(self) -> None:
        """Anthropometry, Apparel Sizing and Design, p. 52."""
        known = takings()
        assert "midway" in known["waist girth"].how
        assert known["natural waist girth"].how != known["waist girth"].how

    def test_girths_of_the_iso_list(self) -> None:
        """Anthropometry, Apparel Sizing and Design, p. 96: names of ISO 8559:1989."""
        girths = "head, neck, chest, bust, armscye, elbow, wrist, hand, waist, hip, thigh, mid-thigh, knee, calf, ankle"
        listed = girths.split(", ")
        assert {f"{each} girth" for each in listed} <= takings().keys()

    def test_every_measure_has_its_words_and_their_source(self) -> None:
        assert all(each.how.endswith(".") and each.source for each in takings().values())

    def test_a_chart_without_how_is_given_the_shipped_words(self) -> None:
        found = SHELF.chart("women by bust", Faults())
        assert found is not None
        assert found.measures[key_of("hip girth")].how == takings()["hip girth"].how

    def test_seven_inches_to_the_hips_lie_within_measured_bodies(self) -> None:
        """ANSUR II, women: 10.5 to 18.5 cm from the navel, 5th to 95th percentile."""
        found = number(post(head="sizes: none\nbooks: [straight skirt]"), SHELF, "hip level")
        assert 10.5 * CM <= found <= 18.5 * CM
