"""``cut away: above hip line``: what remains is the piece, and the line is an edge of it."""

from __future__ import annotations

import re
from dataclasses import replace

from chalkfold.blocks.desk import Desk
from chalkfold.blocks.drafting.contour import Contour, edges_of, is_own, named_once
from chalkfold.blocks.drafting.edges import Drawn
from chalkfold.blocks.drafting.parted_shapings import Held, on_edges, shapings_in
from chalkfold.blocks.drafting.parting import Parted, find_line, parted
from chalkfold.blocks.drafting.shaped_before import with_shapings
from chalkfold.blocks.drafting.what_is_left import lines_left, marks_left, read_marks
from chalkfold.diagnostics import Code
from chalkfold.formula import key_of
from chalkfold.reading import Fields, Mapping, Text

_SIDE = re.compile(r"(?:above|below|left\s+of|right\s+of)\s+(?P<line>.+)", re.I)
_FROM = re.compile(r"from\s+(?P<line>.+?)\s+(?P<side>towards\s+.+)", re.I)
MOST_CUTS = 12
WAYS = (
    "write `above LINE`, `below LINE`, `left of LINE` or `right of LINE` with a line of `lines:`, "
    "or `from LINE towards EDGE`"
)


def cut_away(contour: Contour, fields: Fields, desk: Desk) -> Contour | None:
    """What remains of a contour whose lines have been read; None after a fault."""
    lost = fields.texts("cut away")
    if _too_many(lost, contour, desk):
        return None
    marked = with_shapings(_with_marks(contour, fields, desk), fields, desk)
    if marked is None:
        return None
    whole = contour = marked
    for said in lost:
        remains = _without(contour, said, desk)
        if remains is None:
            return None
        contour = remains
    allowances = fields.whole.get("allowances")
    taken = allowances.entries if isinstance(allowances, Mapping) else ()
    named = {key_of(entry.key.value) for entry in taken if not is_own(entry.key, fields)}
    return replace(contour, gone=frozenset(named & whole.edges.drawn.keys()))


def _too_many(lost: list[Text], contour: Contour, desk: Desk) -> bool:
    if len(lost) > MOST_CUTS:
        message = f"{contour.edges.piece} is cut away {len(lost)} times"
        desk.faults.add(Code.DRAFT, message, lost[-1].span(), f"cut away at most {MOST_CUTS} times, or draw the rest")
    return len(lost) > MOST_CUTS


def _with_marks(contour: Contour, fields: Fields, desk: Desk) -> Contour:
    """With the marks that another piece had on it, which go where the cloth goes."""
    taken = [said for said in fields.texts("marks") if not is_own(said, fields)]
    edges = edges_of(contour.edges.piece, (*contour.edges.drawn.values(), *(contour.lines or {}).values()), desk)
    marks = read_marks(taken, contour.edges.piece, edges, contour.points, desk)
    return replace(contour, marks=(*contour.marks, *marks), marks_taken=bool(taken))


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
    held = shapings_in(parts, [line], named.span(), desk)
    return None if away is None or held is None else _remaining(contour, parts, 1 - away, line, held[1 - away], desk)


def _remaining(contour: Contour, parts: Parted, kept: int, line: Drawn, held: Held, desk: Desk) -> Contour:
    drawn, as_for = named_once(parts.regions[kept])
    edges = edges_of(contour.edges.piece, drawn, desk)
    outline, lines = parts.outline(parts.regions[kept]), contour.lines or {}
    others = {key: each for key, each in lines.items() if each.name != line.name}
    stood_on = (*contour.edges.drawn.values(), *lines.values())
    return replace(
        contour,
        edges=edges,
        lines=lines_left(others, outline, contour.points, desk),
        folds=None if contour.folds is None else contour.folds & edges.drawn.keys(),
        as_for={**contour.as_for, **as_for},
        marks=marks_left(contour.marks, stood_on, outline, edges, desk),
        shapings=on_edges(held, edges, as_for, desk),
    )
