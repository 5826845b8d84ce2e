"""The same plan in Python and in the page's script: equal values and fault codes, primitive by primitive."""

from __future__ import annotations

import json
from collections.abc import Iterator
from gzip import compress
from math import copysign, cos, isclose, radians, sin, sqrt
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from chalkfold.amounts import Kind, decimals, down, to_mark, up
from chalkfold.diagnostics import Faults, Source
from chalkfold.formula import PRIMITIVES, Expression, Name, plain
from chalkfold.geometry import sector
from chalkfold.plan import Plan, Value
from chalkfold.plan.data import plan_from_data, plan_to_data
from chalkfold.plan.primitives import PRIMITIVES as WORKED
from chalkfold.post import work_post
from chalkfold.trade import Shelf
from constructions_help import constructions
from drafts_help import drafts
from node_help import Node, running_node
from plans_help import MARK, as_told, nested, plan_of, plans, worked_here
from shaping_help import shaped

VECTORS = Path(__file__).parent / "vectors"
DEMO = Path(__file__).parents[1] / "content_example"
PAGES = sorted((DEMO / "posts").glob("*.md"))
CASES = json.loads((VECTORS / "primitives.json").read_text("utf-8"))
DRAFTS = json.loads((VECTORS / "drafting.json").read_text("utf-8"))
PIECES = json.loads((VECTORS / "from_pieces.json").read_text("utf-8"))
DRAFTS["primitives"] |= PIECES["primitives"]
FOUND = json.loads((VECTORS / "constructing.json").read_text("utf-8"))
SHAPING = json.loads((VECTORS / "shaping.json").read_text("utf-8"))
PRIMITIVE = CASES["primitives"] | DRAFTS["primitives"] | FOUND["primitives"] | SHAPING["primitives"]
GIVEN = DRAFTS["given"] | SHAPING["given"]
ROUNDING = json.loads((VECTORS / "rounding.json").read_text("utf-8"))
ROUNDERS = {"to_mark": to_mark, "up": up, "down": down, "decimals": decimals}


@pytest.fixture(scope="module")
def node() -> Iterator[Node]:
    with running_node() as running:
        yield running


def alike(a: Any, b: Any) -> bool:
    """Equal, numbers within 1e-9 of their size; no minus zero, which a page would print."""
    if isinstance(a, tuple) and isinstance(b, tuple):
        return len(a) == len(b) and all(map(alike, a, b))
    if isinstance(a, bool) or isinstance(b, bool) or a is None or b is None:
        return a is b
    signs = [copysign(1, each) for each in (a, b) if each == 0]
    return isclose(a, b, rel_tol=1e-9, abs_tol=1e-9) and -1 not in signs


def differences(here: dict[str, list[Value | None]], there: dict[str, list[Value | None]]) -> dict[str, object]:
    return {key: (here[key], there[key]) for key in here if not all(map(alike, here[key], there[key]))}


def cases() -> Iterator[tuple[str, dict[str, Any]]]:
    for op, listed in PRIMITIVE.items():
        for case in listed:
            yield op, {"is": [op, *case["of"]], **case}
    for case in CASES["steps"]:
        yield "step", case


def kind_of_case(case: dict[str, Any]) -> str:
    kinds = {bool: "yes or no", list: "row of lengths"}
    return str(case.get("kind", kinds.get(type(case.get("gives")), "plain number")))


def plan_of_case(case: dict[str, Any]) -> dict[str, Any]:
    step = {"name": "x", "kind": kind_of_case(case), "is": case["is"]}
    if "limit" in case:
        step["limit"] = case["limit"]
    given = [{"name": name, "kind": "outline", "is": GIVEN[name]} for name in named_in(case["is"])]
    return {"sizes": [""], "sample": 0, "mark": MARK, "steps": [*given, step]}


