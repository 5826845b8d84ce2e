"""Numbers as a maker writes them: ``12``, ``1.2``, ``1/4``, ``7 1/2``, ``7½``.

Every pattern takes what it can and never gives back, so reading is linear in the text.
"""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction
from typing import NamedTuple

from chalkfold.amounts.units import unit_at
from chalkfold.diagnostics import Code

SLASHES = "/⁄∕"
VULGAR = {sign: Fraction(*map(int, unicodedata.normalize("NFKC", sign).split("⁄"))) for sign in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"}
LONGEST = 40

_SIGNS = "".join(VULGAR)
_COMMA = re.compile(r"[0-9]++(?:,[0-9]++)++(?:\.[0-9]++)?+")
_WITH_PART = re.compile(
    rf"(?P<whole>[0-9]++(?:\.[0-9]++)?+)(?:\s*+(?P<sign>[{_SIGNS}])|\s++(?P<above>[0-9]++)[{SLASHES}](?P<below>[0-9]++))"
)
_PART = re.compile(rf"(?P<sign>[{_SIGNS}])|(?P<above>[0-9]++)[{SLASHES}](?P<below>[0-9]++)")
_DECIMAL = re.compile(r"[0-9]++(?:\.[0-9]++)?+|\.[0-9]++")
_HYPHEN = re.compile(rf"([0-9]++)[-‐‑–]([0-9]++)[{SLASHES}]([0-9]++)")
_POWER = re.compile(r"[eE][+-]?[0-9]++")
_STROKE = re.compile(rf"[{SLASHES}]([0-9]++)")
_POINT = re.compile(r"\.[0-9]++")
_AFTER_PART = re.compile(rf"[{SLASHES}.][0-9]|[{_SIGNS}]")


class AmountTrouble(Exception):
    """A faulty amount: a code, what is wrong, what to write, and the offsets it covers."""

    def __init__(self, code: Code, message: str, hint: str, start: int, end: int) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.hint = hint
        self.start = start
        self.end = end


class Number(NamedTuple):
    """An exact value, its canonical spelling, and where it ends."""

    value: Fraction
    text: str
    end: int


def shown(text: str) -> str:
    """A stretch of the writer's text, quoted and kept short for a message."""
    short = text if len(text) <= LONGEST else f"{text[: LONGEST - 1]}…"
    return f"‘{short}’"


def spelled(value: Fraction) -> str:
    """A value as whole number and fraction, the way a literal is written: ``64 1/2``."""
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)


def decimal_spelled(value: Fraction) -> str:
    """A value as a decimal of at most six places."""
    return f"{float(value):.6f}".rstrip("0").rstrip(".")


def number_at(text: str, at: int) -> Number | None:
    """The number that starts at ``at``; None when none starts there. Raises AmountTrouble."""
    if not (found := _WITH_PART.match(text, at) or _PART.match(text, at) or _DECIMAL.match(text, at)):
        return None
    if found.end() - at > LONGEST:
        raise AmountTrouble(
            Code.AMOUNT_RANGE,
            f"{shown(found[0])} has too many figures",
            "write a number of at most 1000000000, with the decimals a tape can show",
            at,
            found.end(),
        )
    _no_comma(text, at)
    if found.re is _DECIMAL:
        return _decimal(text, found)
    return _with_part(text, found)


def _no_comma(text: str, at: int) -> None:
    if not (found := _COMMA.match(text, at)):
        return
    end = found.end()
    written = found[0][:LONGEST]
    first, *groups = written.split(",")
    if len(groups) == 1 and "." not in written:
        hint = f"write {_with_unit(f'{first}.{groups[0]}', text, end)}"
        if len(groups[0]) == 3:
            hint += f", or {_with_unit(first + groups[0], text, end)} if thousands were meant"
    else:
        hint = f"write {_with_unit(written.replace(',', ''), text, end)}"
    hint += "; between two values in brackets put a space after the comma"
    raise AmountTrouble(Code.AMOUNT_COMMA, f"{shown(found[0])} has a comma inside the number", hint, at, end)


