"""Size labels, and rows of amounts in their order."""

from __future__ import annotations

from collections.abc import Sequence

from chalkfold.amounts import read_amount
from chalkfold.amounts.kinds import Kind
from chalkfold.amounts.units import Unit, units
from chalkfold.diagnostics import Code, Faults, Span
from chalkfold.formula import Literal, key_of, parse_name
from chalkfold.reading import Entry, Mapping, Node, Text
from chalkfold.reading import Sequence as Items

MOST_SIZES = 40


def named_body(entry: Entry, needs: str, example: str, faults: Faults) -> tuple[str, Mapping] | None:
    """The name of an entry and its body; None after a fault. ``example`` is a body that it could have."""
    name = parse_name(entry.key, faults)
    if name is None:
        return None
    if not isinstance(entry.value, Mapping):
        faults.add(Code.DATA_SHAPE, f"{name} needs {needs}", entry.key.span(), f"write `{name}: {example}`")
        return None
    return name, entry.value


def read_labels(items: Sequence[Node], whole: Mapping, faults: Faults) -> tuple[str, ...]:
    """Size labels as written: text, each once, at most ``MOST_SIZES``."""
    labels: dict[str, str] = {}
    for item in items:
        if not isinstance(item, Text) or not item.value.strip() or not item.value.isprintable():
            faults.add(Code.DATA_SHAPE, "a size is a short name", item.where, "write `sizes: [S, M, L]`")
            continue
        key = key_of(item.value)
        if key in labels or key == "step":
            why = "stands here twice" if key in labels else "is the word for grading"
            faults.add(Code.DATA_TWICE, f"size `{item.value}` {why}", item.span(), "give each size a name of its own")
            continue
        labels[key] = item.value
    if not labels and not items:
        faults.add(Code.DATA_MISSING_KEY, "`sizes:` is missing", whole.where, "write `sizes: [S, M, L]`")
    if len(labels) > MOST_SIZES:
        faults.add(
            Code.PLAN_TOO_BIG,
            f"there are more than {MOST_SIZES} sizes",
            items[MOST_SIZES].where,
            "split the chart in two",
        )
    return tuple(labels.values())[:MOST_SIZES]


def read_row(
    values: Node | None, name: str, place: Span, sizes: Sequence[str], unit: Text | None, faults: Faults
) -> list[Literal] | None:
    """One literal a size, from a list in the order of sizes or a mapping by size.

    Bare numbers are in ``unit``. Reports a wrong count and faulty amounts.
    """
    texts = _texts(values, sizes)
    if texts is None or len(texts) != len(sizes):
        found = "none" if texts is None else str(len(texts))
        faults.add(
            Code.DATA_SHAPE,
            f"{name} needs {len(sizes)} values, one for each size, but has {found}",
            values.where if values is not None else place,
            f"write one value each for {', '.join(sizes)}, in that order",
        )
        return None
    bare = _unit(unit, faults)
    row = [_literal(text, bare, faults) for text in texts]
    return None if None in row else [each for each in row if each is not None]


def _texts(values: Node | None, sizes: Sequence[str]) -> list[Text] | None:
    if isinstance(values, Items):
        return [item for item in values if isinstance(item, Text)]
    if isinstance(values, Mapping):
        found = [values.get(size) for size in sizes]
        return [each for each in found if isinstance(each, Text)]
    if isinstance(values, Text) and len(sizes) == 1:
        return [values]
    return None


def _unit(said: Text | None, faults: Faults) -> Unit | None:
    """The unit of bare numbers; centimetres after a fault, so that it is told once."""
    if said is None:
        return None
    words = units().words
    unit = words.get(said.value.casefold())
    if unit is None or unit.kind is not Kind.LENGTH:
        hint = "write one of mm, cm, m, in"
        faults.add(Code.AMOUNT_UNIT, f"`{said.value}` is no unit of length", said.span(), hint)
        return words["cm"]
    return unit


def _literal(text: Text, unit: Unit | None, faults: Faults) -> Literal | None:
    amount = read_amount(text, faults, None)
    if amount is None:
        return None
    if amount.kind is Kind.PLAIN and unit is not None:
        millimetres = float(amount.number * unit.size)
        return Literal(millimetres, Kind.LENGTH, unit.after(amount.text), text.span())
    return Literal(amount.value, amount.kind, amount.text, text.span())
