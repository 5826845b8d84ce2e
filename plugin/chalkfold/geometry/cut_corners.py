"""How the cutting lines of two neighbours meet: the rules of a corner.

* They are trimmed or run on to the point where they meet, lines and curves straight, arcs along their circles.
* Arcs that would never meet so, or too far away, run on straight from their ends.
* A point farther from the seam's corner than ``MITRE_LIMIT`` times the wider allowance is cut off square to the
  bisector, at that distance.
* Where the seam runs on smoothly, or turns by less than ``BLUNT``, meeting would take long stretches from the wider
  allowance (or add them to the narrower): it ends in a short straight step at the corner, square to its edge, instead.
* On a fold a neighbour runs out straight to the fold line; a point too long is cut off square to the fold.

Common practice for allowances, no source; the geometry is plane geometry. The outline runs clockwise here, so that its
outside is on the left; for a seam line inside a cutting line it runs the other way, and its inside is on the left.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, degrees, radians

from chalkfold.geometry import arcs, edges, run_on, segments
from chalkfold.geometry.points import PARALLEL, cross, crossing, distance, dot, left_of, minus, same, shifted, unit
from chalkfold.geometry.shapes import JOIN, SAME, Edge, Point, Segment, end, is_arc, is_line, line, start
from chalkfold.geometry.trouble import GeometryTrouble, Reason

MITRE_LIMIT = 2.5
"""How far a corner of the cutting line may stand off the seam's, in widths of the wider allowance."""
SHARP = 90.0
"""A corner that turns by more (degrees) is cut off when it is too long."""
BLUNT = 45.0
"""A corner that turns by less (degrees), outwards or inwards, keeps the wider allowance whole to its end."""
SEAM_REACH = 10.0
"""Seam lines inside a cutting line meet as they are sewn, where they cross, if that is no farther than this from the
corner, in widths of the wider allowance.
"""
_LONGEST_SWING = 90.0
"""An arc or curve never runs on, or is trimmed, by more than this (degrees) to meet its neighbour."""
_TURNS_BACK = 179.9
_A_LITTLE = 0.1


@dataclass(frozen=True, slots=True)
class Run:
    """One segment on its way to the cutting line: ``cut`` is its parallel, ``allowance`` mm to the left of ``seam``."""

    edge: int
    seam: Segment
    cut: Edge
    allowance: float
    on_fold: bool = False
    inwards: bool = False
    """The piece lies on the left."""
    turned: bool = False
    """The allowance is turned up, and must lie flat (``turned.py``)."""

    @property
    def begins(self) -> Point:
        return edges.first(self.cut)

    @property
    def ends(self) -> Point:
        return edges.last(self.cut)

    @property
    def leaves(self) -> Point:
        """The direction of travel at its end, a unit vector."""
        return segments.tangent_at(self.seam, segments.length(self.seam))

    @property
    def arrives(self) -> Point:
        """The direction of travel at its start."""
        return segments.tangent_at(self.seam, 0.0)


@dataclass(frozen=True, slots=True)
class Join:
    """Where the cut of the run before ends and that of the run after starts, with the straight lines between."""

    end: Point
    start: Point
    with_before: Edge = ()
    with_after: Edge = ()


def corner(a: Run, b: Run) -> Join:
    """The join of two runs that follow each other. Raises when an inner corner or a fold leaves no way to join."""
    if a.on_fold and b.on_fold:
        return Join(end(a.seam), start(b.seam))
    if a.on_fold or b.on_fold:
        return _at_fold(a, b)
    if same(a.ends, b.begins, JOIN):
        return Join(a.ends, a.ends)
    turn = _turn(a, b)
    if a.inwards and (seams := _met(a, b)) and distance(seams, end(a.seam)) <= SEAM_REACH * _wider(a, b):
        return Join(seams, seams)
    if abs(turn) < BLUNT and _narrower(a, b) < _wider(a, b) * cos(radians(turn)):
        return _step(a, b)
    met = _met(a, b)
    if met is not None and (turn <= -BLUNT or _within(a, b, turn, met)):
        return Join(met, met)
    return _outer(a, b, turn) if turn > 0 else _inner(a, b, turn)


