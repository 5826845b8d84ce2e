"""``spread:`` of a draft: slashes that open an edge about a hinge or at both ends, and darts that are closed instead.

Each entry works on the piece as those before it left it; places are named on the piece as drawn.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import BY_SIZE, zero
from chalkfold.blocks.drafting.darts import Dart, TwoTips
from chalkfold.blocks.drafting.edges import Drawn
from chalkfold.blocks.drafting.flat_piece import FlatPiece
from chalkfold.blocks.drafting.moved_darts import move_dart
from chalkfold.blocks.drafting.slashes import Slashes
from chalkfold.diagnostics import Code
from chalkfold.formula import Apply, Expression, Name, key_of, parse_name, plain
from chalkfold.plan import Limit, Line
from chalkfold.plan import Shaping as Shaped
from chalkfold.reading import Entry, Fields, Mapping, Text

EXAMPLE = "{flare: {cut from: hem at 12 cm from P, hinge at: waist at 8 cm from Q, open: 6 cm}}"
PLACE = "write a place on an edge, as in `hem at 12 cm from P`, or a point of the outline"
MOST = 24
"""Entries, and slashes in all, of one piece."""
Rows = tuple[Shaped, ...]
"""What a drawing says of an entry."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where slashes meet the seam line: a point for each, and the edge that is named for it."""

    points: tuple[Name, ...]
    edge: str | None
    said: Text


def read_spread(body: Mapping | None, darts: Sequence[Dart | TwoTips], piece: FlatPiece) -> tuple[Slashes, Rows] | None:
    """Read ``spread:`` and slash the piece; None after a fault. Gives the slashes and what a drawing says of them."""
    slashes, broken = Slashes(piece), False
    rows: list[Shaped] = []
    if body is not None and len(body.entries) > MOST:
        piece.fault(f"{piece.name} is spread {len(body.entries)} times", body.where, f"write at most {MOST} entries")
        return None
    for entry in body or ():
        found = _Entry.read(entry, darts, slashes)
        broken = broken or found is None
        rows += found or ()
    return None if broken else (slashes, tuple(rows))


