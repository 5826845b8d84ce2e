"""The shaping of a draft: what darts, pleats and slashes make of its edges, lines and marks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import reduce
from operator import add

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk, zero
from chalkfold.blocks.drafting.darts import EXAMPLE as DART
from chalkfold.blocks.drafting.darts import Dart, TwoTips, read_darts
from chalkfold.blocks.drafting.drawn import Side
from chalkfold.blocks.drafting.edges import Drawn
from chalkfold.blocks.drafting.flat_piece import FlatPiece, Towards
from chalkfold.blocks.drafting.notches import Notch
from chalkfold.blocks.drafting.pleats_drawn import EXAMPLE as PLEATS
from chalkfold.blocks.drafting.pleats_drawn import Row, read_pleats_drawn
from chalkfold.blocks.drafting.slashes import Slashes
from chalkfold.blocks.drafting.spread import EXAMPLE as SPREAD
from chalkfold.blocks.drafting.spread import read_spread
from chalkfold.blocks.drafting.taken_shapings import Item, on_piece
from chalkfold.blocks.drafting.trued import true_edges
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, Name, apply, key_of
from chalkfold.plan import Mark
from chalkfold.plan import Shaping as Shaped
from chalkfold.reading import Fields

KEYS = ("darts", "pleats", "spread")


@dataclass(frozen=True, slots=True)
class Shaping:
    """All that shapes one piece. ``edges`` holds each edge as it is sewn, by the key of the edge as drawn; ``rows`` is
    what is told of its slashes.
    """

    piece: FlatPiece
    darts: Sequence[Dart | TwoTips]
    pleats: Sequence[Row]
    slashes: Slashes
    rows: tuple[Shaped, ...]
    edges: dict[str, Name]

    @property
    def flat(self) -> Name | None:
        """The outline that points and marks were placed on, where it is not that of the piece."""
        return self.piece.outline if self.darts or self.pleats or self.slashes.change_edges else None

    @property
    def op(self) -> str:
        """The primitive that makes the outline."""
        return "shaped outline" if self.slashes.made else "outline"

    def sides(self, sides: Sequence[Side]) -> tuple[Side, ...]:
        """The edges spread, and with their darts: what is sewn is shorter than what is drawn by all that they take."""
        return tuple(self._side(side) for side in sides)

    def _side(self, side: Side) -> Side:
        drawn = side.step
        if self.slashes.change_edges:  # a centre stays behind where its arc moves
            side = replace(side, step=self.slashes.edges[key_of(side.name)], centre=None)
            self.piece.step(f"spread edge {side.name}", side.step, self.piece.place, Kind.EDGE)
        key, edge = key_of(side.name), side.step
        darts = [dart for dart in self.darts if isinstance(dart, Dart) and dart.edge == key]
        rows = [row for row in self.pleats if row.edge == key]
        for dart in darts:
            edge = self._with_dart(edge, dart)
        for row in rows:
            edge = self._with_pleats(edge, row)
        self.edges[drawn.key] = edge
        takes = [*(dart.takes for dart in darts), *(row.all_take for row in rows)]
        if not takes:
            return side
        return replace(side, step=edge, flat=side.step, takes=reduce(add, takes[1:], takes[0]))

    def _with_dart(self, edge: Name, dart: Dart) -> Name:
        """The edge led out to the cap of a dart."""
        legs = tuple(Apply("line", (leg, dart.tip), dart.span) for leg in dart.legs)
        capped = self._capped(edge, dart.legs, legs, dart.pressed, dart.holds, dart.name, dart.span)
        return self.piece.step(f"edge with {dart.name}", capped, dart.span, Kind.EDGE)

    def _with_pleats(self, edge: Name, row: Row) -> Name:
        for number, fold in enumerate(row.folds):
            feet, inside = (tuple(map(self.slashes.point, pair)) for pair in (fold.edge, fold.inside))
            legs = tuple(Apply("line", pair, row.span) for pair in zip(feet, inside, strict=True))
            capped = self._capped(edge, feet, legs, fold.under, row.holds, f"{number} {row.name}", row.span)
            edge = self.piece.step(f"edge with {number} {row.name}", capped, row.span, Kind.EDGE)
        return edge

    def _capped(
        self,
        edge: Name,
        feet: tuple[Name, ...],
        legs: tuple[Expression, ...],
        under: Towards,
        holds: Name | None,
        name: str,
        span: Span,
    ) -> Expression:
        """The edge between two legs led out to where it is right when they are folded onto each other."""
        first, last = (Apply("dart cap", (edge, *pair), span) for pair in (legs, legs[::-1]))

        def if_it_holds(drawn: Expression, otherwise: Expression) -> Expression:
            return drawn if holds is None else Apply("if", (holds, drawn, otherwise), span)

        cap = if_it_holds(under.choose(last, first), feet[0])
        top = self.piece.step(f"cap of {name}", cap, span, Kind.POINT)
        return if_it_holds(Apply("through", (edge, feet[0], top, feet[-1]), span), edge)

    def lines(self, lines: Mapping[str, Drawn]) -> dict[str, Drawn]:
        """Level and style lines as the slashes leave them."""
        for line in lines.values():
            self.edges[line.step.key] = self.slashes.edge(line.step)
        return {key: replace(line, step=self.edges[line.step.key]) for key, line in lines.items()}

    def mark(self, mark: Mark) -> Mark:
        """The mark where it comes to lie, on the edge as it is sewn."""
        if mark.edge and mark.edge not in self.edges:
            self.edges[mark.edge] = self.slashes.edge(Name(self.piece.desk.steps[mark.edge].name))
        edge = self.edges[mark.edge] if mark.edge else None
        point, end = (self._on(mark.edge, self._moved(key)) for key in (mark.point, mark.end))
        found = [name for name in (edge, point, end) if name is not None]
        self.piece.desk.want(*found)
        return replace(mark, edge=_key(edge), point=_key(point), end=_key(end))

    def notch(self, notch: Notch) -> Notch:
        """The notch at its place on the edge as sewn: with what slashes added before it, past darts and pleats."""
        feet, span = self._feet(notch.edge), self.piece.place
        if notch.edge not in self.slashes.edges or not (feet or self.slashes.change_edges):
            return notch
        edge = self.slashes.edges[notch.edge]
        along = [Apply("how far along", (edge, point), span) for point in (self.slashes.point(notch.point), *feet)]
        at: Expression = along[0]
        for one, other in zip(along[1::2], along[2::2], strict=True):
            begin, stop = apply("min", one, other), apply("max", one, other)
            at = at - apply("min", apply("max", along[0] - begin, zero()), stop - begin)
        step = self.piece.step(f"sewn {notch.at.name}", at, span, Kind.LENGTH)
        return replace(notch, at=step, from_end=False, as_sewn=True)

    def _feet(self, key: str) -> list[Name]:
        """Where what is folded away on an edge begins and ends, pair by pair."""
        darts = [leg for dart in self.darts if isinstance(dart, Dart) and dart.edge == key for leg in dart.legs]
        folds = [fold for row in self.pleats if row.edge == key for fold in row.folds]
        return darts + [self.slashes.point(foot) for fold in folds for foot in fold.edge]

    def _on(self, edge: str, point: Name | None) -> Name | None:
        """A point of an edge on that edge, where it has been trued; ``edge`` is the key of its step as drawn."""
        keys = {drawn.step.key: key for key, drawn in self.piece.edges.drawn.items()}
        if point is None or keys.get(edge) not in self.slashes.trued:
            return point
        trued, place = self.slashes.edges[keys[edge]], self.piece.place
        on_it = Apply("along", (trued, Apply("how far along", (trued, point))), place)
        return self.piece.step(f"{point.name.removeprefix('= ')} on the trued edge", on_it, place, Kind.POINT)

    def _moved(self, key: str) -> Name | None:
        return self.slashes.point(Name(self.piece.desk.steps[key].name)) if key else None

    def drawn(self) -> tuple[Shaped, ...]:
        """Everything that is drawn of it."""
        found = (self._dart(dart) if isinstance(dart, Dart) else self._inside(dart) for dart in self.darts)
        return (*found, *map(self._pleats, self.pleats), *self.rows)

    def _drawn_line(self, start: Name, end: Name) -> str:
        return self.piece.desk.hidden(Apply("line", (start, end), self.piece.place), self.piece.place).key

    def _dart(self, dart: Dart) -> Shaped:
        desk, edge = self.piece.desk, self.edges[dart.drawn.step.key].key
        cap = Name(f"= cap of {dart.name} of {self.piece.name}", dart.span)
        desk.want(dart.tip, *dart.legs)
        stitched = tuple(("stitched", self._drawn_line(leg, dart.tip)) for leg in dart.legs)
        lines = (*stitched, ("folded", self._drawn_line(cap, dart.tip)))
        notches = tuple((leg.key, edge) for leg in dart.legs)
        return Shaped(dart.name, dart.said(self.piece), dart.takes.key, lines, (dart.tip.key,), notches)

    def _pleats(self, row: Row) -> Shaped:
        edge = self.edges[row.drawn.step.key].key
        lines = tuple((kind, self._drawn_line(*map(self.slashes.point, ends))) for kind, *ends in row.lines)
        feet = [self.slashes.point(foot) for foot in row.on_edge()]
        self.piece.desk.want(*feet)
        return Shaped(row.name, row.said, row.takes.key, lines, notches=tuple((foot.key, edge) for foot in feet))

    def _inside(self, dart: TwoTips) -> Shaped:
        self.piece.desk.want(*dart.tips, *dart.sides)
        stitched = tuple(("stitched", self._drawn_line(tip, side)) for side in dart.sides for tip in dart.tips)
        lines = (*stitched, ("folded", self._drawn_line(*dart.tips)))
        drills = tuple(point.key for point in (*dart.tips, *dart.sides))
        return Shaped(dart.name, dart.said(self.piece), dart.takes.key, lines, drills)


def read_shaping(fields: Fields, piece: FlatPiece, on_cutting_line: bool, taken: Sequence[Item] = ()) -> Shaping | None:
    """Read ``darts:``, ``pleats:`` and ``spread:``, beside what is taken over; None after a fault."""
    bodies = [fields.mapping(key, example) for key, example in zip(KEYS, (DART, PLEATS, SPREAD), strict=True)]
    for key, body in zip(KEYS, bodies, strict=True):
        if body is not None and on_cutting_line:
            hint = "draw the seam line, and leave out `outline is: cutting line`"
            piece.fault(f"`{key}:` works on the seam line, and this outline is the cutting line", body.where, hint)
            return None
    if any(body is None and fields.has(key) for key, body in zip(KEYS, bodies, strict=True)):
        return None
    there = [on_piece(item, piece) for item in taken]
    darts = read_darts(bodies[0], piece, [item for item in there if not isinstance(item, Row)])
    pleats = read_pleats_drawn(bodies[1], darts or (), piece, [item for item in there if isinstance(item, Row)])
    if darts is None or pleats is None or (bodies[2] is not None and piece.edges.broken):
        return None
    found = read_spread(bodies[2], darts, piece)
    if found is None:
        return None
    slashes, rows = found
    kept = [_where_it_lies(dart, slashes) for dart in (*darts, *slashes.darts) if dart not in slashes.closed]
    true_edges(fields, slashes, [*kept, *pleats])
    return Shaping(piece, kept, pleats, slashes, rows, {})


def _where_it_lies(dart: Dart | TwoTips, slashes: Slashes) -> Dart | TwoTips:
    if isinstance(dart, Dart):
        return slashes.dart(dart)
    (tip, other), (one, side) = (map(slashes.point, pair) for pair in (dart.tips, dart.sides))
    return replace(dart, tips=(tip, other), sides=(one, side))


def _key(name: Name | None) -> str:
    return "" if name is None else name.key


def shaped_though_simple(fields: Fields, desk: Desk) -> bool:
    """Refuse shaping on a rectangle, circle or flounce."""
    given = [node for key in KEYS if (node := fields.node(key)) is not None]
    for node in given:
        hint = "draw the piece with `points:` and `outline:`"
        desk.faults.add(Code.DRAFT, "only a piece that is drawn from points can be shaped", node.where, hint)
    return bool(given)
