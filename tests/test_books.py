"""The shipped books as a set: whole, sourced, free of clashes, and workable on every shipped chart."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from books_help import BODY, SHELF, book, expectations, names
from chalkfold.diagnostics import Code, Faults
from chalkfold.formula import key_of
from post_help import post, worked
from spec_cases import SPEC, cases

BOOKS = names()
CHARTS = SHELF.names("chart")
FROM_ANOTHER_BOOK = {
    "channel depth": {"drawstring", "drawstring bag"},
    "hem sweep": {"circle skirt", "hem"},
}
"""What one book gives and another expects: listed together, the second takes it from the first."""


@pytest.mark.parametrize("name", BOOKS)
def test_a_book_says_what_it_is_for(name: str) -> None:
    found = book(name)
    assert found.title and found.note.endswith(".")
    assert found.source, "what a number's own source leaves open"
    assert all(each.kind and each.note for each in found.expects.values())


@pytest.mark.parametrize("name", BOOKS)
def test_every_number_has_a_note_and_a_source(name: str) -> None:
    for step in book(name).numbers.values():
        assert step.origin.note.endswith("."), step.name
        assert step.origin.source, step.name


@pytest.mark.parametrize("name", BOOKS)
def test_no_number_sounds_like_a_measured_one(name: str) -> None:
    """``hem of skirt`` is measured; a name with ``of`` in it could not be told from one."""
    assert not [step.name for step in book(name).numbers.values() if " of " in step.name]


def test_no_two_books_give_the_same_name() -> None:
    given = Counter(key for name in BOOKS for key in book(name).numbers)
    assert [key for key, times in given.items() if times > 1] == []


def test_a_name_that_several_books_expect_means_one_kind_of_thing() -> None:
    kinds: dict[str, set[object]] = {}
    for name in BOOKS:
        for key, expected in book(name).expects.items():
            kinds.setdefault(key, set()).add(expected.kind)
    assert {key for key, found in kinds.items() if len(found) > 1} == set()


def test_a_book_takes_from_another_only_what_is_meant_to_be_taken() -> None:
    givers = {key: name for name in BOOKS for key in book(name).numbers}
    found: dict[str, set[str]] = {}
    for name in BOOKS:
        for key in book(name).expects:
            if key in givers:
                found.setdefault(key, {givers[key]}).add(name)
    assert found == FROM_ANOTHER_BOOK


def test_all_books_in_one_post() -> None:
    wanted = [step.name for name in BOOKS for step in book(name).numbers.values()]
    body = [f"{key}: {value}" for key, value in BODY.items()]
    text = post(*body, *expectations(BOOKS), head=f"sizes: none\nbooks: [{', '.join(BOOKS)}]")
    found = worked(text, SHELF, wanted)
    assert [fault.message for fault in found.faults] == []
    assert all(found.values.row(key_of(name))[0] is not None for name in wanted)


@pytest.mark.parametrize("name", BOOKS)
def test_every_number_a_book_expects_is_missed_when_a_post_leaves_it_out(name: str) -> None:
    wanted = [step.name for step in book(name).numbers.values()]
    body = [f"{key}: {value}" for key, value in BODY.items()]
    for expected in book(name).expects.values():
        lines = [line for line in expectations([name]) if not line.startswith(f"{expected.name}:")]
        text = post(*body, *lines, head=f"sizes: none\nbooks: [{name}]")
        codes = {fault.code for fault in worked(text, SHELF, wanted).faults}
        assert codes == {Code.PLAN_EXPECTS}, expected.name


@pytest.mark.parametrize("chart", CHARTS)
@pytest.mark.parametrize("name", BOOKS)
def test_a_book_works_in_every_size_of_every_chart(name: str, chart: str) -> None:
    has = SHELF.chart(chart, Faults())
    assert has is not None
    body = [f"{key}: {value}" for key, value in BODY.items() if key not in has.measures]
    wanted = [step.name for step in book(name).numbers.values()]
    text = post(*body, *expectations([name]), head=f"sizes: {chart}\nbooks: [{name}]")
    found = worked(text, SHELF, wanted)
    assert [fault.message for fault in found.faults] == []
    for each in wanted:
        row = found.values.row(key_of(each))
        assert len(row) == len(has.sizes)
        assert None not in row, each


def test_every_book_has_a_case_of_its_own() -> None:
    text = "".join(page.read_text("utf-8") for page in SPEC.glob("books_*.md"))
    listed = {name.strip() for line in re.findall(r"^books: \[(.*)\]$", text, re.M) for name in line.split(",")}
    assert listed == set(BOOKS)


def test_every_number_of_every_book_is_worked_out_in_some_case() -> None:
    worked_out: set[str] = set()
    for page in SPEC.glob("books_*.md"):
        for case in cases(page.name):
            names_said = [line.partition(" = ")[0].partition(" ≈ ")[0] for line in case.expected.splitlines()]
            if not names_said[0].startswith("fault:"):
                worked_out |= worked(case.given, SHELF, names_said).plan.steps.keys()
    assert {key for name in BOOKS for key in book(name).numbers} - worked_out == set()
