"""The checks that are made by themselves: what they ask is data, and every ask has its cases."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from chalkfold.blocks import built_in
from chalkfold.blocks.built_in.made import Found
from chalkfold.blocks.desk import Desk
from chalkfold.diagnostics import Code
from chalkfold.plan import names_in
from chalkfold.trade import Shelf
from chalkfold.trade.built_in import BuiltIn, built_in_checks
from faults_help import faults_of, shelf_of
from post_help import plain_lines, worked
from spec_cases import SPEC, Case, cases

FAILING, PASSING = cases("faults_built_in.md"), cases("built_in_checks.md")
ASKS = [(name, ask) for name, check in built_in_checks().items() for ask in check.asks]


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> set[tuple[str, str]]:
    """Every ask made of the posts that are built meanwhile."""
    found: set[tuple[str, str]] = set()
    make: Callable[[BuiltIn, Found, Desk], None] = built_in.make

    def noted(check: BuiltIn, each: Found, desk: Desk) -> None:
        found.add((check.name, each.ask))
        make(check, each, desk)

    monkeypatch.setattr(built_in, "make", noted)
    return found


def shelf() -> Shelf:
    return shelf_of(SPEC / "faults_workroom")


def test_every_check_has_a_finder_and_a_code() -> None:
    names = list(built_in_checks())
    assert list(built_in.FINDERS) == names
    assert [f"check.{name.replace(' ', '-')}" for name in names] == [code for code in Code if code.startswith("check.")]


def test_every_ask_is_asked_in_a_case_that_fails(asked: set[tuple[str, str]]) -> None:
    told: set[str] = set()
    for case in FAILING:
        told |= {fault.code for fault in faults_of(case.given, shelf())}
    assert asked == set(ASKS)
    assert told >= {code for code in Code if code.startswith("check.")}


def test_every_ask_that_can_be_fulfilled_is_so_in_a_case(asked: set[tuple[str, str]]) -> None:
    for case in PASSING:
        assert faults_of(case.given, shelf()) == []
    can = {(name, ask) for name, ask in ASKS if built_in_checks()[name].asks[ask].holds is not None}
    assert can - asked == set()


@pytest.mark.parametrize("case", FAILING, ids=str)
def test_what_is_switched_off_is_not_asked(case: Case) -> None:
    off = "".join(f"  {name}: tried on and found right\n" for name in built_in_checks())
    post = f"{case.given}\n\n```checks\nnot needed:\n{off}```\n"
    assert not any(fault.code.startswith("check.") for fault in faults_of(post, shelf()))


@pytest.mark.parametrize("name", built_in_checks())
def test_a_reader_sees_why_a_check_was_not_needed(name: str) -> None:
    code = f"check.{name.replace(' ', '-')}"
    failing = next(case for case in FAILING if {fault.code for fault in faults_of(case.given, shelf())} == {code})
    switched = f"{failing.given}\n\n```checks\nnot needed: {{{name}: tried on and found right}}\n```\n"
    found = worked(switched, shelf())
    assert not len(found.faults)
    assert f"Not checked: {built_in_checks()[name].says}: tried on and found right" in plain_lines(found, shelf())


@pytest.mark.parametrize("check", built_in_checks().values(), ids=lambda check: check.name)
def test_every_figure_is_used_and_has_a_source(check: BuiltIn) -> None:
    said = [part for ask in check.asks.values() for part in (*ask.message, *ask.hint, ask.holds)]
    formulas = [part for part in said if part is not None and not isinstance(part, str)]
    formulas += [figure.expression for figure in check.figures]
    used = {name.key for formula in formulas for name in names_in(formula)}
    assert {figure.name for figure in check.figures} <= used
    assert check.source and all(figure.source for figure in check.figures)
