"""Posts for the tests: worked out, and what they show as plain text."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from textwrap import dedent

from chalkfold.diagnostics import Faults, Source
from chalkfold.formula import Name, key_of
from chalkfold.plan import Facts, Group, Listing, Ruler, Table, Value, View
from chalkfold.post import work_post
from chalkfold.show import Shower
from chalkfold.trade import Shelf
from chalkfold.work import Worked

WORKROOM = Path(__file__).parent / "spec" / "workroom"
MILLIMETRES = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction("25.4"),
    "yd": Fraction("914.4"),
}
SIZES_OF_UNITS = MILLIMETRES | {f"{unit}²": size**2 for unit, size in MILLIMETRES.items()}
SIZES_OF_UNITS |= {"": Fraction(1), "%": Fraction(1, 100), "°": Fraction(1)}
_AMOUNT = re.compile(r"(?P<sign>[-−]?)(?P<number>\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?) ?(?P<unit>[^\d\s]*)")


def workroom(*, inches: bool = False, folder: Path = WORKROOM) -> Shelf:
    """A shelf with easy numbers; ``inches`` makes it a site that prints inches first and marks eighths."""
    faults = Faults()
    shelf = Shelf.open(folder, faults)
    assert not len(faults), [fault.message for fault in faults]
    if inches:
        shelf.settings = replace(shelf.settings, main_unit="in")
    return shelf


def post(*numbers: str, blocks: str = "", head: str = "sizes: none") -> str:
    """A post with these ``numbers:`` in its project block, each ``name: formula``, and further blocks."""
    lines = "".join(f"  {each}\n" for each in numbers)
    return f"```project\n{head}\n{'numbers:' if numbers else ''}\n{lines}```\n\n{blocks}\n"


def block(name: str, body: str) -> str:
    """A fence of ours around a body that may be indented in the test."""
    return f"```{name}\n{dedent(body).strip()}\n```\n\n"


def worked(text: str, shelf: Shelf, also: Iterable[str] = ()) -> Worked:
    """The post worked out, and with it any further names."""
    return work_post(Source("posts/case.md", text), shelf, Faults(), [Name(name) for name in also])


def number(text: str, shelf: Shelf, name: str, size: int = 0) -> float:
    """One number of a post without faults: mm, mm² or plain."""
    value = row(text, shelf, name)[size]
    assert isinstance(value, float)
    return value


def row(text: str, shelf: Shelf, name: str) -> Sequence[Value | None]:
    """A number of a post without faults, size by size."""
    found = worked(text, shelf, [name])
    assert not len(found.faults), [fault.message for fault in found.faults]
    return found.values.row(key_of(name))


def places(text: str, shelf: Shelf, name: str, size: int = 0) -> tuple[float, ...]:
    """The places of a spacing, in mm."""
    value = row(text, shelf, f"places of {name}")[size]
    assert isinstance(value, tuple)
    return value


def amount(written: str, unit: str = "") -> tuple[Fraction, Fraction]:
    """The value of an amount as written, and half of the unit of its last digit; ``unit`` if it has none."""
    found = _AMOUNT.fullmatch(written.strip())
    assert found, f"`{written}` is no amount"
    size = SIZES_OF_UNITS[found["unit"] or unit]
    said = found["number"]
    value = sum((Fraction(part) for part in said.split()), Fraction(0)) * size
    digits = len(said.partition(".")[2])
    return -value if found["sign"] else value, size / 10**digits / 2


def amounts(written: str) -> list[tuple[Fraction, Fraction]]:
    """``0, 8, 16 cm``: the unit of the last is that of all."""
    parts = written.split(",")
    last = _AMOUNT.fullmatch(parts[-1].strip())
    assert last, f"`{written}` are no amounts"
    return [amount(part, last["unit"]) for part in parts]


def plain_lines(found: Worked, shelf: Shelf) -> list[str]:
    """What the blocks show in the sample size, line by line: rows of tables as ``| … |``, facts as ``label: value``."""
    write = Shower(found.values, shelf.settings.printer, reader_chooses=False)
    lines = [line for _, view in found.views for line in _lines(view, write)]
    return [" ".join(line.replace("\N{NO-BREAK SPACE}", " ").split()) for line in lines]


def _lines(view: View, write: Shower) -> Iterator[str]:
    size = write.sizes.sample
    match view:
        case Group(views=views):
            for inner in views:
                yield from _lines(inner, write)
        case Table(rows=rows):
            for cells in rows:
                yield f"| {' | '.join(write.plain(cell, size) for cell in cells)} |"
        case Facts(facts=facts):
            for fact in facts:
                label, value, remark = (write.plain(line, size) for line in (fact.label, fact.value, fact.remark))
                yield f"{label}: {value} {remark}"
        case Listing(columns=columns):
            yield from _listing([write.quantities.places(key)[size] for _, key in columns])
        case Ruler(marks=marks):
            yield f"ruler: {', '.join(each.plain for each in write.quantities.places(marks)[size])}"


def _listing(columns: Sequence[Sequence[object]]) -> Iterator[str]:
    for number_ in range(max(map(len, columns))):
        cells = [getattr(column[number_], "plain", "") if number_ < len(column) else "" for column in columns]
        yield f"| {number_ + 1} | {' | '.join(cells)} |"
