"""Amounts as a writer types them: ``12 cm``, ``7 1/2 in``, ``15 %``, ``90°``, ``3``, ``0``."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass
from fractions import Fraction

from chalkfold.amounts.kinds import Kind
from chalkfold.amounts.numbers import AmountTrouble, Number, decimal_spelled, number_at, shown, spelled
from chalkfold.amounts.units import NO_UNIT, WORD, Unit, folded, past_space, unit_at, units
from chalkfold.diagnostics import Code, Faults, near
from chalkfold.reading import Text

__all__ = ["AmountTrouble", "Scanned", "read_amount", "scan"]

LARGEST = {Kind.LENGTH: 10**6, Kind.AREA: 10**12, Kind.ANGLE: 10**9, Kind.WEIGHT: 10**5, Kind.PLAIN: 10**9}
EXAMPLES = {
    Kind.LENGTH: "a length, such as 12 cm or 4 3/4 in",
    Kind.AREA: "an area, such as 120 cm²",
    Kind.ANGLE: "an angle, such as 45°",
    Kind.WEIGHT: "a weight of cloth, such as 140 g/m² or 4 oz/yd²",
    Kind.PLAIN: "a number without a unit, such as 3, 1/2 or 15 %",
}
_LETTERS = re.compile(r"[^\W\d_]++")


@dataclass(frozen=True, slots=True)
class Scanned:
    """An amount: ``value`` in mm, mm², degrees, g/m² or plain; ``text`` is its canonical spelling.

    ``number`` is the value exactly as typed, in ``unit``; ``end`` is where the literal ends.
    """

    value: float
    kind: Kind
    text: str
    end: int
    number: Fraction
    unit: Unit


def scan(text: str, at: int) -> Scanned | None:
    """The literal that starts at ``at``; None when no number starts there.

    A word after the number that is no unit is left to the caller (``2 waist``), unless it is a
    unit misspelled. Raises AmountTrouble. Linear in the length of the text.
    """
    number = number_at(text, at)
    if number is None:
        return None
    unit, end = _unit_at(text, at, number)
    if unit.kind is Kind.LENGTH:
        _one_unit_only(text, at, end, number, unit)
    exact = number.value * unit.size
    if exact > LARGEST[unit.kind]:
        _too_large(text[at:end], unit.kind, at, end)
    kind = Kind.ZERO if unit is NO_UNIT and not exact else unit.kind
    return Scanned(float(exact), kind, unit.after(number.text), end, number.value, unit)


def read_amount(text: Text, faults: Faults, kinds: Collection[Kind] | None = None) -> Scanned | None:
    """The amount that the whole text is, of one of ``kinds``; else None and a fault.

    ``0`` without a unit fits every kind of number.
    """
    written = text.value.rstrip()
    start = len(written) - len(written.lstrip())
    wanted = _wanted(kinds)
    try:
        found = scan(written, start)
    except AmountTrouble as trouble:
        faults.add(trouble.code, trouble.message, text.span(trouble.start, trouble.end), trouble.hint)
        return None
    if found is None:
        message = f"{shown(written)} is not an amount" if written else "an amount is missing"
        faults.add(Code.AMOUNT_NUMBER, message, text.span(), f"write {wanted}")
        return None
    if found.end < len(written):
        _left_over(text, written, found, faults, wanted)
        return None
    if kinds is not None and not _fits(found.kind, kinds):
        message = f"{found.text} is {_article(found.kind)}, which does not fit here"
        faults.add(Code.FORMULA_KIND, message, text.span(start, found.end), _kind_hint(found, kinds, wanted))
        return None
    return found


def _unit_at(text: str, at: int, number: Number) -> tuple[Unit, int]:
    unit, end = unit_at(text, number.end)
    if unit is not NO_UNIT:
        return unit, end
    start = past_space(text, number.end)
    word = WORD.match(text, start)
    if not word or not word[0][0].isalpha():
        return NO_UNIT, number.end
    letters = _LETTERS.match(text, start)
    if letters and letters.end() < word.end() and (run_on := units().words.get(folded(letters[0]))):
        _one_unit_only(text, at, letters.end(), number, run_on)
    if meant := _meant(folded(word[0])):
        hint = _instead(number, folded(word[0]), meant)
        message = f"{shown(word[0])} is not a unit"
        raise AmountTrouble(Code.AMOUNT_UNIT, message, hint, at, word.end())
    return NO_UNIT, number.end


def _meant(word: str) -> Unit | None:
    """The unit a misspelled word stands for. Short words are only taken from the list of mistakes."""
    known = units()
    if word in known.mistaken:
        return known.mistaken[word]
    if not 6 <= len(word) <= 20:
        return None
    guess = near(word, known.words)
    alike = guess and guess[0] == word[0] and abs(len(guess) - len(word)) <= 1
    return known.words[guess] if guess and alike else None


def _instead(number: Number, word: str, unit: Unit) -> str:
    if word in ("km", "dm"):
        factor = {"km": 1000, "dm": 10}[word]
        target = {"km": "m", "dm": "cm"}[word]
        return f"write {decimal_spelled(number.value * factor)} {target}"
    return "write degrees, such as 45°" if word == "rad" else f"write {unit.after(number.text)}"


def _one_unit_only(text: str, at: int, end: int, number: Number, unit: Unit) -> None:
    """Refuse ``5 ft 4 in``: a second, smaller length straight after the first."""
    second = number_at(text, past_space(text, end))
    if second is None:
        return
    smaller, stop = unit_at(text, second.end)
    if smaller is NO_UNIT and unit.sign == "ft":
        smaller = units().signs["in"]
    if smaller.kind is not Kind.LENGTH or smaller.size >= unit.size:
        return
    total = (number.value * unit.size + second.value * smaller.size) / smaller.size
    sum_text = spelled(total) if total.denominator <= 64 else decimal_spelled(total)
    raise AmountTrouble(
        Code.AMOUNT_MIXED,
        f"{shown(text[at:stop])} is one length in two units",
        f"write {smaller.after(sum_text)}",
        at,
        stop,
    )


def _too_large(written: str, kind: Kind, at: int, end: int) -> None:
    most = {Kind.LENGTH: "1 km", Kind.AREA: "1 km²", Kind.WEIGHT: "100000 g/m²"}.get(kind, "1000000000")
    raise AmountTrouble(
        Code.AMOUNT_RANGE,
        f"{shown(written)} is more than {most}",
        f"write {EXAMPLES[kind]}; look whether the unit and the decimal point are right",
        at,
        end,
    )


def _fits(kind: Kind, kinds: Collection[Kind]) -> bool:
    return kind in kinds or (kind is Kind.ZERO and any(each in EXAMPLES for each in kinds))


def _wanted(kinds: Collection[Kind] | None) -> str:
    listed = [EXAMPLES[kind] for kind in EXAMPLES if kinds is None or kind in kinds]
    return "; or ".join(listed[:1] if kinds is None else listed)


def _article(kind: Kind) -> str:
    return f"an {kind}" if kind[0] in "aeiou" else f"a {kind}"


def _kind_hint(found: Scanned, kinds: Collection[Kind], wanted: str) -> str:
    if found.unit is NO_UNIT and Kind.LENGTH in kinds:
        return f"write the unit too: {found.text} cm or {found.text} in"
    if found.unit is NO_UNIT and Kind.WEIGHT in kinds:
        return f"write the unit too: {found.text} g/m² or {found.text} oz/yd²"
    return f"write {wanted}"


def _left_over(text: Text, written: str, found: Scanned, faults: Faults, wanted: str) -> None:
    start = past_space(written, found.end)
    word = WORD.match(written, start)
    if found.unit is NO_UNIT and word and word.end() == len(written):
        hint = f"write {found.text} with mm, cm, m, in, ft, yd, % or °, or without a unit"
        faults.add(Code.AMOUNT_UNIT, f"{shown(word[0])} is not a unit", text.span(start, word.end()), hint)
        return
    message = f"{shown(written[start:])} follows the amount {found.text}"
    faults.add(Code.AMOUNT_NUMBER, message, text.span(start, len(written)), f"write one amount only: {wanted}")
