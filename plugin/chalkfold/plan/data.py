"""A plan as plain data: what the page's own script works from (``evaluator.js`` of the theme).

==========  =================================================================================
``sizes``   the labels of the sizes, in order; a post without sizes has one, ``""``
``sample``  the index of the sample size
``mark``    the tape mark (mm) that ``marked( )`` rounds to
``steps``   in working order, each ``{key, name, kind, limit, varies, is}``; ``is`` holds the
            expression as in ``formula/data.py``, a graded number with its sizes in order
==========  =================================================================================

Left out where they say nothing: a ``key`` equal to the name, a ``limit`` of any, a ``varies`` of no.
"""

from __future__ import annotations

from typing import Any

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Source, Span
from chalkfold.formula import from_data, to_data
from chalkfold.plan.layout import Plan
from chalkfold.plan.steps import Limit, Step
from chalkfold.plan.worked import Sizes

PlanData = dict[str, Any]
NOWHERE = Span(Source("", ""), 0, 0)


def plan_to_data(plan: Plan, mark: float) -> PlanData:
    """Turn into what JSON can hold, the same for the same plan; places, origins and manners are dropped."""
    return {
        "sizes": list(plan.sizes.labels),
        "sample": plan.sizes.sample,
        "mark": mark,
        "steps": [_step_to_data(plan, key, step) for key, step in plan.steps.items()],
    }


def _step_to_data(plan: Plan, key: str, step: Step) -> PlanData:
    data: PlanData = {"name": step.name, "kind": plan.kinds[key].value}
    if key != step.name:
        data["key"] = key
    if step.limit is not Limit.ANY:
        data["limit"] = step.limit.value
    if key in plan.varies:
        data["varies"] = True
    data["is"] = to_data(step.expression)
    return data


def plan_from_data(data: PlanData) -> tuple[Plan, float]:
    """Turn back into a plan that works out equally, and the tape mark (mm).

    Raises ValueError for anything that ``plan_to_data`` does not make.
    """
    try:
        sizes = Sizes(tuple(data["sizes"]), data["sample"])
        told = {step.get("key", step["name"]): step for step in data["steps"]}
        kinds = {key: Kind(step["kind"]) for key, step in told.items()}
        steps = {key: _step_from_data(step, kinds[key]) for key, step in told.items()}
        varies = frozenset(key for key, step in told.items() if step.get("varies", False))
        return Plan(sizes, steps, kinds, varies), float(data["mark"])
    except (AttributeError, KeyError, TypeError) as error:
        raise ValueError("not a plan") from error


def _step_from_data(data: PlanData, kind: Kind) -> Step:
    return Step(data["name"], from_data(data["is"]), NOWHERE, limit=Limit(data.get("limit", Limit.ANY)), kind=kind)
