"""How the numbers of a page come about: one list at its end, to which the numbers in the text lead.

Only the page of a site has it. It stands folded away in a ``details`` element, which browsers open when a link leads
into it. Results follow the size the reader chooses. Values are put in for the sample size alone: for all sizes the
list would weigh as much as everything else, and with its results any size can be worked through.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.formula import Expression, Literal, Name, is_written, to_readers
from chalkfold.plan import (
    Fact,
    Facts,
    Group,
    Line,
    Product,
    Shown,
    Step,
    Table,
    Values,
    View,
    formulas_of,
    names_in,
    put_in,
)
from chalkfold.plan.steps import NOT_SHOWN
from chalkfold.show.lines import Lines
from chalkfold.show.markup import attributes, element, escape, lines

TITLE = "How these numbers come about"
EXPLAINED = (
    "Results are for the size chosen above{sample}. Values are printed as the tape shows them and worked with as they"
    " are, so the last figure can differ from what you find with the printed ones."
)
SAMPLE = ", the values put in for size {}"
DRAWN = "measured on the drawing"
GIVEN = "given"
_ITEM = " of item "
_LEFT_OUT = NOT_SHOWN | {Kind.SERIES, Kind.TRUTH}


@dataclass(frozen=True, slots=True)
class Told:
    """What the list tells: keys of numbers in order, and what the page calls those that a block has named."""

    keys: tuple[str, ...]
    called: Mapping[str, Line]


def numbers_of(values: Values, views: Sequence[View], inline: Iterable[Shown]) -> Told:
    """All numbers that a page shows, but for checks, and all they are made from; each once."""
    found: dict[str, None] = {}
    facts = list(_facts(views))
    waiting = [*_keys(line for fact in facts for line in (fact.label, fact.value, fact.remark)), *_in_tables(views)]
    waiting = [key for key in [*waiting, *(each.key for each in inline)] if not _tells_itself(key, values)]
    called = {key: fact.label for fact in facts for key in _keys([fact.value]) if _ITEM in key or key[0] == "="}
    seen: set[str] = set()
    while waiting:
        key = waiting.pop(0)
        if key in seen or key not in values.steps or values.kinds.get(key) in _LEFT_OUT:
            continue
        seen.add(key)
        if key in called or not _stands_for_another(values.steps[key]):
            found[key] = None
        waiting[:0] = [name.key for formula in formulas_of(values, key) for name in names_in(formula)]
    return Told(tuple(found), called)


def _stands_for_another(step: Step) -> bool:
    """A step without a name that is only the number named in it, which is told under its own name."""
    return step.name.startswith("=") and isinstance(step.expression, Name)


def _tells_itself(key: str, values: Values) -> bool:
    """An amount typed where it is shown; or a body measure by itself, which has its own table with how it is taken."""
    step = values.steps.get(key)
    if step is None or step.origin.where.startswith("chart "):
        return True
    if _ITEM in key:  # of something to buy: rounded up, which is no sum either
        return all(_ITEM in name.key and _tells_itself(name.key, values) for name in names_in(step.expression))
    return step.name.startswith("=") and isinstance(step.expression, Literal)


def _facts(views: Iterable[View]) -> Iterator[Fact]:
    for view in views:
        if isinstance(view, Group):
            yield from _facts(view.views)
        elif isinstance(view, Facts) and view.kind != "checks":
            yield from view.facts


def _in_tables(views: Iterable[View]) -> Iterator[str]:
    for view in views:
        if isinstance(view, Group):
            yield from _in_tables(view.views)
        elif isinstance(view, Table):
            yield from _keys(cell for row in view.rows for cell in row)


def _keys(parts: Iterable[Line]) -> Iterator[str]:
    for line in parts:
        for part in line:
            match part:
                case Shown(key=key):
                    yield key
                case Product(keys=keys):
                    yield from keys


def sums(write: Lines, told: Told) -> str:
    """The list as HTML; nothing where there is no number."""
    if not told.keys:
        return ""
    sizes = write.sizes
    sample = SAMPLE.format(sizes.labels[sizes.sample]) if sizes.many else ""
    return lines(
        f'<details class="sums"{attributes(id=f"{write.prefix}sums")}>',
        f"<summary>{TITLE}</summary>",
        element("p", escape(EXPLAINED.format(sample=sample)), class_="note"),
        "<dl>",
        *(_entry(write, key, told.called.get(key, ())) for key in told.keys),
        "</dl>",
        "</details>",
    )


def _entry(write: Lines, key: str, called: Line) -> str:
    values, sample = write.quantities.values, write.sizes.sample
    step, each = values.steps[key], formulas_of(values, key)
    in_sample = each[sample if len(each) > 1 else 0]
    unnamed = step.name.startswith("=") and not called
    name = to_readers(in_sample) if unnamed else write.plain(called, sample) or step.name
    how = "" if unnamed else _by_size(write, [_formula(formula) for formula in each])
    value = element("dd", write.value(Shown(key)))
    working = element("dd", " ".join(part for part in (how, _filled(write, in_sample)) if part), class_="put")
    origin = element("dd", escape(_origin(step, each)), class_="from")
    return f"<div{attributes(id=write.how[key])}><dt>{escape(name)}</dt>{value}{working}{origin}</div>"


def _by_size(write: Lines, texts: list[str]) -> str:
    return write.by_size(texts) if len(texts) > 1 else texts[0]


def _formula(formula: Expression) -> str:
    if isinstance(formula, Literal):
        return ""
    return escape(to_readers(formula)) if is_written(formula) else DRAWN


def _filled(write: Lines, formula: Expression) -> str:
    """The formula with the values of the sample size, in the site's own unit; in the other where that one is chosen."""
    if not is_written(formula):
        return ""
    own, other = ("m", "i") if write.quantities.printer.main_unit == "cm" else ("i", "m")
    texts = [_in_unit(write, formula, unit) for unit in (own, other)]
    if texts[0] == texts[1]:
        return texts[0]
    return f'<span class="{own}">{texts[0]}</span><span class="{other} other"> {texts[1]}</span>'


def _in_unit(write: Lines, formula: Expression, unit: str) -> str:
    def print_value(key: str, size: int) -> str:
        amount = write.quantities.row(Shown(key))[size]
        return amount.metric if unit == "m" else amount.inch

    filled = put_in(formula, write.sizes.sample, write.quantities.values, print_value)
    return "" if filled is None else f"= {escape(to_readers(filled))}"


def _origin(step: Step, formulas: Sequence[Expression]) -> str:
    origin = step.origin
    given = all(isinstance(each, Literal) for each in formulas)
    where = f"{GIVEN} in {origin.where}" if given else f"from {origin.where}"
    source = f"source: {origin.source}" if origin.source else ""
    said = "; ".join(part.rstrip(".") for part in (where, source) if part)
    return f"{said}. {origin.note}" if origin.note else f"{said}."
