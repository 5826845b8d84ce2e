"""Size labels, and rows of amounts in their order."""

from __future__ import annotations

from collections.abc import Sequence

from chalkfold.amounts import read_amount
from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Code, Faults, Span
from chalkfold.formula import Literal, key_of, parse_name
from chalkfold.reading import Entry, Mapping, Node, Text
from chalkfold.reading import Sequence as Items

UNITS = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4}
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
    factor = _factor(unit, faults)
    row = [_literal(text, factor, faults) for text in texts]
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


def _factor(unit: Text | None, faults: Faults) -> float | None:
    if unit is None:
        return None
    factor = UNITS.get(unit.value)
    if factor is None:
        faults.add(
            Code.AMOUNT_UNIT,
            f"`{unit.value}` is no unit of length",
            unit.span(),
            f"write one of {', '.join(UNITS)}",
        )
        return 10.0
    return factor


def _literal(text: Text, factor: float | None, faults: Faults) -> Literal | None:
    amount = read_amount(text, faults, None)
    if amount is None:
        return None
    value, kind, shown = amount.value, amount.kind, amount.text
    if kind is Kind.PLAIN and factor is not None:
        unit = next(name for name, mm in UNITS.items() if mm == factor)
        value, kind, shown = value * factor, Kind.LENGTH, f"{amount.text} {unit}"
    return Literal(value, kind, shown, text.span())
