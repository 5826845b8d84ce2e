"""Units and printing against published figures and other people's arithmetic.

Each source stands beside its figures. Where a published figure departs from exact arithmetic, that is said.
"""

from __future__ import annotations

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from amount_cases import plainly
from chalkfold.amounts import Marks, Printer, Rounding, decimals, down, language, scan, to_mark, up

PRINTER = Printer(language("en-GB"))
UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()


def pairs(listed: str) -> dict[str, str]:
    """``1: 2.5, 2: 5.1`` as a table."""
    return dict(pair.split(": ") for pair in listed.split(", "))


def mm(written: str) -> float:
    found = scan(written, 0)
    assert found and found.end == len(written)
    return found.value


# Rounded pairs of a haberdashery conversion guide,
# https://www.echidnasewing.com.au/article/inspiring-and-educating/imperial-to-metric-conversion-guide/
SMALL_PAIRS = {"1/8": 3, "1/4": 6, "3/8": 10, "5/8": 16, "3/4": 19}
INCH_PAIRS = pairs(
    "1: 2.5, 1 1/4: 3.2, 1 1/2: 3.8, 1 3/4: 4.4, 2: 5.1, 2 1/4: 5.7, 2 1/2: 6.4, 2 3/4: 7.0, 3: 7.6, "
    "3 1/2: 8.9, 4: 10.2, 4 1/2: 11.4, 5: 12.7, 5 1/2: 14.0, 6: 15.2, 7: 17.8, 8: 20.3, 9: 22.9, "
    "10: 25.4, 12: 30.5"
)
YARD_PAIRS = pairs(
    "1/8: 11.4, 1/4: 22.9, 1/3: 30.5, 3/8: 34.3, 1/2: 45.7, 5/8: 57.2, 2/3: 61.0, 3/4: 68.6, 1: 91.4, "
    "1 1/4: 114.3, 1 1/2: 137.2, 1 3/4: 160.0, 2: 182.9, 2 1/4: 205.7, 2 1/2: 228.6, 2 3/4: 251.5, "
    "3: 274.3, 3 1/2: 320.0, 4: 365.8"
)


@pytest.mark.parametrize(("inches", "millimetres"), SMALL_PAIRS.items())
def test_parts_of_an_inch_in_millimetres(inches: str, millimetres: int) -> None:
    assert decimals(mm(f"{inches} in"), 0) == str(millimetres)


@pytest.mark.parametrize(("inches", "centimetres"), INCH_PAIRS.items())
def test_inches_in_centimetres(inches: str, centimetres: str) -> None:
    tenths = Printer(PRINTER.language, "cm", Marks(metric=1.0))
    assert decimals(mm(f"{inches} in") / 10, 1) == centimetres
    assert plainly(tenths.length(mm(f"{inches} in")).metric) == f"{float(centimetres):g} cm"


def test_two_pairs_of_the_same_guide_are_not_exact() -> None:
    """The guide prints 12 mm for 1/2 in and 28 cm for 11 in; exact arithmetic gives 13 and 27.9."""
    assert (decimals(mm("1/2 in"), 0), decimals(mm("11 in") / 10, 1)) == ("13", "27.9")


@pytest.mark.parametrize(("yards", "centimetres"), YARD_PAIRS.items())
def test_yards_in_centimetres(yards: str, centimetres: str) -> None:
    """The same guide; 5/8 yd is 57.15 cm exactly, which no float is: half up all the same."""
    assert decimals(mm(f"{yards} yd") / 10, 1) == centimetres


def test_zips_by_the_inch_in_whole_centimetres() -> None:
    """UK Sewing Services trade guide, http://www.supplydivision.co.uk/offers/sewguide.htm: 23 sizes."""
    inches = [4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 20, 21, 22, 24, 26, 27, 28, 30]
    sold = [10, 13, 15, 18, 20, 23, 25, 28, 30, 33, 36, 38, 41, 43, 46, 51, 53, 56, 61, 66, 69, 71, 76]
    shown = [PRINTER.length(mm(f"{each} in"), Rounding(metric=10.0)).metric for each in inches]
    assert [plainly(each) for each in shown] == [f"{each} cm" for each in sold]


