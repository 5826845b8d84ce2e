"""``right front laps left front 14 cm at waist``: what two pieces lie over each other, which a girth has once."""

from __future__ import annotations

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.pieces import Piece
from chalkfold.blocks.sewing.seam_edges import find_piece, of_piece
from chalkfold.blocks.sewing.seam_sentences import Lap, trimmed
from chalkfold.diagnostics import Code
from chalkfold.formula import Expression, Name, apply, key_of
from chalkfold.plan import Limit, Line
from chalkfold.reading import Text

ITSELF = "itself"
OVERLAP = "overlap at "
HOW = "write `right front laps left front 14 cm at waist`, or `skirt laps itself 14 cm at waist`"


def lay_lap(lap: Lap, number: int, desk: Desk) -> list[tuple[Line, ...]]:
    """Lay down ``overlap at EDGE``, the sum of all laps there; return its row of the order, none after a fault."""
    found = _under(lap.under, desk)
    upper = find_piece(lap.upper, desk)
    if found is None or upper is None:
        return []
    said, by = found
    lower = upper if said is None else find_piece(said, desk)
    expression = desk.formula(by)
    if lower is None or expression is None:
        return []
    pieces = (upper,) if lower is upper else (upper, lower)
    edges = [_edge_or_line(lap.edge, piece, desk) for piece in pieces]
    own = desk.step(f"= lap {number}", expression, by.span(), limit=Limit.POSITIVE, kind=Kind.LENGTH)
    for piece, edge in zip(pieces, edges, strict=True):
        if edge is None:
            return []
        _demand(own, edge, piece, by, desk)
    overlap = _summed(own, lap.edge, desk)
    what = f"{number}. {upper.name} laps {ITSELF if said is None else lower.name}"
    return [((what,), (f"{OVERLAP}{key_of(lap.edge.value)}, no seam",), (desk.shown(own),))] if overlap else []


def _under(said: Text, desk: Desk) -> tuple[Text | None, Text] | None:
    """The piece that lies under (None for the piece itself), and by how much it is lapped."""
    words = said.value.split()
    known = [*(key_of(piece.name) for piece in desk.pieces.values()), *desk.broken, ITSELF]
    for count in range(len(words) - 1, 0, -1):
        if key_of(" ".join(words[:count])) in known:
            break
    else:
        if desk.nameless:
            return None
        count = next((at for at, word in enumerate(words) if word[0].isdigit()), len(words))
    end = 0
    for word in words[:count]:
        end = said.value.index(word, end) + len(word)
    by = trimmed(said, end, len(said.value))
    by = trimmed(by, 2, len(by.value)) if by.value.casefold().startswith("by ") else by
    if not by.value or not count:
        message = "it is not said which piece is lapped" if by.value else "it is not said how much is lapped"
        desk.faults.add(Code.SEW, message, said.span(), HOW)
        return None
    under = said.part(0, end)
    return (None if key_of(under.value) == ITSELF else under), by


def _edge_or_line(said: Text, piece: Piece, desk: Desk) -> str | None:
    """The edge of a piece, or the level or style line in it, at which it is lapped; None after a fault."""
    line = key_of(f"total {said.value} of {piece.name}")
    if line in desk.steps and all(key_of(edge) != key_of(said.value) for edge in piece.outline.edges):
        return said.value
    term = of_piece(said, said, piece, False, desk)
    return None if term is None else term.edge


def _demand(lap: Name, edge: str, piece: Piece, by: Text, desk: Desk) -> None:
    whole: Expression = Name(f"total {edge} of {piece.name}", by.span())
    shown = desk.value(whole, by.span())
    desk.demand(
        apply("<=", lap, whole),
        ("the lap of ", desk.shown(lap), f" is longer than {edge} of {piece.name}, ", shown),
        by.span(),
        "lap it less, or mend the edge",
    )


def _summed(lap: Name, edge: Text, desk: Desk) -> Name:
    """``overlap at waist``: every lap at edges of that name."""
    name = OVERLAP + key_of(edge.value)
    before = desk.steps.get(key_of(name))
    return desk.step(name, lap if before is None else before.expression + lap, edge.span())
