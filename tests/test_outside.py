"""The guide says truly how many published figures each book is held to, and leaves out nothing that is from memory."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml

from books_help import SHELF
from chalkfold.trade import memory
from outside import GUIDE, HEADS, table
from spec_cases import SPEC, Case, cases
from worked_cases import FOUND

TRADE = Path(memory.__file__).parent
FILES = sorted(TRADE.rglob("*.yml"))
SAYS_WHAT_IT_MEANS = "Limits marked * are from memory"
CASES = [
    pytest.param(case, id=f"{page.name} {case}")
    for page in sorted(SPEC.glob("books_*.md"))
    for case in cases(page.name)
]


def test_the_table_of_the_guide_is_counted_anew() -> None:
    """``python tests/outside.py`` prints the table to put there."""
    text = GUIDE.read_text("utf-8")
    stands = HEADS + text.partition(HEADS)[2].partition("\n\n")[0] + "\n"
    assert stands == table()


def test_every_book_is_held_to_something_that_is_not_its_own_formula() -> None:
    rows = [line.strip("| ").split(" | ") for line in table().splitlines()[2:]]
    assert {name for name, found, apart in rows if not int(found) + int(apart)} == set()


@pytest.mark.parametrize("case", CASES)
def test_a_case_has_published_figures_where_it_names_their_source(case: Case) -> None:
    lines = [line for line in case.expected.splitlines() if line.endswith(FOUND)]
    assert bool(lines) is case.said.startswith("Found: ")


def texts(data: Any) -> Iterator[str]:
    if isinstance(data, dict):
        for key, value in data.items():
            if key != "status":
                yield from texts(value)
    elif isinstance(data, list):
        for value in data:
            yield from texts(value)
    elif isinstance(data, str):
        yield data


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_what_a_file_says_to_be_from_memory_is_listed(file: Path) -> None:
    listed = {each.source for each in memory.from_memory(SHELF)}
    data = yaml.load(file.read_text("utf-8"), Loader=yaml.CBaseLoader)
    said = {text for text in texts(data) if "memory" in text.casefold() and not text.startswith(SAYS_WHAT_IT_MEANS)}
    assert said - listed == set()


def test_a_status_of_memory_is_listed_too() -> None:
    listed = memory.from_memory(SHELF)
    for name, kind in (("fabrics", "cloth"), ("notions", "notion")):
        data = yaml.safe_load((TRADE / f"{name}.yml").read_text("utf-8"))
        remembered = {key for key, each in data.items() if each["status"] == "memory"}
        assert remembered <= {each.name for each in listed if each.where == kind}
    limits = yaml.safe_load((TRADE / "children.yml").read_text("utf-8"))["limits"]
    remembered_limits = [limit for limit in limits if limit["status"] == "memory"]
    assert len(remembered_limits) == sum(each.source == "from memory" for each in listed if each.where == "children")