@pytest.mark.parametrize(
    ("metric", "inch"),
    [("1.5 cm", "⅝ in"), ("1 cm", "⅜ in"), ("6 mm", "¼ in"), ("1.2 cm", "½ in"), ("1.3 cm", "½ in")],
)
def test_the_usual_pairs_of_seam_allowances(metric: str, inch: str) -> None:
    """Common practice, no source."""
    shown = PRINTER.length(mm(metric))
    assert (plainly(shown.metric), plainly(shown.inch)) == (metric, inch)


def test_the_yard() -> None:
    """1 yd = 0.9144 m, 1 m = 1.0936 yd, 1 sq yd = 1296 sq in: UK Sewing Services trade guide, as above."""
    assert mm("1 yd") == 914.4 and mm("1 in") == 25.4
    assert mm("1 m") / mm("1 yd") == pytest.approx(1.0936, abs=5e-5)
    assert mm("1 sq yd") == pytest.approx(1296 * mm("1 sq in"), rel=1e-15)


def test_ounces_a_square_yard() -> None:
    """1 oz/yd² = 33.906 g/m²: avoirdupois ounce 28.349523125 g by definition (from memory)."""
    grams = 28.349523125 / (mm("1 sq yd") / mm("1 m²"))
    assert grams == pytest.approx(33.906, abs=5e-4)
    assert decimals(6.1 * grams, 1) == "206.8"


def test_button_lines() -> None:
    """40 lignes are an inch, 15 mm is 24 L; https://www.sizes.com/people/buttons.htm and
    http://apparelscience.com/index.php/80-apparel-science/170-calculating-button-sizes"""
    ligne = mm("1 in") / 40
    assert ligne == pytest.approx(0.635)
    assert to_mark(15 / ligne, 1) == 24
    for lignes, nominal in {
        16: 10.5,
        18: 11.6,
        20: 12.7,
        24: 15,
        28: 17.8,
        30: 19,
        32: 20.5,
        36: 22.9,
    }.items():
        assert abs(lignes * ligne - nominal) <= 0.4


def test_radii_to_the_nearest_eighth() -> None:
    """Waist 26 in gives radii 4.138 and 8.276 in, an old plan floors 3.982 in to 3 7/8;
    https://www.prettyquirkypants.com/2014/03/07/diy-tips-circle-skirt-half-circle-skirt-formulas/"""
    shown = [plainly(PRINTER.length(inches * 25.4).inch) for inches in (4.138, 8.276, 3.982)]
    assert shown == ["4⅛ in", "8¼ in", "4 in"]
    assert plainly(PRINTER.length(3.982 * 25.4, Rounding("down")).inch) == "3⅞ in"
    assert down(3.982, 0.125) == 3.875


def test_tape_marks_in_millimetres() -> None:
    """1/16, 1/8 and 1/32 in: exact arithmetic on the inch of 1959."""
    assert [mm(f"1/{parts} in") for parts in (16, 8, 32)] == [1.5875, 3.175, 0.79375]


def test_cloth_is_bought_in_eighths_of_a_yard_or_tens_of_centimetres() -> None:
    """2.01 yd is bought as 2 1/8 yd, steps of a US extension yardage chart,
    http://www.greenspun.com/bboard/q-and-a-fetch-msg.tcl?msg_id=008fgB;
    1.03 m as 1.1 m: common practice, no source."""
    assert plainly(PRINTER.to_buy(mm("2.01 yd")).inch) == "2⅛ yd"
    assert plainly(PRINTER.to_buy(mm("1.03 m")).metric) == "1.1 m"
    assert up(2.01, 0.125) == 2.125
    assert mm("1/8 yd") == pytest.approx(114.3)


def test_bias_spacing_table_in_eighths() -> None:
    """Strip width times the root of two, in inches and eighths: Baldt, Clothing for Women (1916), ch. XXII,
    https://chestofbooks.com/business/clothing/Women-Design-Construction/Chapter-XXII-Decoration-Self-Trimmings.html
    Three entries of the table (2, 6 1/2 and 8 in) stand an eighth low; they are left out here."""
    table = {
        0.5: "¾",
        1: "1⅜",
        1.5: "2⅛",
        2.5: "3½",
        3: "4¼",
        3.5: "5",
        4: "5⅝",
        4.5: "6⅜",
        5: "7⅛",
        5.5: "7¾",
    }
    table |= {
        6: "8½",
        7: "9⅞",
        7.5: "10⅝",
        8.5: "12",
        9: "12¾",
        9.5: "13⅜",
        10: "14⅛",
        10.5: "14⅞",
        11: "15½",
    }
    shown = {width: plainly(PRINTER.length(width * 2**0.5 * 25.4).inch) for width in table}
    assert shown == {width: f"{inches} in" for width, inches in table.items()}


