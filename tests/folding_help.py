"""A strip of cloth folded on a table: another way to reckon what hems, turns, laps and tucks take."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

Layer = tuple[float, float]
"""Where a layer lies, from its left to its right end."""


def folded(length: float, creases: Iterable[float], start: float = 0.0) -> list[Layer]:
    """The layers of a strip from its first end to its last. A crease, measured along the flat strip, turns it round."""
    layers, at, way = [], start, 1
    for here, there in pairwise([0.0, *creases, length]):
        end = at + way * (there - here)
        layers.append((min(at, end), max(at, end)))
        at, way = end, -way
    return layers


def spread(layers: Iterable[Layer]) -> float:
    """From the leftmost to the rightmost end."""
    ends = list(layers)
    return max(right for _, right in ends) - min(left for left, _ in ends)


def thick(layers: Iterable[Layer], at: float) -> int:
    """How many layers lie over one place."""
    return sum(left < at < right for left, right in layers)


def overlap(one: Layer, other: Layer) -> float:
    return min(one[1], other[1]) - max(one[0], other[0])
