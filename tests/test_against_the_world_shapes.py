"""Bias strips, shrinkage, circles, tubes and floss against published figures, the source beside each.

NIMI stands for the book named in ``test_against_the_world.py``. Lengths come back in mm.
"""

from __future__ import annotations

from math import pi

import pytest

from post_help import block, number, post, row, workroom

CM, INCH = 10.0, 25.4
SHELF = workroom()
INCHES = workroom(inches=True)


def in_sizes(values: list[str], name: str, *numbers: str) -> str:
    """A post with one size for each value."""
    labels = [f"no {i}" for i in range(len(values))]
    mapping = ", ".join(f"{label}: {value}" for label, value in zip(labels, values, strict=True))
    return post(f"{name}: {{{mapping}}}", *numbers, head=f"sizes: [{', '.join(labels)}]")


class TestBias:
    # Clothing for Women (Baldt, 1916), ch. XXII: width of a bias strip in inches,
    # and along the selvedge inches-eighths.
    # https://chestofbooks.com/business/clothing/Women-Design-Construction/Chapter-XXII-Decoration-Self-Trimmings.html
    BALDT = (
        "0.5 0-6, 1 1-3, 1.5 2-1, 2 2-6, 2.5 3-4, 3 4-2, 3.5 5-0, 4 5-5, 4.5 6-3, 5 7-1, 5.5 7-6, 6 8-4, 6.5 9-1, "
        "7 9-7, 7.5 10-5, 8 11-2, 8.5 12-0, 9 12-6, 9.5 13-3, 10 14-1, 10.5 14-7, 11 15-4"
    )
    TOO_SMALL = ("2", "6.5", "8")  # printed an eighth below the nearest eighth

    def test_spacing_of_strips_along_the_selvedge(self) -> None:
        table = [pair.split() for pair in self.BALDT.split(", ")]
        widths = [f"{width} in" for width, _ in table]
        found = row(in_sizes(widths, "strip", "along: marked(strip * sqrt(2))"), INCHES, "along")
        for (width, printed), ours in zip(table, found, strict=True):
            inches, eighths = map(int, printed.split("-"))
            low = 1 if width in self.TOO_SMALL else 0
            assert ours == pytest.approx((inches + (eighths + low) / 8) * INCH), width

    def test_length_from_a_square(self) -> None:
        """12 in: http://www.sewaquilt.com/bias-tape.html; 20 in: mydecozo.co.uk, continuous piping strips."""
        text = in_sizes(["12 in", "20 in"], "side", "strip: side * side / 2 in")
        assert row(text, INCHES, "strip") == pytest.approx((72 * INCH, 200 * INCH))

    def test_the_square_for_a_length(self) -> None:
        """250 in × 2 in: 22.36, so 23 in (mydecozo.co.uk); 100 in × 3 1/2 in: 18.71, so 19 in, 0.53 yd (printed 0.52)
        (https://www.quiltersquestiontime.com/blog/how-do-i-calculate-how-much-fabric-i-need-for-bias-binding).
        """
        text = in_sizes(
            ["250 in * 2 in", "100 in * 3.5 in"],
            "binding",
            "exact side: sqrt(binding)",
            "side: round up(exact side / 1 in) * 1 in",
            "in yards: side / 1 yd",
        )
        assert row(text, INCHES, "exact side") == pytest.approx((22.36 * INCH, 18.708 * INCH), abs=0.1)
        assert row(text, INCHES, "side") == pytest.approx((23 * INCH, 19 * INCH))
        assert row(text, INCHES, "in yards")[1] == pytest.approx(0.53, abs=0.005)

    def test_joined_strips_with_their_corners(self) -> None:
        """NIMI p. 220: 500 × 2.5 cm and the corners, on 86 cm cloth: 15.12 cm, up to 15.5. The page prints
        "10 cm × 1.4 = 7.14" for 10 / 1.4; multiplied, the corners would come to four times as much.
        """
        text = post(
            "corner: 10 cm / sqrt(2)",
            "cloth: (500 cm * 2.5 cm + corner * corner) / 86 cm",
            "cut: round up(cloth / 5 mm) * 5 mm",
        )
        assert number(text, SHELF, "corner") == pytest.approx(7.1 * CM, abs=0.5)
        assert number(text, SHELF, "cloth") == pytest.approx(151.2, abs=0.1)
        assert number(text, SHELF, "cut") == pytest.approx(155)

    def test_one_third_more_is_too_little(self) -> None:
        """*A Sewing Course for Teachers*, True Bias: a third more along the selvedge is 6 % below √2."""
        text = post("thumb: 4 / 3 * 3 in", "along: sqrt(2) * 3 in")
        assert number(text, INCHES, "thumb") / number(text, INCHES, "along") == pytest.approx(0.943, abs=0.001)


