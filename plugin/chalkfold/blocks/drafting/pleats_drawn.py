"""``pleats:`` of a draft: pleats and tucks folded in at an edge, their lines square to it.

``takes`` is the cloth that one of them takes, as in a spacing (``pleats.py``): a knife pleat takes twice its depth, a
box or inverted pleat four times. Each is a fold, or two, between lines that run side by side; the edge over a fold is
trued as over a dart (``geometry/darts.py``).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import BY_SIZE, zero
from chalkfold.blocks.drafting.darts import Dart, Pair, TwoTips
from chalkfold.blocks.drafting.edges import Drawn
from chalkfold.blocks.drafting.flat_piece import FlatPiece, Towards, all_of
from chalkfold.blocks.drafting.pleat_lines import KINDS, Fold, PleatLines
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, Name, apply, key_of, parse_name, plain
from chalkfold.plan import Limit, Line
from chalkfold.reading import Entry, Fields, Mapping, Text

EXAMPLE = "{front pleats: {on: EDGE, at: 5 cm, from: P, takes: 4 cm, count: 3, space: 2 cm, length: 20 cm}}"
MOST, MOST_IN_A_ROW = 20, 30


@dataclass(frozen=True, slots=True)
class Row:
    """Pleats of one kind along an edge. ``lines`` are kinds of mark with the two ends of each; ``reach`` is where on
    the edge the row begins and ends. ``holds``: it can be drawn; where it cannot, a demand tells why.
    """

    name: str
    span: Span
    drawn: Drawn
    takes: Name
    all_take: Name
    folds: tuple[Fold, ...]
    lines: tuple[tuple[str, Name, Name], ...]
    said: tuple[Line, ...]
    reach: Pair
    holds: Name

    @property
    def edge(self) -> str:
        return key_of(self.drawn.name)

    def on_edge(self) -> tuple[Name, ...]:
        """Where its lines meet the edge, each once."""
        return tuple(dict.fromkeys(start for _, start, _ in self.lines))


def read_pleats_drawn(
    body: Mapping | None, darts: Sequence[Dart | TwoTips], piece: FlatPiece, taken: Sequence[Row] = ()
) -> list[Row] | None:
    """Read ``pleats:``, after those that are ``taken`` over from another piece; None after a fault."""
    if body is not None and len(body.entries) > MOST:
        message = f"{piece.name} has {len(body.entries)} rows of pleats"
        piece.fault(message, body.where, f"draw it with at most {MOST} rows")
        return None
    found = list(taken)
    for entry in body or ():
        row = None
        if not piece.desk.taken("row of pleats", entry.key, [each.name for each in taken]):
            row = _read(entry, [*(dart for dart in darts if isinstance(dart, Dart)), *found], piece)
        found += [] if row is None else [row]
    return found if body is None or len(found) == len(taken) + len(body.entries) else None


def _read(entry: Entry, others: Sequence[Dart | Row], piece: FlatPiece) -> Row | None:
    name, said = parse_name(entry.key, piece.desk.faults), entry.value
    if not isinstance(said, Mapping):
        piece.fault(f"`{entry.key.value}` does not say what it takes", said.where, f"write `pleats: {EXAMPLE}`")
        return None
    if name is None:
        return None
    fields = Fields(said, piece.desk.faults, "a row of pleats", otherwise=BY_SIZE)
    row = _Reader(name, fields, piece, said.where).row(others)
    fields.also("on", "at", "from", "takes", "kind", "count", "space", "length", "down to", "stitched down")
    fields.also("folded towards")
    fields.finish()
    return row


@dataclass(frozen=True, slots=True)
class _Reader:
    name: str
    fields: Fields
    piece: FlatPiece
    span: Span

    def row(self, others: Sequence[Dart | Row]) -> Row | None:
        drawn = self.piece.edge(self.fields.required_text("on"), "pleat")
        takes = self._amount("takes", Limit.NOT_NEGATIVE) if self.fields.required("takes") else None
        at = self.fields.required_text("at")
        count, space, down = self._count(), self._space(), self._down()
        stitched = self._amount("stitched down", Limit.POSITIVE)
        kind = self.fields.choice("kind", KINDS) or "knife"
        first = None if at is None or drawn is None else self._first(at, drawn)
        if drawn is None or takes is None or first is None or count is None or space is None or down is None:
            return None
        wide = self._step("width", takes * plain(1.5) if kind == "box" else takes, Kind.LENGTH)
        reach, holds = self._reach(drawn, first, wide, space, count, others)
        pleats = [self._pleat(number, count, reach, wide, space) for number in range(count)]
        ends = tuple(self._at(f"{words} of all", drawn, place) for words, place in zip("ab", reach, strict=True))
        towards = self._towards(kind, drawn, (ends[0], ends[1]))
        if towards is None:
            return None
        drawing = PleatLines(self.name, self.piece, self.span, drawn, kind, towards, down, stitched)
        for number, pleat in enumerate(pleats):
            drawing.lay(number, *pleat)
        self._demand_inside(drawing.lines)
        all_take = self._step("all taken", takes * plain(count), Kind.LENGTH)
        said = self._said(kind, takes, count, space, towards)
        return Row(
            self.name, self.span, drawn, takes, all_take, tuple(drawing.folds), tuple(drawing.lines), said, reach, holds
        )

    def _amount(self, key: str, limit: Limit) -> Name | None:
        said = self.fields.text(key)
        return self.piece.amount(f"{key} of {self.name}", said, f"`{key}` of {self.name} is {{}}", limit)

    def _step(self, words: str, expression: Expression, kind: Kind) -> Name:
        return self.piece.step(f"{words} of {self.name}", expression, self.span, kind)

    def _at(self, words: str, drawn: Drawn, along: Expression) -> Name:
        return self._step(words, Apply("along", (drawn.step, along), self.span), Kind.POINT)

    def _first(self, at: Text, drawn: Drawn) -> Name | None:
        """How far the row stands from the end that is named."""
        said, start = self.piece.desk.formula(at), self.fields.text("from")
        if said is None or (start is not None and self.piece.along(said, start, drawn) is None):
            return None
        return self.piece.step(f"place of {self.name}", said, at.span(), Kind.LENGTH)

    def _count(self) -> int | None:
        said = self.fields.text("count")
        if said is None:
            return None if self.fields.has("count") else 1
        if said.value.isascii() and said.value.isdigit() and 1 <= int(said.value[:4]) <= MOST_IN_A_ROW:
            return int(said.value)
        hint = f"write a whole number from 1 to {MOST_IN_A_ROW}; a row of any number is a spacing with `pleats:`"
        self.piece.fault(f"`{said.value}` is no number of pleats", said.span(), hint)
        return None

    def _space(self) -> Expression | None:
        """From where one pleat ends to where the next begins, on the flat cloth."""
        if self.fields.has("space"):
            return self._amount("space", Limit.NOT_NEGATIVE)
        if (said := self.fields.text("count")) is not None and said.value != "1":
            message, hint = f"it is not said how far apart the pleats of {self.name} lie", "add `space: 2 cm`"
            self.fields.missing("space", code=Code.DRAFT, message=message, hint=hint)
            return None
        return zero()

    def _down(self) -> Name | Drawn | None:
        """How far the lines reach into the piece, or the edge they reach to."""
        if self.fields.has("down to"):
            said = self.fields.text("down to")
            found = None if said is None else self.piece.edges.find(said)
            return None if said is None or found is None else self.piece.edges.drawn.get(key_of(said.value))
        if self.fields.has("length"):
            return self._amount("length", Limit.POSITIVE)
        if self.fields.has("stitched down"):
            return self._amount("stitched down", Limit.POSITIVE)
        message = f"it is not said how far down {self.name} is drawn"
        hint = "add `length: 20 cm`, `down to: EDGE`, or `stitched down: 8 cm`"
        self.fields.missing("length", "down to", "stitched down", code=Code.DRAFT, message=message, hint=hint)
        return None

    def _reach(
        self,
        drawn: Drawn,
        first: Name,
        wide: Name,
        space: Expression,
        count: int,
        others: Sequence[Dart | Row],
    ) -> tuple[Pair, Name]:
        """Where the row begins and ends on its edge, and whether it fits there."""
        edge, start = Apply("length of", (drawn.step,), self.span), self.fields.text("from")
        whole = self._step("whole edge", edge, Kind.LENGTH)
        all_wide = self._step("all", wide * plain(count) + space * plain(count - 1), Kind.LENGTH)
        fits = self._demand_room(drawn, first, all_wide, whole)
        from_end = start is not None and key_of(start.value) == drawn.end
        begin = whole - first - all_wide if from_end else first
        low = self._step("begin", Apply("if", (fits, begin, zero()), self.span), Kind.LENGTH)
        high = self._step("end", Apply("if", (fits, begin + all_wide, zero()), self.span), Kind.LENGTH)
        apart = self._demand_apart(drawn, (low, high), others)
        return (low, high), self._step("holds", all_of([fits, *apart]), Kind.TRUTH)

    def _demand_room(self, drawn: Drawn, first: Name, all_wide: Name, whole: Name) -> Expression:
        fits = apply("and", apply(">=", first, zero()), apply("<=", first + all_wide, whole))
        shown, at = self.piece.desk.shown, self.fields.text("at")
        message: Line = (f"{self.name} is ", shown(all_wide), " wide, begins at ", shown(first))
        self.piece.desk.demand(
            fits,
            (*message, f", and {drawn.name} is only ", shown(whole)),
            self.span if at is None else at.span(),
            "begin nearer to that end, but not before it, or take in less, in every size",
        )
        return fits

    def _demand_apart(self, drawn: Drawn, reach: Pair, others: Sequence[Dart | Row]) -> list[Expression]:
        """That the row keeps clear of the darts on its edge and of the rows before it."""
        found: list[Expression] = []
        for other in others:
            if other.drawn is drawn and other.reach is not None:
                apart = apply("or", apply("<=", reach[1], other.reach[0]), apply("<=", other.reach[1], reach[0]))
                message = f"{self.name} and {other.name} overlap on {drawn.name}"
                self.piece.desk.demand(apart, (message,), self.span, "move them apart, or take in less, in every size")
                found.append(apart)
        return found

    def _pleat(self, number: int, count: int, reach: Pair, wide: Name, space: Expression) -> Pair:
        """Where one pleat begins and ends."""
        begin = reach[0] + (wide + space) * plain(number)
        stop = reach[1] - (wide + space) * plain(count - 1 - number)
        first = self._step(f"begin {number}", apply("min", begin, reach[1]), Kind.LENGTH)
        return first, self._step(f"end {number}", apply("max", stop, first), Kind.LENGTH)

    def _demand_inside(self, lines: list[tuple[str, Name, Name]]) -> None:
        """That the outermost lines end in the piece."""
        ends = [Apply("inside", (self.piece.outline, line[2]), self.span) for line in (lines[0], lines[-1])]
        message = f"a line of {self.name} ends outside of {self.piece.name}"
        self.piece.desk.demand(all_of(ends), (message,), self.span, "make the lines shorter, in every size")

    def _towards(self, kind: str, drawn: Drawn, ends: Pair) -> Towards | None:
        if kind in ("knife", "tuck"):
            return self.piece.towards("folded towards", self.fields, drawn, ends)
        if (said := self.fields.text("folded towards")) is not None:
            self.piece.fault(f"{_a(kind)} pleat is folded both ways", said.span(), "leave out `folded towards:`")
            return None
        return Towards(True, "")

    def _said(self, kind: str, takes: Name, count: int, space: Expression, towards: Towards) -> tuple[Line, ...]:
        shown = self.piece.desk.shown
        one = f"{_a(kind)} pleat" if kind != "tuck" else "a tuck"
        many = f"{count} {kind} pleats" if kind != "tuck" else f"{count} tucks"
        each: Line = (one if count == 1 else many, ", takes " if count == 1 else ", each takes ", shown(takes))
        if count > 1 and isinstance(space, Name):
            each = (*each, ", ", shown(space), " apart")
        lines: list[Line] = [each]
        if (sewn := self.fields.text("stitched down")) is not None:
            lines.append(
                ("stitched down ", shown(Name(f"stitched down of {self.name} of {self.piece.name}", sewn.span())))
            )
        return (*lines, (f"folded {towards.said}",)) if towards.said else tuple(lines)


def _a(kind: str) -> str:
    return f"an {kind}" if kind[0] in "aeiou" else f"a {kind}"
