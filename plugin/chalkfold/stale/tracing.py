"""Which numbers of a post a measure repeats: equal as printed, or near within what its way of writing can tell."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from chalkfold.amounts import Kind, Marks
from chalkfold.amounts.marks import scales_of
from chalkfold.plan import Origin, Values
from chalkfold.stale.measures import Measure, Typed

HARDLY = 0.05
"""Millimetres that no tape shows."""
LARGEST_PART = 0.1
"""However coarsely it is written (half a metre), what is off by more than a tenth is another measure."""
PLAINEST = ("width ", "height ")
PARTIAL = ("drawn ", "total ")
"""A length by itself is meant before that of a half or of all copies."""
OF_SPACINGS = ("space of ", "cloth of ")
SHORTEST = 2
"""Letters of a word that says nothing of a thing: of, to, at."""
_WORD = re.compile(r"[^\W\d_]+")


@dataclass(frozen=True, slots=True)
class Likeness:
    """A number that a measure may repeat, and the sizes (indexes) in which it does."""

    key: str
    name: str
    equal: bool
    sizes: tuple[int, ...]
    in_sample: bool
    own: bool
    """The post gives it under ``numbers:``; measures of pieces often only repeat such a one."""


@dataclass(frozen=True, slots=True)
class Traced:
    """What each part of a measure repeats, the likeliest first; ``whole`` is a number whose sizes make up a range."""

    parts: tuple[tuple[Likeness, ...], ...]
    whole: tuple[Likeness, ...] = ()

    @property
    def found(self) -> bool:
        return bool(self.whole) or any(self.parts)


class Tracer:
    """Holds measures against every number of one post."""

    def __init__(self, values: Values, marks: Marks, own: Sequence[str]) -> None:
        """``own`` are the keys of the post's own numbers, which a writer thinks of first."""
        self.values, self.marks = values, marks
        self._rank = {key: number for number, key in enumerate(own)}
        self._rows = [(key, row) for key, row in values.by_key.items() if self._is_told(key)]

    def _is_told(self, key: str) -> bool:
        """Measures that a writer knows by their names; blocks have others to reckon with."""
        if self.values.kinds.get(key) not in (Kind.LENGTH, Kind.AREA):
            return False
        return key in self._rank or self.values.steps[key].origin != Origin() or key.startswith(OF_SPACINGS)

    def trace(self, typed: Typed, near: str) -> Traced:
        """``near`` is the text around the measure; of several numbers the one whose words stand there comes first."""
        words = {word.casefold() for word in _WORD.findall(near) if len(word) > SHORTEST}
        whole = self._whole(typed, words) if typed.form == "range" else ()
        parts = tuple(self._alike(part, typed.about, words) for part in typed.parts)
        return Traced(parts, whole)

    def _alike(self, part: Measure, about: bool, words: set[str]) -> tuple[Likeness, ...]:
        equal, near = self._reach(part, about)
        found = []
        for key, row in self._rows:
            if self.values.kinds[key] is not part.unit.kind:
                continue
            off = {i: abs(value - part.value) for i, value in enumerate(row) if isinstance(value, float)}
            sizes = tuple(i for i, each in off.items() if each <= equal)
            alike = sizes or tuple(i for i, each in off.items() if each <= near)
            if alike:
                sample = self.values.sizes.sample
                told = off[sample] if sample in alike else min(off[i] for i in alike)
                found.append((self._likeness(key, bool(sizes), alike), told))
        found.sort(key=lambda each: self._order(each[0], each[1], words))
        return tuple(likeness for likeness, _ in found)

    def _whole(self, typed: Typed, words: set[str]) -> tuple[Likeness, ...]:
        """``58 to 62 cm``: the smallest and the largest size of a number."""
        low, high = typed.parts
        found = []
        for key, row in self._rows:
            values = [value for value in row if isinstance(value, float)]
            if len(values) < 2 or self.values.kinds[key] is not low.unit.kind or values[0] == values[-1]:
                continue
            ends = ((min(values), low), (max(values), high))
            if all(abs(value - part.value) <= self._reach(part, typed.about)[1] for value, part in ends):
                off = sum(abs(value - part.value) for value, part in ends)
                found.append((self._likeness(key, True, tuple(range(len(row)))), off))
        found.sort(key=lambda each: self._order(each[0], each[1], words))
        return tuple(likeness for likeness, _ in found)

    def _reach(self, part: Measure, about: bool) -> tuple[float, float]:
        """By how much a number may be off to be printed as this, and to be near it (mm or mm²)."""
        near = min(part.step / 2, LARGEST_PART * part.value) * (2 if about else 1)
        if part.unit.kind is Kind.AREA:
            return near / 10, near
        scale = scales_of(self.marks, None)[0 if part.unit.system == "metric" else 1]
        mark = scale.mark(part.value, "nearest", False).mm
        on_tape = abs(part.value / mark - round(part.value / mark)) < 1e-6
        equal = mark / 2 if on_tape else HARDLY
        return equal, max(equal, near)

    def _likeness(self, key: str, equal: bool, sizes: tuple[int, ...]) -> Likeness:
        in_sample = self.values.sizes.sample in sizes
        return Likeness(key, self.values.steps[key].name, equal, sizes, in_sample, key in self._rank)

    def _order(self, found: Likeness, off: float, words: set[str]) -> tuple[object, ...]:
        told = sum(word in words for word in found.key.split())
        off = round(off / HARDLY) * HARDLY
        rank = self._rank.get(found.key, len(self._rank))
        nearness = (bool(off), rank, off) if found.equal else (False, off, rank)
        plain = (found.key.startswith(PARTIAL), not found.key.startswith(PLAINEST))
        return (not found.in_sample, not found.equal, -told, *nearness, *plain, found.key)
