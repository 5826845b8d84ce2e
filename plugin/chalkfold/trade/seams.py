"""The words for how edges are sewn, and how much thread each stitch takes; from ``seams.yml``."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml


@dataclass(frozen=True, slots=True)
class Stitch:
    """``thread`` is the length of all its threads for each length of seam, ``machine`` whose thread it is."""

    number: str
    called: str
    thread: float
    machine: str
    source: str


@dataclass(frozen=True, slots=True)
class Way:
    """How the first edge comes to the second: it is the longer one, or the shorter.

    ``most`` is the share by which they may differ where nobody says an amount, None for any; ``told`` has a
    ``{}`` for it.
    """

    name: str
    longer: bool
    takes: tuple[str, ...]
    told: str
    most: float | None
    rows_on_first: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Word:
    """What a word behind a seam means: the rows of each stitch it adds, and what it does to the edge."""

    name: str
    adds: Mapping[str, int]
    takes: tuple[str, ...]
    binding: int
    alone: bool
    instead: bool
    finishes: bool
    open: bool


@dataclass(frozen=True, slots=True)
class SeamWords:
    """Everything the file says. Tolerances are in mm, and ``ratio`` a share."""

    wastage: float
    stitches: Mapping[str, Stitch]
    machines: Mapping[str, str]
    plain: float
    notches: float
    turnings: float
    ratio: float
    ways: Mapping[str, Way]
    words: Mapping[str, Word]


@cache
def seam_words() -> SeamWords:
    """The shipped table, read once."""
    data = yaml.load(Path(__file__).with_name("seams.yml").read_text("utf-8"), Loader=yaml.CSafeLoader)
    near = data["tolerances"]
    return SeamWords(
        data["wastage"]["share"],
        {number: Stitch(number=number, **said) for number, said in data["stitches"].items()},
        data["machines"],
        float(near["plain"]["length"]),
        float(near["notches"]["length"]),
        float(near["turnings"]["length"]),
        near["ratio"]["share"],
        {name: _way(name, said) for name, said in data["ways"].items()},
        {name: _word(name, said) for name, said in data["words"].items()},
    )


def _way(name: str, said: Mapping[str, Any]) -> Way:
    rows = said.get("rows on first", {})
    return Way(name, said["first"] == "longer", tuple(said["takes"]), said["told"], said.get("most"), rows)


def _word(name: str, said: Mapping[str, Any]) -> Word:
    flags = (bool(said.get(key)) for key in ("alone", "instead", "finishes", "open"))
    return Word(name, said.get("adds", {}), tuple(said.get("takes", ())), said.get("binding", 0), *flags)
