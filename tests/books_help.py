"""The shipped books, and values for what they expect, so that every one can be worked out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Faults
from chalkfold.formula import key_of
from chalkfold.plan import Value
from chalkfold.trade import Shelf
from chalkfold.trade.records import Book
from post_help import post, worked

SHELF = Shelf()
USUAL = {Kind.LENGTH: "50 cm", Kind.PLAIN: "1/2", Kind.WEIGHT: "150 g/m2"}
"""What a book expects is set to one of these, or to what stands in ``LIKELY``."""
LIKELY = {
    "banded edge": "48 cm",
    "button thickness": "4 mm",
    "button width": "20 mm",
    "buttons": "6",
    "channel depth": "16 mm",
    "cloth width": "140 cm",
    "cord thickness": "5 mm",
    "elastic stretch": "80 %",
    "elastic width": "25 mm",
    "flounce pieces": "4",
    "fullness": "1.5",
    "hem sweep": "180 cm",
    "linen across": "180 cm",
    "linen down": "260 cm",
    "marked length": "10 cm",
    "pleat depth": "4 cm",
    "shrinkage": "5 %",
    "snugness": "95 %",
    "tassel length": "5 cm",
    "tassel tie": "60 cm",
    "tassel wraps": "25",
    "tassels": "40",
    "tee length": "73 cm",
    "tiers": "3",
    "next fullness": "1.5",
    "first fullness": "1.5",
    "tube width": "2 cm",
    "length after": "48 cm",
    "pulled length": "14 cm",
    "wanted pleat width": "5 cm",
    "wanted tuck gap": "2 cm",
    "strands in the needle": "2",
}
BODY = {"hip girth": "100 cm", "waist girth": "80 cm", "bust girth": "92 cm"}


def names() -> list[str]:
    return SHELF.names("book")


def book(name: str) -> Book:
    faults = Faults()
    found = SHELF.book(name, faults)
    assert found is not None
    assert list(faults) == []
    return found


def expectations(of: Iterable[str], but: Iterable[str] = ()) -> list[str]:
    """Lines of ``numbers:`` with a value for all that these books expect and none of them gives."""
    books = [book(name) for name in of]
    given = {key for each in books for key in each.numbers} | {key_of(name) for name in but}
    wanted = {key: each for one in books for key, each in one.expects.items() if key not in given}
    return [f"{each.name}: {LIKELY.get(each.name, USUAL[each.kind or Kind.PLAIN])}" for each in wanted.values()]


def sums(name: str, **said: str) -> Mapping[str, Value | None]:
    """Every number of a book in a post without sizes, by name with ``_`` for a space; ``said`` are the post's own."""
    own = {key.replace("_", " "): value for key, value in said.items()}
    lines = [f"{key}: {value}" for key, value in own.items()]
    body = [f"{key}: {value}" for key, value in BODY.items() if key not in own]
    text = post(*lines, *body, *expectations([name], own), head=f"sizes: none\nbooks: [{name}]")
    wanted = [step.name for step in book(name).numbers.values()]
    found = worked(text, SHELF, wanted)
    assert list(found.faults) == [], [fault.message for fault in found.faults]
    return {key.replace(" ", "_"): found.values.row(key_of(key))[0] for key in wanted}


def plain(value: Value | None) -> float:
    assert isinstance(value, float)
    return value
