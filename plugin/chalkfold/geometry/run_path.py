"""Runs that follow each other as one line."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from chalkfold.geometry import segments
from chalkfold.geometry.cut_corners import Run, corner, too_wide
from chalkfold.geometry.shapes import Edge, Point, Segment


def run_path(runs: Sequence[Run], begin: Point | None = None, stop: Point | None = None) -> Edge:
    """The cutting line of runs in a row, their corners joined; it is led to ``begin`` and ``stop`` at its ends.

    Raises when nothing is left of one of them.
    """
    joins = [corner(a, b) for a, b in pairwise(runs)]
    starts = [begin or runs[0].begins, *(join.start for join in joins)]
    ends = [*(join.end for join in joins), stop or runs[-1].ends]
    between: list[Edge] = [*((*join.with_before, *join.with_after) for join in joins), ()]
    path: list[Segment] = []
    for run, here, there, more in zip(runs, starts, ends, between, strict=True):
        led = segments.led_to(run.cut, here, there)
        if led is None:
            raise too_wide(run.edge)
        path += [*led, *more]
    return tuple(path)
