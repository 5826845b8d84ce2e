"""Printing amounts for the tape, aloud, to buy, as time, and in other languages."""

import subprocess
import sys
from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from amount_cases import asked, cases, millimetres, plainly, text, told
from chalkfold.amounts import (
    Marks,
    Printer,
    UnknownLanguage,
    language,
    marked,
    print_minutes,
    read_minutes,
    read_rounding,
    spoken_minutes,
)
from chalkfold.diagnostics import Code, Faults

PRINTER = Printer(language("en-GB"))
lengths = st.floats(-999_990, 999_990)


@pytest.mark.parametrize(("length", "rounding", "fine", "metric", "inch"), cases("Lengths on the tape"))
def test_a_length_is_printed_for_the_tape(length: str, rounding: str, fine: str, metric: str, inch: str) -> None:
    shown = PRINTER.length(millimetres(length), asked(rounding), fine=fine == "yes")
    assert (plainly(shown.metric), plainly(shown.inch)) == (metric, inch)


@pytest.mark.parametrize(("length", "rounding", "metric", "inch"), cases("Length to buy"))
def test_a_length_to_buy_is_rounded_up(length: str, rounding: str, metric: str, inch: str) -> None:
    shown = PRINTER.to_buy(millimetres(length), asked(rounding))
    assert (plainly(shown.metric), plainly(shown.inch)) == (metric, inch)


@pytest.mark.parametrize(("weight", "metric", "inch", "aloud"), cases("Weight of cloth"))
def test_a_weight_of_cloth_is_printed_in_both_systems(weight: str, metric: str, inch: str, aloud: str) -> None:
    shown = PRINTER.weight(millimetres(weight))
    assert (plainly(shown.metric), plainly(shown.inch), shown.spoken_metric) == (metric, inch, aloud)


@pytest.mark.parametrize(("length", "fine", "metric", "inch"), cases("Read aloud"))
def test_a_length_is_read_aloud(length: str, fine: str, metric: str, inch: str) -> None:
    shown = PRINTER.length(millimetres(length), fine=fine == "yes")
    assert (shown.spoken_metric, shown.spoken_inch) == (metric, inch)


def test_a_number_never_parts_from_its_unit_or_its_fraction() -> None:
    shown = PRINTER.length(310, fine=True)
    assert shown.metric == "31\N{NO-BREAK SPACE}cm"
    assert shown.inch == "12\N{NARROW NO-BREAK SPACE}3\N{FRACTION SLASH}16\N{NO-BREAK SPACE}in"
    assert PRINTER.area(3000).inch == "4.7\N{NO-BREAK SPACE}sq\N{NO-BREAK SPACE}in"


@given(lengths, st.booleans())
def test_what_is_printed_reads_back_within_half_a_mark(mm: float, fine: bool) -> None:
    shown = PRINTER.length(abs(mm), fine=fine)
    metric, inch = (1, 25.4 / 16) if fine else (5, 25.4 / 8)
    assert abs(millimetres(shown.metric) - abs(mm)) <= metric / 2 * (1 + 1e-6)
    assert abs(millimetres(shown.inch) - abs(mm)) <= inch / 2 * (1 + 1e-6)


@given(lengths, st.booleans())
def test_neither_system_is_printed_from_the_other(mm: float, fine: bool) -> None:
    coarse_inch = Printer(PRINTER.language, "cm", Marks(inch=Fraction(1)))
    coarse_metric = Printer(PRINTER.language, "cm", Marks(metric=50.0))
    shown = PRINTER.length(mm, fine=fine)
    assert coarse_inch.length(mm, fine=fine).metric == shown.metric
    assert coarse_metric.length(mm, fine=fine).inch == shown.inch


@given(st.floats(0, 999_990))
def test_marked_is_what_the_tape_shows(mm: float) -> None:
    shown = PRINTER.length(mm)
    assert millimetres(shown.metric) == pytest.approx(marked(mm, True, PRINTER.marks), abs=1e-9)
    assert millimetres(shown.inch) == pytest.approx(marked(mm, False, PRINTER.marks), abs=1e-9)


def test_a_length_below_zero_carries_a_true_minus() -> None:
    shown = PRINTER.length(-65)
    assert (plainly(shown.metric), plainly(shown.inch)) == ("−6.5 cm", "−2½ in")
    assert shown.spoken == "minus 6.5 centimetres"


def test_the_main_unit_comes_first() -> None:
    assert plainly(PRINTER.length(315).both) == "31.5 cm (12⅜ in)"
    american = Printer(language("en-US"), "in", Marks(inch=Fraction(1, 16)))
    assert plainly(american.length(315).both) == "12⅜ in (31.5 cm)"
    assert american.length(315).spoken_metric == "31.5 centimeters"


