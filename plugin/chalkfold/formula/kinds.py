"""Checks kinds before anything is computed: an area never ends up where a length is due."""

from __future__ import annotations

from collections.abc import Callable

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Code, Faults, Span
from chalkfold.formula.expression import Apply, BySize, Expression, Literal, Name, place_of
from chalkfold.formula.kind_rules import Given, WrongKind, common, shown
from chalkfold.formula.signatures import PRIMITIVES
from chalkfold.formula.walking import fold, parts_of


def kind_of(
    expression: Expression,
    kind_of_name: Callable[[Name], Kind | None],
    faults: Faults,
    where: Span | None = None,
) -> Kind | None:
    """The kind of value an expression gives; None, with a fault, where kinds don't fit.

    A name whose kind is unknown (its own fault is told elsewhere) makes the rest unknown, without a
    fault. ``where`` is the place for faults in parts that nobody typed. Raises KeyError for an
    operation outside the table.
    """

    def build(node: Expression, kinds: list[Kind | None]) -> Kind | None:
        if isinstance(node, Literal):
            return node.kind
        if isinstance(node, Name):
            return kind_of_name(node)
        known = tuple(kind for kind in kinds if kind is not None)
        if len(known) < len(kinds):
            return None
        try:
            return _kind_by_size(node, known) if isinstance(node, BySize) else _kind_of_apply(node, known)
        except WrongKind as wrong:
            part = node if wrong.at is None else parts_of(node)[wrong.at]
            place = _placed(part) or _placed(node) or where or _placed(expression)
            if place is None:
                raise ValueError("a built expression needs `where` for its faults") from wrong
            faults.add(Code.FORMULA_KIND, wrong.message, place, wrong.hint)
            return None

    return fold(expression, parts_of, build)


def _kind_of_apply(node: Expression, kinds: tuple[Kind, ...]) -> Kind:
    assert isinstance(node, Apply)
    return PRIMITIVES[node.op].rule(Given(node.op, node.args, kinds))


def _kind_by_size(node: BySize, kinds: tuple[Kind, ...]) -> Kind:
    if kind := common(kinds):
        return kind
    first = next(i for i, kind in enumerate(kinds) if kind is not Kind.ZERO)
    at = next(i for i, kind in enumerate(kinds) if kind not in (kinds[first], Kind.ZERO))
    label, other = node.cases[at][0], node.cases[first][0]
    message = f"size {label} gives {shown(kinds[at])}, and size {other} {shown(kinds[first])}"
    hint = f"write {shown(kinds[first])} for size {label} too"
    raise WrongKind(message, hint, at)


def _placed(expression: Expression) -> Span | None:
    """The place of an expression, or of the first part of it that was typed."""
    waiting = [expression]
    while waiting:
        node = waiting.pop()
        if place := place_of(node):
            return place
        waiting.extend(reversed(parts_of(node)))
    return None
