"""Marks and lines of a piece of which only a part is left: those stay that lie on it in every size."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from chalkfold.blocks.desk import Desk, zero
from chalkfold.blocks.drafting.contour import line_ends, place_of
from chalkfold.blocks.drafting.edges import Drawn, Edges
from chalkfold.blocks.drafting.marks import Marks
from chalkfold.blocks.drafting.notches import Notch
from chalkfold.blocks.drafting.points import Points
from chalkfold.blocks.drafting.trial import answers
from chalkfold.diagnostics import Faults
from chalkfold.formula import Apply, Expression, Name, key_of
from chalkfold.plan import Mark
from chalkfold.reading import Text

NOTCHES = ("notch", "double notch")


def lines_left(lines: dict[str, Drawn], outline: Name, points: Points, desk: Desk) -> dict[str, Drawn]:
    """The lines both ends of which lie on the part with this outline."""
    ends = {key: line_ends(line, points) for key, line in lines.items()}
    left = _inside(outline, list(ends.values()), desk)
    return {key: lines[key] for key, stays in zip(ends, left, strict=True) if stays}


def marks_left(
    marks: Sequence[Mark], drawn: Sequence[Drawn], outline: Name, edges: Edges, desk: Desk
) -> tuple[Mark, ...]:
    """The marks that lie on the part, on its own edges; ``drawn`` are the edges and lines they stood on."""
    places = [_places(mark, outline, desk) for mark in marks]
    of = {each.step.key: key_of(each.name) for each in drawn}
    kept = []
    for mark, stays in zip(marks, _inside(outline, places, desk), strict=True):
        if stays:
            found = edges.drawn.get(of.get(mark.edge, ""))
            edge = mark.edge if found is None else found.step.key
            desk.want(*(_point(key, outline, desk) for key in (mark.point, mark.end, edge) if key))
            kept.append(replace(mark, edge=edge))
    return tuple(kept)


def notches_of(marks: Sequence[Mark], drawn: Mapping[str, Drawn], desk: Desk) -> tuple[Notch, ...]:
    """The notches among the marks of a piece that were not written for it, by which its seams are matched."""
    keys = {each.step.key: key for key, each in drawn.items()}
    found = []
    for mark in marks:
        if mark.kind in NOTCHES and not mark.worn and mark.edge in keys:
            edge = drawn[keys[mark.edge]]
            point = Name(desk.steps[mark.point].name, place_of(edge))
            at = desk.step(f"= notch {len(desk.steps)}", Apply("how far along", (edge.step, point)), place_of(edge))
            found.append(Notch(keys[mark.edge], at, False, mark.kind == NOTCHES[1], point))
    return tuple(found)


def read_marks(said: Sequence[Text], piece: str, edges: Edges, points: Points, desk: Desk) -> tuple[Mark, ...]:
    """Marks read on the whole piece before a part is cut away, without a word on those that cannot be."""
    silent = replace(desk, faults=Faults(), demands=[], wanted={})
    reader = Marks(piece, silent, edges, points, number=len(desk.steps))
    return tuple(mark for text in said if (mark := reader.read(text)))


def _point(key: str, outline: Name, desk: Desk) -> Name:
    return Name(desk.steps[key].name, outline.span)


def _places(mark: Mark, outline: Name, desk: Desk) -> list[Expression]:
    """The points of a mark, or the two ends of a line that is one."""
    if mark.point:
        return [_point(key, outline, desk) for key in (mark.point, mark.end) if key]
    line = _point(mark.edge, outline, desk)
    return [Apply("along", (line, part)) for part in (zero(), Apply("length of", (line,)))]


def _inside(outline: Name, places: Sequence[Sequence[Expression]], desk: Desk) -> list[bool]:
    """For each row of points whether all lie on the part, in every size."""
    place = outline.span
    assert place is not None
    questions = [Apply("inside", (outline, point), place) for row in places for point in row]
    rows = iter(answers(desk, place, *questions) if questions else [])
    left = [[next(rows) for _ in row] for row in places]
    return [all(value is True for row in found for value in row) for found in left]
