"""Spaces of a row that are rounded first and multiplied afterwards, in any formula of the post."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.blocks.built_in.known import all_known, expression_of
from chalkfold.blocks.built_in.made import Found
from chalkfold.blocks.desk import Desk
from chalkfold.diagnostics import Span
from chalkfold.formula import Apply, Expression, Literal, Name, apply, length, parts_of, place_of, to_text
from chalkfold.plan import names_in

SPACE = "space of "


def gaps(desk: Desk) -> Iterator[Found]:
    """Each product of a number and a space of a row as marked; as much as one mark of the tape does no harm."""
    mark = length(desk.shelf.settings.mark)
    seen: set[tuple[int, int]] = set()
    steps = [*desk.project.numbers.values(), *desk.steps.values()]
    for step in steps:
        for product, many, gap, exact in _products(step.expression, desk):
            place = place_of(product) or step.span
            if (place.start, place.end) in seen or not all_known(product, desk):
                continue
            seen.add((place.start, place.end))
            yield _found(many, gap, exact, mark, place)


def _found(many: Expression, gap: Expression, exact: Expression, mark: Expression, place: Span) -> Found:
    words = {"position": to_text(apply("marked", many * exact))}
    return Found("adds up", place, words, {"many": many, "gap": gap, "exact": exact, "mark": mark})


def _products(expression: Expression, desk: Desk) -> Iterator[tuple[Apply, Expression, Expression, Expression]]:
    """The product, the number that multiplies, the gap as marked, and what it was before."""
    waiting = [expression]
    while waiting:
        node = waiting.pop()
        waiting += parts_of(node)
        if not isinstance(node, Apply) or node.op != "*":
            continue
        for many, gap in (node.args, node.args[::-1]):
            exact = _before(gap, desk)
            if exact is not None and (not isinstance(many, Literal) or many.value > 1):
                yield node, many, gap, exact


def _before(gap: Expression, desk: Desk) -> Expression | None:
    """What is rounded, where this is the space of a row to the mark of the tape, or a number that is one."""
    for _ in range(8):
        if not isinstance(gap, Name):
            break
        inner = expression_of(gap.key, desk)
        if inner is None:
            return None
        gap = inner
    exact = gap.args[0] if isinstance(gap, Apply) and gap.op == "marked" else None
    return exact if exact is not None and any(name.key.startswith(SPACE) for name in names_in(exact)) else None
