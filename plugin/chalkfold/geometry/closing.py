"""Darts and pleats closed on paper: a stretch of the seam line as it lies when they are folded out of the way.

Legs come in pairs, in the order of the edge: the one that stays and the one that is laid on it, each from the edge into
the piece. Folding darts out before a facing is traced is common practice in pattern cutting, no source; the formulas
are those of turning and moving.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from chalkfold.geometry import edges
from chalkfold.geometry.points import direction, minus, same
from chalkfold.geometry.shapes import SAME, Edge, Point
from chalkfold.geometry.trouble import GeometryTrouble, Reason

Moves = Callable[[Edge], Edge]


def taken_in(edge: Edge, *legs: Edge) -> Edge:
    """The edge without what lies between each pair of legs, what follows moved so that leg lies on leg.

    Its first stretch stays where it is. Raises when nothing of the edge is left.
    """
    closed: Edge = ()
    stop = edges.length(edge)
    for begin, resumes, move in _closings(edge, legs):
        beyond = edges.part(edge, resumes, stop) if stop - resumes > SAME else ()
        whole = edges.joined(beyond, closed)
        closed, stop = move(whole) if whole else (), begin
    first = edges.part(edge, 0.0, stop) if stop > SAME else ()
    found = edges.joined(first, closed)
    if not found:
        raise GeometryTrouble(
            Reason.NO_LENGTH, "nothing of the edge is left when it is folded", "take in less, in every size"
        )
    return found


def carried_along(carried: Edge, edge: Edge, *legs: Edge) -> Edge:
    """An edge that lies beyond the end of ``edge``, moved with that when it is taken in."""
    for _, _, move in _closings(edge, legs):
        carried = move(carried)
    return carried


def _closings(edge: Edge, legs: tuple[Edge, ...]) -> Iterator[tuple[float, float, Moves]]:
    """From the last pair of legs to the first: where the edge stops and goes on again, and how it moves together."""
    pairs = zip(legs[::2], legs[1::2], strict=True)
    placed = sorted(((edges.nearest(edge, edges.first(stays)), stays, moves) for stays, moves in pairs), reverse=True)
    for begin, stays, moves in placed:
        if not same(edges.first(stays), edges.first(moves)):
            yield begin, edges.nearest(edge, edges.first(moves)), _laid(moves, stays)


def _laid(leg: Edge, on: Edge) -> Moves:
    """The move that brings the start of one leg to that of another, and its direction to that of the other."""
    turn = direction(*_ends(on)) - direction(*_ends(leg))
    foot = edges.first(leg)
    across, down = minus(edges.first(on), foot)
    return lambda edge: edges.moved(edges.turned(edge, turn, foot), across, down)


def _ends(leg: Edge) -> tuple[Point, Point]:
    return edges.first(leg), edges.last(leg)
