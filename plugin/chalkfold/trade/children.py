"""Rules for cords on children's clothing, as data with sources (``children.yml``), and for whom a garment is."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from chalkfold.amounts import scan
from chalkfold.formula import Literal

_CHILD = re.compile(r"\b(child|children|kids?|baby|babies|infants?|toddlers?|girls?|boys?|newborns?)\b", re.I)
_AGE = r"(?<!\d)(\d{1,3})(?!\d)(?:\s*(years?|months?|y|m)\b)?(?:\s+(\d{1,2})\s*months?)?"
_SPAN = re.compile(
    rf"(under|up\s+to|from)?\s*{_AGE}(?:\s*(?:to|-|–|and)\s*{_AGE})?(\s*(?:and (?:up|over|older)|\+))?", re.I
)
YEAR = 12
OLDEST = 18 * YEAR
UNDER_THREE = 3 * YEAR


@dataclass(frozen=True, slots=True)
class Ages:
    """A group that a rule makes: months and heights in cm, both ends inside."""

    name: str
    said: str
    rule: str
    months: tuple[int, int]
    height: tuple[int, int]
    source: str


@dataclass(frozen=True, slots=True)
class Asked:
    """What can be asked of a cord; of what is yes or no, ``must`` is what a limit wants it to be."""

    name: str
    called: str
    asks: str = ""
    write: str = ""
    note: str = ""
    must: str = ""
    usually: str = ""
    wrong: str = ""
    mend: str = ""
    only: Collection[str] = ()

    @property
    def is_length(self) -> bool:
        return not self.must


@dataclass(frozen=True, slots=True)
class CordLimit:
    """What one rule allows; no zones or kinds means all of them. ``most`` is by what is measured."""

    rule: str
    ages: Collection[str]
    zones: Collection[str]
    kinds: Collection[str]
    status: str
    source: str = ""
    garments: str = ""
    never: bool = False
    most: Mapping[str, Literal] = field(default_factory=dict)
    must: Sequence[str] = ()
    beside: str = ""


@dataclass(frozen=True, slots=True)
class ChildRules:
    """Everything the file says."""

    called: Mapping[str, str]
    full: Mapping[str, str]
    ages: Sequence[Ages]
    zones: Mapping[str, str]
    kinds: Mapping[str, str]
    measures: Mapping[str, Asked]
    limits: Sequence[CordLimit]
    garments: Mapping[str, Sequence[str]]
    cords: Collection[str]
    small_parts: Collection[str]
    says: Mapping[str, str]

    def garment(self, word: str) -> str:
        """The group of a garment: ``upper outerwear``, ``sleepwear``, ``outside``, ``other``; else nothing."""
        return next((group for group, words in self.garments.items() if word in words), "")

    def counted(self, months: tuple[int, int] | None, heights: Sequence[float]) -> tuple[Ages, ...]:
        """The groups that ages (months, both ends inside) or heights in cm belong to; all where neither is known."""
        if months is None and not heights:
            return tuple(self.ages)
        return tuple(each for each in self.ages if _overlap(each.months, months) or _any_in(each.height, heights))


def _overlap(group: tuple[int, int], months: tuple[int, int] | None) -> bool:
    return months is not None and months[0] <= group[1] and group[0] <= months[1]


def _any_in(group: tuple[int, int], heights: Sequence[float]) -> bool:
    return any(group[0] <= height <= group[1] for height in map(round, heights))


def is_child(text: str) -> bool:
    """Whether ``made for:`` speaks of children."""
    return bool(_CHILD.search(text))


def months_of(text: str) -> tuple[int, int] | None:
    """The ages that ``made for:`` names, in months, the last to its last month; None where it names none.

    ``children 3 to 8 years`` is 36 to 107, ``babies 6 to 12 months`` 6 to 12, ``children under 3 years`` 0 to 35.
    """
    found = _SPAN.search(text)
    if found is None:
        return None
    lead, first, unit, odd, last, last_unit, last_odd, and_up = found.groups()
    whole = last_unit or unit or "years"
    named = [_months(first, unit or whole, odd), *([_months(last, whole, last_odd)] if last else [])]
    youngest, oldest = min(start for start, _ in named), max(end for _, end in named)
    lead = " ".join((lead or "").casefold().split())
    if youngest >= OLDEST:
        return None  # a height
    if lead == "under":
        return 0, max(0, youngest - 1)
    if and_up or (lead == "from" and last is None):
        return youngest, OLDEST
    return 0 if lead == "up to" else youngest, oldest


def _months(number: str, unit: str, odd: str | None) -> tuple[int, int]:
    """The first and the last month of an age."""
    if unit[0] in "mM":
        return int(number), int(number)
    start = int(number) * YEAR + int(odd or 0)
    return start, start if odd else start + YEAR - 1


@cache
def child_rules() -> ChildRules:
    """The shipped rules, read once."""
    data = yaml.load(Path(__file__).with_name("children.yml").read_text("utf-8"), Loader=yaml.CSafeLoader)
    return ChildRules(
        {name: each["called"] for name, each in data["rules"].items()},
        {name: each["full"] for name, each in data["rules"].items()},
        [_ages(name, each) for name, each in data["ages"].items()],
        {word: zone for zone, words in data["zones"].items() for word in (zone, *words)},
        data["kinds"],
        {name: Asked(name, **{"called": name, **each}) for name, each in data["measures"].items()},
        [_limit(each) for each in data["limits"]],
        data["garments"],
        frozenset(data["cords"]),
        frozenset(data["small parts"]),
        data["says"],
    )


def _ages(name: str, said: Mapping[str, Any]) -> Ages:
    return Ages(name, said["said"], said["rule"], tuple(said["months"]), tuple(said["height"]), said["source"])


def _limit(said: dict[str, Any]) -> CordLimit:
    most = {name: _length(text) for name, text in said.pop("most", {}).items()}
    return CordLimit(**{**said, "never": said.get("never") == "yes", "most": most})


def _length(text: str) -> Literal:
    found = scan(text, 0)
    assert found is not None, text
    return Literal(found.value, found.kind, _both(text, found.number, found.unit.sign))


def _both(text: str, number: Fraction, sign: str) -> str:
    """An amount in inches with its exact millimetres behind it."""
    return f"{text} ({float(number) * 25.4:g} mm)" if sign == "in" else text
