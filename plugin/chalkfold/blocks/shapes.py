"""The simple shapes, given in place: rectangle, circle, flounce."""

from __future__ import annotations

from collections.abc import Callable

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk, times, zero
from chalkfold.blocks.pieces import Edge, Outline
from chalkfold.blocks.purposes import least_of
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, Literal, apply, parse, plain
from chalkfold.plan import Limit, Style
from chalkfold.reading import Fields

Shape = Callable[[Fields, str, int, dict[str, Expression], frozenset[str], Desk], Outline | None]

EDGES: dict[str, tuple[str, ...]] = {
    "rectangle": ("top", "right", "bottom", "left"),
    "circle": ("edge",),
    "flounce": ("inner", "outer", "left end", "right end"),
}
PI = Literal(3.141592653589793, Kind.PLAIN, "pi")
TOO_SMALL = 0.1
"""A radius (mm) that is refused elsewhere; dividing by less tells nothing more."""


def rectangle(
    fields: Fields, name: str, layers: int, allowances: dict[str, Expression], folds: frozenset[str], desk: Desk
) -> Outline | None:
    """``{across, down}`` as drawn; edges top, right, bottom, left."""
    across, down = _formulas(fields, ("across", "down"), name, desk)
    if across is None or down is None:
        return None
    lengths = {"top": across, "bottom": across, "left": down, "right": down}
    neighbours = {
        "top": ("left", "right"),
        "bottom": ("left", "right"),
        "left": ("top", "bottom"),
        "right": ("top", "bottom"),
    }
    edges = {
        edge: Edge(lengths[edge], allowances[edge], len(folds.intersection(neighbours[edge])), edge in folds)
        for edge in EDGES["rectangle"]
    }
    sideways, upright = folds & {"left", "right"}, folds & {"top", "bottom"}
    round_ = layers == 2 and len(folds) == 2
    cut_across = _plus(across, *(allowances[e] for e in ("left", "right") if e not in folds))
    cut_down = _plus(down, *(allowances[e] for e in ("top", "bottom") if e not in folds))
    return Outline(
        edges,
        times(across, 2 if sideways and not round_ else 1),
        times(down, 2 if upright and not round_ else 1),
        across * down,
        cut_across,
        cut_down,
        cut_across * cut_down,
    )


def circle(
    fields: Fields, name: str, layers: int, allowances: dict[str, Expression], folds: frozenset[str], desk: Desk
) -> Outline | None:
    """``{radius}``; one edge, ``edge``. On the fold half of it is drawn, on two folds a quarter."""
    (radius,) = _formulas(fields, ("radius",), name, desk)
    if radius is None:
        return None
    cut_radius = _plus(radius, allowances["edge"])
    drawn = 2 * PI * radius if layers == 1 else 2 * PI * radius / layers
    edge = Edge(drawn, allowances["edge"], {1: 0, 2: 1, 4: 2}[layers])
    part = plain(layers)

    def disc(r: Expression) -> Expression:
        return PI * Apply("^", (r, plain(2))) / part

    return Outline(
        {"edge": edge},
        2 * radius,
        2 * radius,
        disc(radius),
        times(cut_radius, 2 if layers < 4 else 1),
        times(cut_radius, 2 if layers == 1 else 1),
        disc(cut_radius),
        {
            "radius": (radius, Style.FINE),
            "cut radius": (cut_radius, Style.FINE),
            "radius of edge": (radius, Style.FINE),
            "cut radius of edge": (cut_radius, Style.FINE),
        },
        ("cut radius",),
    )


def flounce(
    fields: Fields, name: str, layers: int, allowances: dict[str, Expression], folds: frozenset[str], desk: Desk
) -> Outline | None:
    """``{inner radius, depth, fraction}``: a ring, or part of one, open at two ends.

    Source: plane geometry. The allowances at the ends lie parallel to them, outside the arc.
    """
    inner, depth, fraction = _formulas(fields, ("inner radius", "depth", "fraction"), name, desk)
    if inner is None or depth is None or fraction is None:
        return None
    if layers != 1:
        desk.faults.add(
            Code.PIECE,
            "a flounce is cut flat, not on the fold",
            fields.whole.where,
            "write `cut: 1 in main`; half of a fraction of a circle is half the fraction",
        )
        return None
    place = fields.whole.where
    within = apply("min", fraction, 1)  # more is told below, and must not be told again by all that comes of it
    part = desk.step(f"fraction of {name}", within, place, style=Style.FRACTION, limit=Limit.POSITIVE, kind=Kind.PLAIN)
    desk.want(part)
    desk.demand(
        apply("<=", fraction, 1),
        (f"{name} is more than a whole circle",),
        place,
        "write a fraction of at most 1, and cut more copies",
        about=name,
    )
    desk.demand(
        apply("or", apply("<", part, 1), apply("<=", allowances["left end"] + allowances["right end"], zero())),
        (f"{name} is a full circle, with no cloth left for the allowances at its ends",),
        place,
        "cut two halves: write `fraction: 1/2` and `cut: 2 in main`;"
        " for a ring without ends to sew write `left end: 0, right end: 0`",
        about=name,
    )
    _ends_keep_apart(inner, part, name, allowances, place, desk)
    return _ring(inner, _plus(inner, depth), depth, part, allowances)


