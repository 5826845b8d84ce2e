"""Working a plan out: each step in each size, once, in order.

An expression is turned into nested closures once a plan and then run for every size. A step that fails leaves no
value behind, which silences what depends on it: one fault, one message.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from math import isfinite
from typing import Any

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Code, Faults, Span
from chalkfold.formula import Apply, BySize, Expression, Literal, Name, place_of
from chalkfold.plan.layout import Plan
from chalkfold.plan.primitives import PRIMITIVES
from chalkfold.plan.steps import Limit, Part, Step, Value
from chalkfold.plan.trouble import Trouble
from chalkfold.plan.worked import Values

Env = dict[str, Any]
Run = Callable[[Env], Any]

SIZE = "\0size"
"""Where an environment keeps the index of its size; no name holds this character."""

BOUNDS: dict[Kind, tuple[float, str]] = {
    Kind.LENGTH: (1e6, "beyond any garment (more than 1 km)"),
    Kind.AREA: (1e12, "beyond any cloth (more than 1 km²)"),
    Kind.ANGLE: (1e9, "more than 1000000000°"),
    Kind.WEIGHT: (1e5, "beyond any cloth (more than 100000 g/m²)"),
    Kind.PLAIN: (1e9, "more than 1000000000"),
}
"""The largest value of each kind (mm, mm², degrees, g/m², plain), and what is said of one beyond it."""

MOST_NESTED = 150
"""Operations inside one another. A writer's formula has fewer; a block's sum over many parts can have more."""


def work_out(plan: Plan, mark: float, faults: Faults) -> Values:
    """Return the value of every step of ``plan`` in every size.

    ``mark`` is the tape mark (mm) that ``marked( )`` rounds to.
    """
    labels = plan.sizes.labels
    envs: list[Env] = [{SIZE: i} for i in range(len(labels))]
    told: set[tuple[object, ...]] = set()
    for key, step in plan.steps.items():
        try:
            run = compiled(step.expression, mark)
        except _TooDeep:
            message = f"this adds up more than {MOST_NESTED} things"
            faults.add(Code.PLAN_TOO_BIG, message, step.span, "split it, and add up the parts")
            continue
        troubles: dict[tuple[Code, Span], list[tuple[int, Trouble]]] = {}
        for i, env in enumerate(envs if key in plan.varies else envs[:1]):
            try:
                env[key] = checked(run(env), step, plan.kinds[key])
            except KeyError:
                continue  # something it needs has failed and was reported there
            except _Placed as placed:
                where = placed.span or getattr(step.expression, "span", None) or step.span
                troubles.setdefault((placed.trouble.code, where), []).append((i, placed.trouble))
        if key not in plan.varies and key in envs[0]:
            for env in envs[1:]:
                env[key] = envs[0][key]
        _report(troubles, step, plan, key, faults, told)
    by_key: dict[str, tuple[Value | None, ...]] = {key: tuple(env.get(key) for env in envs) for key in plan.steps}
    return Values(plan.sizes, plan.steps, plan.kinds, by_key)


class _TooDeep(Exception):
    pass


class _Placed(Exception):
    def __init__(self, trouble: Trouble, span: Span | None) -> None:
        super().__init__(trouble.message)
        self.trouble = trouble
        self.span = span


def compiled(expression: Expression, mark: float, room: int = MOST_NESTED) -> Run:
    """Turn an expression, nested no deeper than ``room``, into a function of the values before it."""
    if not room:
        raise _TooDeep

    def part(inner: Expression) -> Run:
        return compiled(inner, mark, room - 1)

    match expression:
        case Literal(value=value):
            return lambda env: value
        case Name():
            key = expression.key
            return lambda env: env[key]
        case BySize(cases=cases):
            runs = [part(case) for _, case in cases]
            return lambda env: runs[env[SIZE]](env)
        case Apply(op="marked", args=(length,), span=span):
            return part(Apply("to mark", (length, Literal(mark, Kind.LENGTH, "")), span))
        case Apply(op=op, args=args, span=span):
            return _applied(op, [part(arg) for arg in args], span)
    raise AssertionError(f"no such expression: {expression!r}")


def _applied(op: str, runs: list[Run], span: Span | None) -> Run:
    match op, runs:
        case "if", [test, then, otherwise]:
            return lambda env: then(env) if test(env) else otherwise(env)
        case "and", [a, b]:
            return lambda env: a(env) and b(env)
        case "or", [a, b]:
            return lambda env: a(env) or b(env)
        case _, [a, b]:  # most have two operands; this is the quicker way
            work = PRIMITIVES[op]
            return lambda env: _operate(work, (a(env), b(env)), span)
    work = PRIMITIVES[op]
    return lambda env: _operate(work, [run(env) for run in runs], span)


def _operate(work: Callable[..., Any], operands: Sequence[Any], span: Span | None) -> Any:
    """Do one operation; infinity and not-a-number go no further, where a comparison could hide them."""
    try:
        found = work(*operands)
    except Trouble as trouble:
        raise _Placed(trouble, span) from None
    except OverflowError:
        raise _Placed(_endless(), span) from None
    if _finite(found):
        return found
    raise _Placed(_endless(), span)


def _finite(found: Any) -> bool:
    return all(map(_finite, found)) if isinstance(found, tuple) else isfinite(found)


def checked(value: Any, step: Step, kind: Kind) -> Value:
    """Refuse what is not finite, beyond the bounds of its kind, or below its step's limit."""
    if isinstance(value, bool):
        return value
    if isinstance(value, tuple):
        return _row_within(value, step)
    number = _within(value, kind, step)
    if step.limit is Limit.POSITIVE and number <= 0:
        message = f"{_called(step)} must be more than nothing, but comes out as {rough(number, kind)}"
        hint = "change the formula so that it stays above 0 in every size"
    elif step.limit is Limit.NOT_NEGATIVE and number < -1e-9:
        message = f"{_called(step)} comes out below 0, as {rough(number, kind)}"
        hint = "change the formula so that it is never below 0"
    else:
        return number
    if step.why is not None:
        message, hint = step.why[0].replace("{}", rough(number, kind)), step.why[1]
    raise _Placed(Trouble(Code.WORK_NEGATIVE, message, hint), None)