def _outer(a: Run, b: Run, turn: float) -> Join:
    """An outer corner whose lines and circles do not meet, or too far out."""
    straight = crossing(a.ends, a.leaves, b.begins, b.arrives)
    if straight is not None and _within(a, b, turn, straight):
        return _run_out(a, b, straight, straight)
    return _cut_off(a, b) if turn > SHARP else _step(a, b)


def _inner(a: Run, b: Run, turn: float) -> Join:
    """An inner corner whose lines and circles do not meet: nothing to trim them to, unless it is nearly smooth."""
    if turn > -BLUNT:
        return _step(a, b)
    raise too_wide(a.edge, b.edge)


def too_wide(*edges: int) -> GeometryTrouble:
    return GeometryTrouble(
        Reason.ALLOWANCE_TOO_WIDE,
        "the allowance leaves nothing of an edge: a curve is too tight for it, or an edge at a corner too short",
        "write a narrower allowance there, or make the curve or the edge larger",
        edges=tuple(dict.fromkeys(edges)),
    )


def _turn(a: Run, b: Run) -> float:
    """Degrees from one direction to the next; positive at an outer corner."""
    turn = degrees(atan2(cross(a.leaves, b.arrives), dot(a.leaves, b.arrives)))
    if abs(turn) < _TURNS_BACK:
        return turn
    # Two curves that leave a point side by side: which of them lies outside shows a little way off.
    before = segments.point_at(a.seam, segments.length(a.seam) * (1.0 - _A_LITTLE))
    after = segments.point_at(b.seam, segments.length(b.seam) * _A_LITTLE)
    outer = cross(minus(end(a.seam), before), minus(after, end(a.seam))) >= 0
    return abs(turn) if outer else -abs(turn)


def _met(a: Run, b: Run) -> Point | None:
    """Where the two cutting lines, run on, meet nearest to the corner."""
    near = [
        point
        for point in run_on.endless(a.cut, b.cut)
        if _swing(a.cut, a.ends, point) <= _LONGEST_SWING and _swing(b.cut, b.begins, point) <= _LONGEST_SWING
    ]
    return min(near, key=lambda met: distance(met, a.ends) + distance(met, b.begins), default=None)


def _swing(cut: Edge, was: Point, becomes: Point) -> float:
    """How far the direction of travel turns on the way."""
    if is_arc(cut[0]):
        return abs(arcs.swing(cut[0], was, becomes))
    if is_line(cut[0]):
        return 0.0
    a, b = (edges.tangent_at(cut, edges.nearest(cut, place)) for place in (was, becomes))
    return degrees(atan2(abs(cross(a, b)), dot(a, b)))


def _wider(a: Run, b: Run) -> float:
    return max(a.allowance, b.allowance)


def _narrower(a: Run, b: Run) -> float:
    return min(a.allowance, b.allowance)


def _limit(a: Run, b: Run) -> float:
    return MITRE_LIMIT * _wider(a, b)


def _within(a: Run, b: Run, turn: float, met: Point) -> bool:
    """Is ``met`` near enough? At a sharp corner it is measured along the bisector, across which it would be cut."""
    off = dot(minus(met, end(a.seam)), _outwards(a, b)) if turn > SHARP else distance(met, end(a.seam))
    return off <= _limit(a, b)


def _outwards(a: Run, b: Run) -> Point:
    """The bisector of the corner, away from the piece."""
    return unit((0.0, 0.0), minus(a.leaves, b.arrives))


def _step(a: Run, b: Run) -> Join:
    """From the end of the wider allowance straight towards the corner, to the cutting line of the narrower."""
    narrow_end, wide_end = b.begins, a.ends
    narrow = b
    if a.allowance < b.allowance:
        narrow, narrow_end, wide_end = a, wide_end, narrow_end
    found = run_on.endless(narrow.cut, (line(end(a.seam), wide_end),))
    met = min(found, key=lambda point: distance(point, narrow_end), default=narrow_end)
    if narrow is b:
        return Join(wide_end, met, _lines(wide_end, met))
    return Join(met, wide_end, _lines(met, wide_end))


