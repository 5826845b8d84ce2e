"""One smooth curve through several points: a cubic between each two, without a corner or a jump in curvature.

Source: the cubic spline with the lengths of the chords as its parameter (numerical analysis; the tridiagonal system
is solved by elimination).
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from chalkfold.geometry.points import distance
from chalkfold.geometry.shapes import Edge, Point, cubic

Row = tuple[float, float, float]
"""What stands before, on and behind the diagonal."""


def through(places: Sequence[Point], leaving: Point | None = None, arriving: Point | None = None) -> Edge:
    """``leaving`` and ``arriving`` are unit vectors of travel; without one the end has no curvature."""
    gaps = [distance(a, b) for a, b in pairwise(places)]
    across, down = (_slopes([p[axis] for p in places], gaps, leaving, arriving, axis) for axis in (0, 1))
    slopes = list(zip(across, down, strict=True))
    return tuple(
        cubic(
            a,
            b,
            (a[0] + out[0] * gap / 3.0, a[1] + out[1] * gap / 3.0),
            (b[0] - home[0] * gap / 3.0, b[1] - home[1] * gap / 3.0),
        )
        for (a, b), (out, home), gap in zip(pairwise(places), pairwise(slopes), gaps, strict=True)
    )


def _slopes(
    values: Sequence[float], gaps: Sequence[float], leaving: Point | None, arriving: Point | None, axis: int
) -> list[float]:
    """The slope at every place, for one coordinate."""
    steep = [(b - a) / gap for (a, b), gap in zip(pairwise(values), gaps, strict=True)]
    rows: list[Row] = [(0.0, 2.0, 1.0) if leaving is None else (0.0, 1.0, 0.0)]
    sums = [3.0 * steep[0] if leaving is None else leaving[axis]]
    for (before, after), (one, other) in zip(pairwise(gaps), pairwise(steep), strict=True):
        rows.append((after, 2.0 * (before + after), before))
        sums.append(3.0 * (after * one + before * other))
    rows.append((1.0, 2.0, 0.0) if arriving is None else (0.0, 1.0, 0.0))
    sums.append(3.0 * steep[-1] if arriving is None else arriving[axis])
    return _solved(rows, sums)


def _solved(rows: Sequence[Row], sums: Sequence[float]) -> list[float]:
    """Of a tridiagonal system whose diagonal outweighs the rest."""
    ahead: list[tuple[float, float]] = []
    before = (0.0, 0.0)
    for (low, middle, high), total in zip(rows, sums, strict=True):
        pivot = middle - low * before[0]
        before = (high / pivot, (total - low * before[1]) / pivot)
        ahead.append(before)
    found: list[float] = []
    for factor, rest in reversed(ahead):
        found.append(rest - factor * (found[-1] if found else 0.0))
    return found[::-1]
