"""Where two cutting lines meet when they are run on: lines straight, arcs along their circles, curves straight."""

from __future__ import annotations

from dataclasses import dataclass

from chalkfold.geometry import intersect, segments
from chalkfold.geometry.points import dot, minus, shifted
from chalkfold.geometry.shapes import SAME, Edge, Point, Segment, end, is_cubic, line, start


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A segment; one that is ``onwards`` begins where a curve ends, and only what lies ahead of its start counts."""

    segment: Segment
    onwards: bool = False

    def holds(self, point: Point) -> bool:
        ahead = dot(minus(point, start(self.segment)), minus(end(self.segment), start(self.segment)))
        return not self.onwards or ahead >= -SAME


def endless(a: Edge, b: Edge) -> tuple[Point, ...]:
    """All points; each of the two is one line, one arc, or cubics that follow each other."""
    return tuple(
        point
        for one in _stretches(a)
        for other in _stretches(b)
        for point in intersect.endless(one.segment, other.segment)
        if one.holds(point) and other.holds(point)
    )


def _stretches(cut: Edge) -> tuple[_Stretch, ...]:
    if not is_cubic(cut[0]):
        return (_Stretch(cut[0]),)
    first, last = cut[0], cut[-1]
    before = shifted(start(first), segments.tangent_at(first, 0.0), -1.0)
    after = shifted(end(last), segments.tangent_at(last, segments.length(last)), 1.0)
    runs = (line(start(first), before), line(end(last), after))
    return (*map(_Stretch, cut), *(_Stretch(run, onwards=True) for run in runs))
