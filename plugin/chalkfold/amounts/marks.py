"""What a tape shows: the marks of a site, and what a single number may ask for instead."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Literal, NamedTuple

from chalkfold.amounts.kinds import Kind
from chalkfold.amounts.literals import Scanned, read_amount
from chalkfold.amounts.rounding import marks_down, marks_in, marks_up
from chalkfold.diagnostics import Code, Faults
from chalkfold.reading import Text

Way = Literal["nearest", "up", "down"]

INCH = 25.4
"""Millimetres, exactly (international yard of 1959)."""

SMALL = 4
"""Below so many marks an amount is printed finer."""

HOW_TO_ROUND = "write nearest, up, down, or a mark such as: to 1/16 in, to 0.1 cm, up to 10 cm"
FINEST = {"metric": Fraction(1, 10), "inch": Fraction(1, 64)}
COARSEST = Fraction(1000)
_ROUNDING = re.compile(r"\s*+(?P<way>nearest|up|down)?+\s*+(?:\bto\s++(?P<mark>.*))?+", re.I | re.S)
_WAYS: dict[str, Way] = {"nearest": "nearest", "up": "up", "down": "down"}
_COUNT = {"nearest": marks_in, "up": marks_up, "down": marks_down}


@dataclass(frozen=True, slots=True)
class Marks:
    """The marks a site rounds to: ``metric`` in mm, ``inch`` in inches."""

    metric: float = 5.0
    inch: Fraction = Fraction(1, 8)


@dataclass(frozen=True, slots=True)
class Rounding:
    """What one number asks for: a way, and a mark in one of the systems (mm, or inches) or none."""

    way: Way = "nearest"
    metric: float | None = None
    inch: Fraction | None = None


class Mark(NamedTuple):
    """A mark as plain numbers: its length in mm, and ``above / below`` of its own unit (mm or in)."""

    mm: float
    above: int
    below: int


class Scale(NamedTuple):
    """The marks of one system: the site's own, the finer one, the finest, and one asked for."""

    site: Mark
    fine: Mark
    finest: Mark
    asked: Mark | None

    def mark(self, mm: float, way: Way, fine: bool) -> Mark:
        """The mark that a length (mm) is printed to.

        Below four marks it is the finer one; what would vanish on that is printed to the finest.
        """
        if self.asked:
            return self.asked
        mark = self.fine if fine or abs(mm) < SMALL * self.site.mm else self.site
        if mm and not _COUNT[way](mm, mark.mm):
            return self.finest
        return mark

    def marks(self, mm: float, way: Way, fine: bool) -> tuple[int, Mark]:
        """How many marks, and which."""
        mark = self.mark(mm, way, fine)
        return _COUNT[way](mm, mark.mm), mark


def marked(mm: float, metric: bool, marks: Marks, rounding: Rounding | None = None) -> float:
    """A length (mm) as the tape shows it in one system: the value of ``marked(x)``, in mm."""
    scales = scales_of(marks, rounding)
    count, mark = scales[0 if metric else 1].marks(mm, rounding.way if rounding else "nearest", False)
    return count * mark.mm


@lru_cache(maxsize=256)
def scales_of(marks: Marks, rounding: Rounding | None) -> tuple[Scale, Scale]:
    """The metric and the inch scale.

    A mark asked for in one system and finer than the site's own makes the other system finer too.
    """
    asked = rounding or Rounding()
    site_metric = Fraction(str(marks.metric))
    metric = None if asked.metric is None else Fraction(str(asked.metric))
    fine_inch = metric is not None and metric < site_metric
    fine_metric = asked.inch is not None and asked.inch < marks.inch
    return (
        _scale(site_metric, Fraction(1), FINEST["metric"], metric, 1.0, fine_metric),
        _scale(marks.inch, Fraction(1, 16), FINEST["inch"], asked.inch, INCH, fine_inch),
    )


def read_rounding(text: Text, faults: Faults) -> Rounding | None:
    """Read what stands after ``round:``; None and a fault when it is none of the forms."""
    found = _ROUNDING.fullmatch(text.value)
    if found is None or not found[0].strip():
        faults.add(Code.DATA_CHOICE, "this is not a way to round", text.span(), HOW_TO_ROUND)
        return None
    way = _WAYS[(found["way"] or "nearest").lower()]
    if found["mark"] is None:
        return Rounding(way)
    asked = read_amount(text.part(*found.span("mark")), faults, [Kind.LENGTH])
    if asked is None:
        return None
    if not _usable(asked):
        hint = "write a mark from 0.1 mm or 1/64 in up to 1 m"
        faults.add(Code.AMOUNT_RANGE, f"no tape has a mark of {asked.text}", text.span(), hint)
        return None
    if asked.unit.system == "metric":
        return Rounding(way, metric=asked.value)
    return Rounding(way, inch=asked.number * asked.unit.size / Fraction("25.4"))


def _usable(found: Scanned) -> bool:
    """Zero, which has no unit to be a length of, fails the lower bound too."""
    size = found.number * found.unit.size
    finest = FINEST["metric"] if found.unit.system == "metric" else FINEST["inch"] * Fraction("25.4")
    return finest <= size <= COARSEST


def _scale(site: Fraction, fine: Fraction, finest: Fraction, asked: Fraction | None, unit: float, finer: bool) -> Scale:
    fine = min(site, fine)
    chosen = fine if finer else site
    return Scale(
        _mark(chosen, unit),
        _mark(fine, unit),
        _mark(min(fine, finest), unit),
        None if asked is None else _mark(asked, unit),
    )


def _mark(size: Fraction, unit: float) -> Mark:
    return Mark(float(size * Fraction(str(unit))), size.numerator, size.denominator)
