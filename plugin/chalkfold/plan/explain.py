"""How a number was found: its formula, the values put in, the result, and where each part comes from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.formula import Apply, BySize, Expression, Literal, Name, fold, is_written, parts_of, to_text
from chalkfold.plan.layout import names_in
from chalkfold.plan.steps import Origin, Step
from chalkfold.plan.worked import Values

Print = Callable[[str, int], str]
"""Prints the value of a step (key) in a size (index), in the site's own unit."""


_DRAWN = (Kind.EDGE, Kind.OUTLINE)
"""Kinds that have no value to print; they keep their names."""


@dataclass(frozen=True, slots=True)
class Found:
    """One number on the way: ``put_in`` is empty where the formula holds no name, or is one."""

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
        expression = formula_of(values, here, size)
        found.append(_found(step, here, expression, size, values, print_value))
        waiting += [name.key for name in names_in(expression)]
    return found


def formula_of(values: Values, key: str, size: int) -> Expression:
    """The formula of a step in one size, without what a block adds only to pass a number on."""
    return _straight(in_size(values.steps[key].expression, values.sizes.labels[size]), values, size)


def formulas_of(values: Values, key: str) -> list[Expression]:
    """The formula of a step: one where all sizes share it, else one for each size."""
    different = len(values.sizes.labels) if _by_size(values.steps[key].expression, values) else 1
    return [formula_of(values, key, size) for size in range(different)]


def put_in(formula: Expression, size: int, values: Values, print_value: Print) -> Expression | None:
    """A formula with the values of its names; None where it holds no name, is one, or names only what is drawn."""
    if isinstance(formula, Name) or not any(True for _ in names_in(formula)):
        return None
    filled = _with_values(formula, size, values, print_value)
    return None if to_text(filled) == to_text(formula) else filled


def in_size(expression: Expression, label: str) -> Expression:
    """The formula that one size uses."""
    if isinstance(expression, BySize):
        return next(case for case_label, case in expression.cases if case_label == label)
    return expression


def _straight(expression: Expression, values: Values, size: int) -> Expression:
    """The formula without steps of a block that only repeat a number, and without nothing added or taken off."""

    def build(node: Expression, parts: list[Expression]) -> Expression:
        match node, parts:
            case Name(), _:
                return _spelt_out(node, values, size)
            case Apply(op="+" | "-"), [part, Literal(value=0, kind=Kind.LENGTH | Kind.ZERO)]:
                return part
            case Apply(op="+"), [Literal(value=0, kind=Kind.LENGTH | Kind.ZERO), part]:
                return part
            case Apply(op=op, span=span), _:
                return Apply(op, tuple(parts), span)
        return node

    return fold(expression, parts_of, build)


def _spelt_out(name: Name, values: Values, size: int) -> Expression:
    """What was said first; its formula, where it has no name that a reader could look up."""
    said = _first_said(name, values, size)
    step = _nameless(said, values)
    if step is not None and is_written(formula := formula_of(values, step.key, size)):
        return formula
    return said


def _nameless(name: Name, values: Values) -> Step | None:
    return values.steps.get(name.key) if name.key.startswith("=") else None


def _first_said(name: Name, values: Values, size: int) -> Name:
    """What a step laid down by a block repeats, such as the number typed for ``ends:``; else the name itself."""
    here = name
    while (passed_on := _passed_on(here, values)) is not None:
        repeated = in_size(passed_on, values.sizes.labels[size])
        if not isinstance(repeated, Name):
            return name
        here = repeated
    return here


def _passed_on(name: Name, values: Values) -> Expression | None:
    """What a step that a block laid down only to pass a number on is made of."""
    step = values.steps.get(name.key)
    return step.expression if step and " of " in step.key and step.origin == Origin() else None


def _by_size(expression: Expression, values: Values) -> bool:
    """Whether the formula can be another in another size, also by a number that is only passed on."""
    if isinstance(expression, BySize):
        return True
    for name in names_in(expression):
        said, passed_on = name, _passed_on(name, values)
        while isinstance(passed_on, Name):
            said, passed_on = passed_on, _passed_on(passed_on, values)
        step = _nameless(said, values)
        if isinstance(passed_on, BySize) or (step is not None and _by_size(step.expression, values)):
            return True
    return False


def _found(step: Step, key: str, expression: Expression, size: int, values: Values, print_value: Print) -> Found:
    result = "drawn" if values.kinds.get(key) in _DRAWN else print_value(key, size)
    filled = put_in(expression, size, values, print_value)
    values_in = "" if filled is None else to_text(filled)
    origin = step.origin
    return Found(step.name, to_text(expression), values_in, result, origin.where, origin.note, origin.source)


def _with_values(expression: Expression, size: int, values: Values, print_value: Print) -> Expression:
    match expression:
        case Name() if values.kinds.get(expression.key) in _DRAWN:
            return expression
        case Name():
            return Literal(0.0, Kind.PLAIN, print_value(expression.key, size))
        case Apply(op=op, args=args):
            return Apply(op, tuple(_with_values(arg, size, values, print_value) for arg in args))
    return expression
