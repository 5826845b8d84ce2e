"""Prints values for the page, each unit system from the unrounded value."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Literal, NamedTuple

from chalkfold.amounts.language import Language, language
from chalkfold.amounts.marks import INCH, Marks, Rounding, Scale, Way, scales_of
from chalkfold.amounts.rounding import decimals, marks_up, trimmed
from chalkfold.amounts.speech import spoken
from chalkfold.amounts.typography import NO_BREAK, mixed, simple_fraction
from chalkfold.amounts.units import units

Style = Literal["decimal", "fraction", "percent"]
MainUnit = Literal["cm", "in"]

CACHED = 2**14
METRE_STEP, YARD, YARD_STEPS = 100.0, 914.4, 8
"""Cloth is bought in steps of 10 cm or 1/8 yd, rounded up (reference value R04; common practice)."""
AREA_STEPS = 20
"""An area to buy is told in twentieths of a square metre or yard, rounded up (common practice, no source)."""

AREAS = {
    "metric": (("cm²", 100.0, 10_000), ("m²", 1e6, None)),
    "inch": (("sq in", INCH**2, 1296), ("sq yd", YARD**2, None)),
}
"""Unit, its size in mm², and how many of it are called by the next larger one (1 sq yd = 1296 sq in, Q09)."""


@dataclass(frozen=True, slots=True)
class Printed:
    """A value as shown; both texts are equal where units play no part."""

    metric: str
    inch: str
    inch_first: bool
    language: Language

    @property
    def first(self) -> str:
        return self.inch if self.inch_first else self.metric

    @property
    def second(self) -> str:
        return self.metric if self.inch_first else self.inch

    @property
    def both(self) -> str:
        """``31.5 cm (12⅜ in)``, the site's main unit first; one text where both are equal."""
        return self.first if self.metric == self.inch else f"{self.first} ({self.second})"

    @property
    def spoken_metric(self) -> str:
        """``31.5 centimetres``"""
        return spoken(self.metric, self.language)

    @property
    def spoken_inch(self) -> str:
        """``12 and 3 eighths inches``"""
        return spoken(self.inch, self.language)

    @property
    def spoken(self) -> str:
        return self.spoken_inch if self.inch_first else self.spoken_metric


class _Setting(NamedTuple):
    """What a printer is made of, as a key of plain values."""

    tag: str
    inch_first: bool
    metric_mark: float
    above: int
    below: int


class Printer:
    """Prints every kind of value in one language and with one site's marks; equal settings are equal."""

    __slots__ = ("_setting", "language", "marks")

    def __init__(self, language: Language, main_unit: MainUnit = "cm", marks: Marks | None = None) -> None:
        self.language = language
        self.marks = marks or Marks()
        inch = self.marks.inch
        self._setting = _Setting(language.tag, main_unit == "in", self.marks.metric, inch.numerator, inch.denominator)

    @property
    def main_unit(self) -> MainUnit:
        return "in" if self._setting.inch_first else "cm"

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Printer) and self._setting == other._setting

    def __hash__(self) -> int:
        return hash(self._setting)

    def length(self, mm: float, rounding: Rounding | None = None, fine: bool = False) -> Printed:
        """A length (mm) for the tape; ``fine`` for radii and equal parts."""
        return _length(mm, rounding, fine, self._setting)

    def to_buy(self, mm: float, rounding: Rounding | None = None) -> Printed:
        """A length (mm) to buy, rounded up to 10 cm and 1/8 yd, or to the mark asked for."""
        return _to_buy(mm, rounding, self._setting)

    def area(self, mm2: float) -> Printed:
        """An area (mm²) in cm² or m², and in square inches or yards."""
        return _area(mm2, self._setting)

    def area_to_buy(self, mm2: float) -> Printed:
        """An area (mm²) to buy, in m² and square yards for any size, rounded up to 0.05."""
        return _area_to_buy(mm2, self._setting)

    def angle(self, degrees: float) -> Printed:
        """An angle, to a tenth of a degree where it needs one."""
        return self._same(f"{self.language.number(trimmed(degrees, 1))}°")

    def weight(self, grams: float) -> Printed:
        """A weight of cloth (g/m²) in g/m², and in ounces to a square yard to a tenth."""
        return _weight(grams, self._setting)

    def part_of_circle(self, x: float) -> Printed:
        """A part of a circle, or a full one."""
        part = self.plain(x, "fraction").metric
        return self._same("a full circle" if part == "1" else f"{part} of a circle")

    def plain(self, x: float, style: Style = "decimal") -> Printed:
        """A plain number: two decimals at most, a simple fraction where it is one, or a percentage."""
        if style == "percent":
            return self._same(f"{self.language.number(trimmed(x * 100, 1))}{NO_BREAK}%")
        fraction = simple_fraction(x) if style == "fraction" else None
        return self._same(fraction or self.language.number(trimmed(x, 2)))

    def count(self, n: float) -> Printed:
        """A whole number of things."""
        return self._same(self.language.number(decimals(n, 0)))

    def truth(self, yes: bool) -> Printed:
        """Yes or no, in the words of the language."""
        return self._same(self.language.phrase("yes" if yes else "no"))

    def _same(self, text: str) -> Printed:
        return Printed(text, text, self._setting.inch_first, self.language)