def test_areas_to_buy_have_one_unit_for_every_size_and_are_rounded_up() -> None:
    """0.2 m² are 0.2392 sq yd, 1.01 m² are 1.208 (1 yd = 0.9144 m)."""
    assert plainly(PRINTER.area_to_buy(200_000).both) == "0.2 m² (0.25 sq yd)"
    assert plainly(PRINTER.area_to_buy(1_010_000).both) == "1.05 m² (1.25 sq yd)"


def test_other_values_are_printed() -> None:
    assert plainly(PRINTER.area(45_000).both) == "450 cm² (69.8 sq in)"
    assert plainly(PRINTER.area(5_000_000).both) == "5 m² (5.98 sq yd)"
    assert PRINTER.angle(38.0000001).both == "38°"
    assert (PRINTER.angle(22.5).both, PRINTER.angle(1).spoken) == ("22.5°", "1 degree")
    assert (PRINTER.plain(2 / 3).both, PRINTER.plain(2 / 3, "fraction").both) == ("0.67", "⅔")
    assert PRINTER.plain(0.7183, "fraction").both == "0.72"
    assert plainly(PRINTER.plain(0.855, "percent").both) == "85.5 %"
    assert PRINTER.plain(0.855, "percent").spoken == "85.5 per cent"
    assert (PRINTER.count(9.0).both, PRINTER.truth(True).both, PRINTER.truth(False).spoken) == (
        "9",
        "yes",
        "no",
    )


def test_equal_printers_are_equal() -> None:
    assert Printer(language("en-GB")) == PRINTER and hash(Printer(language("en-GB"))) == hash(PRINTER)
    assert Printer(language("en-US")) != PRINTER


@pytest.mark.parametrize(
    ("typed", "code", "hint"),
    [
        ("", Code.DATA_CHOICE, "to 1/16 in"),
        ("sideways", Code.DATA_CHOICE, "write nearest, up, down"),
        ("upto 3 cm", Code.DATA_CHOICE, "write nearest, up, down"),
        ("to 3", Code.FORMULA_KIND, "3 cm or 3 in"),
        ("to 0", Code.AMOUNT_RANGE, "from 0.1 mm"),
        ("up to 2 m", Code.AMOUNT_RANGE, "up to 1 m"),
        ("to 1/100 in", Code.AMOUNT_RANGE, "1/64 in"),
        ("to 0,5 cm", Code.AMOUNT_COMMA, "write 0.5 cm"),
    ],
)
def test_a_faulty_way_to_round_is_refused(typed: str, code: Code, hint: str) -> None:
    faults = Faults()
    assert read_rounding(text(typed), faults) is None
    [(found, _, advice)] = told(faults)
    assert found == code and hint in advice


# time, languages


@pytest.mark.parametrize(("typed", "minutes", "printed", "aloud"), cases("Working time"))
def test_a_working_time_is_read_and_printed(typed: str, minutes: str, printed: str, aloud: str) -> None:
    faults = Faults()
    found = read_minutes(text(typed), faults)
    assert not told(faults) and found == int(minutes)
    assert plainly(print_minutes(found)) == printed
    assert spoken_minutes(found, PRINTER.language) == aloud


@pytest.mark.parametrize(("typed", "code"), cases("Working time, refused"))
def test_a_faulty_working_time_is_refused(typed: str, code: str) -> None:
    faults = Faults()
    assert read_minutes(text(typed), faults) is None
    assert [(found, "1 h 30 min" in hint) for found, _, hint in told(faults)] == [(code, True)]


def test_a_language_brings_its_decimal_mark_and_its_dates() -> None:
    german = language("de-DE")
    assert plainly(Printer(german).length(315).metric) == "31,5 cm"
    assert Printer(german).length(315).spoken_metric == "31,5 centimetres"
    assert german.date(date(2026, 4, 11)) == "11. April 2026"
    assert language("en-GB").date(date(2026, 4, 11)) == "11 April 2026"
    assert language("en-US").date(date(2026, 4, 11)) == "April 11, 2026"
    assert language("EN-gb").tag == "en-GB"


@pytest.mark.parametrize("tag", ["", "klingon", "xx-YY", "en_GB", "../en", "en-GB-" + "x" * 1000])
def test_an_unknown_language_is_told(tag: str) -> None:
    with pytest.raises(UnknownLanguage, match="language") as caught:
        language(tag)
    assert "en-GB" in caught.value.hint


def test_babel_is_loaded_only_when_a_language_is() -> None:
    code = "import sys, chalkfold.amounts; sys.exit('babel' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
