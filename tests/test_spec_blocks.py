"""The cases of the block pages in ``tests/spec/``: a small post, and what comes of it (see ``worked_cases.py``)."""

from __future__ import annotations

import pytest

from spec_cases import SPEC, Case, cases
from worked_cases import comes_to

PAGES = (
    "of",
    "draft",
    "curves",
    "like",
    "cut_away",
    "panels",
    "facings",
    "hems",
    "constructions",
    "darts",
    "pleats_drawn",
    "spread",
    "shaped_pieces",
    "spacing",
    "pleats",
    "cut_list",
    "materials",
    "checks",
    "book_uses",
    "built_in_checks",
    "project",
    "sew",
    "care",
    "children",
    "cautions",
    *sorted(page.stem for page in SPEC.glob("books_*.md")),
)
CASES = [pytest.param(case, id=f"{page} {case}") for page in PAGES for case in cases(f"{page}.md")]


@pytest.mark.parametrize("case", CASES)
def test_a_post_comes_to_what_was_worked_out_by_hand(case: Case) -> None:
    comes_to(case)
