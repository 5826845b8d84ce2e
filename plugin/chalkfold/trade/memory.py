"""What ships and was written down from memory, so that a page can say so and nobody takes it for measured."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from chalkfold.diagnostics import Faults
from chalkfold.formula import BySize, Expression, to_readers
from chalkfold.trade.built_in import built_in_checks
from chalkfold.trade.care import care_fields
from chalkfold.trade.children import CordLimit, child_rules
from chalkfold.trade.measures import takings
from chalkfold.trade.shelf import Shelf

MEMORY = "memory"


@dataclass(frozen=True, slots=True)
class Remembered:
    """A value that nobody has compared with its source: where it stands, what it says, and what is said of it."""

    where: str
    name: str
    value: str
    source: str


def from_memory(shelf: Shelf) -> list[Remembered]:
    """Every value of the shelf and of the shipped rules whose status or source says so, in a fixed order."""
    found = (*_books(shelf), *_charts(shelf), *_goods(shelf), *_checks(), *_children(), *_measures(), *_care())
    return [each for each in found if MEMORY in each.source.casefold()]


def _books(shelf: Shelf) -> Iterator[Remembered]:
    for name in shelf.names("book"):
        book = shelf.book(name, Faults())
        for step in book.numbers.values() if book else ():
            yield Remembered(f"book {name}", step.name, to_readers(step.expression), step.origin.source)


def _charts(shelf: Shelf) -> Iterator[Remembered]:
    for name in shelf.names("chart"):
        chart = shelf.chart(name, Faults())
        if chart is None:
            continue
        yield Remembered(f"chart {name}", "sizes", ", ".join(chart.sizes), chart.source)
        for each in chart.measures.values():
            yield Remembered(f"chart {name}", each.step.name, _ends(each.step.expression), each.step.origin.source)


def _ends(row: Expression) -> str:
    if not isinstance(row, BySize):
        return to_readers(row)
    (first, low), (last, high) = row.cases[0], row.cases[-1]
    return f"{to_readers(low)} ({first}) to {to_readers(high)} ({last})"


def _goods(shelf: Shelf) -> Iterator[Remembered]:
    for kind, word in (("fabric", "cloth"), ("notion", "notion")):
        for name in shelf.names(kind):
            goods = shelf.goods(kind, name, Faults())
            if goods is None:
                continue
            said = ", ".join(f"{called} {to_readers(amount)}" for called, amount, _ in goods.amounts.values())
            yield Remembered(word, name, said, goods.texts.get("source", ""))


def _checks() -> Iterator[Remembered]:
    for check in built_in_checks().values():
        for figure in check.figures:
            yield Remembered(f"check {check.name}", figure.name, to_readers(figure.expression), figure.source)


def _children() -> Iterator[Remembered]:
    rules = child_rules()
    for ages in rules.ages:
        heights = f"{ages.height[0]} to {ages.height[1]} cm"
        yield Remembered("children", ages.said, heights, ages.source)
    for subject, text in rules.says.items():
        if subject != MEMORY:
            yield Remembered("children", subject, text, text)
    for limit in rules.limits:
        source = "from memory" if limit.status == MEMORY else limit.beside
        yield Remembered("children", _held(limit), _limit(limit), source)


def _held(limit: CordLimit) -> str:
    where = ", ".join(limit.zones) or "anywhere"
    return f"{', '.join(limit.kinds) or 'cords'}, {where} ({limit.rule}, {', '.join(limit.ages)})"


def _limit(limit: CordLimit) -> str:
    most = [f"{called} {to_readers(amount)} at most" for called, amount in limit.most.items()]
    return ", ".join([*most, *limit.must]) or "never"


def _measures() -> Iterator[Remembered]:
    for taking in takings().values():
        yield Remembered("measure", taking.name, taking.how, taking.source)


def _care() -> Iterator[Remembered]:
    for care in care_fields().values():
        yield Remembered("care", care.label, ", ".join(care.said.get("heat", ())), care.source)