def _cut_off(a: Run, b: Run) -> Join:
    out, corner = _outwards(a, b), end(a.seam)
    first = _as_far_out(a.ends, a.leaves, corner, out, _limit(a, b))
    last = _as_far_out(b.begins, _reversed(b.arrives), corner, out, _limit(a, b))
    return _run_out(a, b, first, last)


def _as_far_out(last: Point, ahead: Point, corner: Point, out: Point, by: float) -> Point:
    """From ``last`` straight ``ahead`` until ``by`` mm beyond ``corner``, measured in the direction ``out``."""
    return shifted(last, ahead, (by - dot(minus(last, corner), out)) / dot(ahead, out))


def _run_out(a: Run, b: Run, first: Point, last: Point) -> Join:
    """Both led straight on: ``a`` to ``first`` and ``b`` from ``last``; a line between the two belongs to ``a``."""
    ahead = (a.ends, first) if not is_line(a.cut[0]) else (first,)
    behind = (last, b.begins) if not is_line(b.cut[0]) else (last,)
    return Join(ahead[0], behind[-1], _lines(*ahead, last), _lines(*behind))


def _lines(*path: Point) -> Edge:
    """From point to point, without lines of no length."""
    return tuple(line(here, there) for here, there in pairwise(path) if not same(here, there))


@dataclass(frozen=True, slots=True)
class _Fold:
    """The end of a fold: ``out`` runs along it to where the other line lies, away from the piece or (``inwards``) into
    it; ``piece`` is square to it, on the side of the line that is on its way.
    """

    corner: Point
    out: Point
    piece: Point


def _at_fold(a: Run, b: Run) -> Join:
    """One of the two lies on a fold; the other runs out to the fold line."""
    corner = end(a.seam)
    if b.on_fold:
        path = _to_fold(a, a.ends, a.leaves, _fold_end(corner, _reversed(b.arrives), b))
        return Join(path[0], path[-1], with_before=_lines(*path))
    path = _to_fold(b, b.begins, _reversed(b.arrives), _fold_end(corner, a.leaves, a))
    return Join(path[-1], path[0], with_after=_lines(*reversed(path)))


def _fold_end(corner: Point, beyond: Point, fold: Run) -> _Fold:
    right = _reversed(left_of(fold.arrives))
    return _Fold(corner, _reversed(beyond), _reversed(right)) if fold.inwards else _Fold(corner, beyond, right)


def _to_fold(run: Run, last: Point, ahead: Point, fold: _Fold) -> tuple[Point, ...]:
    """Where a cutting line that comes to ``last`` going ``ahead`` ends, and straight on from there to the fold line."""
    short = dot(minus(last, fold.corner), fold.piece)
    if abs(short) <= SAME:
        return (shifted(fold.corner, fold.out, dot(minus(last, fold.corner), fold.out)),)
    if short < 0:
        return (_trimmed(run, last, fold),)
    nearing = -dot(ahead, fold.piece)
    if nearing <= PARALLEL:
        raise _fold_corner(run)
    path: tuple[Point, ...] = (shifted(last, ahead, short / nearing),)
    limit = MITRE_LIMIT * run.allowance
    if dot(minus(path[0], fold.corner), fold.out) > limit:
        turn = _as_far_out(last, ahead, fold.corner, fold.out, limit)
        path = (turn, shifted(fold.corner, fold.out, limit))
    return (last, *path) if not is_line(run.cut[0]) else path


def _trimmed(run: Run, last: Point, fold: _Fold) -> Point:
    """Where a cutting line that overshoots the fold line crosses it, nearest to its end."""
    found = run_on.endless(run.cut, (line(fold.corner, shifted(fold.corner, fold.out, 1.0)),))
    met = min(found, key=lambda point: distance(point, last), default=None)
    if met is None or dot(minus(met, fold.corner), fold.out) < -SAME:
        raise _fold_corner(run)
    return met


def _fold_corner(run: Run) -> GeometryTrouble:
    return GeometryTrouble(
        Reason.FOLD_CORNER,
        "the edge leaves the fold along it or across it, so its allowance never reaches the fold line",
        "let the edge meet the fold at an angle, inside the piece",
        edges=(run.edge,),
    )


def _reversed(vector: Point) -> Point:
    return -vector[0], -vector[1]
