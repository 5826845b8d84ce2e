"""Hostile text ends soon: each of these took minutes, or was lost, while the work on it was not bounded.

The time limit of the test run is the measure; nothing is timed here.
"""

from __future__ import annotations

import pytest

from chalkfold.diagnostics import Code, Faults, Source
from chalkfold.post import build_post
from chalkfold.trade import Shelf


def faults_of(text: str) -> Faults:
    return build_post(Source("post.md", text), Shelf()).faults


@pytest.mark.parametrize("opening", ["{= ", "`{= ", "{=a", "{= ("])
def test_half_a_megabyte_of_openings(opening: str) -> None:
    text = opening * (200_000 // len(opening))
    assert len(faults_of(text)) <= len(text)


def test_as_many_blocks_as_faults() -> None:
    found = faults_of("```checks\nmust hold: [a = b]\n```\n\n" * 3_000)
    assert {fault.code for fault in found} == {Code.PLAN_UNKNOWN, Code.PLAN_TOO_BIG}


@pytest.mark.parametrize("quotes", [19, 21, 60])
def test_a_block_that_a_parser_would_drop_is_missed(quotes: int) -> None:
    """Eighteen quotes deep a value is filled in; beyond, the parser says nothing of what it leaves out."""
    mark = "> " * quotes
    assert [fault.code for fault in faults_of(f"{mark}{{= 3 cm }}\n")] == [Code.BLOCK_LOST]


def test_eighteen_quotes_are_fine() -> None:
    built = build_post(Source("post.md", "> " * 18 + "{= 3 cm }\n"), Shelf())
    assert not len(built.faults)
    assert "3\u00a0cm" in built.html


def test_a_size_holds_no_signs_that_turn_the_text_round() -> None:
    found = faults_of('```project\nsizes: [S, "M\\u202e"]\n```\n')
    assert [fault.code for fault in found] == [Code.DATA_SHAPE]
