"""Graded numbers: from what was written by size to one formula for each size of the post."""

from __future__ import annotations

from collections.abc import Sequence

from chalkfold.diagnostics import Code, Faults, near
from chalkfold.formula import BySize, Expression, apply, key_of
from chalkfold.plan.steps import Step
from chalkfold.plan.worked import Sizes

STEP = "step"


def graded(step: Step, sizes: Sizes, faults: Faults) -> Expression | None:
    """Return the step's expression with exactly the sizes of the post, or None after a fault.

    ``{M: 60 cm, step: 1 cm}`` adds or takes off the step for each size above or below M on the chart.
    Sizes beyond those of the post are allowed where the number comes from a book or chart.
    """
    expression = step.expression
    if not isinstance(expression, BySize):
        return expression
    if not sizes.sure:
        return None
    labels = sizes.labels
    cases = {key_of(label): case for label, case in expression.cases}
    by_step = cases.pop(STEP, None)
    place = expression.span or step.span
    if not _known(expression, sizes, step, faults):
        return None
    if by_step is not None:
        return _stepped(expression, cases, by_step, sizes, step, faults)
    missing = [label for label in labels if key_of(label) not in cases]
    if missing:
        faults.add(
            Code.PLAN_SIZE_MISSING,
            f"{step.name} has no value for {_listed(missing)}",
            place,
            f"add `{missing[0]}: …` or grade it by a step, as in `{{{labels[0]}: 60 cm, step: 1 cm}}`",
        )
        return None
    return BySize(tuple((label, cases[key_of(label)]) for label in labels), expression.span)


def _known(expression: BySize, sizes: Sizes, step: Step, faults: Faults) -> bool:
    if step.origin.where != "the post":
        return True
    labels = sizes.ladder or sizes.labels
    keys = {key_of(label) for label in labels} | {STEP}
    strangers = [i for i, (label, _) in enumerate(expression.cases) if key_of(label) not in keys]
    if not strangers:
        return True
    first = expression.cases[strangers[0]][0]
    place = expression.labels[strangers[0]] if expression.labels else expression.span
    likely = near(first, labels)
    hint = f"did you mean `{likely}`?" if likely else f"its sizes are {_listed(labels)}"
    if labels == ("",):
        hint = "it has none: write one formula for all, or list them in the project block, as in `sizes: [S, M, L]`"
    faults.add(Code.PLAN_SIZE_UNKNOWN, f"the post has no size `{first}`", place or step.span, hint)
    return False


def _stepped(
    expression: BySize,
    cases: dict[str, Expression],
    by_step: Expression,
    sizes: Sizes,
    step: Step,
    faults: Faults,
) -> Expression | None:
    labels = sizes.labels
    keys = [key_of(label) for label in sizes.ladder or labels]
    if len(cases) != 1 or next(iter(cases)) not in keys:
        faults.add(
            Code.PLAN_SIZE_MISSING,
            f"{step.name} grows by a step from one size, and needs just that one",
            expression.span or step.span,
            f"write one size and the step, as in `{{{labels[0]}: 60 cm, step: 1 cm}}`",
        )
        return None
    ((start, base),) = cases.items()
    anchor = keys.index(start)
    cases_by_label = tuple((label, _grown(base, by_step, keys.index(key_of(label)) - anchor)) for label in labels)
    return BySize(cases_by_label, expression.span)


def _grown(base: Expression, by_step: Expression, times: int) -> Expression:
    if times == 0:
        return base
    change = by_step if abs(times) == 1 else apply("*", abs(times), by_step)
    return base + change if times > 0 else base - change


def _listed(labels: Sequence[str]) -> str:
    return ", ".join(labels)
