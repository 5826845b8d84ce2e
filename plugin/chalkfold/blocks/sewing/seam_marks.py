"""Matching marks: both edges of a seam in so many equal parts, so that the cloth between two marks finds its place."""

from __future__ import annotations

from chalkfold.blocks.desk import Desk
from chalkfold.blocks.sewing.seam_edges import Side
from chalkfold.blocks.sewing.seam_sentences import MATCHED
from chalkfold.blocks.sewing.seams import Seam
from chalkfold.diagnostics import Code
from chalkfold.formula import Apply, Name, plain
from chalkfold.plan import Frame, Listing, Style

MOST_PARTS = 24
START = (
    "Measured from the end you begin at, or in the round from the seam you begin at, which is the first mark itself."
)


def match_in_parts(seam: Seam, desk: Desk) -> Listing | None:
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
    columns = tuple(((seam.label(side),), _places(edge, parts, desk).key) for side, edge in enumerate(edges))
    caption = " ".join([START, *_shaped(seam), *_joins(seam, parts)])
    return Listing(Frame(title=(f"Marks for {seam.name}, in {parts} parts",), caption=(caption,)), columns)


def _places(edge: Name, parts: int, desk: Desk) -> Name:
    """A mark at the end of every part but the last."""
    assert edge.span is not None
    row = Apply("series", (edge / parts, edge / parts, plain(parts - 1)), edge.span)
    step = desk.step(f"= marks on {edge.name}", row, edge.span, style=Style.FINE)
    desk.want(step)
    return step


def _shaped(seam: Seam) -> list[str]:
    """What to close before marking: the tape runs along the edge as it is sewn."""
    edges = [(side, term.piece.outline.edges[term.edge]) for side in seam.sides for term in side.edges if term.piece]
    sides = dict.fromkeys(side.label(True) for side, edge in edges if edge.takes is not None)
    return [f"Close the darts and pleats of {label} first." for label in sides]


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
