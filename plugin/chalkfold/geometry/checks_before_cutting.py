"""One or two tape distances to lay on the cloth before the only cut.

The rule (our own; common practice, no source):

* the longest distance between two corners of the cutting line that no straight edge joins: it is wrong when any
  length or angle is;
* along one curved edge of the seam line: of those at least ``SHORTEST_TAPED`` long the one with the tightest bend, in
  which a wrong factor or a forgotten fold shows most; if all are shorter, the longest.

Ties go to the edge or corner that comes first.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from itertools import combinations

from chalkfold.geometry import arcs, bezier, edges, outlines
from chalkfold.geometry.points import distance
from chalkfold.geometry.shapes import SAME, Edge, Outline, Point, Segment, is_arc, is_line
from chalkfold.geometry.unfold import times_on_folds

SHORTEST_TAPED = 100.0
"""A tape follows a curve badly on less than this (mm). Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Diagonal:
    """From the corner where edge ``first`` of the cutting line starts to that where ``second`` starts."""

    first: int
    second: int
    start: Point
    end: Point
    length: float


@dataclass(frozen=True, slots=True)
class Curve:
    """Along the seam line of one edge: ``length`` on the cloth as it lies, ``times`` that on the whole piece."""

    edge: int
    length: float
    times: int

    @property
    def whole(self) -> float:
        return self.length * self.times


def longest_diagonal(cut: Outline) -> Diagonal | None:
    """Of the cutting line; ``None`` when every two corners are joined by a straight edge, or there is but one."""
    corners, best = outlines.corners(cut), None
    for first, second in combinations(range(len(corners)), 2):
        if _joined_straight(cut, first, second):
            continue
        length = distance(corners[first], corners[second])
        if length > (best.length if best else 0.0) + SAME:
            best = Diagonal(first, second, corners[first], corners[second], length)
    return best


def _joined_straight(cut: Outline, first: int, second: int) -> bool:
    between = [first] if second == first + 1 else []
    if first == 0 and second == len(cut) - 1:
        between.append(second)
    return any(edges.is_straight(cut[index]) for index in between)


def telling_curve(seam: Outline, folds: Collection[int] = ()) -> Curve | None:
    """The curved edge of the seam line to measure along; ``None`` when all edges are of lines."""
    curved = [index for index, edge in enumerate(seam) if any(not is_line(segment) for segment in edge)]
    if not curved:
        return None
    long = [index for index in curved if edges.length(seam[index]) >= SHORTEST_TAPED]
    chosen = curved[0] if not long else long[0]
    for index in long or curved:
        if _tells_more(seam[index], seam[chosen], by_radius=bool(long)):
            chosen = index
    return Curve(chosen, edges.length(seam[chosen]), times_on_folds(seam, folds, chosen))


def _tells_more(edge: Edge, other: Edge, *, by_radius: bool) -> bool:
    if by_radius:
        return _tightest(edge) < _tightest(other) - SAME
    return edges.length(edge) > edges.length(other) + SAME


def _tightest(edge: Edge) -> float:
    return min(_tightest_of(segment) for segment in edge if not is_line(segment))


def _tightest_of(segment: Segment) -> float:
    return arcs.radius(segment) if is_arc(segment) else bezier.tightest(segment)
