"""Values as printed amounts, in every size."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Literal, NamedTuple

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

    def html(self, units_apart: bool) -> str:
        """Both units; ``units_apart``: as ``.m`` and ``.i`` for sizes.css, the brackets in ``<i>``.

        A voice reads ``12⅜`` right, but not a fraction set with a slash: that one gets its words.
        """
        metric, inch = self.metric, self.inch
        parts, between = self.parts, self.spoken_between
        if FRACTION_SLASH in metric:
            shown = _labelled(metric, between.join(part.spoken_metric for part in parts))
        else:
            shown = escape(metric)
        if inch == metric:
            return shown
        if FRACTION_SLASH in inch:
            other = _labelled(inch, between.join(part.spoken_inch for part in parts))
        else:
            other = escape(inch)
        if not units_apart:
            return f"{other} ({shown})" if parts[0].inch_first else f"{shown} ({other})"
        if parts[0].inch_first:
            return f'<span class="i">{other}</span><small class="m"><i> (</i>{shown}<i>)</i></small>'
        return f'<span class="m">{shown}</span><small class="i"><i> (</i>{other}<i>)</i></small>'


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
        self._places: dict[str, tuple[tuple[Amount, ...], ...]] = {}

    def row(self, part: Shown | Product) -> tuple[Amount, ...]:
        """The amounts of a value in a text, size by size."""
        found = self._rows.get(part)
        if found is None:
            found = self._rows[part] = self._product(part) if isinstance(part, Product) else self._shown(part)
        return found

    def places(self, key: str) -> tuple[tuple[Amount, ...], ...]:
        """The single lengths of a row of lengths, size by size; none where it could not be worked out."""
        found = self._places.get(key)
        if found is None:
            amount = self._way(Kind.LENGTH, self.values.manner(key))
            rows = (value if isinstance(value, tuple) else () for value in self.values.row(key))
            found = self._places[key] = tuple(tuple([amount(each) for each in row]) for row in rows)
        return found

    def _shown(self, shown: Shown) -> tuple[Amount, ...]:
        key = shown.key
        kind = self.values.kinds.get(key, Kind.PLAIN)
        manner = shown.manner or (self.values.manner(key) if key in self.values.steps else Manner())
        amount = self._way(kind, manner)
        return tuple([MISSING if value is None else amount(value) for value in self.values.row(key)])

    def _product(self, product: Product) -> tuple[Amount, ...]:
        rows = [self._shown(Shown(key)) for key in product.keys]
        return tuple(_joined(amounts, " × ", " by ") for amounts in zip(*rows, strict=True))

    def _way(self, kind: Kind, manner: Manner) -> Callable[[Value], Amount]:
        """How the values of a row are printed, chosen once for the row."""
        if kind is Kind.SERIES or kind is Kind.POINT:
            length = self._way(Kind.LENGTH, manner)
            join = _point if kind is Kind.POINT else _series
            return lambda value: join(tuple(length(each) for each in _row(value)))
        printed = self._printing(kind, manner)

        def amount(value: Value) -> Amount:
            found = printed(value)  # type: ignore[arg-type]  # the plan has checked the kind
            return Amount(found.metric, found.inch, (found,))

        return amount

    def _printing(self, kind: Kind, manner: Manner) -> Callable[[float], Printed]:
        printer, rounding, style = self.printer, manner.rounding, manner.style
        if kind is Kind.LENGTH:
            if style is Style.TO_BUY:
                return lambda mm: printer.to_buy(mm, rounding)
            length, fine = printer.length, style is Style.FINE
            return lambda mm: length(mm, rounding, fine)
        others: dict[Kind, Callable[[float], Printed]] = {
            Kind.TRUTH: lambda value: printer.truth(bool(value)),
            Kind.AREA: printer.area_to_buy if style is Style.TO_BUY else printer.area,
            Kind.ANGLE: printer.angle,
            Kind.WEIGHT: printer.weight,
        }
        return others.get(kind) or self._plain(style)

    def _plain(self, style: Style) -> Callable[[float], Printed]:
        if style is Style.COUNT:
            return self.printer.count
        if style is Style.OF_A_CIRCLE:
            return self.printer.part_of_circle
        named: dict[Style, Literal["percent", "fraction"]] = {
            Style.PERCENT: "percent",
            Style.FRACTION: "fraction",
        }
        return lambda value: self.printer.plain(value, named.get(style, "decimal"))


def _row(value: Value) -> tuple[float, ...]:
    return value if isinstance(value, tuple) else (value,)


def _point(amounts: tuple[Amount, ...]) -> Amount:
    across, down = amounts
    metric = f"{across.metric} across, {down.metric} down"
    return Amount(metric, f"{across.inch} across, {down.inch} down", across.parts + down.parts)


def _series(amounts: tuple[Amount, ...]) -> Amount:
    return _joined(amounts, ", ", ", ")


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
