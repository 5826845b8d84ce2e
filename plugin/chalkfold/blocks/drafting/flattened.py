"""A piece as it lies flat on the table: slashed and spread, its darts and pleats drawn on it and not yet closed.

Pieces made from it start here; the darts and pleats go along as they are (``taken_shapings.py``).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from chalkfold.blocks.desk import Desk
from chalkfold.blocks.drafting.contour import Contour, Draft, edges_of
from chalkfold.blocks.drafting.edges import Drawn
from chalkfold.blocks.drafting.points import Points
from chalkfold.blocks.drafting.shaping import Shaping
from chalkfold.blocks.drafting.taken_shapings import Way, by
from chalkfold.formula import Name, key_of


@dataclass
class MovedPoints(Points):
    """The points of a piece where they have come to lie, under names that no writer can type."""

    words: str = ""

    def step_name(self, key: str) -> str:
        return f"= {self.words} point {key} of {self.piece}"


def flattened(origin: Draft, desk: Desk) -> Draft:
    """The piece with edges, points, lines and marks as the slashes leave them, before darts and pleats are capped."""
    shaped, shaping = origin.shaped, origin.shaped.shaping
    if shaping is None or not shaped.is_shaped:
        return origin
    contour = _spread(replace(shaped.contour, edges=shaped.edges, points=shaped.points), origin.outline, shaping, desk)
    capped = {shaping.edges[was.step.key].key: key for was, key in _steps(origin.outline, contour).items()}
    marks = tuple(replace(mark, edge=capped.get(mark.edge, mark.edge)) for mark in origin.marks)
    return replace(
        origin, shaped=replace(shaped, edges=contour.edges, points=contour.points, contour=contour), marks=marks
    )


def with_shaping(contour: Contour, shaping: Shaping, desk: Desk) -> Contour:
    """A contour that is not a piece yet, shaped as another piece is."""
    outline, slashes = tuple(contour.edges.drawn.values()), shaping.slashes
    found = _spread(contour, outline, shaping, desk)
    on = {was.step.key: key for was, key in _steps(outline, found).items()}
    lines = {key: replace(line, step=slashes.edge(line.step)) for key, line in (contour.lines or {}).items()}
    on |= {line.step.key: lines[key].step.key for key, line in (contour.lines or {}).items()}

    def moved(key: str) -> str:
        return slashes.point(Name(desk.steps[key].name, shaping.piece.place)).key if key else ""

    marks = tuple(
        replace(mark, edge=on.get(mark.edge, mark.edge), point=moved(mark.point), end=moved(mark.end))
        for mark in contour.marks
    )
    return replace(found, lines=lines, marks=marks)


def _spread(contour: Contour, outline: tuple[Drawn, ...], shaping: Shaping, desk: Desk) -> Contour:
    slashes = shaping.slashes
    drawn = tuple(
        replace(
            each,
            step=slashes.edges[key_of(each.name)],
            is_line=each.is_line and not slashes.change_edges,
            centre=None if slashes.change_edges else each.centre,
        )
        for each in outline
    )
    edges = edges_of(contour.edges.piece, drawn, desk)
    points = _points(contour.points, shaping) if slashes.made else contour.points
    darts = tuple(by(dart, edges.drawn, Way()) for dart in shaping.darts)
    pleats = tuple(by(row, edges.drawn, Way(slashes.point)) for row in shaping.pleats)
    return replace(contour, edges=edges, points=points, shapings=(*darts, *pleats))


def _steps(outline: tuple[Drawn, ...], contour: Contour) -> dict[Drawn, str]:
    """Each edge as drawn → the key of the same edge spread."""
    return {was: contour.edges.drawn[key_of(was.name)].step.key for was in outline}


def _points(origin: Points, shaping: Shaping) -> Points:
    points = MovedPoints(origin.piece, origin.desk, dict(origin.names), set(origin.broken), "spread")
    for key in origin.names.keys() - origin.broken:
        step = Name(origin.step_name(key), shaping.piece.place)
        points.lay(key, shaping.slashes.point(step), shaping.piece.place)
    return points
