"""Reading and rounding amounts: the cases of ``spec/amounts.md``, and what holds for every text and value."""

import json
import time
from collections.abc import Callable

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from amount_cases import HERE, cases, text, told
from chalkfold.amounts import (
    AmountTrouble,
    Kind,
    decimals,
    down,
    read_amount,
    read_minutes,
    scan,
    to_mark,
    unit_words,
    up,
)
from chalkfold.diagnostics import Code, Faults

VECTORS = json.loads((HERE / "vectors" / "rounding.json").read_text("utf-8"))
lengths = st.floats(-999_990, 999_990)
marks = st.sampled_from([0.1, 0.5, 1.0, 1.5875, 3.175, 5.0, 10.0])


# reading


@pytest.mark.parametrize(("typed", "value", "kind", "spelled"), cases("Read"))
def test_an_amount_is_read_and_spelled_back(typed: str, value: str, kind: str, spelled: str) -> None:
    faults = Faults()
    found = read_amount(text(typed), faults)
    assert not told(faults) and found
    assert (found.value, found.kind, found.text, found.end) == (float(value), kind, spelled, len(typed))
    again = scan(found.text, 0)
    assert again and (again.value, again.text) == (found.value, found.text)


@pytest.mark.parametrize(("typed", "spelled", "left"), cases("Left to the formula"))
def test_an_amount_ends_before_what_is_not_its_own(typed: str, spelled: str, left: str) -> None:
    found = scan(typed, 0)
    assert found and (found.text, typed[found.end :].strip()) == (spelled, left)


@pytest.mark.parametrize(("typed", "code", "hint"), cases("Refused"))
def test_a_faulty_amount_is_refused_with_what_to_write(typed: str, code: str, hint: str) -> None:
    faults = Faults()
    assert read_amount(text(typed), faults) is None
    [(found, place, advice)] = told(faults)
    assert found == code and hint in advice and typed.startswith(place)


def test_an_amount_is_found_inside_a_formula() -> None:
    found = scan("waist + 7 1/2 in * 2", 8)
    assert found and (found.value, found.end) == (190.5, 16)
    assert scan("waist", 0) is None


@pytest.mark.parametrize(
    ("typed", "kinds", "code", "place", "hint"),
    [
        ("", None, Code.AMOUNT_NUMBER, "", "write a length, such as 12 cm or 4 3/4 in"),
        ("a bit", None, Code.AMOUNT_NUMBER, "a bit", "write a length, such as 12 cm or 4 3/4 in"),
        ("12", [Kind.LENGTH], Code.FORMULA_KIND, "12", "write the unit too: 12 cm or 12 in"),
        ("12 cm", [Kind.ANGLE], Code.FORMULA_KIND, "12 cm", "write an angle, such as 45°"),
        ("12 waists", None, Code.AMOUNT_UNIT, "waists", "mm, cm, m, in, ft, yd"),
        ("12 cm + 1 cm", [Kind.LENGTH], Code.AMOUNT_NUMBER, "+ 1 cm", "write one amount only: a length"),
    ],
)
def test_a_field_wants_one_amount_of_its_kind(
    typed: str, kinds: list[Kind] | None, code: Code, place: str, hint: str
) -> None:
    faults = Faults()
    assert read_amount(text(typed), faults, kinds) is None
    [(found, where, advice)] = told(faults)
    assert (found, where) == (code, place) and hint in advice


def test_zero_fits_every_kind_of_number() -> None:
    faults = Faults()
    assert all(read_amount(text("0"), faults, [kind]) for kind in (Kind.LENGTH, Kind.AREA, Kind.ANGLE))
    assert read_amount(text("0"), faults, [Kind.TRUTH]) is None


def test_units_are_known_words_that_no_name_may_be() -> None:
    assert {"cm", "in", "inches", "yd", "percent", "cm²"} <= unit_words()
    assert not {"waist", "sq in", "skirt"} & unit_words()


@given(st.text(alphabet="0123456789 ./,½⅜⁄-'\"″%°²eincmftydwaist\n\u202f", max_size=30) | st.text(max_size=20))
@example("9" * 5000)
@example("1/" + "9" * 5000)
@example("1,2" * 2000)
@example("1e99999")
@example("1 2/3½")
def test_any_text_is_an_amount_or_told_apart(typed: str) -> None:
    for at in range(min(len(typed), 40)):
        try:
            found = scan(typed, at)
        except AmountTrouble as trouble:
            assert at <= trouble.start < trouble.end <= len(typed) and len(trouble.message + trouble.hint) < 400
        else:
            assert found is None or at < found.end <= len(typed)
    faults = Faults()
    assert (read_amount(text(typed), faults) is None) == (len(faults) == 1)
    assert (read_minutes(text(typed), Faults()) is None) or typed


@pytest.mark.parametrize(
    "hostile",
    [
        "9" * 10**6,
        "1/" + "2" * 10**6,
        "1" + " " * 10**6,
        "1 " + "x" * 10**6,
        "1" + ",1" * 500_000,
        "1 cm" + "-a" * 500_000,
    ],
    ids=["digits", "fraction", "spaces", "word", "commas", "hyphens"],
)
def test_a_million_characters_take_a_moment(hostile: str) -> None:
    start = time.process_time()
    read_amount(text(hostile), Faults())
    read_minutes(text(hostile), Faults())
    assert time.process_time() - start < 1


# rounding


@pytest.mark.parametrize("name", ["to_mark", "up", "down"])
def test_the_rounding_rule_gives_the_shared_results(name: str) -> None:
    rule: Callable[[float, float], float] = {"to_mark": to_mark, "up": up, "down": down}[name]
    assert [rule(case["x"], case["mark"]) for case in VECTORS[name]] == [case["is"] for case in VECTORS[name]]


def test_decimals_give_the_shared_results() -> None:
    found = [decimals(case["x"], case["places"]) for case in VECTORS["decimals"]]
    assert found == [case["is"] for case in VECTORS["decimals"]]


@given(lengths, marks)
def test_rounding_is_near_and_settles_at_once(x: float, mark: float) -> None:
    shown = to_mark(x, mark)
    assert to_mark(shown, mark) == up(shown, mark) == down(shown, mark) == shown
    assert abs(shown - x) <= mark * (0.5 + 1e-6)
    assert down(x, mark) - mark * 1e-6 <= x <= up(x, mark) + mark * 1e-6


@given(st.integers(-(10**6), 10**6), st.integers(1, 64))
def test_a_half_mark_goes_up_however_it_was_computed(count: int, parts: int) -> None:
    mark = 25.4 / parts
    assert to_mark(count * mark + mark / 2, mark) == (count + 1) * mark
