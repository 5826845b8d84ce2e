"""From a post worked out to its record: every named number it reaches, the formulas it shows, its drawings."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from pathlib import PurePosixPath

from chalkfold.amounts import Marks
from chalkfold.amounts.kinds import Kind
from chalkfold.formula import BySize, Expression, Literal, Name, key_of, to_text
from chalkfold.geometry import segments
from chalkfold.plan import Drawing, Fact, Facts, Group, Line, Manner, Shown, Step, Values, View, names_in
from chalkfold.site.ledger.printed import marks_said
from chalkfold.site.ledger.records import BY_SIZE, PLACES, Cell, Number, PostRecord, kept
from chalkfold.site.pages import Page
from chalkfold.work import Worked

HIDDEN = "= "
"""With this the names of steps begin that a block lays down for itself."""

AS_DRAWN = "{}, as drawn"
"""The name of a drawing in the ledger; no number can be called so, for names hold no comma."""

_COUNTED = re.compile(r" (?:of|for) item \d+$|\b(?:mark|seam|row) \d+\b")
"""Names that count places in a block. They move on when a line is put in, so the ledger has other names for them."""

CHECKS = "checks"
PRINTABLE = frozenset({Kind.LENGTH, Kind.AREA, Kind.ANGLE, Kind.WEIGHT, Kind.PLAIN, Kind.SERIES, Kind.TRUTH})


@dataclass(frozen=True, slots=True)
class Taken:
    """A post as it is now. ``steps`` says which step of the plan each number of the record is (several for a drawing);
    ``shown`` are the keys of the numbers that stand on the page.
    """

    record: PostRecord
    worked: Worked
    steps: Mapping[str, tuple[str, ...]]
    shown: frozenset[str]

    def manner(self, key: str) -> Manner:
        """How a number of the record is printed."""
        first = self.steps[key][0]
        return self.worked.values.manner(first)


def take(worked: Worked, page: Page, file: str, marks: Marks) -> Taken:
    """The record of a post without faults."""
    values, said = worked.values, frozenset(_said(worked))
    steps: dict[str, tuple[str, ...]] = {}
    numbers: dict[str, Number] = {}
    shown: set[str] = set()
    for name, step in _named(worked, said):
        number = _number(name, step, values, marks)
        if number is not None and number.key not in numbers:
            numbers[number.key], steps[number.key] = number, (step.key,)
        if number is not None and step.key in said:
            shown.add(number.key)
    for view in drawings(view for _, view in worked.views):
        number, keys = _drawing(view, values, marks)
        numbers[number.key], steps[number.key] = number, keys
        shown.add(number.key)
    record = PostRecord(PurePosixPath(page.address).stem, file, page.title, values.sizes.labels, numbers)
    return Taken(record, worked, steps, frozenset(shown))


def _named(worked: Worked, said: frozenset[str]) -> Iterator[tuple[str, Step]]:
    """Each step that the ledger keeps, and its name there."""
    listed = dict(_in_lists(worked))
    for key, step in worked.plan.steps.items():
        if key.startswith(HIDDEN):
            if key in said and _says_something(step.expression):
                yield to_text(step.expression), step
        elif _COUNTED.search(key) and step.span.text != step.name:
            if key in listed:
                yield listed[key], step
        else:
            yield step.name, step


def _number(name: str, step: Step, values: Values, marks: Marks) -> Number | None:
    kind = values.kinds[step.key]
    kind = Kind.PLAIN if kind is Kind.ZERO else kind
    if kind not in PRINTABLE:
        return None
    cells = tuple(kept(value, kind) for value in values.row(step.key) if value is not None)
    printed = marks_said(kind, values.manner(step.key), marks)
    return Number(name, kind, step.origin.where, _formula(step), printed, _once(cells))


def _once(cells: tuple[Cell, ...]) -> tuple[Cell, ...]:
    """One cell where all are equal."""
    return cells[:1] if len(set(cells)) == 1 else cells


def _formula(step: Step) -> str:
    """As typed; nothing for what a block made. Amounts typed one by one are told by the values."""
    expression = step.expression
    if step.origin.where.startswith("piece ") or any(_is_inner(name.key) for name in names_in(expression)):
        return ""
    return BY_SIZE if _is_row(expression) else to_text(expression)


def _says_something(expression: Expression) -> bool:
    """Whether a formula without a name is more than a name or an amount, and a writer would know its words."""
    alone = isinstance(expression, Name | BySize | Literal)
    return not alone and not any(_is_inner(name.key) for name in names_in(expression))


def _is_inner(key: str) -> bool:
    """Whether a name is the block's own and means nothing to a writer."""
    return key.startswith(HIDDEN) or _COUNTED.search(key) is not None