def _called(step: Step) -> str:
    """A step in a message; ``this`` where the message stands at its formula and the name is a block's own."""
    place = place_of(step.expression)
    inside = place and place.source is step.span.source and step.span.start <= place.start <= step.span.end
    return "this" if inside or step.name.startswith("=") else step.name


def _row_within(row: tuple[Any, ...], step: Step) -> tuple[Any, ...]:
    return tuple(
        [_row_within(each, step) if isinstance(each, tuple) else _within(each, Kind.LENGTH, step) for each in row]
    )


def _within(number: float, kind: Kind, step: Step) -> float:
    bound, beyond = BOUNDS.get(kind, BOUNDS[Kind.PLAIN])
    if not -bound <= number <= bound:
        hint = "look for a unit left out or a factor too many"
        raise _Placed(Trouble(Code.WORK_RANGE, f"{_called(step)} is {beyond}", hint), None)
    return number + 0.0  # no minus zero


def _endless() -> Trouble:
    return Trouble(Code.WORK_RANGE, "this number grows beyond all bounds", "look for a power or a factor too many")


def rough(number: float, kind: Kind) -> str:
    """A value for a message, in the plainest unit; pages print through ``amounts``."""
    if kind is Kind.LENGTH:
        return f"{number / 10:.4g} cm"
    return f"{number:.4g}"


_PART = re.compile(r"#(\d+)")


def _named(message: str, parts: tuple[Part, ...]) -> str:
    """Edges by their names instead of their numbers."""
    return _PART.sub(lambda found: parts[int(found[1])].name, message) if parts else message


def _of_its_piece(message: str, step: Step) -> str:
    """``the outline of back crosses …``: a copy has the lines of another piece, where the fault then stands."""
    _, _, piece = step.name.partition("outline of ")
    return message.replace("the outline ", f"the outline of {piece} ", 1) if piece and step.parts else message


def _place(message: str, step: Step, where: Span) -> Span:
    """Where the first edge that a message speaks of is drawn; ``where`` if it speaks of none."""
    found = _PART.search(message) if step.parts else None
    return where if found is None else step.parts[int(found[1])].span


def _report(
    troubles: dict[tuple[Code, Span], list[tuple[int, Trouble]]],
    step: Step,
    plan: Plan,
    key: str,
    faults: Faults,
    told: set[tuple[object, ...]],
) -> None:
    """``told`` holds what was said of formulas before: a copy of a piece has those of the piece, and its troubles."""
    for (code, where), found in troubles.items():
        same = (code, where, found[0][1].message, len(found))
        if same in told:
            continue
        told.add(same)
        first, trouble = found[0]
        everywhere = key not in plan.varies or len(found) == len(plan.sizes.labels)
        sizes = () if everywhere else tuple(plan.sizes.labels[i] for i, _ in found)
        message = _of_its_piece(_named(trouble.message, step.parts), step)
        if not everywhere and len(sizes) > 1:
            message = f"{message} in {plan.sizes.labels[first]}"
        if step.name not in message and _called(step) != "this" and not step.why:
            message = f"{message}, in {step.name}"
        faults.add(code, message, _place(trouble.message, step, where), trouble.hint, sizes=sizes)