def _ends_keep_apart(
    inner: Expression, part: Expression, name: str, allowances: dict[str, Expression], place: Span, desk: Desk
) -> None:
    """Demand that the allowances at the ends do not lap over each other, which they do first at the inner edge.

    Seen from the centre a strip of width a, laid along an end, reaches by asin(a / r) beyond it at the radius r of
    the inner cutting line (plane geometry).
    """
    cut_inner = apply("max", inner - allowances["inner"], Literal(TOO_SMALL, Kind.LENGTH, "0.1 mm"))
    beyond = [Apply("asin", (apply("min", allowances[end] / cut_inner, 1),)) for end in ("left end", "right end")]
    left_over = (1 - part) * Literal(360.0, Kind.ANGLE, "360°")
    desk.demand(
        apply("or", apply(">=", part, 1), apply("<=", beyond[0] + beyond[1], left_over)),
        (f"the allowances at the two ends of {name} lap over each other",),
        place,
        "make the fraction smaller, or cut two halves: write `fraction: 1/2` and `cut: 2 in main`",
        about=name,
    )


def _ring(
    inner: Expression, outer: Expression, depth: Expression, part: Expression, allowances: dict[str, Expression]
) -> Outline:
    cut_inner, cut_outer = inner - allowances["inner"], _plus(outer, allowances["outer"])
    angle = part * Literal(360.0, Kind.ANGLE, "360°")
    end = apply("max", allowances["left end"], allowances["right end"])

    def ring(big: Expression, small: Expression) -> Expression:
        return PI * part * (Apply("^", (big, plain(2))) - Apply("^", (small, plain(2))))

    def extent(which: str, big: Expression, small: Expression, beyond: Expression) -> Expression:
        return apply(which, big, small, angle, beyond)

    none = zero()
    return Outline(
        {
            "inner": Edge(2 * PI * part * inner, allowances["inner"]),
            "outer": Edge(2 * PI * part * outer, allowances["outer"]),
            "left end": Edge(depth, allowances["left end"]),
            "right end": Edge(depth, allowances["right end"]),
        },
        extent("sector width", outer, inner, none),
        extent("sector height", outer, inner, none),
        ring(outer, inner),
        extent("sector width", cut_outer, cut_inner, end),
        extent("sector height", cut_outer, cut_inner, end),
        ring(cut_outer, cut_inner) + 2 * end * (cut_outer - cut_inner),
        {
            "radius of inner": (inner, Style.FINE),
            "radius of outer": (outer, Style.FINE),
            "cut radius of inner": (cut_inner, Style.FINE),
            "cut radius of outer": (cut_outer, Style.FINE),
        },
        ("cut radius of inner", "cut radius of outer"),
    )


SHAPES: dict[str, Shape] = {"rectangle": rectangle, "circle": circle, "flounce": flounce}


def _formulas(fields: Fields, keys: tuple[str, ...], name: str, desk: Desk) -> list[Expression | None]:
    """The formulas of a shape, each a length above nothing (a fraction: plain), laid down as steps."""
    found: list[Expression | None] = []
    for key in keys:
        text = fields.required_text(key)
        expression = None if text is None else parse(text, desk.faults)
        if text is None or expression is None:
            found.append(None)
            continue
        kind = Kind.PLAIN if key == "fraction" else Kind.LENGTH
        style = Style.FINE if key.endswith("radius") else Style.USUAL
        (limit, why), called = least_of(name, desk), f"{key} drawn of {name}"
        found.append(desk.step(called, expression, text.span(), style=style, limit=limit, kind=kind, why=why))
    fields.finish()
    return found


def _plus(first: Expression, *others: Expression) -> Expression:
    total = first
    for other in others:
        if not (isinstance(other, Literal) and other.value == 0):
            total = total + other
    return total
