"""Constructions on made-up points and edges, as plans, for the tests that hold Python and the page's script together.

They keep off the places where the last bit decides: compasses that only just reach, lines that only just meet.
"""

from __future__ import annotations

from hypothesis import strategies as st

from chalkfold.amounts import Kind
from chalkfold.formula import Apply, Expression, Name, apply, plain
from chalkfold.plan import Plan
from drafts_help import SIDES, drafts, point, swept
from plans_help import plan_of

PLACES = st.integers(-400, 400).map(lambda n: n * 1.0137)
LENGTHS = st.integers(1, 900).map(lambda n: n * 0.9871)


@st.composite
def spots(draw: st.DrawFn) -> Expression:
    return point(draw(PLACES), draw(PLACES))


@st.composite
def edges(draw: st.DrawFn) -> Expression:
    """A line, an arc, or one after the other."""
    radius, begin, sweep = draw(LENGTHS), draw(st.integers(0, 359)) * 1.003, draw(st.integers(5, 175)) * 1.007
    arc = swept(radius, begin, sweep)
    line = apply("line", draw(spots()), draw(spots()))
    after = apply("line", apply("along", arc, apply("length of", arc)), draw(spots()))
    return draw(st.sampled_from([arc, line, apply("join", arc, after)]))


@st.composite
def constructions(draw: st.DrawFn) -> Plan:
    """Every construction once, each on the same few points and edges."""
    a, b, c, edge, other = (Name(name) for name in ("a", "b", "c", "edge", "other"))
    outline = draw(drafts()).steps["seam"].expression
    found = {
        "two compasses": apply("compasses", a, plain(draw(LENGTHS)), b, plain(draw(LENGTHS))),
        "compass on": apply("compass on", c, plain(draw(LENGTHS)), edge),
        "meetings": apply("meetings", edge, other),
        "line meets": apply("meetings", apply("carried on", a, b), edge),
        "square": apply("square from", edge, Name("on it"), plain(draw(LENGTHS))),
    }
    share = apply("*", apply("length of", edge), plain(draw(st.integers(0, 40)) / 40))
    expressions: dict[str, Expression] = {
        **dict(zip("abc", (draw(spots()) for _ in range(3)), strict=True)),
        "edge": draw(edges()),
        "other": draw(edges()),
        "seam": outline,
        "on it": apply("along", edge, share),
        "copied": apply("copied", a, b, c),
        "turned": apply("turned", a, b, plain(draw(PLACES))),
        "mirrored": apply("mirrored", a, draw(st.sampled_from([edge, apply("line", b, c)]))),
        "past": apply("carried past", edge, apply("along", edge, plain(0)), plain(draw(PLACES))),
        "foot": apply("foot", draw(st.sampled_from([edge, apply("carried on", b, c)])), a),
        "square line": apply("square line", edge, Name("on it")),
        "beside": apply(
            "parallel line", Name("seam"), plain(draw(st.integers(0, 2))), plain(draw(LENGTHS) / 9), plain(0)
        ),
        **found,
        "inwards": apply("inwards", Name("square"), Name("seam")),
        "outwards": apply("outwards", Name("square"), Name("seam")),
    }
    for name in found:
        which = draw(st.sampled_from(["only", "nearest", "those below", "those above", *SIDES]))
        op = f"farthest {which}" if which in SIDES else which
        expressions[f"{which} of {name}"] = Apply(
            op, (Name(name), *([c] if which in ("nearest", "those below", "those above") else []))
        )
    return plan_of(expressions, dict.fromkeys(expressions, Kind.LENGTH), {})