def named_in(data: Any) -> list[str]:
    """The given things that an expression is made from, each after those it is made from itself."""
    if not isinstance(data, list):
        return []
    if data[0] == "name":
        return [*named_in(GIVEN[data[1]]), data[1]]
    return list(dict.fromkeys(name for part in data[1:] for name in named_in(part)))


def expected(case: dict[str, Any]) -> tuple[Value | None, list[str]]:
    gives = case.get("gives")
    return nested(gives), [case["fault"]] if "fault" in case else []


def test_no_primitive_is_missing() -> None:
    assert PRIMITIVE.keys() == PRIMITIVES.keys()
    assert WORKED.keys() == PRIMITIVES.keys() - {"if", "and", "or", "marked"}  # the evaluator works these itself


@pytest.mark.parametrize(("op", "case"), list(cases()), ids=lambda value: value if isinstance(value, str) else "")
def test_python_and_the_page_give_what_was_worked_by_hand(op: str, case: dict[str, Any], node: Node) -> None:
    data = plan_of_case(case)
    value, codes = expected(case)
    plan, mark = plan_from_data(data)
    for values, failed in (worked_here(plan, mark), as_told(plan, node.ask(plan=data))):
        assert [code for _, code, _ in failed] == codes
        assert alike(values["x"][0], value), values


@pytest.mark.parametrize("rounder", ROUNDERS)
def test_python_and_the_page_round_alike(rounder: str, node: Node) -> None:
    for case in ROUNDING[rounder]:
        of = [case["x"], case["places" if rounder == "decimals" else "mark"]]
        assert ROUNDERS[rounder](*of) == case["is"], case
        assert node.ask(rounder=rounder, of=of) == case["is"], case


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_a_demo_post_comes_out_the_same_in_the_page(page: Path, node: Node) -> None:
    faults = Faults()
    shelf = Shelf.open(DEMO, faults)
    worked = work_post(Source(page.name, page.read_text("utf-8")), shelf, faults)
    assert len(worked.plan.steps) > 10 and not len(faults)
    data = plan_to_data(worked.plan, shelf.settings.mark)
    there, failed = as_told(worked.plan, node.ask(plan=data))
    here = {key: list(worked.values.row(key)) for key in worked.plan.steps}
    assert not failed and not differences(here, there)
    assert len(compress(compact(data).encode())) < 12_000  # what a reader loads


@given(plans())
def test_any_plan_comes_out_the_same_in_the_page(node: Node, plan: Plan) -> None:
    comes_out_the_same(node, plan)


@given(drafts())
def test_any_draft_comes_out_the_same_in_the_page(node: Node, plan: Plan) -> None:
    comes_out_the_same(node, plan)


@given(constructions())
def test_any_construction_comes_out_the_same_in_the_page(node: Node, plan: Plan) -> None:
    comes_out_the_same(node, plan)


@given(shaped())
def test_any_shaping_comes_out_the_same_in_the_page(node: Node, plan: Plan) -> None:
    comes_out_the_same(node, plan)


def comes_out_the_same(node: Node, plan: Plan) -> None:
    here, failed_here = worked_here(plan)
    there, failed_there = as_told(plan, node.ask(plan=plan_to_data(plan, MARK)))
    assert not differences(here, there)
    assert failed_here == failed_there


@given(plans() | drafts())
def test_any_plan_comes_back_from_its_data(plan: Plan) -> None:
    data = compact(plan_to_data(plan, MARK))
    back, mark = plan_from_data(json.loads(data))
    assert (back.sizes, back.kinds, back.varies, mark) == (plan.sizes, plan.kinds, plan.varies, MARK)
    assert worked_here(back, mark)[0] == worked_here(plan)[0]
    assert compact(plan_to_data(back, mark)) == data


def compact(data: dict[str, Any]) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))


STEP = {"name": "x", "kind": "length", "is": 1}


