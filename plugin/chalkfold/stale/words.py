"""How a language writes measures, from ``words/LANGUAGE.yml``; a language without a file is read as English."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import yaml

from chalkfold.amounts.kinds import Kind
from chalkfold.amounts.units import Unit, units

OF_OTHER_SIZE = ("km", "dm")
"""Mistaken units that stand for another number of the unit they are mended to."""

FOLDER = Path(__file__).with_name("words")


@dataclass(frozen=True, slots=True)
class Words:
    """Words by what they do in a measure, case-folded. ``sets`` holds the lists of the file by their names."""

    numbers: Mapping[str, int]
    tens: Mapping[str, int]
    parts: Mapping[str, int]
    sets: Mapping[str, frozenset[str]]
    units: Mapping[str, Unit]
    marks: Mapping[str, Unit]

    def is_one(self, word: str, *sets: str) -> bool:
        return any(word in self.sets[name] for name in sets)


@lru_cache(maxsize=8)
def words_of(language: str) -> Words:
    """The words of a language tag such as ``en-GB``."""
    file = FOLDER / f"{language.partition('-')[0]}.yml"
    data = yaml.load((file if file.is_file() else FOLDER / "en.yml").read_text("utf-8"), Loader=yaml.CBaseLoader)
    numbers, tens, parts = ({word: int(n) for word, n in data[name].items()} for name in ("numbers", "tens", "parts"))
    sets = {name: frozenset(entries) for name, entries in data.items() if isinstance(entries, list)}
    known = units()
    spelled = {word: unit for word, unit in known.mistaken.items() if word not in OF_OTHER_SIZE} | dict(known.words)
    measured = {word: unit for word, unit in spelled.items() if _is_measured(unit)}
    marks = {mark: unit for mark, unit in known.marks.items() if _is_measured(unit)}
    return Words(numbers, tens, parts, sets, measured, marks)


def _is_measured(unit: Unit) -> bool:
    return unit.kind in (Kind.LENGTH, Kind.AREA)
