"""Notches on both edges of a seam must agree: as many, and as far from the ends that meet.

Which ends meet is told by the corners: ends at points of one name, or beside edges of one name or edges that are
sewn to each other, lie together. Where that says nothing, and where edges are joined to one, it is enough that the
notches agree in some way of laying them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from chalkfold.blocks.desk import Desk
from chalkfold.blocks.drafting.edges import Drawn
from chalkfold.blocks.sewing.seam_edges import Side, Term, closed_up
from chalkfold.blocks.sewing.seams import Seam, added
from chalkfold.diagnostics import Code
from chalkfold.formula import Expression, Name, apply, key_of, length
from chalkfold.plan import Line, Shown, Style
from chalkfold.trade.seams import seam_words

MOST_NOTCHES = 12
MOST_EDGES = 6
"""Notches on a side and edges of a seam beyond which they are not compared, as every way of laying them is tried."""

Turns = tuple[bool, ...]
"""For each edge of a seam, whether it is walked from its last point to its first."""
Pairs = frozenset[frozenset[tuple[str, str]]]
"""The edges that are sewn to each other, each by the keys of piece and edge."""


@dataclass(frozen=True, slots=True)
class Notch:
    """A notch of a draft, ``at`` (a length) from the first point of its edge (a key), or from the last.

    ``point`` is where it was placed; ``as_sewn``: the edge was shaped since, and ``at`` is measured on it as sewn.
    """

    edge: str
    at: Name
    from_end: bool
    double: bool
    point: Name
    as_sewn: bool = False


@dataclass(frozen=True, slots=True)
class Marked:
    """What seams are matched by: the edges of a draft by key, the spelling of its points, and its notches.

    Notches on one side as worn are left out: the two copies of the edge are not alike.
    """

    edges: Mapping[str, Drawn]
    points: Mapping[str, str]
    notches: tuple[Notch, ...]


@dataclass(frozen=True, slots=True)
class Placed:
    """A notch as walked: which edge of the seam it lies on."""

    notch: Notch
    edge: int


def notches_agree(seam: Seam, pairs: Pairs, desk: Desk) -> None:
    """Report notches that one side has and the other has not; demand that the others lie alike."""
    if not _comparable(seam, desk):
        return
    sides = [
        list(_placed(side, sum(len(each.edges) for each in seam.sides[:at]), desk))
        for at, side in enumerate(seam.sides)
    ]
    if max(map(len, sides)) > MOST_NOTCHES:
        return
    counts = [Counter(each.notch.double for each in side) for side in sides]
    if counts[0] != counts[1]:
        first, second = (f"{seam.label(at)} has {_counted(counts[at])}" for at in (0, 1))
        hint = "give both edges the same notches, or take out the one without a partner"
        desk.faults.add(Code.SEW, f"{first}, and {second}", seam.sentence.said.span(), hint)
    elif sides[0] and seam.sentence.way is None:
        _demand(seam, sides, pairs, desk)


def _comparable(seam: Seam, desk: Desk) -> bool:
    """Whether every edge is drawn, whole, and there equally often, and each goes on across a fold or none does."""
    edges = [term for side in seam.sides for term in side.terms]
    drawn = all(term.piece is not None and term.place[0] in desk.drafts and not term.partly for term in edges)
    folds = {term.whole for term in edges}
    alike = folds == {1} or (folds == {2} and len(edges) == 2 and not any(_in_the_round(term) for term in edges))
    return len(seam.sides) == 2 and drawn and alike and not seam.all_copies and len(edges) <= MOST_EDGES


def _in_the_round(term: Term) -> bool:
    return term.piece is not None and term.piece.outline.edges[term.edge].folds > 1


def _placed(side: Side, before: int, desk: Desk) -> Iterator[Placed]:
    for number, term in enumerate(side.edges, start=before):
        piece, edge = term.place
        yield from (Placed(notch, number) for notch in desk.drafts[piece].notches if notch.edge == edge)


def _counted(counts: Counter[bool]) -> str:
    said = [
        f"{counts[double]} {'double ' if double else ''}notch{'es' if counts[double] > 1 else ''}"
        for double in (False, True)
        if counts[double]
    ]
    return " and ".join(said) or "no notch"


def _demand(seam: Seam, sides: Sequence[Sequence[Placed]], pairs: Pairs, desk: Desk) -> None:
    edges = [term for side in seam.sides for term in side.edges]
    ways = _ways(edges, pairs, desk)
    split = len(seam.sides[0].edges)
    place = seam.sentence.said.span()
    holds = [desk.hidden(_alike(edges, split, sides, way, desk), place, quiet=True) for way in ways]
    first, second = (_told(edges, side, ways[0], desk) for side in sides)
    desk.demand(
        _any(holds),
        ("the notches do not meet: ", *first, ", and ", *second),
        place,
        "move a notch, so that both lie equally far from the ends that meet",
        about=seam.name,
    )


def _ways(edges: Sequence[Term], pairs: Pairs, desk: Desk) -> list[Turns]:
    """The ways of laying the edges to try: one, where the corners tell which ends meet."""
    if len(edges) == 2 and edges[0].whole == 2:
        return [tuple(_ends_on_fold(term, desk) == "start" for term in edges)]
    if len(edges) == 2:
        same, turned = (_votes(edges[0], edges[1], turn, pairs, desk) for turn in (False, True))
        if same != turned:
            return [(False, turned > same)]
    return list(product((False, True), repeat=len(edges)))


def _ends_on_fold(term: Term, desk: Desk) -> str:
    """Which end of an edge lies on the fold."""
    drawn = _drawn(term, desk)
    return "start" if any(_on_fold(term, edge) for edge in _beside(term, drawn.start, desk)) else "end"


def _on_fold(term: Term, edge: str) -> bool:
    assert term.piece is not None
    return any(found.on_fold for name, found in term.piece.outline.edges.items() if key_of(name) == edge)


def _drawn(term: Term, desk: Desk) -> Drawn:
    piece, edge = term.place
    return desk.drafts[piece].edges[edge]


def _beside(term: Term, point: str, desk: Desk) -> set[str]:
    """The keys of the other edges of the outline that meet at a point."""
    assert term.piece is not None
    piece, own = term.place
    keys = {key_of(name) for name in term.piece.outline.edges} - {own}
    edges = desk.drafts[piece].edges
    return {key for key in keys if key in edges and point in (edges[key].start, edges[key].end)}


def _votes(first: Term, second: Term, turned: bool, pairs: Pairs, desk: Desk) -> int:
    """How many corners speak for laying the second edge this way round beside the first."""
    here, there = _drawn(first, desk), _drawn(second, desk)
    ends = (
        ((here.start, there.end), (here.end, there.start))
        if turned
        else ((here.start, there.start), (here.end, there.end))
    )
    votes = 0
    for one, other in ends:
        beside, against = _beside(first, one, desk), _beside(second, other, desk)
        sewn = any(frozenset({(first.place[0], a), (second.place[0], b)}) in pairs for a in beside for b in against)
        votes += (one == other) + bool(beside & against) + sewn
    return votes


def _alike(edges: Sequence[Term], split: int, sides: Sequence[Sequence[Placed]], way: Turns, desk: Desk) -> Expression:
    """Whether each notch of the first side has one of its kind on the second, and the other way about."""
    near = length(seam_words().notches)
    walked = [
        [(each.notch.double, _walked(edges, 0 if side == 0 else split, each, way, desk)) for each in placed]
        for side, placed in enumerate(sides)
    ]
    conditions = [
        _any([apply("<=", apply("max", a - b, b - a), near) for kind, b in others if kind == double])
        for mine, others in (walked, reversed(walked))
        for double, a in mine
    ]
    whole = conditions[0]
    for other in conditions[1:]:
        whole = apply("and", whole, other)
    return whole


def _any(conditions: Sequence[Expression]) -> Expression:
    found = conditions[0]
    for other in conditions[1:]:
        found = apply("or", found, other)
    return found


def _walked(edges: Sequence[Term], first: int, placed: Placed, way: Turns, desk: Desk) -> Name:
    """How far a notch lies from the beginning of its side, with its edges laid end to end."""
    before = [closed_up(term)[0] for term in edges[first : placed.edge]]
    term = edges[placed.edge]
    own = _from(placed.notch, term, way[placed.edge])
    turns = "".join("<" if turn else ">" for turn in way[first : placed.edge + 1])
    name = f"= walked {turns} {placed.edge} {placed.notch.at.name}"
    step = desk.step(name, added([*before, own]), term.said.span())
    desk.want(step)
    return step


def _from(notch: Notch, term: Term, turned: bool) -> Expression:
    return notch.at if notch.from_end == turned else closed_up(term)[0] - notch.at


def _told(edges: Sequence[Term], side: Sequence[Placed], way: Turns, desk: Desk) -> Line:
    """``side of front at 10 cm and 20 cm from waist at side``."""
    line: list[str | Shown] = []
    for number in dict.fromkeys(each.edge for each in side):
        term, turned = edges[number], way[number]
        drawn = _drawn(term, desk)
        line += [f"{' and ' if line else ''}{term.edge} of {term.piece.name if term.piece else ''} at "]
        here = [each for each in side if each.edge == number]
        for count, each in enumerate(here):
            at = desk.hidden(_from(each.notch, term, turned), term.said.span(), Style.FINE)
            line += [*([", "] if count else []), desk.shown(at)]
        as_sewn = " as sewn" if here[0].notch.as_sewn else ""
        line.append(f"{as_sewn} from {desk.drafts[term.place[0]].points[drawn.end if turned else drawn.start]}")
    return tuple(line)
