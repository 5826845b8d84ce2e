"""Matching marks: both edges of a seam in so many equal parts, so that the cloth between two marks finds its place."""

from __future__ import annotations

from chalkfold.blocks.desk import Desk
from chalkfold.blocks.seam_edges import Side
from chalkfold.blocks.seam_sentences import MATCHED
from chalkfold.blocks.seams import Seam
from chalkfold.diagnostics import Code
from chalkfold.formula import Name, apply
from chalkfold.plan import Frame, Line, Style, Table

MOST_PARTS = 24
START = (
    "Measured from the end you begin at, or in the round from the seam you begin at, which is the first mark itself."
)


def match_in_parts(seam: Seam, desk: Desk) -> Table | None:
    """Where to mark each edge, from its beginning; None where nobody asks, or after a fault."""
    option = seam.sentence.option(MATCHED)
    if option is None or option.rest is None:
        return None
    parts = int(option.rest.value)
    if not 2 <= parts <= MOST_PARTS:
        message = f"an edge is matched in 2 to {MOST_PARTS} parts, and this says {parts}"
        desk.faults.add(Code.SEW, message, option.rest.span(), "write `matched in 4` or `matched in 8`")
        return None
    edges = (seam.first,) if len(seam.sides) == 1 else (seam.first, seam.second)
    columns: tuple[Line, ...] = (("Mark",), *((seam.label(number),) for number in range(len(edges))))
    rows: tuple[tuple[Line, ...], ...] = tuple(
        ((str(number),), *((desk.shown(_place(edge, number, parts, desk)),) for edge in edges))
        for number in range(1, parts)
    )
    caption = " ".join([START, *_joins(seam, parts)])
    frame = Frame(title=(f"Marks for {seam.name}, in {parts} parts",), caption=(caption,))
    return Table(frame, columns, rows, all_sizes=tuple(range(1, len(columns))))


def _place(edge: Name, number: int, parts: int, desk: Desk) -> Name:
    place = edge.span
    assert place is not None
    return desk.step(
        f"= mark {number} of {parts} on {edge.name}", apply("*", number, edge) / parts, place, style=Style.FINE
    )


def _joins(seam: Seam, parts: int) -> list[str]:
    """Which marks are joins of the pieces themselves, where that is the same in every size."""
    return [found for side in seam.sides if seam.all_copies and (found := _joins_of(side, parts))]


def _joins_of(side: Side, parts: int) -> str:
    (only, *others) = side.terms
    if others or only.times == 1:
        return "" if not others else f"On {side.label(True)} measure over the joins."
    if parts % only.times:
        return f"On {side.label(True)} measure over the joins."
    every = parts // only.times
    which = {1: "every mark is", 2: "every second mark is", 3: "every third mark is"}.get(
        every, f"every {every}th mark is"
    )
    return f"On {side.label(True)} {which} a join of two pieces."
