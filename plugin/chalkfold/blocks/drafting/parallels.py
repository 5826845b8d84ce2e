"""A line inside the piece, beside one of its edges all the way: ``facing line: parallel to hem at 6 cm``."""

from __future__ import annotations

import re
from collections.abc import Sequence

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.drafting.drawn import Side
from chalkfold.blocks.drafting.edges import Drawn, Edges
from chalkfold.diagnostics import Code
from chalkfold.formula import Apply, Name, key_of, plain
from chalkfold.plan import Part
from chalkfold.reading import Entry, Text

_PARALLEL = re.compile(r"parallel\s+to\s+(?P<edge>.+?)\s+at\s+(?P<at>.+)", re.I)
HINT = "write `parallel to EDGE at 6 cm`"


def parallel_line(
    name: str, entry: Entry, sides: Sequence[Side], edges: Edges, flat: Name | None = None
) -> Drawn | None:
    """The line as read; it runs as its edge does, from the one neighbour to the other, and neither end has a name.

    ``flat`` is the outline before it was shaped, where it was: slashes move the line as they do any other; or of what
    no piece has been made yet.
    """
    said, desk = entry.value, edges.desk
    match = _PARALLEL.fullmatch(said.value) if isinstance(said, Text) else None
    if not isinstance(said, Text) or match is None:
        desk.faults.add(Code.DRAFT, f"`{name}` does not say beside what it runs, and how far", said.where, HINT)
        return None
    of = said.part(match.start("edge"), match.end("edge"))
    distance = desk.formula(said.part(match.start("at"), match.end("at")))
    if edges.find(of) is None or distance is None:
        return None
    index = next(number for number, side in enumerate(sides) if key_of(side.name) == key_of(of.value))
    folds = sum(2**number for number, side in enumerate(sides) if side.on_fold and number != index)
    outline = flat or Name(f"outline of {edges.piece}", of.span())
    line = Apply("parallel line", (outline, plain(index), distance, plain(folds)), said.span())
    parts = tuple(Part(side.name, of.span()) for side in sides)
    where = f"piece {edges.piece}"
    step = desk.step(f"edge {name} of {edges.piece}", line, entry.key.span(), where=where, kind=Kind.EDGE, parts=parts)
    return Drawn(name, step, "", "", False, False, None, entry.key.span())
