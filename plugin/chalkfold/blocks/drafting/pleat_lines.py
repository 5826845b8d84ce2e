"""The lines of a pleat on the flat cloth, and how its folds lie. Common practice, no source."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import chain

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.drafting.edges import Drawn
from chalkfold.blocks.drafting.flat_piece import FlatPiece, Towards
from chalkfold.diagnostics import Span
from chalkfold.formula import Apply, Name, length, plain

THIRD = 1 / 3
FOLDS = {
    "knife": ((0.0, 1.0),),
    "tuck": ((0.0, 1.0),),
    "inverted": ((0.0, 0.5), (0.5, 1.0)),
    "box": ((0.0, THIRD), (2 * THIRD, 1.0)),
}
"""From where to where, in parts of the whole pleat, cloth is folded away. The folds of a box pleat meet behind it."""
LINES = {
    "tuck": (("stitched", 0.0), ("folded", 0.5), ("stitched", 1.0)),
    "inverted": (("folded", 0.0), ("placement", 0.5), ("folded", 1.0)),
    "box": (("placement", 0.0), ("folded", THIRD), ("folded", 2 * THIRD), ("placement", 1.0)),
}
"""Folded lines are brought to placement lines; those of a knife pleat change places with the way it is folded."""
KINDS = tuple(FOLDS)
LEG = 100.0
"""The edge is trued over a fold as over a dart, between lines as long as this (mm); the length makes no difference."""


@dataclass(frozen=True, slots=True)
class Fold:
    """Cloth folded away between two lines: where they meet the edge, in its order, and how they run into the piece.

    It lies ``under`` the part of the piece towards that end of the edge.
    """

    edge: tuple[Name, Name]
    inside: tuple[Name, Name]
    under: Towards


@dataclass
class PleatLines:
    """Lays down the folds and lines of pleats one by one. ``down`` is how far the lines reach, or the edge they reach
    to; lines are a kind of mark with two ends, the first on the edge.
    """

    name: str
    piece: FlatPiece
    span: Span
    drawn: Drawn
    kind: str
    towards: Towards
    down: Name | Drawn
    stitched: Name | None
    folds: list[Fold] = field(default_factory=list)
    lines: list[tuple[str, Name, Name]] = field(default_factory=list)

    def lay(self, number: int, begin: Name, stop: Name) -> None:
        """Lay down the pleat between two places along the edge."""
        parts = sorted({*chain(*FOLDS[self.kind]), *(part for _, part in LINES.get(self.kind, ()))})
        places = {part: self._place(number, part, begin, stop) for part in parts}
        feet = {part: self._point(f"foot {number} {part:.2g}", place) for part, place in places.items()}
        ends = {part: self._end(number, part, begin, stop) for part in parts}
        deep = self.piece.step(f"leg of {self.name}", length(LEG), self.span, Kind.LENGTH)
        for which, pair in enumerate(FOLDS[self.kind]):
            first, last = (places[part] for part in pair)
            legs = (self._square(f"leg {number} {which} {end:g}", first, last, deep, end) for end in (0.0, 1.0))
            self.folds.append(Fold((feet[pair[0]], feet[pair[1]]), (next(legs), next(legs)), self._under(which)))
        self._draw(feet, ends)
        if self.stitched is not None and self.kind != "tuck":
            for part in chain(*FOLDS[self.kind]):
                sewn = self._square(f"sewn {number} {part:.2g}", begin, stop, self.stitched, part)
                self.lines.append(("stitched", feet[part], sewn))

    def _draw(self, feet: dict[float, Name], ends: dict[float, Name]) -> None:
        if self.kind != "knife":
            self.lines += [(line, feet[part], ends[part]) for line, part in LINES[self.kind]]
            return
        near, far = self._under(0), self.towards
        for line, side in (("folded", near), ("placement", far)):
            self.lines.append((line, self._chosen(side, feet), self._chosen(side, ends)))

    def _chosen(self, side: Towards, points: dict[float, Name]) -> Name:
        found = side.choose(points[1.0], points[0.0])
        if isinstance(found, Name):
            return found
        return self.piece.step(
            f"chosen {side.said or 'across'} {points[0.0].name.removeprefix('= ')} of {self.name}",
            found,
            self.span,
            Kind.POINT,
        )

    def _under(self, which: int) -> Towards:
        """Where the cloth of a fold lies: a knife pleat is brought over it, a tuck turned onto it."""
        if self.kind == "tuck":
            return self.towards
        if self.kind == "knife":
            return self.towards.other
        return Towards((which == 1) is (self.kind == "inverted"), "")

    def _place(self, number: int, part: float, begin: Name, stop: Name) -> Name:
        place = begin + (stop - begin) * plain(part)
        return self.piece.step(f"place {number} {part:.2g} of {self.name}", place, self.span, Kind.LENGTH)

    def _point(self, words: str, along: Name) -> Name:
        point = Apply("along", (self.drawn.step, along), self.span)
        return self.piece.step(f"{words} of {self.name}", point, self.span, Kind.POINT)

    def _end(self, number: int, part: float, begin: Name, stop: Name) -> Name:
        words = f"inside {number} {part:.2g}"
        if isinstance(self.down, Name):
            return self._square(words, begin, stop, self.down, part)
        across = (self.piece.outline, self.drawn.step, begin, stop, plain(part), self.down.step)
        return self.piece.step(
            f"{words} of {self.name}", Apply("square across", across, self.span), self.span, Kind.POINT
        )

    def _square(self, words: str, begin: Name, stop: Name, deep: Name, part: float) -> Name:
        square = (self.piece.outline, self.drawn.step, begin, stop, deep, plain(part))
        return self.piece.step(f"{words} of {self.name}", Apply("square in", square, self.span), self.span, Kind.POINT)
