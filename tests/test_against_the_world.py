"""Posts worked out against published figures. The source stands beside each figure, and says where it is wrong.

Lengths are typed as the source gives them; results come back in mm. NIMI stands for: Dress Making (CITS), Trade
Practical, Vol. 2, National Instructional Media Institute, Government of India,
http://nimi.co.in/cits_ebooks/Dress_Making/Dress_Making_Trade_Practical_(Volume_2), with the number of the page.
"""

from __future__ import annotations

import pytest

from post_help import block, number, places, post, workroom

CM, INCH = 10.0, 25.4
SHELF = workroom()
INCHES = workroom(inches=True)


def spaced(body: str, *numbers: str) -> str:
    return post(*numbers, blocks=block("spacing", body))


class TestSpacing:
    def test_31_tucks_where_36_cm_hold_30_gaps(self) -> None:
        """NIMI p. 209: 39 cm, 1.5 cm at both ends, a gap of 1.2 cm."""
        tucks = spaced("name: tucks\nalong: 39 cm\nends: 1.5 cm\nevery: nearest 1.2 cm")
        assert number(tucks, SHELF, "count of tucks") == 31
        assert number(tucks, SHELF, "space of tucks") == pytest.approx(1.2 * CM)

    def test_buttons_at_the_top_and_at_the_bottom_and_between(self) -> None:
        """http://www.fashion-design-drawing.com/Buttonholes-Part-1.html: n buttons divide it into n - 1 spaces."""
        buttons = spaced("name: buttons\nalong: 36 cm\ncount: 6")
        assert number(buttons, SHELF, "space of buttons") == pytest.approx(7.2 * CM)
        assert places(buttons, SHELF, "buttons")[-1] == pytest.approx(36 * CM)

    def test_trims_round_the_hips(self) -> None:
        """Common practice, no source: 34 in less 1/2 in at four edges; 21 trims 32/21 in apart."""
        trims = spaced(
            "name: trims\nalong: [panel, panel]\nin the round: yes\nevery: nearest 1 1/2 in",
            "panel: 34 in / 2 - 2 * 1/2 in",
        )
        assert number(trims, INCHES, "length of trims") == pytest.approx(32 * INCH)
        assert number(trims, INCHES, "count of trims") == 21
        assert number(trims, INCHES, "space of trims") == pytest.approx(1.524 * INCH, abs=0.01)


class TestPleats:
    @staticmethod
    def knife(along: str, depth: str, width: str) -> str:
        return spaced(
            f"name: pleats\nalong: {along}\nevery: nearest {width}\npleats: {{kind: knife, takes: 2 * {depth}}}",
            "strips: round up(cloth of pleats / (90 cm - 2 cm))",
            "cloth to buy: strips * 15 cm",
        )

    def test_a_corrected_width(self) -> None:
        """NIMI p. 203: 92 cm, depth 4, width 5 give 18 pleats of 5.11 cm (printed 5.1) from 236 cm."""
        text = self.knife("92 cm", "4 cm", "5 cm")
        assert number(text, SHELF, "count of pleats") == 18
        assert number(text, SHELF, "space of pleats") == pytest.approx(51.11, abs=0.01)
        assert number(text, SHELF, "cloth of pleats") == pytest.approx(236 * CM)

    def test_strips_for_it_from_90_cm_cloth(self) -> None:
        """NIMI p. 203: 236 / 88 = 2.68, so 3 strips, 15 cm each: 45 cm. Its next step says 2.34 m for 2.36."""
        text = self.knife("92 cm", "4 cm", "5 cm")
        assert number(text, SHELF, "strips") == 3
        assert number(text, SHELF, "cloth to buy") == pytest.approx(45 * CM)

    def test_the_slip_of_that_page_would_not_change_the_strips(self) -> None:
        """NIMI p. 203 writes 2.34 m where it found 2.36 m."""
        assert number(post("strips: round up(2.34 m / 88 cm)"), SHELF, "strips") == 3

    def test_normal_pleats(self) -> None:
        """NIMI p. 204: 50 cm, 2.5 cm deep and wide: 20 pleats, 150 cm, and 2 cm for seams."""
        text = self.knife("50 cm", "2.5 cm", "2.5 cm")
        assert number(text, SHELF, "count of pleats") == 20
        assert number(text, SHELF, "cloth of pleats") + 2 * CM == pytest.approx(152 * CM)

    @pytest.mark.parametrize("width", ["1 in", "3/4 in", "7 in"])
    def test_touching_plaits_take_three_times_the_length(self, width: str) -> None:
        """School Needlework, https://chestofbooks.com/crafts/needlework/School-Needlework/Plaiting.html"""
        text = self.knife("21 in", width, width)
        assert number(text, INCHES, "cloth of pleats") == pytest.approx(3 * 21 * INCH)

    @pytest.mark.parametrize(
        ("kind", "depth", "length", "cloth"),
        [
            ("box", "12 cm", "60 cm", 108),  # NIMI p. 204: 2 × 12 × 2 + 60
            ("inverted", "6.5 cm", "66 cm", 92),  # NIMI p. 205: 26 + 66
        ],
    )
    def test_one_pleat_of_two_folds(self, kind: str, depth: str, length: str, cloth: float) -> None:
        text = spaced(
            f"name: pleat\nalong: {length}\ncount: 1\npleats: {{kind: {kind}, takes: 4 * {depth}}}",
        )
        assert number(text, SHELF, "cloth of pleat") == pytest.approx(cloth * CM)

    def test_pleats_deeper_than_wide_are_no_fault(self) -> None:
        """NIMI p. 202, 205: depth 4, width 1; then three times the length is too little."""
        text = self.knife("40 cm", "4 cm", "1 cm")
        assert number(text, SHELF, "cloth of pleats") == pytest.approx((40 + 40 * 8) * CM)


class TestGathers:
    """Through the shipped formula book."""

    @staticmethod
    def gathered(edge: str, fullness: str, width: str, join: str) -> str:
        return post(
            f"gathered edge: {edge}",
            f"fullness: {fullness}",
            f"cloth width: {width}",
            f"join: {join}",
            "cloth: cloth widths * (12 cm + 3 cm)",
            head="sizes: none\nbooks: gathers",
        )

    def test_a_good_ruffle(self) -> None:
        """https://stitchcoach.blogspot.com/2017/01/how-to-estimate-ruffles-and-gathers.html: 15 in × 2.5."""
        text = self.gathered("15 in", "2.5", "45 in", "0")
        assert number(text, SHELF, "gathered length") == pytest.approx(37.5 * INCH)

    def test_a_frill_cut_in_strips(self) -> None:
        """NIMI p. 212: 1.80 m three times is 5.40 m; of 1.10 m cloth 4.9, so 5 strips; 12 + 3 cm deep: 75 cm."""
        text = self.gathered("1.8 m", "3", "1.1 m", "0")
        assert number(text, SHELF, "gathered length") == pytest.approx(540 * CM)
        assert number(text, SHELF, "cloth widths") == 5
        assert number(text, SHELF, "cloth") == pytest.approx(75 * CM)

    def test_tiers(self) -> None:
        """Dress Making (CITS), Trade Theory 2024, NIMI p. 250: each tier 1.5 times the one above."""
        text = post("first: 1.5 * 80 cm", "second: 1.5 * first", "third: 1.5 * second")
        found = [number(text, SHELF, name) for name in ("first", "second", "third")]
        assert found == pytest.approx([120 * CM, 180 * CM, 270 * CM])
