"""The sizes of a post: those of a chart, a list of its own, or none."""

from __future__ import annotations

from collections.abc import Sequence

from chalkfold.blocks.not_found import not_found
from chalkfold.diagnostics import Code, Faults, near
from chalkfold.formula import key_of
from chalkfold.plan import Sizes
from chalkfold.reading import Fields, Mapping, Node, Text
from chalkfold.reading import Sequence as Items
from chalkfold.trade import Chart, Shelf
from chalkfold.trade.rows import read_labels


def read_sizes(fields: Fields, shelf: Shelf, faults: Faults) -> tuple[Chart | None, Sizes]:
    """Read ``sizes:`` and ``sample size:``; without them a post has one size without a name."""
    said = fields.node("sizes")
    sample = fields.text("sample size")
    before = len(faults)
    chart, labels = _labels(said, shelf, faults)
    sure = len(faults) == before
    ladder = () if chart is None or labels == chart.sizes else chart.sizes
    return chart, Sizes(labels or ("",), _sample(sample, labels, faults), ladder, sure)


def _labels(said: Node | None, shelf: Shelf, faults: Faults) -> tuple[Chart | None, tuple[str, ...]]:
    if isinstance(said, Items):
        return None, read_labels(said.items, Mapping((), said.where), faults)
    if isinstance(said, Text) and said.value.casefold() != "none":
        chart = _chart(said, shelf, faults)
        return chart, chart.sizes if chart else ()
    if isinstance(said, Mapping):
        return _some_of_chart(said, shelf, faults)
    return None, ()


def _chart(name: Text, shelf: Shelf, faults: Faults) -> Chart | None:
    chart = shelf.chart(name.value, faults)
    if chart is None:
        not_found("chart", name, shelf, faults)
    return chart


def _some_of_chart(said: Mapping, shelf: Shelf, faults: Faults) -> tuple[Chart | None, tuple[str, ...]]:
    fields = Fields(said, faults, "`sizes`")
    name, only = fields.required_text("chart"), fields.texts("only")
    fields.finish()
    chart = _chart(name, shelf, faults) if name else None
    if chart is None or not only:
        return chart, chart.sizes if chart else ()
    wanted = {key_of(text.value): text for text in only}
    for key, text in wanted.items():
        if key not in {key_of(label) for label in chart.sizes}:
            _unknown(text, chart.sizes, faults)
    return chart, tuple(label for label in chart.sizes if key_of(label) in wanted)


def _sample(said: Text | None, labels: Sequence[str], faults: Faults) -> int:
    """The size in the photos: the one named, else the middle one."""
    if said is None or not labels:
        return max(0, (len(labels) - 1) // 2)
    keys = [key_of(label) for label in labels]
    if key_of(said.value) in keys:
        return keys.index(key_of(said.value))
    _unknown(said, labels, faults)
    return 0


def _unknown(said: Text, labels: Sequence[str], faults: Faults) -> None:
    likely = near(said.value, labels)
    faults.add(
        Code.PLAN_SIZE_UNKNOWN,
        f"there is no size `{said.value}`",
        said.span(),
        f"did you mean `{likely}`?" if likely else f"write one of {', '.join(labels)}",
    )
