"""What surrounds a formula: lines of checks, names that are defined, values in running text."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from chalkfold.diagnostics import Code, Faults
from chalkfold.formula import Name, Value, check_kinds, parse_check, parse_name, parse_prose
from formula_help import kind_of_name, read, text_of
from spec_cases import told


@pytest.mark.parametrize(
    ("typed", "op", "tolerance"),
    [
        ("total waist of skirt = waist edge", "=", None),
        ("side of front = side of back ± 2 mm", "=", "2 mm"),
        ("side of front = side of back +- 2 mm", "=", "2 mm"),
        ("total top of tier = 1.5 * total bottom of yoke +/- 10 %", "=", "10 %"),
        ("hip girth ≥ waist girth - 2 cm", ">=", None),
        ("count of tassels ≠ 13", "!=", None),
    ],
)
def test_a_check_compares_two_values(typed: str, op: str, tolerance: str | None) -> None:
    faults = Faults()
    check = parse_check(text_of(typed), faults)
    assert check is not None, told(faults)
    assert check.op == op
    assert (check.tolerance and check.tolerance.text) == tolerance
    assert check_kinds(check, kind_of_name, faults) is not None
    assert check.within_share == ("%" in typed)


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ("waist girth", "a check compares two values"),
        ("waist girth ± 2 mm", "a check compares two values"),
        ("1 = 2 = 3", "a check compares two values, not three"),
        ("waist girth >= hip girth ± 2 mm", "a tolerance goes with `=` only"),
        ("waist girth = hip girth ±", "after `±` stands an amount"),
        ("waist girth = hip girth ± 2 mm + 1 mm", "`+` is out of place"),
        ("waist girth = hip girth ± 2", "the values are a length each, and the tolerance a plain number"),
        ("waist girth = 3", "a length compared with a plain number"),
        ("waist girth = ", "the formula ends too early"),
    ],
)
def test_a_check_that_cannot_be_read(typed: str, message: str) -> None:
    faults = Faults()
    if check := parse_check(text_of(typed), faults):
        assert check_kinds(check, kind_of_name, faults) is None
    assert [fault.message for fault in faults] == [message]


@pytest.mark.parametrize("name", ["waist edge", "tier 1 depth", "cross-back width", "tier 1", "A2", "half back"])
def test_names(name: str) -> None:
    assert parse_name(text_of(name), Faults()) == name


@pytest.mark.parametrize(
    ("typed", "points_at", "hint"),
    [
        ("waist  edge", "waist  edge", "write `waist edge`"),
        ("2nd tier", "2", "write words with single spaces, such as `waist edge` or `tier 1 depth`"),
        (
            "tier 2nd",
            "2nd",
            "write only whole numbers in a name, and no unit behind them, as in `tier 1 depth`",
        ),
        (
            "tier 1 cm",
            "1 cm",
            "write only whole numbers in a name, and no unit behind them, as in `tier 1 depth`",
        ),
        ("front and back", "and", "write the name without `and`, as in `waist edge`"),
        ("hem of skirt", "of", "write the name without `of`, as in `waist edge`"),
        ("cm", "cm", "write a longer name, such as `cm wide`"),
        ("Max", "Max", "write a longer name, such as `Max girth`"),
        ("half", "half", "write a longer name, such as `half girth`"),
        ("waist-2", "-", "write a hyphen only between letters, as in `cross-back width`"),
        ("waist (front)", "(", "write words with single spaces, such as `waist edge` or `tier 1 depth`"),
        ("", "", "write words with single spaces, such as `waist edge` or `tier 1 depth`"),
        ("a" * 81, "a" * 81, "write a shorter name"),
    ],
)
def test_what_is_no_name(typed: str, points_at: str, hint: str) -> None:
    faults = Faults()
    assert parse_name(text_of(typed), faults) is None
    (fault,) = faults
    assert (fault.code, fault.span.text, fault.hint) == (Code.FORMULA_NAME, points_at, hint)


def test_values_in_text() -> None:
    prose = parse_prose(text_of("elastic, {= width of elastic } wide, \\{= as it stands"), Faults())
    before, value, after = prose.parts
    assert (before, after) == ("elastic, ", " wide, {= as it stands")
    assert isinstance(value, Value)
    assert value.expression == Name("width of elastic")
    assert value.span.text == "{= width of elastic }"


def test_text_without_values_is_one_part() -> None:
    assert parse_prose(text_of("a {brace} = b"), Faults()).parts == ("a {brace} = b",)
    assert parse_prose(text_of(""), Faults()).parts == ()


@pytest.mark.parametrize(
    ("typed", "code", "points_at"),
    [
        ("cut {= waist girth", Code.VALUE_UNCLOSED, "{="),
        ("cut {=waist girth}", Code.FORMULA_SYNTAX, "{="),
        ("cut {= waist girth 2 cm } long", Code.FORMULA_OPERATOR, "2 cm"),
        ("cut {= }", Code.FORMULA_SYNTAX, ""),
        ("{= " * 1_000, Code.VALUE_UNCLOSED, "{="),
    ],
)
def test_values_that_cannot_be_read(typed: str, code: Code, points_at: str) -> None:
    faults = Faults()
    parse_prose(text_of(typed), faults)
    (fault,) = faults
    assert (fault.code, fault.span.text) == (code, points_at)


PIECES_OF_NAMES = st.sampled_from(
    ["a", "b2", "é", "E\u0308", "1", "23", "2x", "cm", "in", "Half", "½", "-", " ", " ", " "]
)


@given(st.lists(PIECES_OF_NAMES, max_size=8).map("".join) | st.text(max_size=12))
def test_what_is_accepted_as_a_name_reads_as_that_name(typed: str) -> None:
    faults = Faults()
    name = parse_name(text_of(typed), faults)
    assert len(faults) == (name is None)
    if name is not None:
        assert read(name) == Name(typed)
