"""From the pieces as cut back to what is promised: allowances at both sides of a seam, and the length of a garment."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations

from chalkfold.blocks.built_in.casings import channel_of
from chalkfold.blocks.built_in.made import Found
from chalkfold.blocks.built_in.strips import is_rectangle
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.pieces import Piece
from chalkfold.blocks.purposes import purpose_of
from chalkfold.blocks.sewing.seam_edges import Term
from chalkfold.blocks.sewing.seams import Seam
from chalkfold.formula import Apply, Expression, Name, apply, key_of
from chalkfold.plan import names_in
from chalkfold.reading import Text

TAKES_NONE = ("lapped", "bound")
"""Seams whose edges need not have the same allowance."""
LENGTH = "length"


def back_check(desk: Desk) -> Iterator[Found]:
    for seam in desk.seams:
        if len(seam.sides) == 2 and not any(seam.sentence.has(word) for word in TAKES_NONE):
            yield from _allowances(seam)
    yield from _lengths(desk)


def _allowances(seam: Seam) -> Iterator[Found]:
    ones, others = (side.edges for side in seam.sides)
    pairs = [(ones[0], other) for other in others] + [(one, others[0]) for one in ones[1:]] if ones and others else []
    for first, second in pairs:
        values = {"first": _allowance(first), "second": _allowance(second)}
        words = {"first edge": _said(first), "second edge": _said(second)}
        yield Found("allowances", seam.sentence.said.span(), words, values, seam.name)


def _said(term: Term) -> str:
    return " ".join(term.said.value.split())


def _allowance(term: Term) -> Expression:
    assert term.piece is not None
    return term.piece.outline.edges[term.edge].allowance


def _lengths(desk: Desk) -> Iterator[Found]:
    """A finished length that is only planned, against the pieces sewn one below the other."""
    chain = _chain(desk)
    for entry in desk.project.finished or () if chain else ():
        label, value = key_of(entry.key.value), entry.value
        planned = desk.formula(value) if isinstance(value, Text) else None
        if planned is None or not (label == LENGTH or label.startswith(f"{LENGTH} ")):
            continue
        if any(" of " in name.key for name in names_in(planned)):
            continue  # taken from the pattern already
        folded = {piece.name for piece in chain if piece.carries and channel_of(piece, desk) is None}
        pieces = " + ".join(f"half of {piece.name}" if piece.name in folded else piece.name for piece in chain)
        values = {
            "planned": planned,
            "made": _made(chain, folded),
            "nearest": _nearest(planned, chain, folded),
        }
        yield Found("length", entry.key.span(), {"label": entry.key.value, "pieces": pieces}, values)


def _chain(desk: Desk) -> list[Piece]:
    """Pieces joined bottom to top, from the uppermost down; none where they do not make a single row.

    Of a piece with a channel of its own it is not known how much of it stands above; nor how long a row is that is sewn
    on to a piece of another shape, a bodice say.
    """
    below: dict[str, str] = {}
    for seam in desk.seams:
        terms = [side.edges[0] for side in seam.sides if len(side.edges) == 1]
        edges = {key_of(term.edge): term.place[0] for term in terms if term.piece and is_rectangle(term.piece)}
        if len(terms) == 2 and set(edges) == {"top", "bottom"} and edges["top"] != edges["bottom"]:
            below[edges["bottom"]] = edges["top"]
    first = [key for key in below if key not in below.values()]
    found = list(first)
    while len(first) == 1 and found[-1] in below and len(found) <= len(below):
        found.append(below[found[-1]])
    if len(first) != 1 or len(found) != len(below) + 1:
        return []
    if any(purpose_of(key, desk).channel is not None for key in found) or _goes_on(found, desk):
        return []
    return [desk.pieces[key] for key in found]


def _goes_on(chain: list[str], desk: Desk) -> bool:
    """Whether the row is sewn on to a piece that is no rectangle, above or below."""
    ends = {(chain[0], "top"), (chain[-1], "bottom")}
    for seam in desk.seams:
        for one, other in permutations(seam.sides, 2):
            shaped = any(term.piece and not is_rectangle(term.piece) for term in other.edges)
            if shaped and ends & {term.place for term in one.edges}:
                return True
    return False


def _nearest(planned: Expression, chain: list[Piece], folded: set[str]) -> Expression:
    """What the pieces make. A band at either end may be folded, which nobody has to say; then what is nearer counts."""
    ends = [piece.name for piece in (chain[0], chain[-1]) if piece.name not in folded]
    found = _made(chain, folded)
    for more in (ends[:1], ends[1:], ends):
        other = _made(chain, folded | {*more})
        found = Apply("if", (apply("<", _apart(other, planned), _apart(found, planned)), other, found))
    return found


def _apart(one: Expression, other: Expression) -> Expression:
    return apply("max", one - other, other - one)


def _made(chain: list[Piece], folded: set[str]) -> Expression:
    """Cut heights, less the allowances above and below; half of what is folded."""
    parts: list[Expression] = []
    for piece in chain:
        edges = piece.outline.edges
        finished = Name(f"cut height of {piece.name}", piece.span) - edges["top"].allowance - edges["bottom"].allowance
        parts.append(finished / 2 if piece.name in folded else finished)
    total = parts[0]
    for part in parts[1:]:
        total = total + part
    return total
