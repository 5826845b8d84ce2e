"""The edges of a seam: which piece they are of, how often they are there, and how long they are.

An edge is there once for each copy, and on a piece that is cut on the fold once more for each layer, unless it goes
on across the fold: then both halves are one edge. Source: counting; what ``of`` means is settled in ``pieces.py``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk, times
from chalkfold.blocks.pieces import Piece
from chalkfold.blocks.sewing.seam_sentences import trimmed
from chalkfold.diagnostics import Code, near
from chalkfold.formula import Expression, Name, apply, key_of
from chalkfold.plan import Limit
from chalkfold.reading import Text

_JOIN = re.compile(r"\s+(?P<sign>\+|-|−|and)\s+", re.I)
_EDGE = re.compile(r"(?P<edge>[^\W\d].*?)\s+of\s+(?P<piece>.+?)(?:\s+from\s+(?P<first>.+?)\s+to\s+(?P<last>.+))?", re.I)
_HALF = re.compile(r"half\s+of\s", re.I)
_ONE = re.compile(r"one\s+", re.I)


@dataclass(frozen=True, slots=True)
class Term:
    """An edge, or a length that is added or taken away; ``length`` is that of one, which is there ``times`` times.

    ``one`` counts one copy only; ``whole`` is how many drawn lengths make one.
    """

    said: Text
    length: Expression
    piece: Piece | None = None
    edge: str = ""
    times: int = 1
    whole: int = 1
    one: bool = False
    partly: bool = False
    negative: bool = False

    @property
    def place(self) -> tuple[str, str]:
        """The keys of its piece and its edge."""
        return ("" if self.piece is None else key_of(self.piece.name), key_of(self.edge))


@dataclass(frozen=True, slots=True)
class Side:
    """What lies on one side of a seam: edges laid end to end, in the order written."""

    said: Text
    terms: tuple[Term, ...]

    @property
    def edges(self) -> tuple[Term, ...]:
        return tuple(term for term in self.terms if term.piece is not None)

    def length(self, all_copies: bool) -> Expression:
        """Of one, or of all copies."""
        first, *others = ((term, times(term.length, term.times if all_copies else 1)) for term in self.terms)
        found = first[1]
        for term, part in others:
            found = found - part if term.negative else found + part
        return found

    def label(self, all_copies: bool) -> str:
        """As typed, with how often each edge is there where all copies count."""
        if not all_copies:
            return " ".join(self.said.value.split())
        parts: list[str] = []
        for term in self.terms:
            sign = [" - " if term.negative else " + "] if parts else []
            said = " ".join(term.said.value.split())
            parts += [*sign, said if term.times == 1 else f"{term.times} × {said}"]
        return "".join(parts)


def read_side(said: Text, desk: Desk) -> Side | None:
    """Look up the edges of a side; None after a fault."""
    texts = list(_terms(said))
    shared = next((piece for text, _ in reversed(texts) if (piece := _piece_of(text, desk))), None)
    terms = [_term(text, negative, shared, desk) for text, negative in texts]
    found = tuple(term for term in terms if term is not None)
    if len(found) < len(terms):
        return None
    wrong = found[0] if not found[0].piece else next((term for term in found if term.piece and term.negative), None)
    if wrong is not None:
        message = "a side of a seam begins with an edge, and edges are only added up"
        hint = "write the edges first, then what is added or taken away, as in `waist of skirt + 3 cm`"
        piece = desk.pieces.get(key_of(wrong.said.value))
        if piece is not None:
            message = f"it is not said which edge of {piece.name}"
            edges = [name for name, each in piece.outline.edges.items() if not each.on_fold]
            hint = f"write `{edges[0]} of {piece.name}`; its edges are: {', '.join(edges)}" if edges else hint
        desk.faults.add(Code.SEW, message, wrong.said.span(), hint)
        return None
    return Side(said, found)


def _terms(said: Text) -> Iterator[tuple[Text, bool]]:
    """The parts between `+`, `and` and `-`, outside of brackets; whether each is taken away."""
    start, negative = 0, False
    for found in _JOIN.finditer(said.value):
        before = said.value[: found.start()]
        if before.count("(") == before.count(")"):
            yield trimmed(said, start, found.start()), negative
            start, negative = found.end(), found["sign"] in "-−"
    yield trimmed(said, start, len(said.value)), negative


def _edge(said: Text) -> re.Match[str] | None:
    return None if _HALF.match(said.value) else _EDGE.fullmatch(said.value)


def _piece_of(said: Text, desk: Desk) -> Piece | None:
    found = _edge(said)
    return None if found is None else desk.pieces.get(key_of(found["piece"]))


def _term(said: Text, negative: bool, shared: Piece | None, desk: Desk) -> Term | None:
    found = _edge(said)
    if found is None:
        if shared is not None and _edge_name(said.value, shared) is not None:
            return of_piece(said, said, shared, negative, desk)
        return _length(said, negative, desk)
    piece = find_piece(said.part(found.start("piece"), found.end("piece")), desk)
    edge = said.part(found.start("edge"), found.end("edge"))
    term = None if piece is None else of_piece(said, edge, piece, negative, desk)
    if term is None or found["first"] is None:
        return term
    first, last = (said.part(found.start(name), found.end(name)) for name in ("first", "last"))
    return _part(term, first, last, desk)


def _length(said: Text, negative: bool, desk: Desk) -> Term | None:
    expression = desk.formula(said)
    if expression is None:
        return None
    step = desk.step(f"= added {len(desk.steps)}", expression, said.span(), limit=Limit.NOT_NEGATIVE, kind=Kind.LENGTH)
    return Term(said, step, negative=negative)


def find_piece(said: Text, desk: Desk) -> Piece | None:
    """The piece called so; None after a fault, or silently where it was itself faulty."""
    key = key_of(said.value)
    if key in desk.pieces:
        return desk.pieces[key]
    if key in desk.broken or desk.nameless:
        return None
    names = [piece.name for piece in desk.pieces.values()]
    likely = near(said.value, names)
    hint = f"did you mean `{likely}`?" if likely else f"the pieces are: {', '.join(names)}"
    if not names:
        hint = "this post has no pieces yet; give it a `draft` or a `cut-list`"
    desk.faults.add_once(Code.SEW, f"there is no piece called `{said.value}`", said.span(), hint)
    return None


def _edge_name(said: str, piece: Piece) -> str | None:
    return next((name for name in piece.outline.edges if key_of(name) == key_of(said)), None)


def of_piece(said: Text, edge: Text, piece: Piece, negative: bool, desk: Desk) -> Term | None:
    """The edge called so, or ``one`` of it; None after a fault."""
    one = _ONE.match(edge.value) if _edge_name(edge.value, piece) is None else None
    named = trimmed(edge, one.end() if one else 0, len(edge.value))
    name = _edge_name(named.value, piece)
    if name is None:
        edges = [each for each, found in piece.outline.edges.items() if not found.on_fold]
        likely = near(named.value, edges)
        hint = f"did you mean `{likely}`?" if likely else f"its edges are: {', '.join(edges)}"
        desk.faults.add_once(Code.SEW, f"{piece.name} has no edge called `{named.value}`", named.span(), hint)
        return None
    found = piece.outline.edges[name]
    if found.on_fold:
        message = f"{name} of {piece.name} lies on the fold, and is never sewn"
        hint = "leave it out; where the cloth is cut open there, cut the piece flat and not on the fold"
        desk.faults.add(Code.SEW, message, said.span(), hint)
        return None
    whole = min(2**found.folds, piece.main.layers)
    there = 1 if one else piece.main.layers * piece.copies // whole
    length = Name(f"{name} of {piece.name}", said.span())
    return Term(said, length, piece, name, there, whole, one is not None, negative=negative)


def _part(term: Term, first: Text, last: Text, desk: Desk) -> Term | None:
    """``side of front from 2 cm to 18 cm``: part of an edge as drawn, its darts and pleats closed."""
    texts = (first, last)
    formulas = [desk.formula(text) for text in texts]
    if term.piece is None or any(formula is None for formula in formulas):
        return None
    begin, end = (
        desk.step(f"= part {len(desk.steps)}", formula, text.span(), limit=Limit.NOT_NEGATIVE, kind=Kind.LENGTH)
        for text, formula in zip(texts, formulas, strict=True)
        if formula is not None
    )
    whole, how = closed_up(term)
    ran = ("this part runs from ", desk.shown(begin), " to ", desk.shown(end))
    desk.demand(
        apply("and", apply("<", begin, end), apply("<=", end, whole)),
        (*ran, f", and {term.edge} of {term.piece.name} is ", desk.shown(whole), f" as {how}"),
        term.said.span(),
        "write two lengths from 0 to that of the edge, the smaller one first",
    )
    there = 1 if term.one else term.piece.main.layers * term.piece.copies
    return replace(term, length=desk.hidden(end - begin, term.said.span()), times=there, whole=1, partly=True)


def closed_up(term: Term) -> tuple[Name, str]:
    """A whole edge with its darts and pleats closed, on the half where it goes on across a fold; and what it is called:
    sewn where there are such, else drawn.
    """
    assert term.piece is not None
    how = "drawn" if term.piece.outline.edges[term.edge].takes is None else "sewn"
    return Name(f"{how} {term.edge} of {term.piece.name}", term.said.span()), how
