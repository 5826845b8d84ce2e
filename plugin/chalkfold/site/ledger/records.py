"""A post as the ledger holds it: its numbers in every size, how each is found, and to which mark it is printed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from chalkfold.amounts.kinds import Kind
from chalkfold.formula import key_of

Cell = float | bool | tuple[float, ...]
"""A value in one size: mm, mm², degrees, g/m² or plain; yes or no; lengths or places (mm) in a row."""

PLACES: dict[Kind, int] = {
    Kind.LENGTH: 6,
    Kind.AREA: 2,
    Kind.ANGLE: 6,
    Kind.WEIGHT: 4,
    Kind.PLAIN: 9,
    Kind.SERIES: 6,
    Kind.OUTLINE: 2,
}
"""Decimals that are kept. A length keeps a millionth of a millimetre, the nudge of the rounding rule on a 1 cm mark."""

BY_SIZE = "by size"
"""Stands for the formula of a number whose amounts are typed size by size."""


@dataclass(frozen=True, slots=True)
class Number:
    """One number of a post. ``values`` has one cell for each size of the post, or a single one that holds for all.

    ``formula`` is empty for what a block measures or makes; ``printed`` says to which mark. A drawing of a piece is
    kept as a number too: of kind OUTLINE, a row of the places it goes through.
    """

    name: str
    kind: Kind
    where: str
    formula: str
    printed: str
    values: tuple[Cell, ...]

    @property
    def key(self) -> str:
        return key_of(self.name)

    def at(self, size: int) -> Cell:
        return self.values[size if len(self.values) > 1 else 0]


@dataclass(frozen=True, slots=True)
class PostRecord:
    """A released post. ``name`` is the last part of its address, ``file`` its path in the site."""

    name: str
    file: str
    title: str
    sizes: tuple[str, ...] = ("",)
    numbers: Mapping[str, Number] = field(default_factory=dict)

    @property
    def many(self) -> bool:
        return self.sizes != ("",)


def kept(value: Cell, kind: Kind) -> Cell:
    """A value as the ledger keeps it, so that what was just worked out compares with what was read."""
    if isinstance(value, bool) or kind is Kind.TRUTH:
        return bool(value)
    if isinstance(value, tuple):
        return tuple(round(each, PLACES[kind]) + 0.0 for each in value)
    return round(value, PLACES[kind]) + 0.0


def same(one: Cell, other: Cell, kind: Kind) -> bool:
    """Whether two values are equal, up to the last decimal that is kept."""
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(same(a, b, kind) for a, b in zip(one, other, strict=True))
    if isinstance(one, tuple) or isinstance(other, tuple):
        return False
    if kind is Kind.TRUTH:
        return one == other
    return abs(one - other) <= 1.5 * float(f"1e-{PLACES[kind]}")
