"""Reads goods: donors (``donors/NAME.yml``), cloths (``fabrics.yml``) and notions (``notions.yml``)."""

from __future__ import annotations

from dataclasses import replace

from chalkfold.amounts import read_amount
from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Code, Faults, Span
from chalkfold.formula import BySize, Expression, Literal, key_of, parse_name
from chalkfold.reading import Entry, Fields, Mapping, Text
from chalkfold.trade.care import Care, read_care
from chalkfold.trade.records import Goods
from chalkfold.trade.rows import read_labels, read_row

TEXTS = frozenset({"title", "what", "needle", "note", "source", "one-way print", "iron", "use", "fibre", "status"})
"""Keys of goods that hold words; every other key holds an amount."""
KINDS = {"weight": (Kind.WEIGHT,)}
"""Keys whose amount is of one kind wherever they stand."""


def read_goods_file(kind: str, body: Mapping, digest: str, faults: Faults, *, own: bool = True) -> dict[str, Goods]:
    """Read ``fabrics.yml`` or ``notions.yml``: one record for each name."""
    goods: dict[str, Goods] = {}
    for entry in body:
        if not isinstance(entry.value, Mapping):
            faults.add(
                Code.DATA_SHAPE,
                f"{entry.key.value} needs its properties",
                entry.key.span(),
                f"write `{entry.key.value}: {{{'usable width: 140 cm' if kind == 'fabric' else 'width: 25 mm'}}}`",
            )
            continue
        goods[key_of(entry.key.value)] = replace(_flat(kind, entry.key.value, entry.value, digest, faults), own=own)
    return goods


def _flat(kind: str, name: str, body: Mapping, digest: str, faults: Faults) -> Goods:
    amounts: dict[str, tuple[str, Expression, Span]] = {}
    texts: dict[str, str] = {}
    care: Care = {}
    for entry in body:
        key = key_of(entry.key.value)
        if key == "care":
            care, texts["care"] = read_care(entry, name, faults)
        elif not isinstance(entry.value, Text):
            faults.add(
                Code.DATA_SHAPE,
                f"{entry.key.value} of {name} is one value",
                entry.key.span(),
                f"write `{entry.key.value}: …` on one line",
            )
        elif key in TEXTS:
            texts[key] = entry.value.value
        else:
            _take_amount(entry, entry.value, amounts, faults)
    return Goods(kind, name, texts.get("title", name), (), amounts, texts, digest, care)


def _take_amount(entry: Entry, value: Text, amounts: dict[str, tuple[str, Expression, Span]], faults: Faults) -> None:
    name = parse_name(entry.key, faults)
    amount = read_amount(value, faults, KINDS.get(key_of(name))) if name is not None else None
    if name is not None and amount is not None:
        literal = Literal(amount.value, amount.kind, amount.text, value.span())
        amounts[key_of(name)] = (name, literal, entry.key.span())


def read_donor(name: str, body: Mapping, digest: str, faults: Faults) -> Goods:
    """Read a donor: flat measures, in its own sizes."""
    fields = Fields(body, faults, "the donor")
    title, unit = fields.text("title"), fields.text("unit")
    texts = {key: said.value for key in ("note", "source", "what") if (said := fields.text(key))}
    fields.also("care")
    said_care = next((entry for entry in body if key_of(entry.key.value) == "care"), None)
    care, texts["care"] = read_care(said_care, name, faults) if said_care else ({}, "")
    given = fields.items("sizes")
    sizes = read_labels(given, body, faults) if given else ()
    measures = fields.mapping("measures")
    fields.finish()
    amounts: dict[str, tuple[str, Expression, Span]] = {}
    for entry in measures or ():
        _take_measure(entry, sizes, unit, amounts, faults)
    return Goods("donor", name, title.value if title else name, sizes, amounts, texts, digest, care)


def _take_measure(
    entry: Entry,
    sizes: tuple[str, ...],
    unit: Text | None,
    amounts: dict[str, tuple[str, Expression, Span]],
    faults: Faults,
) -> None:
    name = parse_name(entry.key, faults)
    if name is None:
        return
    values = entry.value
    if isinstance(values, Mapping) and values.get("values") is not None:
        fields = Fields(values, faults, f"the measure `{name}`", also=("how", "source"))
        inner = fields.node("values")
        fields.finish()
        values = inner if inner is not None else values
    row = read_row(values, name, entry.key.span(), sizes or ("",), unit, faults)
    if row is None:
        return
    expression: Expression = row[0] if not sizes else BySize(tuple(zip(sizes, row, strict=True)), entry.key.span())
    if any(each.kind not in (Kind.LENGTH, Kind.ZERO) for each in row):
        faults.add(
            Code.FORMULA_KIND,
            f"{name} of a donor is a length",
            entry.key.span(),
            "give it a unit, or write `unit: cm` at the top of the file",
        )
        return
    amounts[key_of(name)] = (name, expression, entry.key.span())
