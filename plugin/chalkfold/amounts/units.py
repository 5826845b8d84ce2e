"""The units a writer may use: exact sizes and accepted spellings, from ``units.yml``."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from chalkfold.amounts.kinds import Kind


@dataclass(frozen=True, slots=True)
class Unit:
    """``size`` is exact, in mm, mm², degrees, g/m² or as a share; ``system`` is metric, inch or empty."""

    sign: str
    kind: Kind
    size: Fraction
    system: str = ""

    def after(self, number: str) -> str:
        """The number with this unit, as the project spells it: ``12 cm``, ``90°``, ``3``."""
        return f"{number}{self.sign}" if self.sign in ("", "°") else f"{number} {self.sign}"


@dataclass(frozen=True, slots=True)
class Units:
    """``words`` and ``mistaken`` are keyed by the case-folded spelling, ``marks`` as written; ``by_area`` by the words
    on either side of the stroke: ``("oz", "yd2")``.
    """

    words: Mapping[str, Unit]
    marks: Mapping[str, Unit]
    mistaken: Mapping[str, Unit]
    signs: Mapping[str, Unit]
    by_area: Mapping[tuple[str, str], Unit]


SPACE = re.compile(r"\s*+")
WORD = re.compile(r"[^\W\d_][^\W_]*+(?:-[^\W\d_][^\W_]*+)*+")
"""A word the way names have them: figures and inner hyphens belong to it."""
_STROKE = re.compile(r"\s*+(?:/|per\b|a\b)\s*+", re.I)
_MARK = re.compile(r"[\"″”%°º]|'{1,2}+|′{1,2}+|’{1,2}+")

SQUARE_METRE = 10**6
"""mm²"""

NO_UNIT = Unit("", Kind.PLAIN, Fraction(1))


@cache
def units() -> Units:
    """The shipped table, read once."""
    data = yaml.load(Path(__file__).with_name("units.yml").read_text("utf-8"), Loader=yaml.CBaseLoader)
    words: dict[str, Unit] = {}
    marks: dict[str, Unit] = {}
    for unit, entry in _units_of(data):
        words.update(dict.fromkeys(entry["written"], unit))
        marks.update(dict.fromkeys(entry.get("marks", ()), unit))
        if unit.kind is Kind.LENGTH:
            words.update(dict.fromkeys(_squared(entry["written"]), _area_of(unit)))
    by_area: dict[tuple[str, str], Unit] = {}
    for sign, entry in data["weights"].items():
        unit = _weight_of(sign, entry, words[entry["area"]])
        words.update(dict.fromkeys(entry["written"], unit))
        areas = [word for word, area in words.items() if area.sign == entry["area"]]
        by_area.update({(mass, area): unit for mass in entry["masses"] for area in areas})
    signs = {unit.sign: unit for unit in (*words.values(), *marks.values(), *by_area.values())}
    mistaken = {wrong: signs[right] for wrong, right in data["mistaken"].items()}
    return Units(words, marks, mistaken, signs, by_area)


@cache
def unit_words() -> frozenset[str]:
    """The single words, case-folded, that are units and so can never be names."""
    return frozenset(word for word in units().words if " " not in word)


def past_space(text: str, at: int) -> int:
    """Where the white space that may stand at ``at`` ends."""
    found = SPACE.match(text, at)
    return found.end() if found else at


def folded(word: str) -> str:
    """A word in the form of the table; one too long for a unit is cut, so that it equals none."""
    return word[:40].casefold()


def unit_at(text: str, at: int) -> tuple[Unit, int]:
    """The unit after a number that ends at ``at`` and where it ends; NO_UNIT and ``at`` if none does."""
    known = units()
    start = past_space(text, at)
    if mark := _MARK.match(text, start):
        unit, end = known.marks[mark[0]], mark.end()
        apostrophe = unit.sign == "ft" and text[end : end + 1].isalpha()
        return (NO_UNIT, at) if apostrophe else (unit, end)
    first, end = _words_at(text, start) or ("", at)
    if found := known.words.get(first):
        return found, _full_stop(text, end, found)
    if stroke := _STROKE.match(text, end):
        area, stop = _words_at(text, stroke.end()) or ("", at)
        if found := known.by_area.get((first, area)):
            return found, stop
    return NO_UNIT, at


def _words_at(text: str, at: int) -> tuple[str, int] | None:
    """The word at ``at``, case-folded, with the one that ``sq``, ``square`` or ``per`` needs behind it."""
    word = WORD.match(text, at)
    if not word:
        return None
    first = folded(word[0])
    if first not in ("sq", "square", "per"):
        return first, word.end()
    second = WORD.match(text, past_space(text, word.end() + text.startswith(".", word.end())))
    return (f"{first} {folded(second[0])}", second.end()) if second else None


def _full_stop(text: str, end: int, unit: Unit) -> int:
    """The inch units are often abbreviated with a full stop: ``7 1/2 in.``"""
    return end + (unit.system == "inch" and text.startswith(".", end))


def _units_of(data: dict[str, Any]) -> Iterator[tuple[Unit, dict[str, Any]]]:
    for sign, entry in data["lengths"].items():
        yield Unit(sign, Kind.LENGTH, Fraction(entry["size"]), entry["system"]), entry
    for sign, entry in data["others"].items():
        yield Unit(sign, Kind(entry["kind"]), Fraction(entry["size"])), entry


def _weight_of(sign: str, entry: dict[str, Any], area: Unit) -> Unit:
    """Grams to an area, as grams to a square metre."""
    return Unit(sign, Kind.WEIGHT, Fraction(entry["grams"]) * SQUARE_METRE / area.size, entry["system"])


def _squared(words: list[str]) -> list[str]:
    forms = ("sq {}", "square {}", "{}²", "{}2")
    return [form.format(word) for word in words for form in forms]


def _area_of(unit: Unit) -> Unit:
    sign = f"{unit.sign}²" if unit.system == "metric" else f"sq {unit.sign}"
    return Unit(sign, Kind.AREA, unit.size**2, unit.system)
