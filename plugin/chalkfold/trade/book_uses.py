"""One book used for several things in a post: ``knit bands for neck``, ``knit bands for sleeve``.

What it is for then stands before each name of the book: ``neck banded edge``, ``sleeve knit band ring``. A name that
the post gives without it is meant for all of them, as ``knit band share`` is.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace

from chalkfold.diagnostics import Code, Faults, Span, near
from chalkfold.formula import Apply, BySize, Expression, Name, key_of, parse_name
from chalkfold.formula.walking import fold, parts_of
from chalkfold.plan import Origin, Step
from chalkfold.reading import Text
from chalkfold.trade.records import Book, Expected
from chalkfold.trade.shelf import Shelf

Listed = tuple[Book, Span]
_FOR = re.compile(r"\s*,?\s+for\s+(?:the\s+)?", re.I)


def split_use(said: Text, shelf: Shelf) -> tuple[Text, Text | None]:
    """A line of ``books:`` parted into the name of a book and what it is for, if that is said."""
    known = shelf.names("book")
    keys = {key_of(name) for name in known}
    parts = [(said.part(0, word.start()), said.part(word.end(), len(said.value))) for word in _FOR.finditer(said.value)]
    if key_of(said.value) not in keys:
        for name, purpose in parts:
            if key_of(name.value) in keys or (near(name.value, known) and not near(said.value, known)):
                return name, purpose
    return said, None


def find_book(name: Text, purpose: Text | None, shelf: Shelf, faults: Faults) -> Book | None:
    """The book called so, with what it is for; None where none is, or after a fault."""
    book = shelf.book(name.value, faults)
    if book is None or purpose is None:
        return book
    said = parse_name(purpose, faults)
    return None if said is None else replace(book, purpose=said)


def each_once(books: Iterable[Listed], faults: Faults) -> list[Listed]:
    """The books without those listed twice for the same, which is a fault."""
    kept: dict[tuple[str, str], Listed] = {}
    for book, place in books:
        use = key_of(book.name), key_of(book.purpose)
        if use not in kept:
            kept[use] = book, place
            continue
        example = next(iter(book.expects.values()), None)
        name = "" if example is None else f", and `neck {example.name}: …`, `sleeve {example.name}: …` under `numbers:`"
        hint = f"to use it for several things say for which: `[{book.name} for neck, {book.name} for sleeve]`{name}"
        message = f"the book `{book.name}` is listed twice" + (f" for {book.purpose}" if book.purpose else "")
        faults.add(Code.DATA_TWICE, message, place, hint, related=(("the first", kept[use][1]),))
    return list(kept.values())


def told_apart(books: Collection[Listed], given: Collection[str], measures: Collection[str]) -> list[Listed]:
    """The books with what they are for before their names.

    ``given`` are the keys of the post's own numbers, ``measures`` those of its size chart.
    """
    elsewhere = {key for book, _ in books if not book.purpose for key in book.numbers} | {*given, *measures}
    of_a_use = {key_of(f"{book.purpose} {key}") for book, _ in books if book.purpose for key in book.numbers} | {*given}
    return [
        (_for_its_use(book, place, given, elsewhere, of_a_use) if book.purpose else book, place)
        for book, place in books
    ]


def _for_its_use(
    book: Book, place: Span, given: Collection[str], elsewhere: Collection[str], of_a_use: Collection[str]
) -> Book:
    """``elsewhere`` holds keys that are known without what the book is for, ``of_a_use`` those with it."""
    names = {key: f"{book.purpose} {each.name}" for key, each in book.expects.items()}
    names |= {key: f"{book.purpose} {step.name}" for key, step in book.numbers.items()}
    numbers: dict[str, Step] = {}
    for key, step in book.numbers.items():
        own = replace(step, name=names[key], expression=_renamed(step.expression, names))
        if key in given:
            own = _as_for_all(names[key], step.name, place, step.origin)
        numbers[own.key] = own
    expects: dict[str, Expected] = {}
    for key, each in book.expects.items():
        own_key = key_of(names[key])
        expects[own_key] = replace(each, name=names[key])
        if own_key not in of_a_use and key in elsewhere:
            expects[key] = each
            numbers[own_key] = _as_for_all(names[key], each.name, place, Origin(note=each.note))
    broken = frozenset(key_of(f"{book.purpose} {key}") for key in book.broken)
    return replace(book, expects=expects, numbers=numbers, broken=broken, plainly=names)


def _as_for_all(name: str, said: str, place: Span, origin: Origin) -> Step:
    """The number of one use, as the post gives it for all."""
    return Step(name, Name(said, place), place, Origin(note=origin.note))


def _renamed(expression: Expression, names: Mapping[str, str]) -> Expression:
    def build(node: Expression, parts: list[Expression]) -> Expression:
        match node:
            case Name():
                return replace(node, name=names.get(node.key, node.name))
            case Apply():
                return replace(node, args=tuple(parts))
            case BySize():
                return replace(node, cases=tuple(zip((label for label, _ in node.cases), parts, strict=True)))
        return node

    return fold(expression, parts_of, build)


def uses_of(key: str, books: Iterable[Listed]) -> Iterator[str]:
    """The names that stand for one of a book's own, where the post uses the book for several things."""
    return (book.plainly[key] for book, _ in books if key in book.plainly)
