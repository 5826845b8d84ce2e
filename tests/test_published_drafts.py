"""Drafts of old pattern books, written as the books construct them, against the books' own numbers.

Each page of ``tests/published/`` names its book, year and address. Points are held to 0.001 of the book's unit, lengths
of curves to 0.05, because a bow is an arc here and may have been a parabola there. The books' points that are figures
have a letter before them: point 1 is ``p1``.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from spec_cases import Case, cases
from worked_cases import comes_to

PUBLISHED = Path(__file__).parent / "published"
PAGES = sorted(PUBLISHED.glob("*.md"))
CASES = [pytest.param(case, id=f"{page.stem} {case}") for page in PAGES for case in cases(page.name, PUBLISHED)]


@pytest.mark.parametrize("case", CASES)
def test_a_published_draft_comes_to_its_own_numbers(case: Case) -> None:
    comes_to(case)


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_a_page_names_its_source(page: Path) -> None:
    assert "\nSource: " in page.read_text("utf-8")