class TestShrinkage:
    def test_what_is_left_after_washing(self) -> None:
        """https://www.kembrel.com/uncategorized/how-do-you-calculate-shrinkage-fabric/: 20 in to 17 are 15 %."""
        text = post(
            "left: 20 in * (1 - shrinkage of main)", "share: (20 in - left) / 20 in", head="cut from: {main: batiste}"
        )
        assert number(text, INCHES, "left") == pytest.approx(17 * INCH)
        assert number(text, INCHES, "share") == pytest.approx(0.15)

    def test_what_to_cut(self) -> None:
        """https://foralltex.com/stories/shrinkage-math-for-pattern-makers-a-guide-to-calculating-and-reducing-fabric-waste.html:
        wanted / (1 − S), not wanted × (1 + S)."""
        text = post("cut: 100 cm / (1 - shrinkage of main)", head="cut from: {main: sheeting}")
        assert number(text, SHELF, "cut") == pytest.approx(105.263 * CM, abs=0.01)
        assert number(text, SHELF, "cut") > 105.2 * CM


def circle_skirt(waist: str, length: str, fraction: str) -> str:
    return post(
        blocks=block(
            "cut-list",
            f"""
            pieces:
              - piece: skirt
                flounce: {{inner radius: {waist} / (2 * pi * {fraction}), depth: {length}, fraction: {fraction}}}
                allowances: none
                cut: 1 in main
            """,
        )
    )


class TestCircles:
    @pytest.mark.parametrize(
        ("waist", "fraction", "radius", "near"),
        [
            # https://www.prettyquirkypants.com/2014/03/07/diy-tips-circle-skirt-half-circle-skirt-formulas/
            # cuts digits off
            ("26 in", "1", 4.138, 0.001),
            ("26 in", "1/2", 8.276, 0.001),
            ("26 in", "1/3", 12.414, 0.001),
            ("26 in", "1/4", 16.552, 0.001),
            ("24 in", "1", 3.82, 0.005),  # https://www.quiltingboard.com/3156097-post15.html
        ],
    )
    def test_waist_radius(self, waist: str, fraction: str, radius: float, near: float) -> None:
        text = circle_skirt(waist, "60 cm", fraction)
        assert number(text, INCHES, "radius of inner of skirt") == pytest.approx(radius * INCH, abs=near * INCH)

    @pytest.mark.parametrize(
        ("fraction", "radius", "hem_radius", "sweep"),
        [
            ("1", 11.46, 71.46, 448.99),
            ("3/4", 15.28, 75.28, 354.74),
            ("1/2", 22.92, 82.92, 260.50),
            ("1/4", 45.84, 105.84, 166.25),
        ],
    )
    def test_a_skirt_of_72_and_60_cm(self, fraction: str, radius: float, hem_radius: float, sweep: float) -> None:
        """Plane geometry, reckoned apart."""
        text = circle_skirt("72 cm", "60 cm", fraction)
        found = [number(text, SHELF, f"{words} of skirt") for words in ("radius of inner", "radius of outer", "outer")]
        assert found == pytest.approx([radius * CM, hem_radius * CM, sweep * CM], abs=0.06)
        assert number(text, SHELF, "inner of skirt") == pytest.approx(72 * CM)

    def test_a_radius_that_passes_the_hips_is_larger_than_the_square_dance_table(self) -> None:
        """kipdf.com, "How to make a simple circle skirt for square dancing": hip / 7, and the edge stretches."""
        table = {"25 in": 3.625, "36 in": 5.125, "42 in": 6, "49 in": 7}
        for hip, printed in table.items():
            ours = number(circle_skirt(hip, "60 cm", "1"), INCHES, "radius of inner of skirt")
            assert ours > printed * INCH
            assert ours == pytest.approx(printed * INCH, rel=0.13)

    def test_sweep_less_waist_depends_on_the_length_alone(self) -> None:
        """Plane geometry: 2π × fraction × length."""
        for waist in ("50 cm", "72 cm", "118 cm"):
            text = circle_skirt(waist, "60 cm", "3/4")
            more = number(text, SHELF, "outer of skirt") - number(text, SHELF, "inner of skirt")
            assert more == pytest.approx(2 * pi * 0.75 * 600)


