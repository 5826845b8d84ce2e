"""A piece in one size as a sheet for the drawing room: every line, label, mark and dimension of it."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.draw.lines import LineType
from chalkfold.draw.sheet import (
    Button,
    Callout,
    Check,
    Dimension,
    Drill,
    Gap,
    Grain,
    Item,
    NameBlock,
    Notch,
    OnFold,
    Sheet,
    Stroke,
)
from chalkfold.draw.words import Both, Words
from chalkfold.geometry import edges
from chalkfold.geometry.points import direction, dot, left_of, shifted
from chalkfold.geometry.shapes import Edge, Point, is_cubic
from chalkfold.plan import Mark, Shaping
from chalkfold.show.drawing_key import Lettered, remarks
from chalkfold.show.drawn_radii import arc_of, radii, swings_of
from chalkfold.show.drawn_values import Measured

NAMED_INWARDS, NAMED_OUTWARDS, NAMED_LINE = (0.32, 0.68, 0.12, 0.88), (0.55, 0.3, 0.8), (1 / 3, 2 / 3, 0.1, 0.9)
"""How far along a hollow edge, a round one, or a line inside the piece its name is led off, the best first."""

LINES_OF = {
    "stitched": LineType.STITCHED,
    "folded": LineType.FOLDED,
    "cut": LineType.CUTTING,
    "placement": LineType.PLACEMENT,
}


def swings(piece: Lettered, size: int) -> tuple[float, ...]:
    """How far along each edge its radius is best drawn in a size."""
    return swings_of(Measured(piece, size))


def sheet(piece: Lettered, size: int, shown: str, swung: tuple[float, ...], allowances: bool = True) -> Sheet | None:
    """The sheet of one size; ``shown`` says in the name block what is drawn, ``swung`` how far along its edge each
    radius. None where there is no outline. Without ``allowances`` the seam line is all there is.
    """
    drawn = _Drawn(piece, size)
    if not allowances:
        drawn.leave_out_allowances()
    if not (drawn.seam and drawn.cutting):
        return None
    cloth = tuple(segment for edge in drawn.cutting for segment in edge)
    name = NameBlock(piece.view.piece, (*((f"cut {cut}",) for cut in piece.view.cuts), (shown,)))
    return Sheet(cloth, tuple(drawn.strokes()), tuple(drawn.items(swung)), name)


class _Drawn(Measured):
    """What is drawn of each value of a drawing in one size."""

    def strokes(self) -> Iterator[Stroke]:
        """Each kind of line as long as it runs, so that dashes go on round a corner."""
        rows = list(zip(self.view.edges, self.seam, self.cutting, strict=True))
        for line, run in (
            (LineType.CUTTING, [cut if not edge.on_fold else () for edge, _, cut in rows]),
            (LineType.FOLD, [cut if edge.on_fold else () for edge, _, cut in rows]),
            (LineType.SEAM, [seam if self.allowances.get(edge.edge) else () for edge, seam, _ in rows]),
        ):
            yield from (Stroke(line, edge) for edge in _runs(run))
        for _, key, _ in self.view.lines:
            if line_drawn := self.value(key):
                yield Stroke(LineType.STYLE, line_drawn)
        for mark in self.view.marks:
            if mark.kind in LINES_OF and (drawn := self.value(mark.edge)):
                yield Stroke(LINES_OF[mark.kind], drawn)
        for shaping, _ in self._shapings():
            yield from (Stroke(LINES_OF[kind], self.value(key)) for kind, key in shaping.lines)

    def _shapings(self) -> Iterator[tuple[Shaping, str]]:
        """The darts and pleats that take something in this size, with their letters."""
        for shaping, letter in zip(self.view.shapings, self.piece.shapings, strict=True):
            if self.value(shaping.takes) and all(self.value(key) for key in shaping.keys):
                yield shaping, letter

    def items(self, swung: tuple[float, ...]) -> Iterator[Item]:
        yield from self._edges()
        yield from radii(self, swung)
        for (name, key, whole), letter in zip(self.view.lines, self.piece.lines, strict=True):
            if drawn := self.value(key):
                yield _called(drawn, ((name,), (self.both(whole), " whole")), letter)
        for mark, letter in zip(self.view.marks, self.piece.marks, strict=True):
            item = self._mark(mark, letter)
            if item is not None:
                yield item
        yield from self._shaped()
        for start, end, amount, letter in self.straight_checks():
            yield Check(((*start, *end),), (("check ", self.both(amount)),), letter)
        angle = self.value(self.view.grain)
        if angle is not None:
            yield Grain(angle, ("grain",), self.piece.grain)

    def _edges(self) -> Iterator[Item]:
        seen: set[tuple[Both, float]] = set()
        for number, (edge, letter) in enumerate(zip(self.view.edges, self.piece.edges, strict=True)):
            drawn = self.seam[number]
            half = edges.length(drawn) / 2
            out = self.outward(drawn, half)
            if edge.on_fold:
                fold = self.cutting[number]
                inward = (-out[0], -out[1])
                yield OnFold(edges.first(fold), edges.last(fold), inward, (self.piece.on_fold[1],), letter)
            elif edges.is_straight(drawn):
                start, end = edges.first(drawn), edges.last(drawn)
                length = self.both(edge.drawn)
                repeated = (length, round(direction(start, end) % 180, 1) % 180)
                if repeated in seen:
                    yield Callout(edges.point_at(drawn, half), out, ((edge.name,),), letter)
                else:
                    yield Dimension(start, end, out, (f"{edge.name} ", length), letter)
                seen.add(repeated)
            else:
                yield self._curve(number)

    def _curve(self, number: int) -> Callout:
        """What an edge that is not straight is called and measures, on a leader to where there is most room."""
        edge, drawn = self.view.edges[number], self.seam[number]
        length, whole = self.both(edge.drawn), self.both(edge.whole)
        said: list[Words] = [(f"{edge.name}, seam line",)]
        sewn = edge.sewn or edge.drawn
        if edge.sewn:
            said += [(length, " drawn"), (self.both(edge.sewn), " sewn")]
        elif self.value(edge.drawn) == self.value(edge.whole):
            said.append((length,))
        else:
            said.append((length, " drawn"))
        if self.value(sewn) != self.value(edge.whole):
            said.append((whole, " whole"))
        if edge.cut_radius and not edge.centre:
            said.append(("cut radius ", self.both(edge.cut_radius)))
        hollow = self._is_hollow(drawn)
        (at, out), *others = (
            self._led_from(drawn, edges.length(drawn) * part, hollow)
            for part in (NAMED_INWARDS if hollow else NAMED_OUTWARDS)
        )
        return Callout(at, out, tuple(said), self.piece.edges[number], tuple(others))

    def _led_from(self, drawn: Edge, along: float, hollow: bool) -> tuple[Point, Point]:
        """A place on an edge, and the way out of the piece, or into a hollow."""
        x, y = self.outward(drawn, along)
        return edges.point_at(drawn, along), (-x, -y) if hollow else (x, y)

    def _is_hollow(self, drawn: Edge) -> bool:
        """Whether the piece lies outside of its arc or curve."""
        arc = arc_of(drawn)
        if arc is None and not any(is_cubic(segment) for segment in drawn):
            return False
        clockwise = edges.bow(drawn) > 0 if arc is None else arc[6] > 0
        return clockwise != self.clockwise

    def _mark(self, mark: Mark, letter: str) -> Item | None:
        label = (self.words(mark.label), *((said,) for said in remarks(mark)))
        edge, point = self.value(mark.edge), self.value(mark.point)
        if mark.kind in LINES_OF:
            return _called(edge, label, letter) if edge else None
        if point is None:
            return None
        if mark.kind == "button":
            return Button(point, self.value(mark.across) or 0.0, label, letter)
        if mark.kind == "drill":
            return Drill(point, label, letter)
        if not edge:
            return None
        along = edges.nearest(edge, point)
        out = self.outward(edge, along)
        if mark.kind == "gap":
            return self._gap(edge, along, edges.nearest(edge, self.value(mark.end)), label, letter)
        at = shifted(point, out, self._allowance_of(mark.edge))
        return Notch(at, out, mark.kind == "double notch", label, letter)

    def _shaped(self) -> Iterator[Item]:
        """The first drill mark of a dart bears its name; the others, and the notches, only show where they are."""
        for shaping, letter in self._shapings():
            said: tuple[Words, ...] = ((shaping.name,), *map(self.words, shaping.said))
            drills = [self.value(key) for key in shaping.drills]
            if drills:
                yield Drill(drills[0], said, letter)
            elif shaping.lines:
                yield _called(self.value(shaping.lines[0][1]), said, letter)
            yield from (Drill(point) for point in drills[1:])
            for point, key in shaping.notches:
                edge, at = self.value(key), self.value(point)
                out = self.outward(edge, edges.nearest(edge, at))
                yield Notch(shifted(at, out, self._allowance_of(key)), out)

    def _allowance_of(self, key: str) -> float:
        return float(self.allowances.get(key, 0.0))

    def _gap(self, edge: Edge, begin: float, stop: float, label: tuple[Words, ...], letter: str) -> Gap | None:
        if abs(stop - begin) < 1.0:
            return None
        open_part = edges.part(edge, min(begin, stop), max(begin, stop))
        return Gap(open_part, self.outward(edge, (begin + stop) / 2), label, letter)


def _runs(parts: list[Edge]) -> list[Edge]:
    """Edges that follow each other as one; an empty one parts them, and the last goes on into the first."""
    runs: list[Edge] = []
    open_run = False
    for part in parts:
        if part and open_run:
            runs[-1] = (*runs[-1], *part)
        elif part:
            runs.append(part)
        open_run = bool(part)
    if len(runs) > 1 and parts[0] and parts[-1]:
        runs[0] = (*runs.pop(), *runs[0])
    return runs


def _called(drawn: Edge, said: tuple[Words, ...], letter: str) -> Callout:
    """The name of a line inside the piece."""
    (at, out), *others = (_off(drawn, edges.length(drawn) * part) for part in NAMED_LINE)
    return Callout(at, out, said, letter, tuple(others))


def _off(drawn: Edge, along: float) -> tuple[Point, Point]:
    """A place on a line, and the way off it that goes up rather than down."""
    x, y = left_of(edges.tangent_at(drawn, along))
    return edges.point_at(drawn, along), (x, y) if dot((x, y), (0.2, -1.0)) > 0 else (-x, -y)
