"""What the keys of one construction give: points, distances, lines and edges as formulas, and which point is meant."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, Name, key_of
from chalkfold.reading import Fields, Sequence, Text

if TYPE_CHECKING:
    from chalkfold.blocks.drafting.points import Points

SIDES = ("left", "right", "up", "down")
Edges = Callable[[Text], Name | None]
"""Finds an edge or a line of the piece by its name."""
Found = Expression | None
Pair = tuple[Found, Found]


@dataclass(frozen=True, slots=True)
class Given:
    """Whatever cannot be read is None, after a fault; and so is what would be built from it."""

    fields: Fields
    points: Points
    edges: Edges
    place: Span

    def apply(self, op: str, *args: Found) -> Found:
        known = [arg for arg in args if arg is not None]
        return Apply(op, tuple(known), self.place) if len(known) == len(args) else None

    def has(self, key: str) -> bool:
        return self.fields.has(key)

    def point(self, key: str) -> Found:
        said = self.fields.text(key)
        return None if said is None else self.points.find(said)

    def number(self, key: str) -> Found:
        return self.points.desk.formula(self.fields.text(key))

    def edge(self, key: str) -> Found:
        said = self.fields.text(key)
        return None if said is None else self.edges(said)

    def is_pair(self, key: str) -> bool:
        return isinstance(self.fields.node(key), Sequence)

    def pair(self, key: str) -> Pair:
        said = self._two(key, "two points", "[A, B]")
        return (None, None) if said is None else (self.points.find(said[0]), self.points.find(said[1]))

    def line(self, key: str) -> Found:
        """An edge as drawn, or the line through two points, carried on."""
        return self.apply("carried on", *self.pair(key)) if self.is_pair(key) else self.edge(key)

    def compass(self, key: str) -> Pair:
        """A point and a distance, as in ``[A, 12 cm]``."""
        said = self._two(key, "a point and a distance", "[A, 12 cm]")
        return (None, None) if said is None else (self.points.find(said[0]), self.points.desk.formula(said[1]))

    def names_point(self, key: str) -> bool:
        said = self.fields.text(key)
        return said is not None and (
            key_of(said.value) in self.points.names or key_of(said.value) in self.points.broken
        )

    def along(self, edge: Found) -> Found:
        """``at`` is a length, or a part of the edge, from the end named or from where the edge begins."""
        distance = self.number("at")
        if not self.has("from"):
            return self.apply("along", edge, distance)
        return self.apply("along from", edge, distance, self.point("from"))

    def chosen(self, found: Found) -> Found:
        """The one point that ``nearest to`` or ``side`` says; without them there must be only one."""
        if self.has("nearest to") and self.has("side"):
            message = "this says `side:` and also `nearest to:`"
            self.points.desk.faults.add(Code.DRAFT, message, self.place, "keep one of the two")
            return None
        if self.has("nearest to"):
            return self.apply("nearest", found, self.point("nearest to"))
        if not self.has("side"):
            return self.apply("only", found)
        side = self.fields.choice("side", SIDES)
        return None if side is None else self.apply(f"farthest {side}", found)

    def _two(self, key: str, what: str, example: str) -> list[Text] | None:
        said = self.fields.texts(key)
        if len(said) == 2:
            return said
        place = self.fields.whole.where if not said else said[-1].span()
        hint = f"write `{key}: {example}`"
        self.points.desk.faults.add(Code.DRAFT, f"`{key}` takes {what}", place, hint)
        return None
