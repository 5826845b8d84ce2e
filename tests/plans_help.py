"""Small plans, and any plan at all, for the tests that hold Python and the page's script together."""

from __future__ import annotations

from functools import cache
from typing import Any

from hypothesis import strategies as st

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Faults, Source, Span
from chalkfold.formula import Apply, BySize, Expression, Literal, Name
from chalkfold.plan import Limit, Plan, Sizes, Step, Value, work_out

THREE = Sizes(("S", "M", "L"), 1)
MARK = 5.0
ROUGH = ["sin", "cos", "tan", "asin"]
Worked = tuple[dict[str, list[Value | None]], set[tuple[str, str, int]]]


def plan_of(expressions: dict[str, Expression], kinds: dict[str, Kind], limits: dict[str, Limit]) -> Plan:
    """Each step in a place of its own, so that a fault says whose it is."""
    steps = {
        key: Step(key, expression, Span(Source(key, ""), 0, 0), limit=limits.get(key, Limit.ANY))
        for key, expression in expressions.items()
    }
    return Plan(THREE, steps, kinds, frozenset(steps))


def worked_here(plan: Plan, mark: float = MARK) -> Worked:
    """Values by key, and what failed: step, code, size."""
    faults = Faults()
    values = work_out(plan, mark, faults)
    labels = plan.sizes.labels
    failed = {
        (fault.span.source.path, str(fault.code), labels.index(label))
        for fault in faults
        for label in fault.sizes or labels
    }
    return {key: list(values.row(key)) for key in plan.steps}, failed


def as_told(plan: Plan, sizes: list[dict[str, Any]]) -> Worked:
    """What node answered, in the form of ``worked_here``."""
    failed = {(fault["key"], fault["code"], i) for i, size in enumerate(sizes) for fault in size["faults"]}
    return {key: [nested(size["values"].get(key)) for size in sizes] for key in plan.steps}, failed


def nested(value: Any) -> Any:
    """Lists as the tuples that points, edges and outlines are."""
    return tuple(map(nested, value)) if isinstance(value, list) else value


def _apply(op: str, *operands: st.SearchStrategy[Expression]) -> st.SearchStrategy[Expression]:
    return st.tuples(*operands).map(lambda args: Apply(op, args))


def _plain(value: float) -> Expression:
    return Literal(float(value), Kind.PLAIN, f"{value:g}")


NUMBERS = st.sampled_from([0, 1, -1, 2, 0.1, 1 / 3, 2.5, -8, 40, 90, 1e6, 1e-7]) | st.floats(-2000, 2000)
WHOLE = st.integers(-10, 10).map(_plain)


def rows(inner: st.SearchStrategy[Expression]) -> st.SearchStrategy[Expression]:
    made = st.lists(inner, min_size=1, max_size=4).map(lambda args: Apply("row", tuple(args)))
    made |= _apply("series", inner, inner, WHOLE)
    return made | _apply("positions between", made, inner, inner)


def truths(inner: st.SearchStrategy[Expression]) -> st.SearchStrategy[Expression]:
    compared = st.one_of(*(_apply(op, inner, inner) for op in ("=", "!=", "<", "<=", ">", ">=")))
    joined = _apply("and", compared, compared) | _apply("or", compared, compared)
    return compared | joined | _apply("not", joined)


def applied(inner: st.SearchStrategy[Expression]) -> st.SearchStrategy[Expression]:
    """Operations that IEEE 754 fixes to the last bit, so that both sides must agree however deep they are."""
    points = _apply("point", inner, inner)
    return st.one_of(
        *(_apply(op, inner, inner) for op in ("+", "-", "*", "/", "of", "to mark", "min", "max")),
        *(_apply(op, inner) for op in ("neg", "sqrt", "round", "round up", "round down", "marked", "min", "max")),
        _apply("^", inner, WHOLE),
        _apply("if", truths(inner), inner, inner),
        _apply("clear shift", inner, rows(inner)),
        _apply("clearance", rows(inner), rows(inner), inner),
        _apply("count of series", rows(inner)),
        _apply("across of", points),
        _apply("down of", points),
        _apply("distance", points, points),
    )


def rough(inner: st.SearchStrategy[Expression]) -> st.SearchStrategy[Expression]:
    """Operations whose last bits may differ; only used outermost, where no rounding can make more of it."""
    radius = st.floats(0, 5000).map(_plain)
    sector = (radius, radius, st.floats(0, 360).map(_plain), st.floats(0, 100).map(_plain))
    return st.one_of(
        *(_apply(op, inner) for op in ROUGH),
        _apply("^", inner, st.floats(-9, 9).map(_plain)),
        _apply("sector width", *sector),
        _apply("sector height", *sector),
    )


@cache
def leaves(before: int) -> st.SearchStrategy[Expression]:
    """Plain numbers and the names of the steps before."""
    names: list[Expression] = [Name(f"step {i}") for i in range(before)]
    return NUMBERS.map(_plain) | st.sampled_from(names) if names else NUMBERS.map(_plain)


@cache
def formulas(before: int) -> st.SearchStrategy[Expression]:
    numbers = st.recursive(leaves(before), applied, max_leaves=6)
    graded = st.tuples(numbers, numbers, numbers).map(lambda n: BySize(tuple(zip(THREE.labels, n, strict=True))))
    return numbers | graded


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    """A handful of steps in three sizes, each made from those before it; some fail, which silences others."""
    many = draw(st.integers(1, 4))
    expressions = {f"step {i}": draw(formulas(i)) for i in range(many)}
    expressions["row"] = draw(rows(leaves(many)))
    expressions["truth"] = draw(truths(leaves(many)))
    expressions["rough"] = draw(rough(leaves(many)))
    kinds = {key: draw(st.sampled_from([Kind.PLAIN, Kind.LENGTH, Kind.AREA])) for key in expressions}
    limits = {key: draw(st.sampled_from(Limit)) for key in expressions}
    return plan_of(expressions, kinds | {"row": Kind.SERIES, "truth": Kind.TRUTH}, limits)
