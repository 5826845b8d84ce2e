"""The outcome of working a plan: every value in every size, and how to print it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.formula import Name
from chalkfold.plan.steps import Manner, Step, Value


@dataclass(frozen=True, slots=True)
class Sizes:
    """The sizes of a post, in order; ``sample`` is the index of the one in the photos.

    A post without sizes has the single label ``""``. ``ladder`` holds all sizes of the chart where the post takes
    only some: a step in grading is one rung of it, also where the post leaves a size out. ``sure`` is False where
    what the post says of its sizes was faulty; then nothing is missed in a number by size.
    """

    labels: tuple[str, ...] = ("",)
    sample: int = 0
    ladder: tuple[str, ...] = ()
    sure: bool = True

    @property
    def many(self) -> bool:
        return len(self.labels) > 1


@dataclass(frozen=True, slots=True)
class Values:
    """``by_key[key][i]`` is the value in size i, or None where it could not be worked out."""

    sizes: Sizes
    steps: Mapping[str, Step]
    kinds: Mapping[str, Kind]
    by_key: Mapping[str, tuple[Value | None, ...]]

    def manner(self, key: str) -> Manner:
        """How a value is printed; a number that only repeats another is printed as that one is."""
        step = self.steps[key]
        while step.manner == Manner() and isinstance(step.expression, Name) and step.expression.key in self.steps:
            step = self.steps[step.expression.key]
        return step.manner

    def row(self, key: str) -> tuple[Value | None, ...]:
        return self.by_key.get(key, (None,) * len(self.sizes.labels))