def _is_row(expression: Expression) -> bool:
    return isinstance(expression, BySize) and all(isinstance(case, Literal) for _, case in expression.cases)


def _drawing(view: Drawing, values: Values, marks: Marks) -> tuple[Number, tuple[str, ...]]:
    """A piece as it is cut: the places its cutting line goes through, and those of its marks."""
    marked = (key for mark in view.marks for key in (mark.point, mark.edge, mark.end) if key)
    keys = tuple(dict.fromkeys((view.cutting, *marked)))
    places = PLACES[Kind.OUTLINE]
    cells: list[Cell] = []
    for size in range(len(values.sizes.labels)):
        found = [number for key in keys for number in _places(values.row(key)[size])]
        cells.append(tuple(round(number, places) + 0.0 for number in found))
    name, said = AS_DRAWN.format(view.piece), marks_said(Kind.OUTLINE, Manner(), marks)
    return Number(name, Kind.OUTLINE, f"piece {view.piece}", "", said, _once(tuple(cells))), keys


def _places(value: object) -> Iterator[float]:
    """A point, or the start and the middle of every segment of an edge or outline: across and down in turn (mm)."""
    if not isinstance(value, tuple) or not value:
        return
    if not isinstance(value[0], float):
        for part in value:
            yield from _places(part)
        return
    yield from value[:2]
    if len(value) > 2:
        yield from segments.point_at(value, segments.length(value) / 2)


def drawings(views: Iterator[View]) -> Iterator[Drawing]:
    """The drawings among the views of a post."""
    for view in views:
        if isinstance(view, Drawing):
            yield view
        elif isinstance(view, Group):
            yield from drawings(iter(view.views))


def _said(worked: Worked) -> Iterator[str]:
    """The keys of all steps that text and blocks show, a repeated number with the one it repeats.

    What must hold is not for readers: both sides of a check are told where they are used.
    """
    steps = worked.plan.steps
    views = (view for _, view in worked.views if not (isinstance(view, Facts) and view.kind == CHECKS))
    for part in (*(shown for _, shown in worked.shown), *views):
        for key in _keys(part):
            while key in steps:
                yield key
                expression = steps[key].expression
                key = expression.key if key.startswith(HIDDEN) and isinstance(expression, Name) else ""


def _keys(part: object) -> Iterator[str]:
    """Every text within a description that may be the key of a step; titles and labels are no keys."""
    if isinstance(part, str):
        yield part
    elif isinstance(part, Mapping):
        for each in part.values():
            yield from _keys(each)
    elif isinstance(part, tuple):
        for each in part:
            yield from _keys(each)
    elif is_dataclass(part):
        for one in fields(part):
            yield from _keys(getattr(part, one.name))


def _in_lists(worked: Worked) -> Iterator[tuple[str, str]]:
    """Names for what a list of materials shows: the words of the item; an amount within them gives way to ``…``."""
    taken: Counter[str] = Counter()
    for fact in _facts(view for _, view in worked.views):
        for part in fact.value:
            if isinstance(part, Shown):
                name = f"{_words(fact.label)} ({_COUNTED.sub('', part.key)})"
                taken[key_of(name)] += 1
                yield part.key, f"{name} {taken[key_of(name)]}" if taken[key_of(name)] > 1 else name


def _facts(views: Iterator[View]) -> Iterator[Fact]:
    for view in views:
        if isinstance(view, Group):
            yield from _facts(iter(view.views))
        else:
            yield from getattr(view, "facts", ())


def _words(label: Line) -> str:
    return " ".join("".join(part if isinstance(part, str) else "…" for part in label).split())