@pytest.mark.parametrize(
    ("ours", "theirs"),
    [("mm", "mm"), ("cm", "cm"), ("m", "m"), ("in", "inch"), ("ft", "foot"), ("yd", "yard")],
)
@given(thousandths=st.integers(0, 900_000))
def test_lengths_and_areas_agree_with_pint(ours: str, theirs: str, thousandths: int) -> None:
    number = thousandths / 1000
    assert mm(f"{number:.3f} {ours}") == pytest.approx(UNITS.Quantity(number, theirs).to("mm").magnitude)
    area = UNITS.Quantity(number, theirs) ** 1 * UNITS.Quantity(1, theirs)
    assert mm(f"{number:.3f} sq {ours}") == pytest.approx(area.to("mm**2").magnitude)


@given(thousandths=st.integers(0, 2_900_000))
def test_weights_of_cloth_agree_with_pint(thousandths: int) -> None:
    number = thousandths / 1000
    for ours, theirs in (("g/m2", "gram / meter ** 2"), ("oz/yd2", "ounce / yard ** 2")):
        exact = UNITS.Quantity(number, theirs).to("gram / meter ** 2").magnitude
        assert mm(f"{number:.3f} {ours}") == pytest.approx(exact)


# Makers' sheets: a tee of 4.57 oz/yd² or 155 g/m², https://cdn.shopify.com/s/files/1/0523/8721/7593/files/Tshirts-ing.pdf;
# sweatshirt cloth of 7 and 10 oz/yd², 237 and 339 g/m²; patchwork cotton 4 to 6 oz, 136 to 203 g/m²; rigid denim
# 6 to 13 oz, 203 to 440 g/m² (exact 440.8).
OUNCES = {"4.57": 155, "7": 237, "10": 339, "4": 136, "6": 203, "13": 441, "1": 34}


@pytest.mark.parametrize(("ounces", "grams"), OUNCES.items())
def test_ounces_to_the_square_yard_of_makers_sheets(ounces: str, grams: int) -> None:
    weight = PRINTER.weight(mm(f"{ounces} oz/yd²"))
    assert plainly(weight.metric) == f"{grams} g/m²"
    assert plainly(weight.inch) == f"{float(ounces):.2g} oz/yd²"


@given(st.integers(0, 999), st.integers(0, 63), st.sampled_from([2, 3, 4, 8, 16, 32, 64]))
def test_mixed_numbers_agree_with_fraction(whole: int, above: int, below: int) -> None:
    exact = whole + Fraction(above % below, below)
    assert mm(f"{whole} {above % below}/{below} in") == float(exact * Fraction("25.4"))


@given(st.integers(0, 2000), st.integers(0, 7))
def test_a_length_on_an_eighth_prints_as_that_eighth(whole: int, eighths: int) -> None:
    exact = Fraction(8 * whole + eighths, 8)
    found = scan(PRINTER.length(float(exact * Fraction("25.4"))).inch, 0)
    assert found and found.number == exact


@given(st.floats(0, 1e6))
def test_rounding_agrees_with_exact_fractions_away_from_the_half(x: float) -> None:
    exact = Fraction(x) / 5
    whole, rest = divmod(exact, 1)
    if abs(rest - Fraction(1, 2)) > Fraction(1, 10**6):
        assert to_mark(x, 5.0) == 5 * (whole + (rest > Fraction(1, 2)))


def test_a_size_in_both_systems() -> None:
    """Size 8: bust 36 1/4 in is 92.1 cm, waist 28 in is 71.1 cm, head 21 3/4 in is 55.2 cm;
    ASTM D5585-11e1, http://www.astm.org/Standards/D5585.htm"""
    to_tenth = [decimals(mm(f"{girth} in") / 10, 1) for girth in ("36 1/4", "28", "21 3/4")]
    assert to_tenth == ["92.1", "71.1", "55.2"]
