"""Drafts of any shape, as plans, for the tests that hold Python and the page's script together.

They keep off the places where the last bit of a number decides, such as an allowance of just ``SAME``, or
just as wide as a radius.
"""

from __future__ import annotations

from hypothesis import strategies as st

from chalkfold.amounts import Kind
from chalkfold.formula import Apply, Expression, Name, apply, plain
from chalkfold.plan import Plan
from plans_help import plan_of

SIDES = ("left", "right", "up", "down")
LENGTHS = st.sampled_from([10.0, 15.0, 60.0, 100.0, 250.0]) | st.floats(1, 900)
ALLOWANCES = st.sampled_from([0.0, 0.0, 9.0, 9.0, 14.0, 38.0]) | st.floats(0.5, 60).map(lambda mm: mm * 0.93)
LEANS = st.floats(-97, 97)
TURNS = st.sampled_from([0.0, 30.0, 90.0, 180.0]) | st.floats(-360, 360)
SPOKES = 47
"""A prime, so that no corner turns by just the 45° or 90° at which another rule begins."""
OUTLINES = ("seam", "cutting", "sewing", "whole", "of two", "inner seam", "turned")
"""The steps of a draft that are outlines."""
Drawn = tuple[list[Expression], int]
"""The edges of an outline, and which of them may lie on a fold, as bits."""


def point(across: float, down: float) -> Expression:
    return apply("point", plain(across), plain(down))


def polar(angle: float, radius: float) -> Expression:
    return apply("polar", point(0, 0), plain(angle), plain(radius))


def swept(radius: float, begin: float, sweep: float) -> Expression:
    return apply("swept arc", point(0, 0), plain(radius), plain(begin), plain(sweep))


@st.composite
def rectangles(draw: st.DrawFn) -> Drawn:
    """Standing at an angle, either way round; the first side may be a fold, or the first two."""
    across, down, turn = draw(LENGTHS), draw(LENGTHS), draw(TURNS)
    first = polar(turn, across)
    second = apply("polar", first, plain(turn + 90), plain(down))
    corners: list[Expression] = [point(0, 0), first, second, polar(turn + 90, down)]
    if draw(st.booleans()):
        corners.reverse()
    return closed(corners), draw(st.sampled_from([0, 1, 2, 3]))


@st.composite
def rings(draw: st.DrawFn) -> Drawn:
    """Part of a ring or of a disc; its ends may be folds."""
    outer, begin = draw(LENGTHS), draw(TURNS)
    sweep = draw(st.sampled_from([90.0, 90.0, 180.0, -90.0]) | st.floats(1, 359))
    inner = outer * draw(st.sampled_from([0.0, 0.5]) | st.floats(0.05, 0.95))
    right, left = polar(begin, outer), polar(begin + sweep, outer)
    around = swept(outer, begin, sweep)
    if inner == 0:
        ends = [apply("line", left, point(0, 0)), apply("line", point(0, 0), right)]
        return [around, *ends], draw(st.sampled_from([0, 2, 4, 6]))
    near_left, near_right = polar(begin + sweep, inner), polar(begin, inner)
    back = swept(inner, begin + sweep, -sweep)
    ends = [apply("line", left, near_left), back, apply("line", near_right, right)]
    return [around, *ends], draw(st.sampled_from([0, 2, 8, 10]))


@st.composite
def polygons(draw: st.DrawFn) -> Drawn:
    """Corners seen in order from the middle; sides straight, bulging, hollow or curved, or two sides one edge."""
    turns = sorted(draw(st.lists(st.integers(0, SPOKES - 1), min_size=3, max_size=7, unique=True)))
    corners = [polar(360.0 / SPOKES * turn, draw(LENGTHS)) for turn in turns]
    sides = closed(corners)
    for number, (here, after) in enumerate(zip(corners, [*corners[1:], corners[0]], strict=True)):
        kind = draw(st.integers(0, 4))
        if kind == 0:
            sides[number] = draw(curves(here, after))
        if kind == 1:
            radius = apply("*", apply("distance", here, after), plain(draw(st.just(0.5) | st.floats(0.51, 4))))
            sides[number] = apply(f"arc bulging {draw(st.sampled_from(SIDES))}", here, after, radius)
    if len(sides) > 3 and draw(st.booleans()):
        sides[:2] = [apply("join", *sides[:2])]
    return sides, draw(st.sampled_from([0, 0, 1, 2]))


@st.composite
def curves(draw: st.DrawFn, here: Expression, after: Expression) -> Expression:
    """From one corner to the next: by directions that lean off the straight way, through a point, or bowed."""
    chord = apply("distance", here, after)
    which = draw(st.integers(0, 3))
    if which == 0:
        bow = apply("*", chord, plain(draw(st.floats(0.05, 0.7))))
        return apply(f"arc bowed {draw(st.sampled_from(SIDES))}", here, after, bow)
    if which == 1:
        spot = apply("moved", apply("between", here, after, plain(0.4)), plain(draw(LEANS)), plain(draw(LEANS)))
        return apply("curve through", here, spot, after)
    ahead = apply("direction", here, after)
    angles = [apply("+", ahead, plain(draw(LEANS))) for _ in range(2)]
    if which == 2:
        return apply("curve", here, after, *angles)
    return apply("curve to length", here, after, *angles, apply("*", chord, plain(draw(st.floats(0.97, 1.5)))))


