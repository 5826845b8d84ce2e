"""Going through a tree of any depth without recursion."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

from chalkfold.formula.expression import Apply, BySize, Expression

Node = TypeVar("Node")
Found = TypeVar("Found")


def fold(root: Node, parts: Callable[[Node], Sequence[Node]], build: Callable[[Node, list[Found]], Found]) -> Found:
    """Work out something for every node, parts first: ``build`` gets a node and what its parts gave."""
    order: list[tuple[Node, int]] = []
    waiting = [root]
    while waiting:
        node = waiting.pop()
        inside = parts(node)
        order.append((node, len(inside)))
        waiting.extend(inside)
    found: list[Found] = []
    for node, inner in reversed(order):
        first = len(found) - inner
        found[first:] = [build(node, found[first:])]
    return found[0]


def parts_of(expression: Expression) -> tuple[Expression, ...]:
    """The expressions directly inside this one."""
    if isinstance(expression, Apply):
        return expression.args
    if isinstance(expression, BySize):
        return tuple(case for _, case in expression.cases)
    return ()
