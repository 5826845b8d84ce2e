"""How far along an edge a place is: a length, a part of the edge such as ``1/3``, or a point that lies on it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.drafting.points import Points
from chalkfold.formula import Apply, Expression, Literal, Name, apply, key_of
from chalkfold.reading import Text

_PART = re.compile(r"\d+\s*/\s*\d+")
ON_IT = Literal(0.5, Kind.LENGTH, "0.5 mm")
"""A point farther from its edge than this does not lie on it."""


@dataclass(frozen=True, slots=True)
class Along:
    """Reads such places on one edge; ``called`` is its name, ``back`` where places are measured from its end."""

    called: str
    edge: Name
    back: bool
    points: Points
    desk: Desk

    def read(self, said: Text) -> Expression | None:
        """How far it is, from the end that is measured from; None after a fault."""
        whole = Apply("length of", (self.edge,), said.span())
        if key_of(said.value) in self.points.names and key_of(said.value) not in self.desk.steps:
            return self._to_point(said, whole)
        found = self.desk.formula(said)
        return whole * found if found is not None and _PART.fullmatch(said.value) else found

    def _to_point(self, said: Text, whole: Expression) -> Expression | None:
        point = self.points.find(said)
        if point is None:
            return None
        along = Apply("how far along", (self.edge, point), said.span())
        off = Apply("distance", (point, Apply("along", (self.edge, along), said.span())), said.span())
        self.desk.demand(
            apply("<=", off, ON_IT),
            (f"{said.value} does not lie on {self.called}",),
            said.span(),
            f"name a point on {self.called}, or write how far along it, as in `at 12 cm`",
        )
        return whole - along if self.back else along