def closed(corners: list[Expression]) -> list[Expression]:
    pairs = zip(corners, [*corners[1:], corners[0]], strict=True)
    return [apply("line", here, after) for here, after in pairs]


@st.composite
def drafts(draw: st.DrawFn) -> Plan:
    """An outline, all that is made from it and all that is measured on it."""
    sides, bits = draw(rectangles() | rings() | polygons())
    folds = plain(bits)
    allowances = Apply("row", tuple(plain(draw(ALLOWANCES)) for _ in sides))
    seam, cutting, edge = Name("seam"), Name("cutting"), Name("edge")
    spot = point(draw(st.floats(-500, 500)), draw(st.floats(-500, 500)))
    which = plain(draw(st.integers(0, len(sides) - 1)))
    along = apply("*", apply("length of", edge), plain(draw(st.sampled_from([0.0, 0.5, 1.0]) | st.floats(-0.1, 1.1))))
    expressions: dict[str, Expression] = {
        "seam": Apply("outline", tuple(sides)),
        "cutting": apply("cutting line", seam, allowances, folds),
        "sewing": apply("seam line", cutting, allowances, folds),
        "inner seam": apply("seam line", seam, allowances, folds),
        "whole": apply("unfolded", seam, folds),
        "of two": apply("unfolded", cutting, folds),
        "edge": apply("edge of", draw(st.sampled_from([seam, cutting])), which),
        "spot": apply("along", edge, along),
        "from there": apply("along from", edge, along, apply("corner of", seam, which)),
        "inside": apply("inside", seam, spot),
        "length of edge": apply("length of", edge),
        "radius": apply("radius of", edge),
        "ends": apply("ends on", edge, apply("edge of", seam, plain(0))),
    }
    expressions |= from_pieces(draw, seam, allowances, folds, len(sides))
    for measured in OUTLINES:
        for what in ("area", "width", "height"):
            expressions[f"{what} of {measured}"] = apply(f"outline {what}", Name(measured))
    kinds = dict.fromkeys(expressions, Kind.LENGTH) | {"inside": Kind.TRUTH, "ends": Kind.PLAIN}
    kinds |= {"place": Kind.PLAIN, "turn": Kind.PLAIN}
    kinds |= {f"area of {measured}": Kind.AREA for measured in OUTLINES}
    return plan_of(expressions, kinds, {})


def from_pieces(
    draw: st.DrawFn, seam: Expression, allowances: Expression, folds: Expression, count: int
) -> dict[str, Expression]:
    """What pieces made from such a piece are made with."""
    first, many = draw(st.integers(0, count - 1)), draw(st.integers(1, max(1, count - 1)))
    corners = [apply("corner of", seam, plain(n % count)) for n in (first, first + 1)]
    edge, other, spot = Name("an edge"), Name("mirrored"), Name("part way")
    share = apply("*", apply("length of", edge), plain(draw(st.sampled_from([0.25, 0.5]) | st.floats(0.05, 0.95))))
    stretch = [apply("edge of", seam, plain(n % count)) for n in range(first + count - 1, first + count + many + 1)]
    legs = [
        apply("line", apply("along", edge, apply("*", apply("length of", edge), plain(part))), spot)
        for part in sorted(draw(st.lists(st.floats(0, 1), min_size=2, max_size=2)))
    ]
    legs = [apply("line", spot, corners[0]), apply("line", corners[1], corners[0])] if draw(st.booleans()) else legs
    return {
        "turned": apply("turned cutting line", seam, allowances, folds, plain(2**first)),
        "an edge": apply("edge of", seam, plain(first)),
        "mirrored": apply("backwards", apply("mirrored edge", edge, point(0, 0), point(30, 40))),
        "mirrored end": apply("mirrored point", corners[0], point(0, 0), point(30, 40)),
        "part way": apply("along", edge, share),
        "before": apply("length of", apply("up to", edge, spot)),
        "behind": apply("length of", apply("on from", edge, spot)),
        "between": apply("length of", apply("stretch", edge, corners[0], spot)),
        "length of mirrored": apply("length of", other),
        "place": apply("place round", seam, spot),
        "turn": apply("turn outwards", seam, plain(first)),
        "middle": apply("middle of", seam),
        "inner": Apply("inner line", (seam, plain(draw(LENGTHS) * 0.217), *stretch)),
        "taken in": apply("taken in", edge, *legs),
        "carried": apply("carried along", other, edge, *legs),
        "length of taken in": apply("length of", Name("taken in")),
        "length of inner": apply("length of", Name("inner")),
    }
