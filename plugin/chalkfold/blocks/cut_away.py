"""``cut away: above hip line``: what remains is the piece, and the line is an edge of it."""

from __future__ import annotations

import re
from dataclasses import replace

from chalkfold.blocks.contour import Contour, edges_of, named_once
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.edges import Drawn
from chalkfold.blocks.parting import Parted, find_line, parted
from chalkfold.blocks.trial import answers
from chalkfold.diagnostics import Code
from chalkfold.formula import Apply, Name, key_of
from chalkfold.reading import Fields, Text

_SIDE = re.compile(r"(?:above|below|left\s+of|right\s+of)\s+(?P<line>.+)", re.I)
_FROM = re.compile(r"from\s+(?P<line>.+?)\s+(?P<side>towards\s+.+)", re.I)
WAYS = (
    "write `above LINE`, `below LINE`, `left of LINE` or `right of LINE` with a line of `lines:`, "
    "or `from LINE towards EDGE`"
)


def cut_away(contour: Contour, fields: Fields, desk: Desk) -> Contour | None:
    """What remains of a contour whose lines have been read; None after a fault."""
    for said in fields.texts("cut away"):
        remains = _without(contour, said, desk)
        if remains is None:
            return None
        contour = remains
    return contour


def _without(contour: Contour, said: Text, desk: Desk) -> Contour | None:
    match = _FROM.fullmatch(said.value) or _SIDE.fullmatch(said.value)
    if match is None:
        desk.faults.add(Code.DRAFT, f"`{said.value}` does not say what to cut away", said.span(), WAYS)
        return None
    named = said.part(match.start("line"), match.end("line"))
    lines = contour.lines or {}
    if key_of(named.value) in contour.edges.drawn:
        piece = contour.edges.piece
        message = f"`{named.value}` is an edge of {piece}, and all of {piece} lies on one side of it"
        desk.faults.add(Code.DRAFT, message, named.span(), "name a line that runs through what is left of the piece")
        return None
    line = find_line(named, lines, contour.edges.piece, desk)
    if line is None:
        return None
    parts = parted(contour, said.span(), desk)
    if not parts.part(line, named.span()):
        return None
    side = said.part(match.start("side"), match.end("side")) if "side" in match.groupdict() else said
    away = parts.meant(side, [line.name])
    return None if away is None else _remaining(contour, parts, 1 - away, line)


def _remaining(contour: Contour, parts: Parted, kept: int, line: Drawn) -> Contour:
    drawn, as_for = named_once(parts.regions[kept])
    edges = edges_of(contour.edges.piece, drawn, contour.edges.desk)
    others = {key: each for key, each in (contour.lines or {}).items() if each.name != line.name}
    lines = {key: each for key, each in others.items() if _lies_inside(each, parts, kept)}
    folds = None if contour.folds is None else contour.folds & edges.drawn.keys()
    return replace(contour, edges=edges, lines=lines, folds=folds, as_for={**contour.as_for, **as_for}, marks=None)


def _lies_inside(line: Drawn, parts: Parted, kept: int) -> bool:
    """Whether both ends of another line are left, in every size."""
    outline = parts.outline(parts.regions[kept])
    ends = (Name(parts.contour.points.step_name(key), parts.place) for key in (line.start, line.end))
    rows = answers(parts.desk, parts.place, *(Apply("inside", (outline, end), parts.place) for end in ends))
    return all(value is True for row in rows for value in row)
