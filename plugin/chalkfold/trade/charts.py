"""Reads a size chart: ``sizes/NAME.yml``."""

from __future__ import annotations

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Code, Faults
from chalkfold.formula import BySize, key_of
from chalkfold.plan import Limit, Origin, Step
from chalkfold.reading import Entry, Fields, Mapping, Text
from chalkfold.trade.measures import how_taken
from chalkfold.trade.records import Chart, Measure
from chalkfold.trade.rows import named_body, read_labels, read_row


def read_chart(name: str, body: Mapping, faults: Faults) -> Chart:
    """Read a chart; a faulty measure is reported and left out."""
    fields = Fields(body, faults, "the size chart")
    title, made_for = fields.text("title"), fields.text("made for")
    note, source, unit = fields.text("note"), fields.text("source"), fields.text("unit")
    sizes = read_labels(fields.items("sizes"), body, faults)
    measures: dict[str, Measure] = {}
    listed = fields.mapping("measures")
    if not fields.has("measures"):
        fields.missing(
            "measures",
            code=Code.DATA_MISSING_KEY,
            message="a size chart needs `measures:`",
            hint="write `measures:` and below it `waist girth: {how: …, values: [66, 71]}`",
        )
    fields.finish()
    broken: set[str] = set()
    for entry in listed or ():
        said = source.value if source else ""
        measure = _measure(name, entry, sizes, unit, said, faults)
        if measure is None:
            broken.add(key_of(entry.key.value))
        else:
            measures[measure.step.key] = measure
    return Chart(
        name,
        title.value if title else name,
        made_for.value if made_for else "",
        sizes,
        measures,
        note.value if note else "",
        source.value if source else "",
        frozenset(broken),
    )


def _measure(
    chart: str, entry: Entry, sizes: tuple[str, ...], unit: Text | None, source: str, faults: Faults
) -> Measure | None:
    found = named_body(entry, "`how:` and `values:`", "{how: how it is taken, values: [66, 71]}", faults)
    if found is None:
        return None
    name, body = found
    fields = Fields(body, faults, f"the measure `{name}`")
    how, own_source = fields.text("how"), fields.text("source")
    values = fields.node("values")
    fields.finish()
    row = read_row(values, name, entry.key.span(), sizes, unit, faults)
    if row is None:
        return None
    taken = how.value if how else how_taken(key_of(name))
    origin = Origin(f"chart {chart}", taken, own_source.value if own_source else source)
    step = Step(
        name,
        BySize(tuple(zip(sizes, row, strict=True)), entry.key.span()),
        entry.key.span(),
        origin,
        limit=Limit.POSITIVE,
        kind=Kind.LENGTH,
    )
    return Measure(step, taken)
