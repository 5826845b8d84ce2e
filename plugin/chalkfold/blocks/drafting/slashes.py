"""The slashes of a piece, one after the other: what each makes of the edges, and where points come to lie."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field, replace

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.drafting.darts import Dart
from chalkfold.blocks.drafting.flat_piece import FlatPiece
from chalkfold.diagnostics import Span
from chalkfold.formula import Apply, Expression, Name, plain
from chalkfold.plan import Part


@dataclass(frozen=True, slots=True)
class Slash:
    """The part of the piece that moves, and where the cut along it comes to lie."""

    part: Name
    cut: Name
    span: Span


@dataclass
class Slashes:
    """``edges`` holds the edges as they are after the slashes so far, by key in the order of the outline."""

    piece: FlatPiece
    edges: dict[str, Name] = field(default_factory=dict)
    made: list[Slash] = field(default_factory=list)
    darts: list[Dart] = field(default_factory=list)
    """Darts that a closed dart was moved to."""
    closed: list[Dart] = field(default_factory=list)
    trued: set[str] = field(default_factory=set)
    """Keys of edges that were redrawn as fair curves, off which points of them may lie a little."""

    @property
    def change_edges(self) -> bool:
        """Whether edges are other than they were drawn."""
        return bool(self.made or self.trued)

    def __post_init__(self) -> None:
        self.edges = {key: drawn.step for key, drawn in self.piece.edges.drawn.items()}

    def point(self, point: Name, after: int = 0) -> Name:
        """Where a point comes to lie; ``after`` so many slashes it lay where it is named."""
        for number, slash in enumerate(self.made[after:], after):
            moved = Apply("spread point", (point, slash.part, slash.cut), slash.span)
            point = self._step(f"{point.name} after", number, moved, slash.span, Kind.POINT)
        return point

    def edge(self, edge: Name) -> Name:
        """What becomes of a line in the piece."""
        for number, slash in enumerate(self.made):
            moved = Apply("spread", (edge, slash.part, slash.cut, plain(0)), slash.span)
            edge = self._step(f"{edge.name} after", number, moved, slash.span, Kind.EDGE)
        return edge

    def dart(self, dart: Dart) -> Dart:
        """A dart where it comes to lie."""
        first, last = (self.point(leg, dart.after) for leg in dart.legs)
        return replace(dart, legs=(first, last), tip=self.point(dart.tip, dart.after))

    def slash(
        self, ends: tuple[Name, Name], open_by: tuple[Expression, Expression], names: Collection[str], span: Span
    ) -> None:
        """Cut from the first of two points of the seam line to the last, and open it at each; ``names`` are the keys
        of the edges that get what opens at their ends.
        """
        number = len(self.made)
        opens, hinge = (self.point(end) for end in ends)
        part = Apply("moving part", (self._outline(span), opens, hinge, self._folds()), span)
        moving = self._step("moving part", number, part, span, Kind.OUTLINE, self._parts())
        cut = self._step("slash", number, Apply("opened", (moving, *open_by), span), span, Kind.EDGE)
        slash = Slash(moving, cut, span)
        for key, edge in self.edges.items():
            self._spread(key, edge, slash, key in names)
        self.made.append(slash)

    def close(self, dart: Dart, opens: Name, names: Collection[str], span: Span) -> Slash:
        """Close a dart and open the piece from a point of the seam line to its tip."""
        number, legs, tip = len(self.made), self.legs(dart, span), self.point(dart.tip, dart.after)
        part = Apply("dart part", (self._outline(span), self.point(opens), tip, legs, self._folds()), span)
        moving = self._step("moving part", number, part, span, Kind.OUTLINE, self._parts())
        cut = self._step("slash", number, Apply("closed", (moving, legs), span), span, Kind.EDGE)
        slash = Slash(moving, cut, span)
        for key, edge in self.edges.items():
            if key == dart.edge:
                self._set(key, Apply("closed edge", (edge, legs, moving, cut), span), span)
            else:
                self._spread(key, edge, slash, key in names)
        self.made.append(slash)
        self.closed.append(dart)
        return slash

    def legs(self, dart: Dart, span: Span) -> Name:
        """From leg to leg of a dart, where it lies now."""
        first, last = (self.point(leg, dart.after) for leg in dart.legs)
        return self._step(f"legs of {dart.name}", len(self.made), Apply("line", (first, last), span), span, Kind.EDGE)

    def _spread(self, key: str, edge: Name, slash: Slash, bridges: bool) -> None:
        self._set(key, Apply("spread", (edge, slash.part, slash.cut, plain(int(bridges))), slash.span), slash.span)

    def _set(self, key: str, edge: Expression, span: Span) -> None:
        name = self.piece.edges.names[key]
        self.edges[key] = self._step(f"edge {name} after", len(self.made), edge, span, Kind.EDGE)

    def _outline(self, span: Span) -> Name:
        if not self.made:
            return self.piece.outline
        outline = Apply("shaped outline", tuple(self.edges.values()), span)
        return self._step("outline before", len(self.made), outline, span, Kind.OUTLINE, self._parts())

    def _parts(self) -> tuple[Part, ...]:
        sides = self.piece.edges.drawn.values()
        return tuple(Part(side.name, side.span or self.piece.place) for side in sides)

    def _folds(self) -> Expression:
        return plain(sum(2**number for number, key in enumerate(self.edges) if key in self.piece.folds))

    def _step(
        self, words: str, number: int, expression: Expression, span: Span, kind: Kind, parts: tuple[Part, ...] = ()
    ) -> Name:
        name = f"= {words.removeprefix('= ')} {number + 1} of {self.piece.name}"
        return self.piece.desk.step(name, expression, span, kind=kind, parts=parts)
