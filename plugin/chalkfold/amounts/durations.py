"""Working time: ``30 min``, ``1 h 30 min``, ``2 hours``; a whole number of minutes inside."""

from __future__ import annotations

from fractions import Fraction

from chalkfold.amounts.language import Language
from chalkfold.amounts.numbers import AmountTrouble, number_at, shown
from chalkfold.amounts.typography import NO_BREAK
from chalkfold.amounts.units import past_space
from chalkfold.diagnostics import Code, Faults
from chalkfold.reading import Text

HOW_TO_WRITE = "write a time such as 30 min, 2 h or 1 h 30 min"
LONGEST = 60 * 1000
_UNITS = {
    **dict.fromkeys(("min", "mins", "minute", "minutes"), 1),
    **dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), 60),
}


def read_minutes(text: Text, faults: Faults) -> int | None:
    """A working time in minutes; None and a fault when the text is none, or is no whole minute."""
    try:
        return _minutes(text.value.rstrip())
    except AmountTrouble as trouble:
        faults.add(trouble.code, trouble.message, text.span(trouble.start, trouble.end), trouble.hint)
        return None


def print_minutes(minutes: int) -> str:
    """``30 min``, ``1 h 30 min``, ``2 h``"""
    parts = [(minutes // 60, "h"), (minutes % 60, "min")]
    said = [f"{n}{NO_BREAK}{sign}" for n, sign in parts if n]
    return NO_BREAK.join(said) or f"0{NO_BREAK}min"


def spoken_minutes(minutes: int, language: Language) -> str:
    """``1 hour 30 minutes``"""
    parts = [(minutes // 60, "h"), (minutes % 60, "min")]
    return " ".join(f"{n} {language.unit(sign, n == 1)}" for n, sign in parts if n) or (
        f"0 {language.unit('min', False)}"
    )


def _minutes(written: str) -> int:
    total, at, smaller_than = Fraction(0), 0, 61
    while at < len(written) or smaller_than == 61:
        value, size, end = _part(written, at)
        if size >= smaller_than:
            raise _trouble("hours come first, then minutes, once each", written)
        total, at, smaller_than = total + value * size, end, size
    if total.denominator != 1:
        raise _trouble(f"{shown(written)} is no whole number of minutes", written)
    if total > LONGEST:
        raise AmountTrouble(
            Code.AMOUNT_RANGE, f"{shown(written)} is more than 1000 hours", HOW_TO_WRITE, 0, len(written)
        )
    return int(total)


def _part(written: str, at: int) -> tuple[Fraction, int, int]:
    start = past_space(written, at)
    number = number_at(written, start)
    if number is None:
        raise _trouble(f"{shown(written)} is not a time" if written.strip() else "a time is missing", written)
    first = past_space(written, number.end)
    end = first
    while end < len(written) and written[end].isalpha():
        end += 1
    size = _UNITS.get(written[first:end][:10].lower())
    if size is None:
        found = written[first:end]
        message = f"{shown(found)} is not a unit of time" if found else "the time has no unit"
        raise AmountTrouble(Code.AMOUNT_UNIT, message, HOW_TO_WRITE, start, max(end, number.end))
    return number.value, size, end


def _trouble(message: str, written: str) -> AmountTrouble:
    return AmountTrouble(Code.AMOUNT_NUMBER, message, HOW_TO_WRITE, 0, len(written))
