"""``darts:`` of a draft: what is taken in between two legs that meet in a tip.

Distances are measured along the edge as drawn. The two legs are equally long; on the edge the outline goes out to a
cap, so that it is right once the dart is folded (``geometry/darts.py``). A dart with two tips lies inside the piece.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import BY_SIZE, zero
from chalkfold.blocks.drafting.along_edges import Along
from chalkfold.blocks.drafting.edges import Drawn
from chalkfold.blocks.drafting.flat_piece import FlatPiece, Towards, all_of
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, Name, apply, key_of, length, parse_name, plain
from chalkfold.geometry.darts import EQUAL_LEGS
from chalkfold.plan import Limit, Line, Style
from chalkfold.reading import Entry, Fields, Mapping

EXAMPLE = "{waist dart: {on: EDGE, at: 9 cm, from: P, takes: 2.5 cm, length: 12 cm, pressed towards: EDGE}}"
ON_AN_EDGE = ("on", "at", "from", "length", "to", "pressed towards")
IN_EVERY_SIZE = "move it, or take in less, in every size"
MOST = 20
Pair = tuple[Name, Name]


@dataclass(frozen=True, slots=True)
class Dart:
    """A dart on an edge: what it takes, the ends of its legs in the order of the edge, its tip, where it is pressed to.

    ``reach`` is where on the edge it begins and ends. ``holds``: it can be drawn; where it cannot, a demand tells why.
    """

    name: str
    span: Span
    drawn: Drawn
    takes: Name
    legs: Pair
    tip: Name
    length: Name
    pressed: Towards
    reach: Pair | None = None
    holds: Name | None = None
    after: int = 0
    """It was drawn when the piece had been slashed so often."""
    made_from: str = ""
    """The dart that was closed for it."""

    @property
    def edge(self) -> str:
        return key_of(self.drawn.name)

    def said(self, piece: FlatPiece) -> tuple[Line, ...]:
        shown = piece.desk.shown
        how = ("takes ", shown(self.takes), ", ", shown(self.length), " long")
        made = f"pressed {self.pressed.said}"
        return how, (f"{made}; from {self.made_from}, which is closed" if self.made_from else made,)


@dataclass(frozen=True, slots=True)
class TwoTips:
    """A dart inside the piece: its tips, and the two places where it is widest."""

    name: str
    takes: Name
    tips: Pair
    sides: Pair

    def said(self, piece: FlatPiece) -> tuple[Line, ...]:
        apart = piece.desk.hidden(Apply("distance", self.tips), piece.place)
        return (("takes ", piece.desk.shown(self.takes), ", ", piece.desk.shown(apart), " long"),)


def read_darts(
    body: Mapping | None, piece: FlatPiece, taken: Sequence[Dart | TwoTips] = ()
) -> list[Dart | TwoTips] | None:
    """Read ``darts:``, after those that are ``taken`` over from another piece; None after a fault."""
    found: list[Dart | TwoTips] = list(taken)
    if body is not None and len(body.entries) > MOST:
        message = f"{piece.name} has {len(body.entries)} darts"
        piece.fault(message, body.where, f"draw it with at most {MOST} darts")
        return None
    for entry in body or ():
        dart = None
        if not piece.desk.taken("dart", entry.key, [each.name for each in taken]):
            dart = _read(entry, [each for each in found if isinstance(each, Dart)], piece)
        if dart is not None:
            found.append(dart)
    return found if body is None or len(found) == len(taken) + len(body.entries) else None


def _read(entry: Entry, others: list[Dart], piece: FlatPiece) -> Dart | TwoTips | None:
    name, said = parse_name(entry.key, piece.desk.faults), entry.value
    if not isinstance(said, Mapping):
        piece.fault(f"`{entry.key.value}` does not say what it takes", said.where, f"write `darts: {EXAMPLE}`")
        return None
    if name is None:
        return None
    fields = Fields(said, piece.desk.faults, "a dart", otherwise=BY_SIZE)
    wide = fields.required_text("takes")
    takes = piece.amount(f"takes of {name}", wide, f"{name} takes in {{}}", Limit.NOT_NEGATIVE)
    if fields.has("other tip"):
        dart: Dart | TwoTips | None = _two_tips(name, fields, takes, piece)
    else:
        drawn = piece.edge(fields.required_text("on"), "dart")
        reader = _OnEdge(name, fields, piece, said.where)
        deep = reader.depth()
        dart = reader.dart(drawn, takes, deep, others) if drawn and takes and deep else None
    fields.also(*ON_AN_EDGE, "tip", "other tip")
    fields.finish()
    return dart


@dataclass(frozen=True, slots=True)
class _OnEdge:
    """Reads a dart that starts at an edge."""

    name: str
    fields: Fields
    piece: FlatPiece
    span: Span

    def depth(self) -> Name | None:
        """How long the dart is, or the point it goes to."""
        fields, name, piece = self.fields, self.name, self.piece
        long, to = fields.text("length"), fields.text("to")
        if long is not None and to is not None:
            piece.fault(f"{name} has a length and also a point for its tip", to.span(), "leave out `length:` or `to:`")
            return None
        if to is not None:
            return piece.points.find(to)
        if long is None and not fields.has("length") and not fields.has("to"):
            hint = "add `length: 12 cm`, or `to: P` with the point where its tip lies"
            fields.missing("length", "to", code=Code.DRAFT, message=f"it is not said how long {name} is", hint=hint)
        return piece.amount(f"length of {name}", long, f"{name} is {{}} long", Limit.POSITIVE)

    def dart(self, drawn: Drawn, takes: Name, deep: Name, others: list[Dart]) -> Dart | None:
        middle = self._middle(drawn, takes, deep)
        if middle is None:
            return None
        if self.fields.has("to"):
            self._demand_inside(deep)
        room = self._demand_room(drawn, takes, middle)
        half = takes / 2
        reach = (
            self._step("begin", Apply("if", (room, middle - half, zero())), Kind.LENGTH),
            self._step("end", Apply("if", (room, middle + half, zero())), Kind.LENGTH),
        )
        legs = self._at("first leg", drawn, reach[0]), self._at("last leg", drawn, reach[1])
        tip, long = self._tip(drawn, reach, legs, deep)
        pressed = self.piece.towards("pressed towards", self.fields, drawn, legs)
        apart, alike = self._demand_apart(drawn, reach, others), self._demand_alike(legs, tip)
        if not self.fields.has("to"):
            self._demand_inside(tip)
        holds = self._step("holds", all_of([room, *apart, *alike]), Kind.TRUTH)
        if pressed is None:
            return None
        return Dart(self.name, self.span, drawn, takes, legs, tip, long, pressed, reach, holds)

    def _step(self, words: str, expression: Expression, kind: Kind) -> Name:
        return self.piece.step(f"{words} of {self.name}", expression, self.span, kind)

    def _at(self, words: str, drawn: Drawn, along: Name) -> Name:
        return self._step(words, Apply("along", (drawn.step, along), self.span), Kind.POINT)

    def _middle(self, drawn: Drawn, takes: Name, deep: Name) -> Name | None:
        """Where its middle stands, from the beginning of the edge."""
        at, start = self.fields.text("at"), self.fields.text("from")
        place: Expression | None = None
        back = start is not None and key_of(start.value) == drawn.end != drawn.start
        along = Along(drawn.name, drawn.step, back, self.piece.points, self.piece.desk)
        if at is not None and (said := along.read(at)) is not None:
            typed = self.piece.step(f"place of {self.name}", said, at.span(), Kind.LENGTH)
            place = self.piece.along(typed, start, drawn)
        elif not self.fields.has("at") and self.fields.has("to"):
            square = Apply("square place", (drawn.step, deep, takes), self.span)
            within = Apply("inside", (self.piece.outline, deep), self.span)
            place = Apply("if", (within, square, zero()), self.span)
        elif not self.fields.has("at"):
            message = f"it is not said where on {drawn.name} {self.name} stands"
            hint = "add `at: 9 cm`, how far along the edge its middle stands"
            self.fields.missing("at", code=Code.DRAFT, message=message, hint=hint)
        return None if place is None else self._step("middle", place, Kind.LENGTH)

    @property
    def _about(self) -> str:
        return f"dart {self.name} of {self.piece.name}"

    def _demand_inside(self, tip: Name) -> None:
        said = self.fields.text("to") or self.fields.text("length")
        place = self.span if said is None else said.span()
        within = Apply("inside", (self.piece.outline, tip), place)
        message = f"the tip of {self.name} lies outside of {self.piece.name}"
        hint = "make the dart shorter, or move it, in every size"
        self.piece.desk.demand(within, (message,), place, hint, self._about)

    def _demand_room(self, drawn: Drawn, takes: Name, middle: Name) -> Expression:
        """That the edge is long enough for the dart where it stands."""
        fields, shown, half = self.fields, self.piece.desk.shown, takes / 2
        whole = self._step("whole edge", Apply("length of", (drawn.step,), self.span), Kind.LENGTH)
        at, wide, start = fields.text("at"), fields.text("takes"), fields.text("from")
        place = self.span if wide is None else wide.span()
        self.piece.desk.demand(
            apply("<=", takes, whole),
            (f"{self.name} takes ", shown(takes), f", and {drawn.name} is only ", shown(whole), " as drawn"),
            place,
            "take in less, in every size, or draw a longer edge",
            self._about,
        )
        fits = apply("and", apply(">=", middle - half, zero()), apply("<=", middle + half, whole))
        left = self._step("room", apply("min", middle, whole - middle), Kind.LENGTH)
        fold = self.piece.on_fold(drawn.start if start is None else key_of(start.value))
        across = "; no dart lies across the fold: shape that place with a seam instead" if fold else ""
        self.piece.desk.demand(
            fits,
            (f"{self.name} reaches past the end of {drawn.name}: its middle stands ", shown(left), " from it"),
            place if at is None else at.span(),
            f"leave at least half of what it takes to either end, in every size{across}",
            self._about,
        )
        return fits

    def _tip(self, drawn: Drawn, reach: Pair, legs: Pair, deep: Name) -> Pair:
        """The tip, and how far it lies from the middle between the legs."""
        if not self.fields.has("to"):
            square = Apply("square in", (self.piece.outline, drawn.step, *reach, deep, plain(0.5)), self.span)
            return self._step("tip", square, Kind.POINT), deep
        middle = Apply("between", (*legs, plain(0.5)), self.span)
        called, where = f"length of {self.name} of {self.piece.name}", f"piece {self.piece.name}"
        return deep, self.piece.desk.step(called, Apply("distance", (middle, deep), self.span), self.span, where=where)

    def _demand_apart(self, drawn: Drawn, reach: Pair, others: list[Dart]) -> list[Expression]:
        """That the dart keeps clear of those before it on the same edge."""
        found: list[Expression] = []
        place = self.fields.text("at") or self.fields.text("to")
        for other in others:
            if other.drawn is drawn and other.reach is not None:
                apart = apply("or", apply("<=", reach[1], other.reach[0]), apply("<=", other.reach[1], reach[0]))
                message = f"{self.name} and {other.name} overlap on {drawn.name}"
                span = self.span if place is None else place.span()
                self.piece.desk.demand(apart, (message,), span, IN_EVERY_SIZE)
                found.append(apart)
        return found

    def _demand_alike(self, legs: Pair, tip: Name) -> list[Expression]:
        """That the legs are equally long, where both the place and the tip are given."""
        to = self.fields.text("to")
        if to is None or self.fields.text("at") is None:
            return []
        first, last = (
            self._step(words, Apply("distance", (leg, tip), to.span()), Kind.LENGTH)
            for words, leg in zip(("first length", "last length"), legs, strict=True)
        )
        desk, shown = self.piece.desk, self.piece.desk.shown
        apart = desk.hidden(apply("max", first - last, last - first), to.span(), Style.FINE)
        alike = apply("<=", apart, length(EQUAL_LEGS))
        legs_say = (f"one leg of {self.name} is ", shown(first), " long and the other ", shown(last))
        hint = (
            f"leave out `at:`, and {self.name} stands square below its tip; or move the point. One that slants is made"
            " from another dart, under `spread:`, with `close:` and `as: dart`"
        )
        desk.demand(alike, (*legs_say, ": ", shown(apart), " apart"), to.span(), hint)
        return [alike]


def _two_tips(name: str, fields: Fields, takes: Name | None, piece: FlatPiece) -> TwoTips | None:
    said = fields.required_text("tip"), fields.required_text("other tip")
    found = [point for text in said if text is not None and (point := piece.points.find(text)) is not None]
    for key in ON_AN_EDGE:
        if (text := fields.text(key)) is not None:
            hint = "leave it out; or leave out `other tip:`, and the dart starts at an edge"
            piece.fault(f"a dart with two tips has no `{key}:`", text.span(), hint)
            return None
    if takes is None or len(found) < 2:
        return None
    tips, span = (found[0], found[1]), fields.whole.where
    one, other = (
        piece.step(f"{which} of {name}", Apply("beside", (*tips, plain(0.5), by), span), span, Kind.POINT)
        for which, by in (("one side", takes / 2), ("other side", zero() - takes / 2))
    )
    inside = all_of([Apply("inside", (piece.outline, corner), span) for corner in (*tips, one, other)])
    piece.desk.demand(inside, (f"{name} does not lie inside of {piece.name}",), span, IN_EVERY_SIZE)
    return TwoTips(name, takes, tips, (one, other))
