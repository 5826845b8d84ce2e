"""A facing or band traced from a piece: the line inside it that runs beside some of its edges.

Source: plane geometry; the corners of the line are those of an allowance to the inside (``cut_corners.py``).
"""

from __future__ import annotations

from chalkfold.geometry import edges, segments
from chalkfold.geometry.cut_corners import Run
from chalkfold.geometry.outlines import orientation
from chalkfold.geometry.points import distance
from chalkfold.geometry.run_on import endless
from chalkfold.geometry.run_path import run_path
from chalkfold.geometry.shapes import SAME, Edge, Outline, Point, Segment
from chalkfold.geometry.trouble import GeometryTrouble, Reason


def inner_line(outline: Outline, depth: float, *stretch: Edge) -> Edge:
    """The line ``depth`` mm inside of all edges of a stretch but its first and last, which it ends on.

    It runs the way those edges run; ``outline`` is that of the piece, and tells by its way round where the inside is.
    Raises when the edges at the ends are too short for it, or when a hollow is too tight.
    """
    if orientation(outline) < 0:
        return _on_the_left(stretch, depth)
    return edges.backwards(_on_the_left(tuple(edges.backwards(edge) for edge in reversed(stretch)), depth))


def _on_the_left(stretch: tuple[Edge, ...], depth: float) -> Edge:
    before, *beside, after = stretch
    runs = [
        _run(index, segment, depth)
        for index, edge in enumerate(beside)
        for segment in edge
        if segments.length(segment) > SAME
    ]
    begin = _ends_on(edges.backwards(before), runs[0].cut, runs[0].begins)
    stop = _ends_on(after, runs[-1].cut, runs[-1].ends)
    return run_path(runs, begin, stop)


def _run(index: int, segment: Segment, depth: float) -> Run:
    cut = segments.beside(segment, depth)
    if cut is None:
        raise _too_deep()
    return Run(index, segment, cut, depth, inwards=True)


def _ends_on(neighbour: Edge, cut: Edge, near: Point) -> Point:
    """Where the line, run on or trimmed, meets the neighbour, nearest to its own end."""
    found = [point for segment in neighbour for point in endless(cut, (segment,)) if segments.contains(segment, point)]
    if not found:
        raise _too_deep()
    return min(found, key=lambda point: distance(point, near))


def _too_deep() -> GeometryTrouble:
    return GeometryTrouble(
        Reason.TOO_DEEP,
        "the piece is not so deep there: the edge beside it ends before, or a curve is too tight",
        "write a smaller depth",
    )
