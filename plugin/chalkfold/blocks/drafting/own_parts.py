"""What is written for a piece that is made from another one: points, lines and folds beside those it has already."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from chalkfold.blocks.desk import zero
from chalkfold.blocks.drafting.contour import Contour, edges_of
from chalkfold.blocks.drafting.drawn import Side
from chalkfold.blocks.drafting.edges import Drawn, edges_and_lines, read_lines
from chalkfold.blocks.drafting.fold_edges import KEYS, named_edges
from chalkfold.blocks.drafting.parallels import parallel_line
from chalkfold.blocks.drafting.points import add_points
from chalkfold.formula import Apply, key_of
from chalkfold.reading import Fields, Mapping


def with_own(contour: Contour, fields: Fields) -> Contour:
    """A contour with the points and lines that are written for it."""
    taken = contour.lines or {}
    known = edges_of(contour.edges.piece, (*contour.edges.drawn.values(), *taken.values()), contour.edges.desk)
    lines = fields.mapping("lines")
    add_points(fields.mapping("points"), contour.points, edges_and_lines(known, lines))
    return replace(contour, lines={**taken, **own_lines(lines, contour)})


def own_lines(body: Mapping | None, contour: Contour) -> dict[str, Drawn]:
    """The lines that are written, on a contour of which no piece has been made yet."""
    edges, desk = contour.edges, contour.edges.desk
    if body is None:
        return {}
    drawn, folds = tuple(edges.drawn.values()), contour.folds or frozenset()
    outline = desk.step(
        f"= outline {len(desk.steps)}", Apply("outline", tuple(each.step for each in drawn)), body.where
    )
    sides = tuple(Side(each.name, each.step, zero(), 0, key in folds) for key, each in edges.drawn.items())
    parallel = partial(parallel_line, sides=sides, edges=edges, flat=outline)
    return read_lines(body, edges, contour.points, parallel)


def said_folds(contour: Contour, fields: Fields) -> frozenset[str]:
    """The keys of the edges that a draft says lie on a fold."""
    said = [text for key in KEYS for text in named_edges(fields.texts(key), contour.edges)]
    return frozenset(key_of(text.value) for text in said) & contour.edges.drawn.keys()
