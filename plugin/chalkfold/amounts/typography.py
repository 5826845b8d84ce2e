"""How numbers and fractions are set: characters for the common fractions, a fraction slash for the rest."""

from __future__ import annotations

import re
from fractions import Fraction
from math import gcd

NO_BREAK = "\N{NO-BREAK SPACE}"
THIN = "\N{NARROW NO-BREAK SPACE}"
SLASH = "\N{FRACTION SLASH}"
MINUS = "\N{MINUS SIGN}"

CHARACTERS = {
    (1, 2): "½",
    (1, 3): "⅓",
    (2, 3): "⅔",
    (1, 4): "¼",
    (3, 4): "¾",
    (1, 8): "⅛",
    (3, 8): "⅜",
    (5, 8): "⅝",
    (7, 8): "⅞",
}
PARTS = {sign: part for part, sign in CHARACTERS.items()}
MIXED = re.compile(
    rf"(?P<minus>{MINUS}?)(?P<whole>[0-9]++(?:[.,][0-9]++)?+(?!{SLASH}))?{THIN}?"
    rf"(?:(?P<sign>[{''.join(PARTS)}])|(?P<above>[0-9]+){SLASH}(?P<below>[0-9]+))?"
)
"""Reads what ``mixed`` sets, and a number with decimals."""

LARGEST_PART = 16


def mixed(above: int, below: int) -> str:
    """``above / below`` as a whole number and a fraction: ``12⅜``, ``12 3⁄16``."""
    minus = MINUS if above < 0 else ""
    whole, rest = divmod(abs(above), below)
    if not rest:
        return f"{minus}{whole}"
    common = gcd(rest, below)
    part = (rest // common, below // common)
    lead = str(whole) if whole else ""
    if sign := CHARACTERS.get(part):
        return f"{minus}{lead}{sign}"
    return f"{minus}{lead}{THIN if lead else ''}{part[0]}{SLASH}{part[1]}"


def simple_fraction(x: float) -> str | None:
    """``x`` set as a fraction when it is one with at most sixteen parts, else None."""
    near = Fraction(x).limit_denominator(LARGEST_PART)
    return mixed(near.numerator, near.denominator) if abs(x - near) < 1e-7 else None
