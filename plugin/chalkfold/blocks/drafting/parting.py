"""A contour parted along its style lines: which parts there are, and which of them a writer means.

Where a line ends and which part lies above it is asked of the plan (``trial.py``); it must be the same in every size.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, floor

from chalkfold.blocks.desk import Desk
from chalkfold.blocks.drafting.contour import Contour, backwards, ended, laid, place_of
from chalkfold.blocks.drafting.edges import Drawn
from chalkfold.blocks.drafting.points import Points
from chalkfold.blocks.drafting.style_seams import Seam, seam_of
from chalkfold.blocks.drafting.trial import Row, answers, unanswered
from chalkfold.diagnostics import Code, Span, near
from chalkfold.formula import Apply, Name, key_of
from chalkfold.geometry.parting import OFF
from chalkfold.geometry.shapes import JOIN
from chalkfold.reading import Text

Region = tuple[Drawn, ...]
"""The edges of a part, in order round it."""
Rows = tuple[tuple[float, ...], ...]
"""Numbers in every size."""

WAYS = "write `towards EDGE`, `above LINE`, `below LINE`, `left of LINE` or `right of LINE`"
_SIDE = re.compile(r"(?P<way>towards|above|below|left\s+of|right\s+of)\s+(?P<what>.+)", re.I)
_BETWEEN = re.compile(r"between\s+(?P<one>.+?)\s+and\s+(?P<other>.+)", re.I)
MEANT = {"above": (1, -1), "below": (1, 1), "left of": (0, -1), "right of": (0, 1)}
"""Way → which coordinate tells it, and whether the smaller or the larger is meant."""


@dataclass
class Parted:
    """A contour and the regions it has been parted into so far."""

    contour: Contour
    place: Span
    desk: Desk
    regions: list[Region]

    @property
    def piece(self) -> str:
        return self.contour.edges.piece

    def part(self, line: Drawn, said: Span) -> bool:
        """Part the one region across which a line runs; False after a fault."""
        line = ended(line, self.contour.points)
        seam = seam_of(line, self.contour.points, self.contour.shapings, self.desk)
        for number, region in enumerate(self.regions):
            ends = self._ends(region, seam)
            if ends is None:
                hint = "draw the line with numbers of the project"
                unanswered(self._asked(self.regions[0], seam.ends), said, hint, self.desk)
                return False
            if not any(OFF in row for row in ends):
                return self._in_two(number, region, seam, ends, said)
        self._ends_off(line, said)
        return False

    def outline(self, region: Region) -> Name:
        edges = Apply("outline", tuple(each.step for each in region), self.place)
        return self.desk.step(f"= outline {len(self.desk.steps)}", edges, self.place)

    def _point(self, key: str) -> Name:
        return Name(self.contour.points.step_name(key), self.place)

    def _ends(self, region: Region, seam: Seam) -> Rows | None:
        """Where the seam starts and ends on the outline of a region, for either part of it, in every size."""
        rows = [_numbers(row) for row in answers(self.desk, self.place, *self._asked(region, seam.ends))]
        found = tuple(row for row in rows if row is not None)
        return found if len(found) == len(rows) else None

    def _asked(self, region: Region, points: Sequence[str]) -> list[Apply]:
        outline = self.outline(region)
        return [Apply("place round", (outline, self._point(key)), self.place) for key in points]

    def _in_two(self, number: int, region: Region, seam: Seam, ends: Rows, said: Span) -> bool:
        for key, row in zip(seam.ends, ends, strict=True):
            if len({_on(place) for place in row}) > 1:
                self._changes_edge(key, region, row, said)
                return False
        line, points = seam.ahead, self.contour.points
        (start, stop), (begin, end) = (tuple(row[0] for row in pair) for pair in (ends[:2], ends[2:]))
        ahead, behind = seam.ahead, seam.behind
        there = (*_walk(region, start, stop, (ahead.start, ahead.end), points), backwards(ahead, self.desk))
        back = (*_walk(region, end, begin, (behind.end, behind.start), points), behind)
        areas = answers(self.desk, said, *(Apply("outline area", (self.outline(each),)) for each in (there, back)))
        if any(area is None for row in areas for area in row):
            message = (
                f"`{line.name}` parts nothing off {self.piece}: it runs along an edge, or leaves the piece on its way"
            )
            hint = "let it run inside the piece from edge to edge, in every size"
            self.desk.faults.add(Code.DRAFT, message, said, hint, sizes=self._sizes(areas))
            return False
        self.regions[number : number + 1] = [there, back]
        left = tuple(item for item in self.contour.shapings if item not in seam.darts)
        self.contour = replace(self.contour, shapings=left)
        return True

    def _sizes(self, rows: Sequence[Row]) -> tuple[str, ...]:
        labels = self.desk.project.sizes.labels
        without = [label for number, label in enumerate(labels) if any(row[number] is None for row in rows)]
        return () if len(without) == len(labels) else tuple(without)

    def _ends_off(self, line: Drawn, said: Span) -> None:
        ends = self._ends(self.regions[0], Seam(line, line)) if len(self.regions) == 1 else None
        off = [key for key, row in zip((line.start, line.end), ends or (), strict=False) if OFF in row]
        names = " and ".join(f"`{self.contour.points.names[key]}`" for key in off or (line.start, line.end))
        message = f"`{line.name}` does not end on the edge of {self.piece}: {names} {_lie(len(off))} off it"
        if ends is None:
            message = f"`{line.name}` does not run from edge to edge of one part of {self.piece}"
        hint = "let it end at a corner, or at a point `{along: EDGE, at: 9 cm, from: P}` on one of the edges"
        labels = self.desk.project.sizes.labels
        wrong = [label for n, label in enumerate(labels) if ends and any(row[n] == OFF for row in ends)]
        sizes = () if len(wrong) == len(labels) else tuple(wrong)
        self.desk.faults.add(Code.DRAFT, message, said, hint, sizes=sizes)

    def _changes_edge(self, key: str, region: Region, row: Sequence[float], said: Span) -> None:
        labels = self.desk.project.sizes.labels
        places: dict[str, str] = {}
        for label, place in zip(labels, row, strict=True):
            places.setdefault(region[int(place)].name + (" at its start" if place == int(place) else ""), label)
        told = ", ".join(f"on {edge} in size {label}" for edge, label in places.items())
        message = (
            f"`{self.contour.points.names[key]}` lies {told}, so that {self.piece} is not parted alike in every size"
        )
        self.desk.faults.add(Code.DRAFT, message, said, "let the line end on the same edge in every size")

    def meant(self, said: Text, lines: Sequence[str]) -> int | None:
        """The region that `towards side`, `above hip line` or `between A and B` names; None after a fault."""
        if match := _BETWEEN.fullmatch(said.value):
            wanted = {key_of(match["one"]), key_of(match["other"])}
            return self._only([n for n, each in enumerate(self.regions) if wanted <= _keys(each)], said)
        match = _SIDE.fullmatch(said.value)
        if match is None:
            self.desk.faults.add(Code.DRAFT, f"`{said.value}` does not say which side", said.span(), WAYS)
            return None
        way, what = " ".join(match["way"].lower().split()), said.part(match.start("what"), match.end("what"))
        if way == "towards":
            return self._towards(what)
        if key_of(what.value) not in map(key_of, lines):
            _no_line(what, lines, self.piece, self.desk)
            return None
        beside = [n for n, each in enumerate(self.regions) if key_of(what.value) in _keys(each)]
        return self._to_that_side(way, beside, what)

    def _towards(self, said: Text) -> int | None:
        key = key_of(said.value)
        if key not in self.contour.edges.names:
            key = key_of(said.value.removesuffix(" edge"))
        if key not in self.contour.edges.names:
            self.contour.edges.find(said)
            return None
        return self._only([n for n, each in enumerate(self.regions) if key in _keys(each)], said)

    def _only(self, found: list[int], said: Text) -> int | None:
        if len(found) == 1:
            return found[0]
        parts = f"{len(found)} parts" if found else "no part"
        hint = "name an edge that lies in just one part, or write `between LINE and LINE`"
        self.desk.faults.add(Code.DRAFT, f"`{said.value}` stands for {parts} of {self.piece}", said.span(), hint)
        return None

    def _to_that_side(self, way: str, beside: list[int], said: Text) -> int | None:
        across_or_down, sign = MEANT[way]
        op = ("across of", "down of")[across_or_down]
        asked = [Apply(op, (Apply("middle of", (self.outline(self.regions[n]),)),), said.span()) for n in beside]
        rows = [_numbers(row) for row in answers(self.desk, said.span(), *asked)]
        if len(rows) == 2 and rows[0] is not None and rows[1] is not None:
            gaps = [sign * (first - second) for first, second in zip(rows[0], rows[1], strict=True)]
            if all(gap > JOIN for gap in gaps):
                return beside[0]
            if all(gap < -JOIN for gap in gaps):
                return beside[1]
        message = f"it cannot be told which part of {self.piece} lies {way} `{said.value}` in every size"
        hint = (
            f"name an edge that only that part has: `towards EDGE`, or to cut it away `from {said.value} towards EDGE`"
        )
        self.desk.faults.add(Code.DRAFT, message, said.span(), hint)
        return None


def parted(contour: Contour, place: Span, desk: Desk) -> Parted:
    return Parted(contour, place, desk, [tuple(contour.edges.drawn.values())])


def _no_line(said: Text, lines: Sequence[str], piece: str, desk: Desk) -> None:
    likely = near(said.value, lines)
    listed = ", ".join(lines)
    hint = f"did you mean `{likely}`?" if likely else f"its lines are: {listed}"
    if not lines:
        hint = f"draw it: `lines: {{{said.value}: from A; line to B}}`"
    desk.faults.add(Code.DRAFT, f"{piece} has no line called `{said.value}` to part it", said.span(), hint)


def find_line(said: Text, lines: dict[str, Drawn], piece: str, desk: Desk) -> Drawn | None:
    found = lines.get(key_of(said.value))
    if found is None:
        _no_line(said, [line.name for line in lines.values()], piece, desk)
    return found


def _lie(count: int) -> str:
    return "lies" if count == 1 else "lie"


def _numbers(row: Row) -> tuple[float, ...] | None:
    found = tuple(value for value in row if isinstance(value, float))
    return found if len(found) == len(row) else None


def _on(place: float) -> tuple[int, bool]:
    """The edge, and whether at the corner where it starts."""
    return floor(place), place == floor(place)


def _keys(region: Region) -> set[str]:
    return {key_of(each.name) for each in region}


def _walk(region: Region, start: float, stop: float, ends: tuple[str, str], points: Points) -> Region:
    """The edges from one place on the outline forwards to another; ``ends`` are the keys of the points there."""
    count, (first, last) = len(region), ends
    inside_first, inside_last = start != floor(start), stop != floor(stop)
    if inside_first and inside_last and floor(start) == floor(stop) and start < stop:
        return (_stretch(region[floor(start)], first, last, points),)
    found = [_stretch(region[floor(start)], first, None, points)] if inside_first else []
    at = ceil(start) % count
    while at != floor(stop):
        found.append(region[at])
        at = (at + 1) % count
    return (*found, _stretch(region[at], None, last, points)) if inside_last else tuple(found)


def _stretch(drawn: Drawn, first: str | None, last: str | None, points: Points) -> Drawn:
    """What lies of an edge behind one point and before the other."""
    place = place_of(drawn)
    op = "stretch" if first and last else "on from" if first else "up to"
    ends = tuple(Name(points.step_name(key), place) for key in (first, last) if key)
    step = laid(Apply(op, (drawn.step, *ends), place), place, points.desk)
    return replace(drawn, step=step, start=first or drawn.start, end=last or drawn.end)
