"""``marks:`` of a draft: notches, drill marks, buttons, lines and gaps, one sentence each."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk, zero
from chalkfold.blocks.drafting.along_edges import Along
from chalkfold.blocks.drafting.edges import Drawn, Edges
from chalkfold.blocks.drafting.notches import Notch
from chalkfold.blocks.drafting.points import Points
from chalkfold.blocks.drafting.trial import answers
from chalkfold.diagnostics import Code, Faults
from chalkfold.formula import Apply, Expression, Name, apply, key_of, parse
from chalkfold.plan import Limit, Line, Mark, Shown, Style
from chalkfold.reading import Text

_SIDE = re.compile(r"(?P<rest>.+?)\s+(?P<side>left|right)\s+as\s+worn", re.I)
_NOTCH = re.compile(
    r"(?P<double>double\s+)?notch\s+on\s+(?P<edge>.+?)\s+at\s+(?P<at>.+?)(?:\s+from\s+(?P<start>.+))?", re.I
)
_DRILL = re.compile(r"drill\s+at\s+(?P<point>.+)", re.I)
_BUTTON = re.compile(r"button\s+at\s+(?P<point>.+?)(?:\s*,\s*(?P<across>.+?)\s+across)?", re.I)
_LINE = re.compile(
    r"line\s+(?P<name>.+?)\s+from\s+(?P<first>.+?)\s+to\s+(?P<last>.+?)\s+(?P<how>stitched|folded|cut|placement)", re.I
)
_GAP = re.compile(r"gap\s+on\s+(?P<edge>.+?)\s+from\s+(?P<ran>.+?\s+to\s+.+?)(?:\s+from\s+(?P<start>.+))?", re.I)
_TO = re.compile(r"\s+to\s+", re.I)
_NOTHING = re.compile(r"0(?:\s*[a-z]+)?", re.I)
HOW = (
    "write `notch on EDGE at 20 cm from P`, `double notch on EDGE at …`, `drill at P`, `button at P, 18 mm across`, "
    "`line pocket top from P to Q stitched` (or folded, cut, placement), or `gap on EDGE from 4 cm to 12 cm`"
)


@dataclass
class Marks:
    """Reads the marks of one piece; ``number`` names their steps."""

    piece: str
    desk: Desk
    edges: Edges
    points: Points
    number: int = 0
    outline: Name | None = None
    """The outline that a mark must lie in, where it is not that of the piece."""
    notches: list[Notch] = field(default_factory=list)
    """Those on both halves and copies alike, by which seams are matched."""

    def read(self, said: Text) -> Mark | None:
        """One mark; None after a fault."""
        side = _SIDE.fullmatch(said.value)
        text = said if side is None else said.part(0, side.end("rest"))
        worn = "" if side is None else side["side"].lower()
        self.number += 1
        for pattern, build in self._readers():
            match = pattern.fullmatch(text.value)
            if match:
                return build(text, match, worn)
        self.desk.faults.add(Code.DRAFT, f"`{said.value}` is no mark", said.span(), HOW)
        return None

    def _readers(self) -> Iterator[tuple[re.Pattern[str], Callable[[Text, re.Match[str], str], Mark | None]]]:
        yield _NOTCH, self._notch
        yield _DRILL, self._drill
        yield _BUTTON, self._button
        yield _LINE, self._line
        yield _GAP, self._gap

    def _part(self, text: Text, match: re.Match[str], group: str) -> Text | None:
        return None if match[group] is None else text.part(match.start(group), match.end(group))

    def _edge(self, text: Text, match: re.Match[str]) -> tuple[Drawn, Name] | None:
        said = self._part(text, match, "edge")
        assert said is not None
        found = self.edges.find(said)
        drawn = self.edges.drawn.get(key_of(said.value))
        return None if found is None or drawn is None else (drawn, found)

    def _along(self, said: Text | None, group: str, start: Text | None, drawn: Drawn, edge: Name) -> Name | None:
        """The point so far along an edge, measured from one of its ends."""
        back = start is not None and key_of(start.value) == drawn.end != drawn.start
        distance = None if said is None else Along(drawn.name, edge, back, self.points, self.desk).read(said)
        if said is None or distance is None:
            return None
        name = f"mark {self.number} {group} of {self.piece}"
        at = self.desk.step(f"distance of {name}", distance, said.span(), kind=Kind.LENGTH)
        self.desk.want(at)
        whole = self.desk.hidden(Apply("length of", (edge,), said.span()), said.span())
        self.desk.demand(
            apply("and", apply(">=", at, zero()), apply("<=", at, whole)),
            (f"this mark lies off {drawn.name}, at ", self.desk.shown(at), " of ", self.desk.shown(whole), " as drawn"),
            said.span(),
            "write a length from 0 to that of the edge in every size",
        )
        if start is None or key_of(start.value) == drawn.start:
            from_start: Expression = at
        elif key_of(start.value) == drawn.end:
            from_start = whole - at
        else:
            ends = " or ".join(f"`{self.points.names[key]}`" for key in (drawn.start, drawn.end) if key)
            hint = f"write `from` {ends}" if ends else "leave `from` out: a parallel line runs as its edge does"
            self.desk.faults.add(Code.DRAFT, f"`{start.value}` is no end of {drawn.name}", start.span(), hint)
            return None
        clamped = apply("min", apply("max", from_start, zero()), whole)
        point = self.desk.step(f"place of {name}", Apply("along", (edge, clamped), said.span()), said.span())
        self.desk.want(point)
        return point

    def _notch(self, text: Text, match: re.Match[str], worn: str) -> Mark | None:
        found = self._edge(text, match)
        said, start = self._part(text, match, "at"), self._part(text, match, "start")
        point = None if found is None else self._along(said, "at", start, *found)
        if found is None or point is None:
            return None
        drawn, edge = found
        if not worn:
            from_end = match["start"] is not None and key_of(match["start"]) != drawn.start
            at = Name(f"distance of mark {self.number} at of {self.piece}", text.span())
            self.notches.append(Notch(key_of(drawn.name), at, from_end, bool(match["double"]), point))
        kind = "double notch" if match["double"] else "notch"
        label: Line = (f"{kind} ", self._measured(), *self._from(match))
        return Mark(kind, label, worn, point=point.key, edge=edge.key, whence=self._whence(match, drawn))

    def _measured(self) -> Shown:
        return self.desk.shown(Name(f"distance of mark {self.number} at of {self.piece}"))

    def _from(self, match: re.Match[str]) -> tuple[str, ...]:
        return (f" from {match['start']}",) if match["start"] else ()

    def _whence(self, match: re.Match[str], drawn: Drawn) -> str:
        """From which end of its edge a mark is measured, where the writer does not say it: from where it begins."""
        if match["start"]:
            return ""
        before = (each.name for each in self.edges.drawn.values() if each.end == drawn.start and each is not drawn)
        edge = next(before, None)
        return f"from {self.points.names[drawn.start]}" if edge is None else f"from where it meets {edge}"

    def _drill(self, text: Text, match: re.Match[str], worn: str) -> Mark | None:
        found = self._at_point(text, match)
        if found is None:
            return None
        return Mark("drill", (f"drill mark {match['point']}",), worn, point=found.key)

    def _button(self, text: Text, match: re.Match[str], worn: str) -> Mark | None:
        """A button, with its diameter if the writer says it."""
        found, said = self._at_point(text, match), self._part(text, match, "across")
        if said is None:
            return None if found is None else Mark("button", ("button",), worn, point=found.key)
        diameter = self.desk.formula(said)
        if found is None or diameter is None:
            return None
        name = f"diameter of mark {self.number} of {self.piece}"
        across = self.desk.step(name, diameter, said.span(), style=Style.FINE, kind=Kind.LENGTH, limit=Limit.POSITIVE)
        label: Line = ("button ", self.desk.shown(across), " across")
        return Mark("button", label, worn, point=found.key, across=across.key)

    def _at_point(self, text: Text, match: re.Match[str]) -> Name | None:
        """The point of a mark, which lies on the piece."""
        said = self._part(text, match, "point")
        point = None if said is None else self.points.find(said)
        if said is None or point is None:
            return None
        self.desk.want(point)
        self._inside(point, said)
        return point

    def _inside(self, point: Name, said: Text) -> None:
        outline = self.outline or Name(f"outline of {self.piece}", said.span())
        self.desk.demand(
            Apply("inside", (outline, point), said.span()),
            (f"this mark lies outside of {self.piece}",),
            said.span(),
            "move the point onto the piece",
        )

    def _line(self, text: Text, match: re.Match[str], worn: str) -> Mark | None:
        first, last = self._part(text, match, "first"), self._part(text, match, "last")
        assert first is not None and last is not None
        start, end = self.points.find(first), self.points.find(last)
        if start is None or end is None:
            return None
        for point, said in ((start, first), (end, last)):
            self._inside(point, said)
        name = f"mark {self.number} of {self.piece}"
        edge = self.desk.step(f"line of {name}", Apply("line", (start, end), text.span()), text.span())
        self.desk.want(edge)
        return Mark(match["how"].lower(), (match["name"],), worn, edge=edge.key)

    def _two_lengths(self, ran: Text) -> tuple[Text, Text]:
        """`4 cm to 12 cm` in two; of several ways, as in `waist to hips to 30 cm`, the first whose names are known."""
        ways = [(ran.part(0, to.start()), ran.part(to.end(), len(ran.value))) for to in _TO.finditer(ran.value)]
        for way in ways if len(ways) > 1 else ():
            silent = Faults()
            formulas = [formula for part in way if (formula := parse(part, silent)) is not None]
            if len(formulas) == len(way) and not any(None in row for row in answers(self.desk, ran.span(), *formulas)):
                return way
        return ways[0]

    def _gap(self, text: Text, match: re.Match[str], worn: str) -> Mark | None:
        found = self._edge(text, match)
        if found is None:
            return None
        ran, start = self._part(text, match, "ran"), self._part(text, match, "start")
        assert ran is not None
        said = self._two_lengths(ran)
        first, last = (
            self._along(part, word, start, *found) for part, word in zip(said, ("first", "last"), strict=True)
        )
        if first is None or last is None:
            return None
        begins, ends = (Name(f"distance of mark {self.number} {which} of {self.piece}") for which in ("first", "last"))
        shown = self.desk.shown(begins), self.desk.shown(ends)
        self.desk.demand(
            apply("<", begins, ends),
            ("this gap begins at ", shown[0], " and ends before, at ", shown[1]),
            text.span(),
            "write the smaller length first, as in `gap on EDGE from 4 cm to 12 cm`",
        )
        label: Line = ("leave open from ", shown[0], " to ", shown[1], *self._from(match))
        if match["start"] and _NOTHING.fullmatch(said[0].value):
            label = ("leave open ", shown[1], *self._from(match))
        whence = self._whence(match, found[0])
        return Mark("gap", label, worn, point=first.key, end=last.key, edge=found[1].key, whence=whence)