@dataclass
class _Entry:
    """One entry of ``spread:``."""

    name: str
    fields: Fields
    slashes: Slashes

    @classmethod
    def read(cls, entry: Entry, darts: Sequence[Dart | TwoTips], slashes: Slashes) -> Rows | None:
        piece = slashes.piece
        name, said = parse_name(entry.key, piece.desk.faults), entry.value
        if not isinstance(said, Mapping):
            piece.fault(f"`{entry.key.value}` does not say where to slash", said.where, f"write `spread: {EXAMPLE}`")
            return None
        if name is None:
            return None
        read = cls(name, Fields(said, piece.desk.faults, "a slash", otherwise=BY_SIZE), slashes)
        row = read._close(darts) if read.fields.has("close") else read._slash()
        read.fields.also("cut from", "hinge at", "cut to", "open", "count", "close", "open at", "as", "tip back")
        read.fields.also("pressed towards")
        read.fields.finish()
        return row

    @property
    def _piece(self) -> FlatPiece:
        return self.slashes.piece

    def _slash(self) -> Rows | None:
        count = self._count()
        opens = self._place("cut from", count) if self.fields.required("cut from") else None
        if self.fields.has("hinge at") is self.fields.has("cut to"):
            hint = "write `hinge at:` where it stays closed, or `cut to:` where it opens as well"
            message = f"it is not said where {self.name} ends"
            self.fields.missing("hinge at", "cut to", code=Code.DRAFT, message=message, hint=hint)
            return None
        hinged = self.fields.has("hinge at")
        ends = self._place("hinge at" if hinged else "cut to", count)
        if opens is None or ends is None:
            return None
        if count > 1 and len(opens.points) == len(ends.points) == 1:
            hint = "name an edge alone, as in `cut from: hem`, and the slashes are spaced evenly along it"
            self._piece.fault(f"all {count} slashes of {self.name} lie on each other", opens.said.span(), hint)
            return None
        by = self._openings(opens, ends, hinged)
        if by is None or self._too_many(count):
            return None
        named = {place.edge for place in ((opens,) if hinged else (opens, ends)) if place.edge is not None}
        for number in range(count):
            pair = opens.points[number % len(opens.points)], ends.points[number % len(ends.points)]
            self.slashes.slash(pair, by, named, self.fields.whole.where)
        return (self._row(by, hinged, count),)

    def _count(self) -> int:
        said = self.fields.text("count")
        if said is None:
            return 1
        if said.value.isascii() and said.value.isdigit() and 1 <= int(said.value[:4]) <= MOST:
            return int(said.value)
        hint = f"write a whole number from 1 to {MOST}"
        self._piece.fault(f"`{said.value}` is no number of slashes", said.span(), hint)
        return 1

    def _too_many(self, count: int) -> bool:
        all_told = count + len(self.slashes.made)
        if all_told > MOST:
            message = f"{self._piece.name} is slashed {all_told} times"
            self._piece.fault(message, self.fields.whole.where, f"slash it at most {MOST} times, and open each farther")
        return all_told > MOST

    def _place(self, key: str, count: int = 1) -> Place | None:
        """A place on an edge, a point, or an edge alone, along which ``count`` slashes are spaced evenly."""
        said, piece = self.fields.text(key), self._piece
        if said is None:
            return None
        known = key_of(said.value)
        if known in piece.edges.names and (self.fields.has("count") or known not in piece.points.names):
            return self._evenly(said, count, key == "cut from")
        if known in piece.points.names or known in piece.points.broken:
            point = piece.points.find(said)
            return None if point is None else Place((point,), self._corner(known), said)
        return self._on_edge(said, key)

    def _corner(self, point: str) -> str | None:
        """Of two edges that end at a point the first, to which what opens there belongs."""
        return next((key for key, edge in self._piece.edges.drawn.items() if point in (edge.start, edge.end)), None)

    def _on_edge(self, said: Text, key: str) -> Place | None:
        piece, words = self._piece, said.value
        cuts = [at for at in range(len(words)) if words[at : at + 4].casefold() == " at "]
        split = next((at for at in cuts if key_of(words[:at]) in piece.edges.names), cuts[0] if cuts else None)
        if split is None:
            piece.fault(f"{piece.name} has no edge or point called `{words}`", said.span(), PLACE)
            return None
        edge = said.part(0, split)
        drawn = piece.edges.drawn.get(key_of(edge.value)) if piece.edges.find(edge) is not None else None
        start = words.casefold().find(" from ", split)
        at = said.part(split + 4, len(words) if start < 0 else start)
        distance = piece.desk.formula(at)
        if drawn is None or distance is None:
            return None
        typed = piece.step(f"{key} of {self.name}", distance, at.span(), Kind.LENGTH)
        along = piece.along(typed, None if start < 0 else said.part(start + 6, len(words)), drawn)
        if along is None:
            return None
        whole = Apply("length of", (drawn.step,), said.span())
        on_it = self._demand_on(typed, drawn, whole, at)
        place = Apply("if", (on_it, along, whole / 2), said.span())  # half-way nothing else goes wrong for it
        return Place((self._point(f"point {key}", drawn, place, said),), key_of(drawn.name), said)

    def _demand_on(self, typed: Name, drawn: Drawn, whole: Expression, at: Text) -> Expression:
        desk = self._piece.desk
        length = desk.hidden(whole, at.span())
        fits = Apply("and", (Apply(">=", (typed, zero())), Apply("<=", (typed, length))))
        message = (f"this place lies off {drawn.name}, at ", desk.shown(typed), " of ", desk.shown(length), " as drawn")
        desk.demand(fits, message, at.span(), "write a length from 0 to that of the edge in every size")
        return fits

    def _evenly(self, said: Text, count: int, forwards: bool) -> Place | None:
        """Places that part an edge in equal lengths; those of the edge across are counted the other way."""
        drawn = self._piece.edges.drawn.get(key_of(said.value))
        if drawn is None:
            return None
        if not self.fields.has("count"):
            hint = f"write `{drawn.name} at 12 cm from P`, or `count: 4` for slashes evenly spaced along it"
            self._piece.fault(f"it is not said where on {drawn.name}", said.span(), hint)
            return None
        whole = Apply("length of", (drawn.step,), said.span())
        parts = [n if forwards else count + 1 - n for n in range(1, count + 1)]
        places = [whole * plain(part / (count + 1)) for part in parts]
        words = "from" if forwards else "to"
        return Place(
            tuple(self._point(f"slash {n} {words}", drawn, place, said) for n, place in enumerate(places)),
            key_of(drawn.name),
            said,
        )

    def _point(self, words: str, drawn: Drawn, along: Expression, said: Text) -> Name:
        point = Apply("along", (drawn.step, along), said.span())
        return self._piece.step(f"{words} of {self.name}", point, said.span(), Kind.POINT)

    def _openings(self, opens: Place, ends: Place, hinged: bool) -> tuple[Expression, Expression] | None:
        if not self.fields.required("open"):
            return None
        node = self.fields.node("open")
        if hinged or not isinstance(node, Mapping):
            by = self._opening(self.fields.text("open"), f"opening of {self.name}")
            return None if by is None else (by, zero() if hinged else by)
        inner = Fields(node, self._piece.desk.faults, "`open`", otherwise=BY_SIZE)
        names = [self._piece.edges.names.get(place.edge or "", place.said.value) for place in (opens, ends)]
        found = [self._opening(inner.required_text(name), f"opening of {self.name} at {name}") for name in names]
        inner.finish()
        return None if found[0] is None or found[1] is None else (found[0], found[1])

    def _opening(self, said: Text | None, words: str) -> Name | None:
        return self._piece.amount(words, said, f"{self.name} opens by {{}}", Limit.NOT_NEGATIVE)

    def _row(self, by: tuple[Expression, Expression], hinged: bool, count: int) -> Shaped:
        desk, (wide, narrow) = self._piece.desk, by
        assert isinstance(wide, Name)
        shown = desk.shown(wide)
        line: Line = ("slashed and opened ", shown)
        if isinstance(narrow, Name) and narrow != wide:
            line = ("slashed and opened ", shown, " at one end and ", desk.shown(narrow), " at the other")
        elif not hinged:
            line = (*line, " at both ends")
        times = () if count == 1 else (f", {count} times",)
        return Shaped(self.name, ((*line, *times),), shown.key, ())

    def _close(self, darts: Sequence[Dart | TwoTips]) -> Rows | None:
        said, place = self.fields.text("close"), None
        if self.fields.required("open at"):
            place = self._place("open at")
        dart = None if said is None else self._dart(said, darts)
        for key in ("cut from", "hinge at", "cut to", "open", "count"):
            if (other := self.fields.node(key)) is not None:
                hint = f"leave out `{key}:`; the dart says how far it opens, and its tip is the hinge"
                self._piece.fault(f"a dart that is closed takes no `{key}:`", other.where, hint)
                return None
        if dart is None or place is None:
            return None
        return move_dart(self.name, self.fields, dart, place.points[0], place.edge, self.slashes)

    def _dart(self, said: Text, darts: Sequence[Dart | TwoTips]) -> Dart | None:
        open_ones = [*darts, *self.slashes.darts]
        dart = next((each for each in open_ones if key_of(each.name) == key_of(said.value)), None)
        if dart is None:
            names = ", ".join(each.name for each in open_ones) or "none"
            self._piece.fault(
                f"{self._piece.name} has no dart called `{said.value}`", said.span(), f"its darts are: {names}"
            )
        elif isinstance(dart, TwoTips):
            hint = "close a dart that starts at an edge"
            self._piece.fault(f"{dart.name} has two tips and cannot be closed flat", said.span(), hint)
        elif dart in self.slashes.closed:
            hint = "close each dart once"
            self._piece.fault(f"{dart.name} is closed already", said.span(), hint)
        else:
            return dart
        return None