@lru_cache(maxsize=256)
def _tape(rounding: Rounding | None, setting: _Setting) -> tuple[Scale, Scale, Way, Language]:
    marks = Marks(setting.metric_mark, Fraction(setting.above, setting.below))
    metric, inch = scales_of(marks, rounding)
    return metric, inch, rounding.way if rounding else "nearest", language(setting.tag)


@lru_cache(maxsize=CACHED)
def _length(mm: float, rounding: Rounding | None, fine: bool, setting: _Setting) -> Printed:
    metric, inch, way, speech = _tape(rounding, setting)
    count, mark = metric.marks(mm, way, fine)
    marks, inch_mark = inch.marks(mm, way, fine)
    return Printed(
        speech.number(_metric(count * mark.mm, mark.below)),
        f"{mixed(marks * inch_mark.above, inch_mark.below)}{NO_BREAK}in",
        setting.inch_first,
        speech,
    )


def _metric(mm: float, parts: int) -> str:
    """A rounded length in millimetres below 1 cm, else in centimetres.

    ``parts`` is the denominator of the mark in mm: 1 for whole millimetres, 10 or 2 for tenths and halves.
    """
    places = 0 if parts == 1 else 1 if 10 % parts == 0 else 2
    if mm and abs(mm) < 10:
        return f"{trimmed(mm, places)}{NO_BREAK}mm"
    return f"{trimmed(mm / 10, places + 1)}{NO_BREAK}cm"


@lru_cache(maxsize=CACHED)
def _to_buy(mm: float, rounding: Rounding | None, setting: _Setting) -> Printed:
    speech = language(setting.tag)
    step = (rounding and rounding.metric) or METRE_STEP
    metres = marks_up(mm, step) * step / 1000
    if rounding and rounding.inch:
        above, below = (rounding.inch / 36).as_integer_ratio()
    else:
        above, below = 1, YARD_STEPS
    yards = marks_up(mm, YARD * above / below) * above
    return Printed(
        speech.number(f"{trimmed(metres, 4)}{NO_BREAK}m"),
        f"{mixed(yards, below)}{NO_BREAK}yd",
        setting.inch_first,
        speech,
    )


@lru_cache(maxsize=CACHED)
def _area(mm2: float, setting: _Setting) -> Printed:
    speech = language(setting.tag)
    metric, inch = (speech.number(_in_areas(mm2, system)) for system in ("metric", "inch"))
    return Printed(metric, inch, setting.inch_first, speech)


@lru_cache(maxsize=CACHED)
def _area_to_buy(mm2: float, setting: _Setting) -> Printed:
    speech = language(setting.tag)
    metric, inch = (
        speech.number(f"{trimmed(marks_up(mm2, size / AREA_STEPS) / AREA_STEPS, 2)}{NO_BREAK}{name}")
        for name, size in ((large.replace(" ", NO_BREAK), size) for _, (large, size, _) in AREAS.values())
    )
    return Printed(metric, inch, setting.inch_first, speech)


@lru_cache(maxsize=CACHED)
def _weight(grams: float, setting: _Setting) -> Printed:
    speech = language(setting.tag)
    metric, inch = (
        speech.number(f"{trimmed(grams / float(units().signs[sign].size), places)}{NO_BREAK}{sign}")
        for sign, places in (("g/m²", 0), ("oz/yd²", 1))
    )
    return Printed(metric, inch, setting.inch_first, speech)


def _in_areas(mm2: float, system: str) -> str:
    """The largest unit of which there is a whole one, with about three figures."""
    (small, small_size, most), (large, large_size, _) = AREAS[system]
    many = abs(mm2) / small_size
    if most and float(decimals(many, 0)) >= most:
        return f"{trimmed(mm2 / large_size, 2)}{NO_BREAK}{large.replace(' ', NO_BREAK)}"
    places = 0 if many >= 100 else 1 if many >= 1 else 2
    return f"{trimmed(mm2 / small_size, places)}{NO_BREAK}{small.replace(' ', NO_BREAK)}"
