"""Shaped pieces of any form, as plans, for the tests that hold Python and the page's script together."""

from __future__ import annotations

from hypothesis import strategies as st

from chalkfold.amounts import Kind
from chalkfold.formula import Apply, Expression, Name, apply, plain
from chalkfold.plan import Plan
from drafts_help import polygons, rectangles, rings
from plans_help import plan_of

AWAY_FROM_CORNERS = st.floats(0.07, 0.93)


def at(edge: Expression, part: float) -> Expression:
    return apply("along", edge, apply("*", apply("length of", edge), plain(part)))


@st.composite
def shaped(draw: st.DrawFn) -> Plan:
    """An outline with a dart on its first edge, slashed from one edge to another, and the dart closed instead."""
    sides, bits = draw(rectangles() | rings() | polygons())
    folds, seam, edge = plain(bits), Name("seam"), Name("edge")
    first, last = draw(st.permutations(range(len(sides))))[:2]
    whole = apply("length of", edge)
    middle = draw(st.floats(0.2, 0.8))
    wide = draw(st.just(0.0) | st.floats(0.02, 0.3))
    begin, stop = (apply("*", whole, plain(middle + side * wide / 2)) for side in (-1, 1))
    deep = plain(draw(st.floats(5, 300)))
    legs = [apply("line", apply("along", edge, place), Name("tip")) for place in (begin, stop)]
    pressed = draw(st.permutations(legs))
    opens, hinge = at(sides[first], draw(AWAY_FROM_CORNERS)), at(sides[last], draw(AWAY_FROM_CORNERS))
    spots = [draw(st.floats(-500, 500)) for _ in range(2)]
    by = [plain(draw(st.just(0.0) | st.floats(0.5, 200))) for _ in range(2)]
    moved = Name("part"), Name("cut")
    turned = Name("dart part"), Name("closed")
    ends = apply("line", apply("along", edge, begin), apply("along", edge, stop))
    expressions: dict[str, Expression] = {
        "seam": Apply("outline", tuple(sides)),
        "edge": apply("edge of", seam, plain(0)),
        "tip": apply("square in", seam, edge, begin, stop, deep, plain(0.5)),
        "place": apply("square place", edge, Name("tip"), apply("-", stop, begin)),
        "across": apply("square across", seam, edge, begin, stop, plain(0.5), sides[last]),
        "cap": apply("dart cap", edge, *pressed),
        "capped": apply("through", edge, apply("along", edge, begin), Name("cap"), apply("along", edge, stop)),
        "beside": apply("beside", Name("tip"), Name("cap"), plain(0.5), deep),
        "part": apply("moving part", seam, opens, hinge, folds),
        "cut": apply("opened", Name("part"), *by),
        "spread edge": apply("spread", sides[first], *moved, plain(1)),
        "spread point": apply("spread point", apply("point", plain(spots[0]), plain(spots[1])), *moved),
        "spread": Apply("shaped outline", tuple(apply("spread", side, *moved, plain(0)) for side in sides)),
        "dart part": apply("dart part", seam, opens, Name("tip"), ends, folds),
        "closed": apply("closed", Name("dart part"), ends),
        "closed edge": apply("closed edge", edge, ends, *turned),
        "trued": apply("trued", Name("spread edge")),
    }
    lengths = {
        f"length of {name}": apply("length of", Name(name))
        for name in ("capped", "spread edge", "closed edge", "trued")
    }
    area = {"area": apply("outline area", Name("spread"))}
    kinds = dict.fromkeys((*expressions, *lengths), Kind.LENGTH) | {"area": Kind.AREA}
    return plan_of(expressions | lengths | area, kinds, {})
