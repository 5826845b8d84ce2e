"""The shaping of a draft: what darts, pleats and slashes make of its edges, lines and marks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.darts import EXAMPLE, Dart, TwoTips, read_darts
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.drawn import Side
from chalkfold.blocks.flat_piece import FlatPiece
from chalkfold.diagnostics import Code
from chalkfold.formula import Apply, Expression, Name, key_of
from chalkfold.plan import Mark
from chalkfold.plan import Shaping as Shaped
from chalkfold.reading import Fields

KEYS = ("darts",)


@dataclass(frozen=True, slots=True)
class Shaping:
    """All that shapes one piece. ``edges`` holds each edge as it is sewn, by the key of the edge as drawn."""

    piece: FlatPiece
    darts: Sequence[Dart | TwoTips]
    edges: dict[str, Name]

    @property
    def flat(self) -> Name | None:
        """The outline that points and marks were placed on, where it is not that of the piece."""
        return self.piece.outline if self.darts else None

    def sides(self, sides: Sequence[Side]) -> tuple[Side, ...]:
        """The edges with their darts: what is sewn is shorter than what is drawn by all that they take."""
        return tuple(self._side(side) for side in sides)

    def _side(self, side: Side) -> Side:
        on_it = [dart for dart in self.darts if isinstance(dart, Dart) and dart.edge == key_of(side.name)]
        if not on_it:
            return side
        edge = side.step
        takes: Expression | None = None
        for dart in on_it:
            edge = self._with_dart(edge, dart)
            takes = dart.takes if takes is None else takes + dart.takes
        self.edges[side.step.key] = edge
        return replace(side, step=edge, flat=side.step, takes=takes)

    def _with_dart(self, edge: Name, dart: Dart) -> Name:
        """The edge led out to the cap of a dart."""
        legs = tuple(self._line(leg, dart.tip, dart) for leg in dart.legs)
        first, last = (Apply("dart cap", (edge, *pair), dart.span) for pair in (legs, legs[::-1]))
        cap = Apply("if", (dart.holds, dart.pressed.choose(last, first), dart.tip), dart.span)
        top = self.piece.step(f"cap of {dart.name}", cap, dart.span, Kind.POINT)
        out = Apply("through", (edge, dart.legs[0], top, dart.legs[1]), dart.span)
        capped = Apply("if", (dart.holds, out, edge), dart.span)
        return self.piece.step(f"edge with {dart.name}", capped, dart.span, Kind.EDGE)

    def _line(self, start: Name, end: Name, dart: Dart) -> Expression:
        return Apply("line", (start, end), dart.span)

    def mark(self, mark: Mark) -> Mark:
        """The mark with the edge as it is sewn."""
        return replace(mark, edge=self._key(mark.edge))

    def _key(self, key: str) -> str:
        return self.edges[key].key if key in self.edges else key

    def drawn(self) -> tuple[Shaped, ...]:
        """Everything that is drawn of it."""
        return tuple(self._dart(dart) if isinstance(dart, Dart) else self._inside(dart) for dart in self.darts)

    def _drawn_line(self, start: Name, end: Name) -> str:
        return self.piece.desk.hidden(Apply("line", (start, end), self.piece.place), self.piece.place).key

    def _dart(self, dart: Dart) -> Shaped:
        desk, edge = self.piece.desk, self._key(dart.drawn.step.key)
        cap = Name(f"= cap of {dart.name} of {self.piece.name}", dart.span)
        desk.want(dart.tip, *dart.legs)
        stitched = tuple(("stitched", self._drawn_line(leg, dart.tip)) for leg in dart.legs)
        lines = (*stitched, ("folded", self._drawn_line(cap, dart.tip)))
        notches = tuple((leg.key, edge) for leg in dart.legs)
        return Shaped(dart.name, dart.said(self.piece), dart.takes.key, lines, (dart.tip.key,), notches)

    def _inside(self, dart: TwoTips) -> Shaped:
        self.piece.desk.want(*dart.tips, *dart.sides)
        stitched = tuple(("stitched", self._drawn_line(tip, side)) for side in dart.sides for tip in dart.tips)
        lines = (*stitched, ("folded", self._drawn_line(*dart.tips)))
        drills = tuple(point.key for point in (*dart.tips, *dart.sides))
        return Shaped(dart.name, dart.said(self.piece), dart.takes.key, lines, drills)


def read_shaping(fields: Fields, piece: FlatPiece, on_cutting_line: bool) -> Shaping | None:
    """Read ``darts:``; None after a fault."""
    body = fields.mapping("darts", EXAMPLE)
    if body is not None and on_cutting_line:
        hint = "draw the seam line, and leave out `outline is: cutting line`"
        piece.fault("darts are drawn on the seam line, and this outline is the cutting line", body.where, hint)
        return None
    darts = read_darts(body, piece)
    if darts is None or (body is None and fields.has("darts")):
        return None
    return Shaping(piece, darts, {})


def shaped_though_simple(fields: Fields, desk: Desk) -> bool:
    """Refuse shaping on a rectangle, circle or flounce."""
    given = [node for key in KEYS if (node := fields.node(key)) is not None]
    for node in given:
        hint = "draw the piece with `points:` and `outline:`"
        desk.faults.add(Code.DRAFT, "only a piece that is drawn from points can be shaped", node.where, hint)
    return bool(given)