def strip(down: str, seam: str) -> str:
    return post(
        blocks=block(
            "cut-list",
            f"""
            pieces:
              - piece: tie
                rectangle: {{across: 60 cm, down: {down}}}
                allowances: {{all: {seam}}}
                cut: 1 in main
            """,
        )
    )


class TestTubesAndFloss:
    def test_a_tube_has_two_layers_and_two_seams(self) -> None:
        """https://shop.trendtexfabrics.com/?p=88155: 1/2 in ties, 1/4 in seam: 1 1/2 in."""
        assert number(strip("2 * 1/2 in", "1/4 in"), INCHES, "cut height of tie") == pytest.approx(1.5 * INCH)

    def test_two_widths_and_one_seam_is_a_trap(self) -> None:
        """simpleromantic.blogspot.com, 2014/01, says 1 5/8 in for 1/2 in finished and 5/8 in seams: it needs 2 1/4."""
        assert number(strip("2 * 1/2 in", "5/8 in"), INCHES, "cut height of tie") == pytest.approx(2.25 * INCH)
        text = post("finished: half of (1 5/8 in - 2 * 5/8 in)")
        assert number(text, INCHES, "finished") == pytest.approx(3 / 16 * INCH)

    @staticmethod
    def floss(skein: str, each: str, count: int) -> str:
        items = f"items:\n  - item: floss\n    each: {each}\n    count: {count}\n    sold in: {skein} skeins"
        return post(blocks=block("materials", items))

    def test_working_lengths_from_a_skein(self) -> None:
        """https://spiegato.com/en/what-is-embroidery-floss: 8.7 yd; 18 in each make 17 whole ones, not 17.4.
        hotelsabruzzo.com takes 8.7 yd for 8.7 m, which would be 19.
        """
        assert number(self.floss("8.7 yd", "18 in", 17), INCHES, "packs of item 1") == 1
        assert number(self.floss("8.7 yd", "18 in", 18), INCHES, "packs of item 1") == 2
        assert number(self.floss("8.7 m", "18 in", 19), INCHES, "packs of item 1") == 1

    def test_tassels_from_8_m_skeins(self) -> None:
        """Common practice, no source: 13 lengths of 60 cm from 8 m; 40 need 4 skeins."""
        text = self.floss("8 m", "60 cm", 40)
        assert number(text, SHELF, "lengths from a pack of item 1") == 13
        assert number(text, SHELF, "packs of item 1") == 4

    def test_belt_loops_from_a_strip(self) -> None:
        """mybluprint.com, "How to make belt loops": belt + 1/2 in + 1 in; five loops of a 2 in belt: 17 1/2 in."""
        items = "items:\n  - item: strip\n    each: 2 in + 1/2 in + 1 in\n    count: 5"
        assert number(post(blocks=block("materials", items)), INCHES, "length of item 1") == pytest.approx(17.5 * INCH)


def test_a_tee_laid_flat_is_half_its_girth() -> None:
    """https://www.missionalwear.com/here-i-stand-standard-tee: L is 22 in wide, so 44 in round, 111.8 cm."""
    body = """
        pieces:
          - piece: body
            rectangle: {across: 22 in, down: 20 in}
            donor sides: left right
            allowances: none
            cut: 1 in the round in tee
        """
    text = post(blocks=block("cut-list", body))
    assert number(text, INCHES, "bottom of body") == pytest.approx(111.8 * CM, abs=0.5)
    assert number(text, INCHES, "total bottom of body") == pytest.approx(44 * INCH)


def test_two_strips_joined_into_a_loop() -> None:
    """Common practice, no source: 14 1/2 in each with 1/2 in seams close to 27 in."""
    body = """
        pieces:
          - piece: band
            rectangle: {across: 14 1/2 in - 2 * 1/2 in, down: 2 in}
            allowances: {all: 1/2 in}
            cut: 2 in main
        """
    text = post(blocks=block("cut-list", body))
    assert number(text, INCHES, "total top of band") == pytest.approx(27 * INCH)
    assert number(text, INCHES, "cut width of band") == pytest.approx(14.5 * INCH)


def test_stitches_to_the_inch() -> None:
    """A stitch of 2.5 mm is 10.16 to the inch, which many texts give as 10 to 12."""
    assert number(post("stitches: 1 in / 2.5 mm"), INCHES, "stitches") == pytest.approx(10.16)
