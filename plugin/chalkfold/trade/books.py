"""Reads a formula book: ``books/NAME.yml``."""

from __future__ import annotations

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Code, Faults
from chalkfold.formula import key_of
from chalkfold.plan import Origin
from chalkfold.reading import Entry, Fields, Mapping
from chalkfold.trade.numbers import read_numbers
from chalkfold.trade.records import Book, Expected
from chalkfold.trade.rows import named_body

KINDS = {"length": Kind.LENGTH, "plain": Kind.PLAIN, "area": Kind.AREA, "angle": Kind.ANGLE, "weight": Kind.WEIGHT}


def read_book(name: str, body: Mapping, digest: str, faults: Faults) -> Book:
    """Read a book; a faulty number is reported and left out."""
    fields = Fields(body, faults, "the book")
    title, note, source = fields.text("title"), fields.text("note"), fields.text("source")
    expects, numbers = fields.mapping("expects"), fields.mapping("numbers")
    if not fields.has("numbers"):
        fields.missing(
            "numbers",
            code=Code.DATA_MISSING_KEY,
            message="a book needs `numbers:`",
            hint="write `numbers:` and below it a name with its formula",
        )
    fields.finish()
    broken: set[str] = set()
    origin = Origin(f"book {name}", "", source.value if source else "")
    expected = [_expected(entry, faults) for entry in expects or ()]
    return Book(
        name,
        title.value if title else name,
        {key_of(each.name): each for each in expected if each is not None},
        {} if numbers is None else read_numbers(numbers, origin, faults, broken),
        note.value if note else "",
        source.value if source else "",
        digest,
        frozenset(broken),
    )


def _expected(entry: Entry, faults: Faults) -> Expected | None:
    found = named_body(entry, "its kind", "{kind: length, note: what it is}", faults)
    if found is None:
        return None
    name, body = found
    fields = Fields(body, faults, f"`{name}`")
    kind, note = fields.choice("kind", tuple(KINDS)), fields.text("note")
    fields.finish()
    return Expected(name, KINDS.get(kind or ""), note.value if note else "", entry.key.span())
