"""Sentences of curves: ``curve to P leaving down arriving across``, through points, to a length.

A direction is the way one travels: a word, an angle, ``square to EDGE``, ``towards Q``, ``away from Q``, ``smoothly``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.drafting.named_parts import NamedParts
from chalkfold.blocks.drafting.points import Points
from chalkfold.diagnostics import Code, near
from chalkfold.formula import Apply, Expression, Literal, Name, key_of
from chalkfold.reading import Text

HEADINGS = {"right": 0.0, "down": 90.0, "left": 180.0, "up": 270.0}
WORDS = (*HEADINGS, "across", "smoothly")
DIRECTIONS = (
    "write `up`, `down`, `left`, `right`, `across`, an angle such as `30°`, `square to EDGE`, `towards P`, "
    "`away from P` or `smoothly`"
)
HOW = "write `curve to P leaving down arriving across`, or `curve to P through A, B`"
MOST_THROUGH = 12
_CURVE = re.compile(r"curve\s+to\s+(?P<rest>.+)", re.I | re.S)
_CLAUSE = re.compile(r"\s+(through|leaving|arriving)\s+", re.I)
_LONG = re.compile(r"(?P<before>.+?)\s+long", re.I | re.S)
_BY_NAME = re.compile(r"(?P<how>square\s+to|towards|away\s+from)\s+(?P<name>.+)", re.I | re.S)
_FORMULA = re.compile(r"[\d(+*/]")
SMOOTH = {
    "leaving": re.compile(r"\bleaving\s+smoothly\b", re.I),
    "arriving": re.compile(r"\barriving\s+smoothly\b", re.I),
}


@dataclass(frozen=True, slots=True)
class Neighbour:
    """What a sentence joins: the step of an edge, or of one stretch of it, and the sentence that is drawn there."""

    step: Name
    said: str


@dataclass(frozen=True, slots=True)
class Around:
    """What lies before and behind a sentence in its outline or line; nothing at the ends of a line."""

    before: Neighbour | None = None
    after: Neighbour | None = None


@dataclass(frozen=True, slots=True)
class End:
    """One end of a curve: the point there, and from where to where the curve runs there."""

    what: str
    at: Name
    first: Name
    last: Name


@dataclass(frozen=True, slots=True)
class Curves:
    """Reads the sentences of one piece."""

    edges: NamedParts
    points: Points

    def read(self, said: Text, here: Text, around: Around) -> tuple[Expression, Text] | None:
        """The edge that a sentence draws, and where it ends; None after a fault."""
        clauses = self._clauses(said)
        if clauses is None:
            return None
        to, start = clauses["to"], self.points.find(here)
        end = self.points.find(to)
        by = self._through(clauses.get("through"))
        if start is None or end is None or by is None:
            return None
        if key_of(here.value) == key_of(to.value) and not by:
            self._fault(f"the curve starts and ends at `{to.value}`", to, "lead it to another point")
            return None
        names = (start, *by, end)
        length = self._length(clauses)
        ends = (End("leaving", start, names[0], names[1]), End("arriving", end, names[-2], names[-1]))
        turns = tuple(self._direction(clauses[end.what], end, around) for end in ends if end.what in clauses)
        if None in turns or ("long" in clauses and length is None):
            return None
        known = tuple(turn for turn in turns if turn is not None)
        return self._drawn(said, names, known, length, clauses), to

    def _drawn(
        self,
        said: Text,
        names: tuple[Name, ...],
        turns: tuple[Expression, ...],
        length: Expression | None,
        clauses: dict[str, Text],
    ) -> Expression:
        if length is not None:
            return Apply("curve to length", (*names, *turns, length), said.span())
        if "through" not in clauses:
            return Apply("curve", (*names, *turns), said.span())
        which = " both" if len(turns) == 2 else "".join(f" {what}" for what in SMOOTH if what in clauses)
        return Apply(f"curve through{which}", (*turns, *names), said.span())

    def _clauses(self, said: Text) -> dict[str, Text] | None:
        """Its parts by the word before each; a length by ``long``."""
        match = _CURVE.fullmatch(said.value)
        if match is None:
            self._fault(f"`{said.value}` draws nothing", said, HOW)
            return None
        found, word, at = {}, "to", match.start("rest")
        for clause in (*_CLAUSE.finditer(said.value, at), None):
            stop = len(said.value) if clause is None else clause.start()
            if word in found:
                self._fault(f"`{word}` stands here twice", said, "say it once")
                return None
            found[word] = _trimmed(said.part(at, stop))
            if clause is not None:
                word, at = clause[1].casefold(), clause.end()
        return self._whole(said, self._without_length(found, word))

    def _without_length(self, found: dict[str, Text], last: str) -> dict[str, Text]:
        """The length that ends the last clause apart from it: ``across 24 cm long``."""
        match = _LONG.fullmatch(found[last].value)
        if match is None or last == "to":
            return found
        before = found[last].part(0, match.end("before"))
        stop = self._end_of_direction(before.value)
        return found | {last: _trimmed(before.part(0, stop)), "long": _trimmed(before.part(stop, len(before.value)))}

    def _end_of_direction(self, said: str) -> int:
        """Where a direction stops and a length begins: after its word, its name or its degrees, or at a comma."""
        stops = [match.start() for match in re.finditer(r"\s+|$", said)]
        by_name = _BY_NAME.match(said)
        if by_name is not None:
            begin, known = by_name.start("name"), self.points.names.keys() | self.edges.names.keys()
            ends = [stop for stop in stops if stop > begin and key_of(said[begin:stop].rstrip(",")) in known]
            return ends[-1] if ends else len(said)
        if said[: stops[0]].rstrip(",").casefold() in WORDS:
            return stops[0]
        marks = [said.index(mark) + 1 for mark in ("°", ",") if mark in said]
        return marks[0] if marks else stops[0]

    def _whole(self, said: Text, found: dict[str, Text]) -> dict[str, Text] | None:
        missing = [what for what in SMOOTH if what not in found]
        if missing and "through" not in found:
            more = " ".join(f"{what} {'down' if what == 'leaving' else 'across'}" for what in missing)
            message = f"the curve does not say how it {'leaves' if missing[0] == 'leaving' else 'arrives'}"
            self._fault(message, said, f"add a direction, as in `{more}`; {DIRECTIONS}")
            return None
        if "long" in found and "through" in found:
            hint = "leave out the points or the length"
            self._fault("a curve through points has its length already", found["long"], hint)
            return None
        return found

    def _length(self, clauses: dict[str, Text]) -> Expression | None:
        said = clauses.get("long")
        if said is not None and not said.value:
            self._fault("it is not said how long the curve is", said, "write a length before it, as in `24 cm long`")
            return None
        return self.points.desk.formula(said)

    def _through(self, said: Text | None) -> tuple[Name, ...] | None:
        if said is None:
            return ()
        spots = [_trimmed(said.part(*match.span())) for match in re.finditer(r"[^,]+", said.value)]
        if not 1 <= len(spots) <= MOST_THROUGH:
            self._fault(f"the curve leads through {len(spots)} points", said, f"name from 1 to {MOST_THROUGH}")
            return None
        found = [self.points.find(spot) for spot in spots]
        names = tuple(name for name in found if name is not None)
        return names if len(names) == len(found) else None

    def _direction(self, said: Text, end: End, around: Around) -> Expression | None:
        word = key_of(said.value)
        if word in HEADINGS:
            return Literal(HEADINGS[word], Kind.ANGLE, f"{HEADINGS[word]:g}°")
        if word == "across":
            return Apply("across from", (end.first, end.last), said.span())
        if word == "smoothly":
            return self._smoothly(said, end, around)
        by_name = _BY_NAME.fullmatch(said.value)
        if by_name is not None:
            return self._by_name(by_name["how"].split()[0].casefold(), said.part(*by_name.span("name")), said, end)
        if _FORMULA.search(said.value) or word in self.points.desk.project.numbers:
            return self.points.desk.formula(said)
        likely = near(said.value, WORDS)
        hint = f"did you mean `{likely}`?" if likely else DIRECTIONS
        self._fault(f"`{said.value}` is no direction", said, hint)
        return None

    def _by_name(self, how: str, name: Text, said: Text, end: End) -> Expression | None:
        if how == "square":
            edge = self.edges.find(name)
            return None if edge is None else Apply("square to", (edge, end.at, end.first, end.last), said.span())
        point = self.points.find(name)
        if point is None:
            return None
        return Apply("direction", (end.at, point) if how == "towards" else (point, end.at), said.span())

    def _smoothly(self, said: Text, end: End, around: Around) -> Expression | None:
        """As the neighbour arrives there or leaves."""
        leaving = end.what == "leaving"
        beside = around.before if leaving else around.after
        if beside is None:
            self._fault("nothing is drawn there that the curve could join smoothly", said, DIRECTIONS)
            return None
        if SMOOTH["arriving" if leaving else "leaving"].search(beside.said):
            if leaving:  # once for the two
                message = "this curve and the one before it each wait for the direction of the other"
                self._fault(message, said, "give one of the two a direction, such as `down`")
            return None
        return Apply("arrives" if leaving else "leaves", (beside.step,), said.span())

    def _fault(self, message: str, said: Text, hint: str) -> None:
        self.points.desk.faults.add(Code.DRAFT, message, said.span(), hint)


def is_curve(said: Text) -> bool:
    return re.match(r"curve\b", said.value, re.I) is not None


def _trimmed(said: Text) -> Text:
    """Without white space and commas round it."""
    value = said.value
    begin = len(value) - len(value.lstrip(" \t\n,"))
    return said.part(begin, max(begin, len(value.rstrip(" \t\n,"))))