def _decimal(text: str, found: re.Match[str]) -> Number:
    at, end = found.span()
    whole, _, places = found[0].partition(".")
    value = Fraction(found[0])
    if power := _POWER.match(text, end):
        hint = f"write the number out, such as {decimal_spelled(value * 1000)}"
        if len(power[0]) <= 3 and power[0][1:].isdigit():
            hint = f"write {decimal_spelled(value * 10 ** int(power[0][1:]))}"
        raise AmountTrouble(Code.AMOUNT_NUMBER, "a power of ten is not an amount a tape shows", hint, at, power.end())
    if hyphen := _HYPHEN.match(text, at):
        _refuse_hyphen(text, hyphen)
    if division := _STROKE.match(text, end):
        hint = f"write {found[0]} / {division[1][:LONGEST]} with spaces for a division"
        raise AmountTrouble(Code.AMOUNT_FRACTION, "a fraction is made of whole numbers", hint, at, division.end())
    if point := _POINT.match(text, end):
        raise AmountTrouble(Code.AMOUNT_NUMBER, "a number has one decimal point", f"write {found[0]}", at, point.end())
    kept = places.rstrip("0")
    return Number(value, (whole.lstrip("0") or "0") + (f".{kept}" if kept else ""), end)


def _with_unit(number: str, text: str, end: int) -> str:
    """A mended number with the unit that stands after the faulty one."""
    return unit_at(text, end)[0].after(number)


def _refuse_hyphen(text: str, found: re.Match[str]) -> None:
    whole, above, below = (part[:LONGEST] for part in found.groups())
    raise AmountTrouble(
        Code.AMOUNT_FRACTION,
        f"{shown(found[0])} may mean a number with a fraction, or a subtraction",
        f"write {_with_unit(f'{whole} {above}/{below}', text, found.end())} for the number, "
        f"{whole} - {above}/{below} for the subtraction",
        *found.span(),
    )


def _with_part(text: str, found: re.Match[str]) -> Number:
    at, end = found.span()
    parts = found.groupdict()
    whole = parts.get("whole") or "0"
    if _AFTER_PART.match(text, end):
        raise AmountTrouble(
            Code.AMOUNT_FRACTION,
            "a fraction has one whole number above and one below",
            "write a fraction such as 3/8, and a division with spaces: 3/8 / 2",
            at,
            end + 1,
        )
    if "." in whole:
        hint = "write the whole as a decimal, 7.5, or with a fraction, 7 1/2"
        raise AmountTrouble(Code.AMOUNT_FRACTION, "a decimal and a fraction stand in one number", hint, at, end)
    part = VULGAR[parts["sign"]] if parts["sign"] else _fraction(parts["above"], parts["below"], at, end)
    value = int(whole) + part
    if "whole" not in parts:
        return Number(value, _part_text(parts), end)
    if part >= 1:
        raise AmountTrouble(
            Code.AMOUNT_FRACTION,
            f"after a whole number, {part.numerator}/{part.denominator} is no longer a part of one"
            if part.denominator > 1
            else "after a whole number the fraction must be less than one",
            f"write {_with_unit(spelled(value), text, end)}",
            at,
            end,
        )
    return Number(value, f"{int(whole)} {_part_text(parts)}", end)


def _part_text(parts: dict[str, str]) -> str:
    if parts["sign"]:
        return str(VULGAR[parts["sign"]])
    return f"{int(parts['above'])}/{int(parts['below'])}"


def _fraction(above: str, below: str, at: int, end: int) -> Fraction:
    if not int(below):
        raise AmountTrouble(
            Code.AMOUNT_FRACTION,
            "a fraction over 0 has no value",
            "write the number of parts below the stroke, such as 1/4",
            at,
            end,
        )
    return Fraction(int(above), int(below))
