"""Counts the figures from outside that each shipped book is held to: ``python tests/outside.py`` prints the table.

A published figure is a line of a case in ``spec/books_*.md`` that ends in ``(found)``, or an entry of a published
table that a test below ``@published`` goes through. ``@worked_apart`` marks what is reckoned by other means than the
book's own formula (a library of plane geometry, fractions, folding) where nothing is published.
"""

from __future__ import annotations

import re
import sys
from collections import Counter
from collections.abc import Callable
from importlib import import_module
from pathlib import Path
from typing import TypeVar

from chalkfold.formula import key_of
from spec_cases import SPEC, cases
from worked_cases import FOUND

Test = TypeVar("Test", bound=Callable[..., None])
MODULES = ("test_books_against_the_world", "test_books_worked_apart")
PUBLISHED: Counter[str] = Counter()
APART: Counter[str] = Counter()
_BOOKS = re.compile(r"^books: \[(?P<names>.*)\]$", re.M)
_NAME = re.compile(r"(?P<name>[^=≈]+?) [=≈] ")
GUIDE = Path(__file__).parent.parent / "content_example/pages/guide-17-sources.md"
HEADS = "| Book | Published figures | Worked apart |\n|---|---|---|\n"


def published(book: str, values: int) -> Callable[[Test], Test]:
    """A test that holds a book to so many published values."""
    return _counted(PUBLISHED, book, values)


def worked_apart(book: str, values: int = 1) -> Callable[[Test], Test]:
    """A test that holds so many numbers of a book to another way of reckoning."""
    return _counted(APART, book, values)


def _counted(counter: Counter[str], book: str, values: int) -> Callable[[Test], Test]:
    counter[book] += values
    return lambda test: test


def found_in_cases() -> Counter[str]:
    """The lines of the cases that are published, under the book that gives the number, or else the last one listed."""
    from books_help import book

    found: Counter[str] = Counter()
    for page in sorted(SPEC.glob("books_*.md")):
        for case in cases(page.name):
            listed = _BOOKS.search(case.given)
            for line in case.expected.splitlines():
                if listed and line.endswith(FOUND) and (name := _NAME.match(line)):
                    books = [each.strip() for each in listed["names"].split(",")]
                    givers = [each for each in books if key_of(name["name"]) in book(each).numbers]
                    found[(givers or books)[-1]] += 1
    return found


def table() -> str:
    """A row for each book, as it stands in the guide."""
    from books_help import names

    for module in MODULES:
        import_module(module)
    found = found_in_cases() + PUBLISHED
    rows = [f"| {name} | {found[name]} | {APART[name]} |\n" for name in names()]
    return HEADS + "".join(rows)


if __name__ == "__main__":
    sys.modules["outside"] = sys.modules["__main__"]
    print(table())