@pytest.mark.parametrize(
    "change",
    [
        {"sizes": 3},
        {"mark": "wide"},
        {"steps": None},
        {"steps": ["x"]},
        {"steps": [{"name": "x"}]},
        {"steps": [STEP | {"kind": "shoe"}]},
        {"steps": [STEP | {"limit": "no"}]},
        {"steps": [STEP | {"is": ["?", 1]}]},
    ],
)
def test_other_data_is_no_plan(change: dict[str, Any]) -> None:
    with pytest.raises(ValueError):
        plan_from_data({"sizes": ["S"], "sample": 0, "mark": 5, "steps": [STEP]} | change)


def test_a_sum_of_too_many_things_is_one_fault_and_silences_what_needs_it() -> None:
    total: Expression = plain(1)
    for _ in range(200):
        total = total + 1
    plan = plan_of({"total": total, "twice": 2 * Name("total")}, {"total": Kind.PLAIN, "twice": Kind.PLAIN}, {})
    values, failed = worked_here(plan)
    assert values == {"total": [None] * 3, "twice": [None] * 3}
    assert failed == {("total", "plan.too-big", size) for size in range(3)}


WAIST = ["name", "waist girth"]
GRADED = {"waist girth": ["by size", ["S", 700], ["M", 750]], "skirt length": ["by size", ["S", 600], ["M", 610]]}
ALLOWED = ["/", 10_000, ["-", WAIST, 800]]  # fails for a waist of 800
SKIRT = {
    "sizes": ["S", "M"],
    "sample": 0,
    "mark": 5.0,
    "steps": [
        {"name": "waist girth", "kind": "length", "limit": "more than nothing", "is": GRADED["waist girth"]},
        {"name": "skirt length", "kind": "length", "is": GRADED["skirt length"]},
        {"name": "Waist edge", "key": "waist edge", "kind": "length", "is": ["+", WAIST, ALLOWED]},
        {"name": "hem", "kind": "length", "is": ["+", ["name", "waist edge"], ["name", "skirt length"]]},
    ],
}


def test_the_readers_own_measures_take_the_place_of_the_charts(node: Node) -> None:
    found = node.ask(plan=SKIRT, size=1, given=[["waist girth", 900]])
    assert found["values"] == {"waist girth": 900, "skirt length": 610, "waist edge": 1000, "hem": 1610}


@pytest.mark.parametrize(
    ("own", "key", "code"),
    [
        (800, "waist edge", "work.division-by-zero"),
        (0, "waist girth", "work.negative"),
        (2_000_000, "waist girth", "work.out-of-range"),
        (None, "waist girth", "work.out-of-range"),
        ("900", "waist girth", "work.out-of-range"),
    ],
)
def test_a_measure_that_does_not_work_is_one_fault(node: Node, own: object, key: str, code: str) -> None:
    found = node.ask(plan=SKIRT, size=0, given=[["waist girth", own]])
    assert found["faults"] == [{"key": key, "code": code}]
    assert "hem" not in found["values"] and found["values"]["skirt length"] == 600


@given(st.floats(1, 2000), st.floats(0, 1), st.floats(1, 360), st.floats(0, 0.9))
def test_the_extents_of_a_sector_hold_all_its_outline(outer: float, share: float, angle: float, part: float) -> None:
    inner = outer * share
    end = inner * part
    outline = list(sector_outline(outer, inner, angle, end))
    for extent, along in ((sector.width, 0), (sector.height, 1)):
        places = [point[along] for point in outline]
        assert extent(outer, inner, angle, end) == pytest.approx(max(places) - min(places), abs=outer / 1000)


def sector_outline(outer: float, inner: float, angle: float, end: float) -> Iterator[tuple[float, float]]:
    """Points along both arcs and across both allowances, close together. Source: plane geometry."""
    many = 200
    for radius in (outer, inner):
        for i in range(many + 1):
            turn = radians(angle * i / many)
            yield radius * cos(turn), radius * sin(turn)
            off = end * i / many
            foot = sqrt(max(0.0, radius * radius - off * off))
            yield foot, -off
            turn = radians(angle)
            yield foot * cos(turn) - off * sin(turn), foot * sin(turn) + off * cos(turn)
