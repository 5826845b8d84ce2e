"""A number of the wrong kind is told once, where it was typed, with the places that use it."""

from __future__ import annotations

import pytest

from chalkfold.diagnostics import Fault, Span
from post_help import block, post, worked, workroom

SHELF = workroom()


def pocket(across: str, down: str) -> str:
    body = f"piece: pocket\n    rectangle: {{across: {across}, down: {down}}}\n    cut: 1 in main\n    allowances: none"
    return block("cut-list", f"pieces:\n  - {body}")


def faults(text: str) -> list[Fault]:
    return list(worked(text, SHELF).faults)


def said(span: Span) -> str:
    return span.source.text[span.start : span.end]


@pytest.mark.parametrize(
    ("typed", "head", "hint"),
    [
        ("20", "sizes: none", "write 20 cm or 20 in"),
        ("7 1/2", "sizes: none", "write 7 1/2 cm or 7 1/2 in"),
        ("{S: 20, M: 21}", "sizes: [S, M]", "write 20 cm or 20 in"),
        ("15 %", "sizes: none", "write a length with its unit, as in `12 cm` or `7 1/2 in`"),
        ("2 * 10", "sizes: none", "write a length with its unit, as in `12 cm` or `7 1/2 in`"),
    ],
)
def test_a_number_without_its_unit_is_told_where_it_was_typed(typed: str, head: str, hint: str) -> None:
    (fault,) = faults(post(f"pocket depth: {typed}", blocks=pocket("10 cm", "pocket depth"), head=head))
    assert said(fault.span) == typed
    assert fault.message == "`pocket depth` should be a length where it is used, and this is a plain number"
    assert fault.hint == hint
    assert [(words, said(place)) for words, place in fault.related] == [("it is used here", "pocket depth")]


def test_a_number_used_twice_is_told_once() -> None:
    (fault,) = faults(post("side: 20", blocks=pocket("side", "side")))
    assert len(fault.related) == 2


def test_a_number_that_repeats_another_leads_to_that_one() -> None:
    (fault,) = faults(post("depth: 20", "pocket depth: depth", blocks=pocket("10 cm", "pocket depth")))
    assert said(fault.span) == "20"
    assert fault.message.startswith("`depth` should be a length")


def test_a_number_that_is_right_elsewhere_is_wrong_only_where_it_does_not_fit() -> None:
    row = block("spacing", "name: buttons\nalong: depth\ncount: depth")
    (fault,) = faults(post("depth: 20 cm", blocks=row))
    assert fault.message == "a plain number is due here, and this is a length"
    assert fault.span.source.line_and_column(fault.span.start)[0] == 10
    assert [(words, said(place)) for words, place in fault.related] == [("it is given here", "depth")]


def test_an_amount_typed_at_its_place_is_told_there() -> None:
    (fault,) = faults(post(blocks=pocket("10 cm", "20")))
    assert fault.message == "a length is due here, and this is a plain number"
