"""How a number was found: its formula, the values put in, the result, and where each part comes from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.formula import Apply, BySize, Expression, Literal, Name, to_text
from chalkfold.plan.layout import names_in
from chalkfold.plan.steps import Step
from chalkfold.plan.worked import Values

Print = Callable[[str, int], str]
"""Prints the value of a step (key) in a size (index), in the site's own unit."""


@dataclass(frozen=True, slots=True)
class Found:
    """One number on the way: ``put_in`` is empty where the formula holds no name."""

    name: str
    formula: str
    put_in: str
    result: str
    origin: str
    note: str
    source: str


def explain(values: Values, key: str, size: int, print_value: Print) -> list[Found]:
    """Return the number and everything it was made from, the wanted one first, each once."""
    found: list[Found] = []
    seen: set[str] = set()
    waiting = [key]
    while waiting:
        here = waiting.pop(0)
        if here in seen or here not in values.steps:
            continue
        seen.add(here)
        step = values.steps[here]
        expression = in_size(step.expression, values.sizes.labels[size])
        found.append(_found(step, here, expression, size, print_value))
        waiting += [name.key for name in names_in(expression)]
    return found


def in_size(expression: Expression, label: str) -> Expression:
    """The formula that one size uses."""
    if isinstance(expression, BySize):
        return next(case for case_label, case in expression.cases if case_label == label)
    return expression


def _found(step: Step, key: str, expression: Expression, size: int, print_value: Print) -> Found:
    has_names = any(True for _ in names_in(expression))
    put_in = to_text(_with_values(expression, size, print_value)) if has_names else ""
    origin = step.origin
    return Found(
        step.name, to_text(expression), put_in, print_value(key, size), origin.where, origin.note, origin.source
    )


def _with_values(expression: Expression, size: int, print_value: Print) -> Expression:
    match expression:
        case Name():
            return Literal(0.0, Kind.PLAIN, print_value(expression.key, size))
        case Apply(op=op, args=args):
            return Apply(op, tuple(_with_values(arg, size, print_value) for arg in args))
    return expression
