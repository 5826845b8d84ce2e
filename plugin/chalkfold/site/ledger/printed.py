"""To which mark a number is printed, and two values of one number as a reader compares them."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.amounts import Marks, Printer, Rounding
from chalkfold.amounts.kinds import Kind
from chalkfold.amounts.marks import scales_of
from chalkfold.plan import Manner, Shown, Sizes, Style, Values
from chalkfold.show.quantities import Amount, Quantities
from chalkfold.site.ledger.records import Cell

DRAWN = 1.0
"""By so much (mm) a place may move on a drawing before the piece is marked anew: the finer mark of a tape."""

PLAIN_MARKS = {Style.COUNT: 1.0, Style.PERCENT: 0.001}
OTHER_MARKS = {Kind.ANGLE: 0.1, Kind.WEIGHT: 1.0}
AREA_STEPS = ((100.0, 1.0), (10_000.0, 10.0), (1e6, 100.0))
"""Below so many mm² an area is printed in steps of so many mm²; above, in hundredths of a square metre."""


def mark_of(value: float, kind: Kind, manner: Manner, marks: Marks) -> float:
    """The least difference (mm, mm², degrees, g/m² or plain) that shows where it is printed, in either system."""
    if kind in (Kind.LENGTH, Kind.SERIES):
        way = manner.rounding.way if manner.rounding else "nearest"
        return min(scale.mark(value, way, manner.style is Style.FINE).mm for scale in scales_of(marks, manner.rounding))
    if kind is Kind.AREA:
        return next((step for below, step in AREA_STEPS if abs(value) < below), 10_000.0)
    if kind is not Kind.PLAIN:
        return OTHER_MARKS.get(kind, 0.01)
    return PLAIN_MARKS.get(manner.style, 0.01)


def in_marks(old: Cell, new: Cell, kind: Kind, manner: Manner, marks: Marks) -> float:
    """How far two values lie apart, in marks of the number: below 1 no tape tells them apart."""
    if isinstance(old, tuple) and isinstance(new, tuple):
        if len(old) != len(new):
            return float("inf")
        if kind is Kind.OUTLINE:
            return max((abs(a - b) / DRAWN for a, b in zip(old, new, strict=True)), default=0.0)
        return max((in_marks(a, b, kind, manner, marks) for a, b in zip(old, new, strict=True)), default=0.0)
    if isinstance(old, tuple) or isinstance(new, tuple) or kind is Kind.TRUTH:
        return float("inf") if old != new else 0.0
    return abs(old - new) / min(mark_of(each, kind, manner, marks) for each in (old, new))


def marks_said(kind: Kind, manner: Manner, marks: Marks) -> str:
    """``to 5 mm, 1/8 in``: how a number is printed, for the ledger."""
    if kind is Kind.OUTLINE:
        return f"as a drawing, to {DRAWN:g} mm"
    if kind in (Kind.LENGTH, Kind.SERIES) and manner.style is not Style.TO_BUY:
        metric, inch = scales_of(marks, manner.rounding)
        fine = manner.style is Style.FINE
        first, second = (each.asked or (each.fine if fine else each.site) for each in (metric, inch))
        way = f"{manner.rounding.way} " if manner.rounding and manner.rounding.way != "nearest" else ""
        fraction = f"{second.above}/{second.below}" if second.below > 1 else f"{second.above}"
        return f"{way}to {first.mm:g} mm, {fraction} in"
    if kind is Kind.PLAIN and manner.style in (Style.USUAL, Style.FINE):
        return "to 0.01"
    return {Kind.ANGLE: "to 0.1 degrees", Kind.WEIGHT: "to 1 g/m2", Kind.TRUTH: "yes or no"}.get(
        kind, str(manner.style)
    )


def before_and_after(old: Cell, new: Cell, kind: Kind, manner: Manner, printer: Printer) -> tuple[str, str]:
    """Both values in the site's units, as the number is printed; finer where its main unit would hide what differs."""
    for finer in _ever_finer(kind, manner):
        one, other = (_amount(value, kind, finer, printer) for value in (old, new))
        differs = one.inch != other.inch if printer.main_unit == "in" else one.metric != other.metric
        if differs:
            return one.plain, other.plain
    return _exact(old, kind), _exact(new, kind)


def said(value: Cell, kind: Kind, manner: Manner, printer: Printer) -> str:
    """One value in the site's units: ``31.5 cm (12⅜ in)``."""
    return _amount(value, kind, manner, printer).plain


def _amount(value: Cell, kind: Kind, manner: Manner, printer: Printer) -> Amount:
    values = Values(Sizes(), {}, {"it": kind}, {"it": (value,)})
    return Quantities(values, printer).row(Shown("it", manner))[0]


def moved_by(old: Cell, new: Cell, printer: Printer) -> str:
    """By how much a drawing changes: the farthest that one of its places moves; empty where it has others now."""
    if not isinstance(old, tuple) or not isinstance(new, tuple) or len(old) != len(new):
        return ""
    places = zip(old[::2], old[1::2], new[::2], new[1::2], strict=True)
    farthest = max((((c - a) ** 2 + (d - b) ** 2) ** 0.5 for a, b, c, d in places), default=0.0)
    return said(farthest, Kind.LENGTH, Manner(style=Style.FINE), printer)


def _ever_finer(kind: Kind, manner: Manner) -> Iterator[Manner]:
    yield manner
    if kind in (Kind.LENGTH, Kind.SERIES):
        yield Manner(style=Style.FINE)
        yield Manner(Rounding(metric=0.1))


def _exact(value: Cell, kind: Kind) -> str:
    if isinstance(value, tuple):
        return ", ".join(_exact(each, Kind.LENGTH) for each in value)
    return f"{value / 10:.8g} cm" if kind is Kind.LENGTH else f"{value:.8g}"
