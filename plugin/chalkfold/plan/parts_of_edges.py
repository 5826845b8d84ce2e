"""How far along an edge: where the kind of a formula shows that it is a part of the edge, it becomes a length."""

from __future__ import annotations

from collections.abc import Callable

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Faults
from chalkfold.formula import Apply, Expression, Name, fold, kind_of, parts_of

ALONG = ("along", "along from")


def with_lengths(expression: Expression, kind_of_name: Callable[[Name], Kind | None]) -> Expression:
    """``expression`` with ``1/3`` along an edge turned into 1/3 of its length; kinds fit already."""

    def build(node: Expression, parts: list[Expression]) -> Expression:
        if not isinstance(node, Apply):
            return node
        if node.op in ALONG and kind_of(parts[1], kind_of_name, Faults()) is Kind.PLAIN:
            length = Apply("length of", (parts[0],), node.span)
            parts[1] = Apply("*", (parts[1], length), node.span)
        return Apply(node.op, tuple(parts), node.span)

    return fold(expression, parts_of, build)
