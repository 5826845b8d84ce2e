"""The formula language: reading, kinds, printing, plain data."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Code, Faults
from chalkfold.formula import (
    PRIMITIVES,
    Apply,
    BySize,
    Expression,
    Name,
    apply,
    from_data,
    kind_of,
    length,
    parse,
    plain,
    to_data,
    to_text,
)
from chalkfold.formula.data import NOT_OPERATIONS
from formula_help import TREES, kind_of_name, lines_of, read, text_of
from spec_cases import Case, cases, told


def fault_in(value: str) -> tuple[Code, str]:
    """The only fault of a formula: its code, and the characters it points at."""
    faults = Faults()
    assert parse(text_of(value), faults) is None
    (fault,) = faults
    return fault.code, fault.span.text


def read_all(page: str) -> str:
    shown = []
    for text in lines_of(page):
        faults = Faults()
        expression = parse(text, faults)
        kind = expression and kind_of(expression, kind_of_name, faults)
        assert expression and kind and not len(faults), told(faults)
        shown.append(f"{to_text(expression)}  [{kind}]\n")
    return "".join(shown)


def faults_of_all(page: str) -> str:
    said = []
    for text in lines_of(page):
        faults = Faults()
        if expression := parse(text, faults):
            kind_of(expression, kind_of_name, faults)
        assert len(faults) == 1, f"{text.value}: {told(faults)}"
        said.append(told(faults))
    return "".join(said)


@pytest.mark.parametrize("case", cases("formulas.md"), ids=str)
def test_formulas_read_as_the_page_says(case: Case) -> None:
    assert read_all(case.given) == case.expected


@pytest.mark.parametrize("case", cases("formulas.md"), ids=str)
def test_formulas_on_the_page_survive_printing_and_data(case: Case) -> None:
    for text in lines_of(case.given):
        expression = read(text.value)
        assert read(to_text(expression)) == expression
        assert from_data(json.loads(json.dumps(to_data(expression)))) == expression


@pytest.mark.parametrize("case", cases("formula_faults.md"), ids=str)
def test_faults_are_told_as_the_page_says(case: Case) -> None:
    assert faults_of_all(case.given) == case.expected


@pytest.mark.parametrize(
    ("typed", "data"),
    [
        ("10 - 4 - 3", ["-", ["-", 10, 4], 3]),
        ("2^3^2", ["^", 2, ["^", 3, 2]]),
        ("-2^2", ["neg", ["^", 2, 2]]),
        (
            "1/4 of a + b",
            ["+", ["of", ["amount", 0.25, "plain number", "1/4"], ["name", "a"]], ["name", "b"]],
        ),
        ("total Waist of skirt", ["name", "total waist of skirt", "total Waist of skirt"]),
        ("not a = b and c", ["and", ["not", ["=", ["name", "a"], ["name", "b"]]], ["name", "c"]]),
        ("2 cm", ["amount", 20, "length", "2 cm"]),
        ("max(a, 0)", ["max", ["name", "a"], 0]),
    ],
)
def test_the_form_that_the_page_works_with(typed: str, data: object) -> None:
    assert to_data(read(typed)) == data


def test_a_part_knows_its_place() -> None:
    expression = read("max(hip girth, 2 cm) * (1 + ease)")
    assert isinstance(expression, Apply)
    call, bracket = expression.args
    assert isinstance(call, Apply) and isinstance(bracket, Apply)
    assert call.span and call.span.text == "max(hip girth, 2 cm)"
    assert bracket.span and bracket.span.text == "1 + ease"
    assert expression.span and expression.span.text == "max(hip girth, 2 cm) * (1 + ease)"


def test_case_and_unicode_form_do_not_matter() -> None:
    composed, taken_apart = read("ärmel breite"), read("A\u0308rmel Breite")
    assert isinstance(composed, Name) and isinstance(taken_apart, Name)
    assert composed.key == taken_apart.key


@given(TREES)
def test_any_formula_parses_back_from_its_printed_form(tree: Expression) -> None:
    assert read(to_text(tree)) == tree


@given(TREES)
def test_no_bracket_is_printed_that_could_go(tree: Expression) -> None:
    printed = to_text(tree)
    for opener, character in enumerate(printed):
        if character != "(" or printed[:opener].rstrip().endswith(("min", "max", "up", "sqrt")):
            continue
        closer = matching(printed, opener)
        without = f"{printed[:opener]}{printed[opener + 1 : closer]}{printed[closer + 1 :]}"
        assert parse(text_of(without), Faults()) != tree


def matching(printed: str, opener: int) -> int:
    depth = 0
    for at in range(opener, len(printed)):
        depth += {"(": 1, ")": -1}.get(printed[at], 0)
        if depth == 0:
            return at
    raise AssertionError(printed)


@given(TREES)
def test_any_formula_comes_back_from_plain_data(tree: Expression) -> None:
    assert from_data(json.loads(json.dumps(to_data(tree)))) == tree


@given(TREES)
def test_kinds_give_an_answer_or_a_fault(tree: Expression) -> None:
    faults = Faults()
    here = text_of("x").span()
    assert (kind_of(tree, kind_of_name, faults, here) is None) == (len(faults) > 0)


@given(st.text(alphabet="ab1 2/.,()+-*^=<>%½°\"'of ifthenelsenotpicm±{}\\_é\u0308", max_size=60))
def test_any_text_is_a_formula_or_one_fault(typed: str) -> None:
    faults = Faults()
    expression = parse(text_of(typed), faults)
    assert len(faults) == (expression is None)
    if expression is not None:
        assert read(to_text(expression)) == expression


@pytest.mark.parametrize(
    ("typed", "code"),
    [
        ("(" * 10_000, Code.FORMULA_TOO_LONG),
        ("(" * 1_999, Code.FORMULA_TOO_DEEP),
        ("-" * 1_999, Code.FORMULA_TOO_DEEP),
        ("not " * 499, Code.FORMULA_TOO_DEEP),
        ("if " * 600, Code.FORMULA_TOO_DEEP),
        ("max(" * 499, Code.FORMULA_TOO_DEEP),
        ("half of " * 249, Code.FORMULA_TOO_DEEP),
        ("2^" * 999 + "2", Code.FORMULA_TOO_DEEP),
        ("1 + " * 499 + "1", Code.FORMULA_TOO_DEEP),
        ("a " * 500_000, Code.FORMULA_TOO_LONG),
        ("1" * 1_900, Code.AMOUNT_RANGE),
    ],
    ids=lambda value: str(value)[:8],
)
def test_hostile_formulas_end_in_a_fault(typed: str, code: Code) -> None:
    assert fault_in(typed)[0] == code


def test_what_blocks_build_may_be_deep() -> None:
    tree: Expression = length(1)
    for _ in range(5_000):
        tree = tree + length(1)
    assert kind_of(tree, kind_of_name, Faults()) is Kind.LENGTH
    assert to_text(tree).count("+") == 5_000
    assert to_text(from_data(to_data(tree))) == to_text(tree)


def test_an_exponent_too_large_is_refused_before_anything_is_computed() -> None:
    faults = Faults()
    assert kind_of(read("9^9^9^9"), kind_of_name, faults) is None
    assert [fault.message for fault in faults] == ["an exponent is at most 8"]


def test_an_unknown_name_silences_what_is_built_on_it() -> None:
    faults = Faults()
    assert kind_of(read("not known + 2 cm * (1 + 2 cm)"), kind_of_name, faults) is None
    assert [fault.message for fault in faults] == ["a plain number plus a length"]


def test_a_graded_number_is_of_one_kind() -> None:
    graded = BySize((("S", read("14 cm")), ("M", read("0")), ("L", read("15"))))
    faults = Faults()
    assert kind_of(graded, kind_of_name, faults) is None
    (fault,) = faults
    assert fault.message == "size L gives a plain number, and size S a length"
    assert fault.span.text == "15"
    assert kind_of(BySize(graded.cases[:2]), kind_of_name, Faults()) is Kind.LENGTH


def test_a_graded_number_prints_and_travels() -> None:
    graded = BySize((("S", read("14 cm")), ("M", read("15 cm + ease of tee"))))
    assert to_text(graded) == "{S: 14 cm, M: 15 cm + ease of tee}"
    assert from_data(to_data(graded)) == graded


@pytest.mark.parametrize(
    ("op", "args", "kind"),
    [
        ("series", (length(0), length(40), plain(5)), Kind.SERIES),
        ("positions between", (Name("row"), length(0), length(400)), Kind.SERIES),
        ("clear shift", (length(40), Name("row")), Kind.LENGTH),
        ("clearance", (Name("row"), Name("row"), length(900)), Kind.LENGTH),
        ("row", (length(40), length(5), length(1)), Kind.SERIES),
        ("count of series", (Name("row"),), Kind.PLAIN),
        ("asin", (plain(1),), Kind.ANGLE),
        ("sector width", (length(900), length(100), apply("asin", 1), length(10)), Kind.LENGTH),
        ("sector height", (length(900), length(100), apply("asin", 1), length(10)), Kind.LENGTH),
        ("point", (length(0), length(40)), Kind.POINT),
        ("across of", (Name("corner"),), Kind.LENGTH),
        ("down of", (Name("corner"),), Kind.LENGTH),
        ("distance", (Name("corner"), Name("corner")), Kind.LENGTH),
    ],
)
def test_what_blocks_use_has_kinds_and_cannot_be_typed(op: str, args: tuple[Expression, ...], kind: Kind) -> None:
    kinds = {"row": Kind.SERIES, "corner": Kind.POINT}
    assert kind_of(Apply(op, args), lambda name: kinds[name.key], Faults()) is kind
    assert parse(text_of(to_text(Apply(op, args))), Faults()) is None
    assert from_data(to_data(Apply(op, args))) == Apply(op, args)
    faults = Faults()
    wrong = Apply(op, (apply("=", 1, 1), *args[1:]))
    assert kind_of(wrong, lambda name: kinds[name.key], faults, text_of("x").span()) is None
    assert len(faults) == 1


def test_plain_data_that_is_no_expression_is_refused() -> None:
    for data in (True, "waist", [], ["no such", 1], ["+", 1], ["name", 2], ["by size"], ["by size", 3], None):
        with pytest.raises(ValueError):
            from_data(data)  # type: ignore[arg-type]
    assert not set(NOT_OPERATIONS) & set(PRIMITIVES)
