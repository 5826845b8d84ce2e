"""One book used for several things gives for each of them what it gives alone; held to every shipped book."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from books_help import BODY, SHELF, book, expectations, names
from chalkfold.formula import key_of
from chalkfold.plan import Value, names_in
from chalkfold.work import Worked
from post_help import post, worked

BOOKS = names()
BODIES = [f"{key}: {value}" for key, value in BODY.items()]


def row_of(found: Worked, name: str) -> Value | None:
    return found.values.row(key_of(name))[0]


def numbers_of(name: str, head: str, lines: list[str], purpose: str = "") -> Mapping[str, Value | None]:
    """Every number of a book by its name in the file, for one purpose or plain."""
    plain = [step.name for step in book(name).numbers.values()]
    said = {each: f"{purpose} {each}".strip() for each in plain}
    found = worked(post(*BODIES, *lines, head=f"sizes: none\nbooks: {head}"), SHELF, said.values())
    assert [fault.message for fault in found.faults] == []
    return {each: row_of(found, said[each]) for each in plain}


@pytest.mark.parametrize("name", BOOKS)
def test_for_something_a_book_gives_what_it_gives_plain(name: str) -> None:
    alone = numbers_of(name, f"[{name}]", expectations([name]))
    for_each = [f"neck {line}" for line in expectations([name])]
    assert numbers_of(name, f"[{name} for neck]", for_each, "neck") == alone
    assert numbers_of(name, f"[{name} for neck]", expectations([name]), "neck") == alone


@pytest.mark.parametrize("name", BOOKS)
def test_two_uses_and_the_plain_one_keep_out_of_each_others_way(name: str) -> None:
    """What is told for the sleeve changes nothing at the neck, whatever number of the book it is."""
    alone = numbers_of(name, f"[{name}]", expectations([name]))
    head = f"[{name} for neck, {name} for the sleeve, {name}]"
    for expected in book(name).expects.values():
        lines = [*expectations([name]), f"sleeve {expected.name}: 1.01 * {expected.name}"]
        if expected.name in ("buttons", "tassels", "tiers", "flounce pieces"):
            lines[-1] = f"sleeve {expected.name}: {expected.name} + 1"
        assert numbers_of(name, head, lines, "neck") == alone, expected.name
        assert numbers_of(name, head, lines) == alone, expected.name
        touched = _names_built_on(name, expected.name)
        moved = {each for each, value in numbers_of(name, head, lines, "sleeve").items() if value != alone[each]}
        assert moved <= touched, expected.name


def _names_built_on(name: str, expected: str) -> set[str]:
    """The numbers of a book in whose sums one that it expects takes part."""
    reached = {key_of(expected)}
    steps = book(name).numbers
    for _ in steps:
        reached |= {key for key, step in steps.items() if reached & {each.key for each in names_in(step.expression)}}
    return {step.name for key, step in steps.items() if key in reached}
