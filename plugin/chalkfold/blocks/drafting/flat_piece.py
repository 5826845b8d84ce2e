"""A piece as drawn, before darts, pleats and slashes shape it; and how a place on one of its edges is read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.drafting.edges import Drawn, Edges
from chalkfold.blocks.drafting.points import Points
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, Name, key_of
from chalkfold.plan import Limit, Part
from chalkfold.reading import Fields, Text

DIRECTIONS = {"left": ("across of", "<"), "right": ("across of", ">"), "up": ("down of", "<"), "down": ("down of", ">")}
"""What of a point tells one direction, and how it compares to a point further back."""
SAID = {"left": "to the left", "right": "to the right", "up": "upwards", "down": "downwards"}


@dataclass(frozen=True, slots=True)
class Towards:
    """Which end of an edge: whether it is the ``last``, or what tells so in each size; ``said`` is the way there."""

    last: bool | Expression
    said: str

    @property
    def other(self) -> Towards:
        """The other end, whose place has no name."""
        return Towards(not self.last if isinstance(self.last, bool) else Apply("not", (self.last,)), "")

    def choose(self, last: Expression, first: Expression) -> Expression:
        if isinstance(self.last, bool):
            return last if self.last else first
        return Apply("if", (self.last, last, first))


@dataclass(frozen=True, slots=True)
class FlatPiece:
    """What shaping starts from; ``folds`` holds the keys of the edges on a fold."""

    name: str
    place: Span
    edges: Edges
    points: Points
    folds: frozenset[str]
    desk: Desk
    darts_closed: bool = False
    """It was traced with darts closed, which leave corners as slashes do."""

    @property
    def outline(self) -> Name:
        """The step of its seam line; call it first when all edges are read, and no lines yet."""
        name = Name(f"= flat outline of {self.name}", self.place)
        if name.key in self.desk.steps:
            return name
        sides = self.edges.drawn.values()
        parts = tuple(Part(side.name, side.span or self.place) for side in sides)
        outline = Apply("outline", tuple(side.step for side in sides), self.place)
        return self.desk.step(name.name, outline, self.place, kind=Kind.OUTLINE, parts=parts)

    def step(self, words: str, expression: Expression, span: Span, kind: Kind | None = None) -> Name:
        """A step of the shaping that no writer can name."""
        return self.desk.step(f"= {words} of {self.name}", expression, span, kind=kind)

    def amount(self, words: str, said: Text | None, why: str, limit: Limit) -> Name | None:
        """A length that a writer may name: ``takes of waist dart of skirt``. ``why`` says what is wrong with ``{}``."""
        expression = self.desk.formula(said)
        if said is None or expression is None:
            return None
        hint = "write a length above 0 in every size" if limit is Limit.POSITIVE else "write a length of 0 or more"
        return self.desk.step(
            f"{words} of {self.name}",
            expression,
            said.span(),
            where=f"piece {self.name}",
            limit=limit,
            kind=Kind.LENGTH,
            why=(why, hint),
        )

    def edge(self, said: Text | None, what: str) -> Drawn | None:
        """The edge named; None after a fault, also for one on a fold, into which no ``what`` can be sewn."""
        found = None if said is None else self.edges.find(said)
        drawn = None if said is None or found is None else self.edges.drawn.get(key_of(said.value))
        if said is None or drawn is None or key_of(drawn.name) not in self.folds:
            return drawn
        self.fault(
            f"{drawn.name} lies on the fold, and no {what} can be sewn into it", said.span(), "name another edge"
        )
        return None

    def on_fold(self, point: str) -> bool:
        """Whether a point (its key) is an end of an edge on a fold."""
        return any(point in (edge.start, edge.end) for key, edge in self.edges.drawn.items() if key in self.folds)

    def along(self, at: Expression, start: Text | None, drawn: Drawn) -> Expression | None:
        """A length measured from the end that is named (None: where the edge begins), as one from its beginning."""
        if start is None or key_of(start.value) == drawn.start:
            return at
        if key_of(start.value) == drawn.end:
            return Apply("length of", (drawn.step,), start.span()) - at
        if self.points.find(start) is not None:
            ends = " or ".join(f"`{self.points.names.get(key, key)}`" for key in (drawn.start, drawn.end))
            self.fault(f"`{start.value}` is no end of {drawn.name}", start.span(), f"write `from:` with {ends}")
        return None

    def towards(self, key: str, fields: Fields, drawn: Drawn, ends: tuple[Name, Name]) -> Towards | None:
        """The end of an edge that lies towards what ``key`` names: an edge, or a direction; left out, the fold.

        ``ends`` are two points of the edge in its order.
        """
        said = fields.text(key)
        if said is not None and (way := DIRECTIONS.get(said.value.casefold())):
            of, sign = way
            first, last = (Apply(of, (end,), said.span()) for end in ends)
            return Towards(Apply(sign, (last, first), said.span()), SAID[said.value.casefold()])
        if said is None and len(self.folds) != 1:
            hint = f"write `{key}:` with the name of an edge, or one of {', '.join(DIRECTIONS)}"
            if not fields.has(key):
                pressed = key.removesuffix(" towards")
                fields.missing(key, code=Code.DRAFT, message=f"it is not said which way it is {pressed}", hint=hint)
            return None
        if said is not None and self.edges.find(said) is None:
            return None
        to = next(iter(self.folds)) if said is None else key_of(said.value)
        return self._nearer(to, drawn, fields.whole.where if said is None else said.span(), key)

    def _nearer(self, to: str, drawn: Drawn, place: Span, key: str) -> Towards | None:
        order = list(self.edges.drawn)
        if to not in order:
            return None
        behind = (order.index(key_of(drawn.name)) - order.index(to)) % len(order)
        ahead = -behind % len(order)
        name = self.edges.names[to]
        if behind == ahead:
            where = f"is as near to either end of {drawn.name}" if behind else "is that edge itself"
            hint = f"write `{key}:` with an edge nearer to one end, or one of {', '.join(DIRECTIONS)}"
            self.fault(f"{name} {where}", place, hint)
            return None
        return Towards(ahead < behind, f"towards the {name}")

    def fault(self, message: str, place: Span, hint: str) -> None:
        self.desk.faults.add(Code.DRAFT, message, place, hint)


def all_of(conditions: Sequence[Expression]) -> Expression:
    """All of one condition or more."""
    found, *others = conditions
    for other in others:
        found = Apply("and", (found, other))
    return found
