"""The expression: four sorts of node, and the operators that build them in Python.

Blocks write formulas with these operators, so that a computed piece is as explainable as a
typed one. A built node takes its place from its first placed part.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass, field
from functools import lru_cache

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Span


@lru_cache(maxsize=2**14)
def key_of(name: str) -> str:
    """The form in which names are compared: one Unicode form, no case, single spaces."""
    if name.isascii():
        return " ".join(name.lower().split())
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())


@dataclass(frozen=True, slots=True)
class Expression:
    """Base of the four. ``span`` says where it stands and takes no part in comparison."""

    def __add__(self, other: Operand) -> Apply:
        return apply("+", self, other)

    def __radd__(self, other: Operand) -> Apply:
        return apply("+", other, self)

    def __sub__(self, other: Operand) -> Apply:
        return apply("-", self, other)

    def __rsub__(self, other: Operand) -> Apply:
        return apply("-", other, self)

    def __mul__(self, other: Operand) -> Apply:
        return apply("*", self, other)

    def __rmul__(self, other: Operand) -> Apply:
        return apply("*", other, self)

    def __truediv__(self, other: Operand) -> Apply:
        return apply("/", self, other)

    def __rtruediv__(self, other: Operand) -> Apply:
        return apply("/", other, self)


@dataclass(frozen=True, slots=True)
class Literal(Expression):
    """An amount as typed: ``value`` in mm, mm², degrees or plain; ``text`` is its canonical spelling."""

    value: float
    kind: Kind
    text: str
    span: Span | None = field(default=None, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Name(Expression):
    """A name, also a measured one: ``waist edge``, ``total waist of skirt``."""

    name: str
    span: Span | None = field(default=None, compare=False, repr=False)

    @property
    def key(self) -> str:
        return key_of(self.name)


@dataclass(frozen=True, slots=True)
class Apply(Expression):
    """A primitive of the plan's table applied to arguments: ``+``, ``max``, ``if``, ``round up`` …"""

    op: str
    args: tuple[Expression, ...]
    span: Span | None = field(default=None, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class BySize(Expression):
    """A graded number: one expression for each size label, as written. ``labels`` says where the labels stand."""

    cases: tuple[tuple[str, Expression], ...]
    span: Span | None = field(default=None, compare=False, repr=False)
    labels: tuple[Span, ...] = field(default=(), compare=False, repr=False)


Operand = Expression | float | int


def apply(op: str, *operands: Operand, span: Span | None = None) -> Apply:
    """Build a node; plain numbers among the operands become literals."""
    args = tuple(each if isinstance(each, Expression) else plain(each) for each in operands)
    return Apply(op, args, span or next((s for a in args if (s := place_of(a))), None))


def plain(value: float) -> Literal:
    """A plain number as a literal."""
    return Literal(float(value), Kind.ZERO if value == 0 else Kind.PLAIN, f"{value:g}")


def length(millimetres: float) -> Literal:
    """A length in mm as a literal."""
    return Literal(float(millimetres), Kind.LENGTH, f"{millimetres:g} mm")


def place_of(expression: Expression) -> Span | None:
    """Where an expression stands, if it was typed."""
    span: Span | None = getattr(expression, "span", None)
    return span
