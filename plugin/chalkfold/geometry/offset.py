"""The cutting line: every edge of the seam line moved outwards by its own allowance; or the seam line, moved inwards.

Lines stay lines, arcs arcs around the same centre; a cubic curve becomes several (``parallels.py``).
``cut_corners.py`` says how neighbours meet.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from chalkfold.geometry import edges, segments
from chalkfold.geometry.crossings import first_crossing
from chalkfold.geometry.cut_corners import Join, Run, corner, too_wide
from chalkfold.geometry.outlines import orientation
from chalkfold.geometry.points import distance, dot, left_of, same, unit
from chalkfold.geometry.shapes import SAME, Edge, Outline, Segment, line
from chalkfold.geometry.trouble import GeometryTrouble, Reason, in_cm
from chalkfold.geometry.turned import turned_corner


def offset(
    outline: Outline, allowances: Sequence[float], folds: Collection[int] = (), turned: Collection[int] = ()
) -> Outline:
    """The cutting line of a closed seam line that does not cross itself.

    ``allowances`` (mm) are one for each edge; an edge whose index is in ``folds`` lies on a fold and takes none; the
    allowance of one in ``turned`` is turned up, and the neighbours' edges go on along its ends. The
    result has one edge for each of the seam line, in the same order and direction. Straight bits that a corner needs
    are part of an edge: a cut-off point and a step belong to the edge before them, as the outline runs clockwise,
    never to a fold. Raises ``GeometryTrouble``, naming the edges, when an allowance cannot be laid.
    """
    return _moved_aside(outline, allowances, folds, turned, inwards=False)


def inset(outline: Outline, allowances: Sequence[float], folds: Collection[int] = ()) -> Outline:
    """The seam line of a cutting line: ``offset`` to the inside.

    Seam lines meet where they cross, without steps or cut-off points; where they do not, the rules at corners are
    the same. Where straight edges meet in plain mitres this undoes ``offset``.
    """
    return _moved_aside(outline, allowances, folds, (), inwards=True)


def _moved_aside(
    outline: Outline,
    allowances: Sequence[float],
    folds: Collection[int],
    turned: Collection[int],
    *,
    inwards: bool,
) -> Outline:
    if len(allowances) != len(outline):
        raise ValueError("an allowance for every edge")
    _none_negative(allowances)
    forwards = (orientation(outline) > 0) is not inwards
    runs = _runs(outline, allowances, folds, forwards, inwards)
    if turned:
        runs = [replace(run, turned=run.edge in turned and run.allowance > SAME) for run in runs]
    joins = [_join(runs, place, turned) for place in range(len(runs))]
    made: list[list[Segment]] = [[] for _ in outline]
    for run, before, after in zip(runs, joins[-1:] + joins[:-1], joins, strict=True):
        made[run.edge] += _between(run, before, after)
    cut = tuple(tuple(edge) if forwards else edges.backwards(tuple(edge)) for edge in made)
    _none_cross(cut)
    return cut


def _join(runs: Sequence[Run], place: int, turned: Collection[int]) -> Join:
    run, after = runs[place], runs[(place + 1) % len(runs)]
    lies_flat = None
    if turned and run.edge != after.edge:
        lies_flat = turned_corner(
            [each for each in runs if each.edge == run.edge], [each for each in runs if each.edge == after.edge]
        )
    return corner(run, after) if lies_flat is None else lies_flat


def _none_negative(allowances: Sequence[float]) -> None:
    below = tuple(index for index, allowance in enumerate(allowances) if not allowance >= 0)
    if below:
        raise GeometryTrouble(
            Reason.ALLOWANCE_NEGATIVE, "an allowance is negative", "write an allowance of 0 or more", edges=below
        )


def _runs(
    outline: Outline, allowances: Sequence[float], folds: Collection[int], forwards: bool, inwards: bool
) -> list[Run]:
    """All segments in the order in which the side they move to is always on the left."""
    runs = []
    for index in range(len(outline)) if forwards else reversed(range(len(outline))):
        edge = outline[index] if forwards else edges.backwards(outline[index])
        if index in folds:
            seam = along_fold(edge, index)
            runs.append(Run(index, seam, (seam,), 0.0, on_fold=True, inwards=inwards))
        else:
            runs += [_run(index, segment, allowances[index], inwards) for segment in _with_length(edge, index)]
    return runs


def along_fold(edge: Edge, index: int) -> Segment:
    """The one line of a fold edge. Raises when it is not straight."""
    if not edges.is_straight(edge):
        strays = stray(edge)
        raise GeometryTrouble(
            Reason.FOLD_NOT_STRAIGHT,
            f"an edge on a fold strays {in_cm(strays)} from straight",
            "draw the edge as one straight line, or take it off the fold",
            measures=(strays,),
            edges=(index,),
        )
    return line(edges.first(edge), edges.last(edge))


def stray(edge: Edge) -> float:
    """How far (mm) an edge strays from straight: from the line between its ends; the sagitta of a flat arc."""
    first, last = edges.first(edge), edges.last(edge)
    if same(first, last):
        return max(distance(first, corner) for corner in edges.corners(edge))
    across = left_of(unit(first, last))
    on_line = dot(first, across)
    return max(abs(side - on_line) for segment in edge for side in segments.reach(segment, across))


def _with_length(edge: Edge, index: int) -> list[Segment]:
    kept = [segment for segment in edge if segments.length(segment) > SAME]
    if not kept:
        raise GeometryTrouble(
            Reason.NO_LENGTH, "an edge has no length", "end the edge at a point away from its start", edges=(index,)
        )
    return kept


def _run(index: int, seam: Segment, allowance: float, inwards: bool) -> Run:
    cut = segments.beside(seam, allowance) if allowance else (seam,)
    if cut is None:
        raise too_wide(index)
    return Run(index, seam, cut, allowance, inwards=inwards)


def _between(run: Run, before: Join, after: Join) -> Edge:
    led = segments.led_to(run.cut, before.start, after.end)
    if led is None:
        raise too_wide(run.edge)
    return (*before.with_after, *led, *after.with_before)


def _none_cross(cut: Outline) -> None:
    crossing = first_crossing(cut)
    if crossing is not None:
        raise GeometryTrouble(
            Reason.ALLOWANCES_CROSS,
            "the cutting lines of two edges run into each other",
            "write narrower allowances there, or move the edges apart",
            edges=tuple(dict.fromkeys((crossing.first, crossing.second))),
        )
