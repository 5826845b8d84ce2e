"""Values as printed amounts, in every size."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from chalkfold.amounts import Kind, Printed, Printer
from chalkfold.plan import Manner, Product, Shown, Style, Value, Values
from chalkfold.show.markup import escape

FRACTION_SLASH = "\N{FRACTION SLASH}"
NO_BREAK = "\N{NO-BREAK SPACE}"
NONE = "—"
"""Stands where a value could not be worked out; the fault is told elsewhere."""


class Amount(NamedTuple):
    """One or more values printed as one: ``31.5 cm``, ``95 × 93.5 cm``, ``0, 8, 16 cm``."""

    metric: str
    inch: str
    parts: tuple[Printed, ...]
    spoken_between: str = ", "

    @property
    def plain(self) -> str:
        """``31.5 cm (12⅜ in)``, the site's main unit first."""
        if self.metric == self.inch:
            return self.metric
        inch_first = self.parts[0].inch_first
        return f"{self.inch} ({self.metric})" if inch_first else f"{self.metric} ({self.inch})"

    @property
    def spoken(self) -> str:
        """In words, in the site's main unit."""
        return self.spoken_between.join(part.spoken for part in self.parts) or self.metric

    def html(self) -> str:
        """Both units, ``.m`` and ``.i``, for sizes.css to choose from; the brackets stand in ``<i>``."""
        if self.metric == self.inch:
            return self._aloud(self.metric, False)
        metric, inch = self._aloud(self.metric, False), self._aloud(self.inch, True)
        if self.parts[0].inch_first:
            return f'<span class="i">{inch}</span><small class="m"><i> (</i>{metric}<i>)</i></small>'
        return f'<span class="m">{metric}</span><small class="i"><i> (</i>{inch}<i>)</i></small>'

    def _aloud(self, text: str, inch: bool) -> str:
        """A voice reads ``12⅜`` right, but not a fraction set with a slash: that one gets its words."""
        if FRACTION_SLASH not in text:
            return escape(text)
        said = (part.spoken_inch if inch else part.spoken_metric for part in self.parts)
        return _labelled(text, self.spoken_between.join(said))


MISSING = Amount(NONE, NONE, ())


@lru_cache(maxsize=2**12)
def _labelled(text: str, said: str) -> str:
    return f'<span role="img" aria-label="{escape(said)}">{escape(text)}</span>'


class Quantities:
    """The values of a post as printed, one amount a size; each row is printed once."""

    def __init__(self, values: Values, printer: Printer) -> None:
        self.values = values
        self.printer = printer
        self._rows: dict[Shown | Product, tuple[Amount, ...]] = {}

    def row(self, part: Shown | Product) -> tuple[Amount, ...]:
        """The amounts of a value in a text, size by size."""
        found = self._rows.get(part)
        if found is None:
            found = self._rows[part] = self._product(part) if isinstance(part, Product) else self._shown(part)
        return found

    def places(self, key: str) -> tuple[tuple[Amount, ...], ...]:
        """The single lengths of a row of lengths, size by size; none where it could not be worked out."""
        manner = self.values.manner(key)
        rows = (value if isinstance(value, tuple) else () for value in self.values.row(key))
        return tuple(tuple(self._single(each, Kind.LENGTH, manner) for each in row) for row in rows)

    def _shown(self, shown: Shown) -> tuple[Amount, ...]:
        key = shown.key
        kind = self.values.kinds.get(key, Kind.PLAIN)
        manner = shown.manner or (self.values.manner(key) if key in self.values.steps else Manner())
        return tuple(self._single(value, kind, manner) for value in self.values.row(key))

    def _product(self, product: Product) -> tuple[Amount, ...]:
        rows = [self._shown(Shown(key)) for key in product.keys]
        return tuple(_joined(amounts, " × ", " by ") for amounts in zip(*rows, strict=True))

    def _single(self, value: Value | None, kind: Kind, manner: Manner) -> Amount:
        if value is None:
            return MISSING
        if isinstance(value, tuple):
            return self._several(value, kind, manner)
        printed = self._printed(value, kind, manner)
        return Amount(printed.metric, printed.inch, (printed,))

    def _several(self, value: tuple[float, ...], kind: Kind, manner: Manner) -> Amount:
        amounts = tuple(self._single(each, Kind.LENGTH, manner) for each in value)
        if kind is not Kind.POINT:
            return _joined(amounts, ", ", ", ")
        across, down = amounts
        metric, inch = (
            f"{x} across, {y} down" for x, y in ((across.metric, down.metric), (across.inch, down.inch))
        )
        return Amount(metric, inch, across.parts + down.parts)

    def _printed(self, value: float, kind: Kind, manner: Manner) -> Printed:
        printer, style = self.printer, manner.style
        if kind is Kind.LENGTH:
            if style is Style.TO_BUY:
                return printer.to_buy(value, manner.rounding)
            return printer.length(value, manner.rounding, style is Style.FINE)
        if kind is Kind.TRUTH:
            return printer.truth(bool(value))
        if kind is Kind.AREA:
            return printer.area(value)
        if kind is Kind.ANGLE:
            return printer.angle(value)
        if style is Style.COUNT:
            return printer.count(value)
        return printer.plain(
            value,
            "percent" if style is Style.PERCENT else "fraction" if style is Style.FRACTION else "decimal",
        )


def _joined(amounts: tuple[Amount, ...], between: str, spoken_between: str) -> Amount:
    if MISSING in amounts or not amounts:
        return MISSING
    metric = _one_unit([each.metric for each in amounts], between)
    inch = _one_unit([each.inch for each in amounts], between)
    parts = tuple(part for each in amounts for part in each.parts)
    return Amount(metric, inch, parts, spoken_between)


def _one_unit(texts: list[str], between: str) -> str:
    """The unit once at the end where all have the same: ``95 × 93.5 cm``."""
    units = {text.partition(NO_BREAK)[2] for text in texts}
    if len(units) > 1:
        return between.join(texts)
    return between.join([*(text.partition(NO_BREAK)[0] for text in texts[:-1]), texts[-1]])
