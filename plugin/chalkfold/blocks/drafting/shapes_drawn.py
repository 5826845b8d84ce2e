"""The simple shapes as points and edges, for drawing them."""

from __future__ import annotations

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import zero
from chalkfold.blocks.drafting.drawn import Side
from chalkfold.blocks.drafting.edges import Drawn, Edges
from chalkfold.blocks.drafting.points import Points
from chalkfold.diagnostics import Span
from chalkfold.formula import Apply, Expression, Literal, Name, key_of
from chalkfold.plan import Limit, Style

CORNERS = ("top left", "top right", "bottom right", "bottom left")


def draw_shape(
    shape: str,
    name: str,
    layers: int,
    allowances: dict[str, Expression],
    folds: frozenset[str],
    place: Span,
    edges: Edges,
    points: Points,
) -> tuple[Side, ...]:
    """Lay down the points and edges of a shape that ``shapes`` has read; return its sides in order."""
    pen = _Pen(name, allowances, place, edges, points)
    match shape:
        case "rectangle":
            return _rectangle(pen, folds)
        case "circle":
            return _circle(pen, layers)
    return _flounce(pen)


class _Pen:
    """Draws for one piece."""

    def __init__(
        self, piece: str, allowances: dict[str, Expression], place: Span, edges: Edges, points: Points
    ) -> None:
        self.piece, self.allowances, self.place = piece, allowances, place
        self.edges, self.points, self.desk = edges, points, edges.desk

    def given(self, words: str) -> Name:
        """A measure of the shape, which ``shapes`` has laid down."""
        return Name(f"{words} drawn of {self.piece}", self.place)

    def point(self, name: str, across: Expression, down: Expression) -> Name:
        return self.construct(name, Apply("point", (across, down), self.place))

    def construct(self, name: str, construction: Expression) -> Name:
        self.points.names[key_of(name)] = name
        self.points.lay(key_of(name), construction, self.place)
        return Name(self.points.step_name(key_of(name)), self.place)

    def side(
        self,
        name: str,
        edge: Expression,
        ends: tuple[str, str],
        *,
        folds: int = 0,
        on_fold: bool = False,
        centre: Name | None = None,
    ) -> Side:
        where = f"piece {self.piece}"
        step = self.desk.step(f"edge {name} of {self.piece}", edge, self.place, where=where, kind=Kind.EDGE)
        start, end = (key_of(each) for each in ends)
        self.edges.names[key_of(name)] = name
        self.edges.drawn[key_of(name)] = Drawn(name, step, start, end, centre is not None, centre is None, centre)
        allowance = zero() if on_fold else self.allowances[name]
        return Side(name, step, allowance, folds, on_fold, centre is not None, centre)

    def line(self, name: str, a: str, b: str, *, folds: int = 0, on_fold: bool = False) -> Side:
        ends = tuple(Name(self.points.step_name(key_of(each)), self.place) for each in (a, b))
        return self.side(name, Apply("line", ends, self.place), (a, b), folds=folds, on_fold=on_fold)


def _rectangle(pen: _Pen, folds: frozenset[str]) -> tuple[Side, ...]:
    across, down = pen.given("across"), pen.given("down")
    for name, x, y in zip(CORNERS, (zero(), across, across, zero()), (zero(), zero(), down, down), strict=True):
        pen.point(name, x, y)
    order = ("top", "right", "bottom", "left")
    return tuple(
        pen.line(
            edge,
            CORNERS[number],
            CORNERS[(number + 1) % 4],
            folds=sum(order[(number + turn) % 4] in folds for turn in (1, 3)),
            on_fold=edge in folds,
        )
        for number, edge in enumerate(order)
    )


def _circle(pen: _Pen, layers: int) -> tuple[Side, ...]:
    """The whole, the half below a fold, or the quarter between two: the centre lies at the corner of the folds."""
    radius = pen.given("radius")
    centre = pen.point("centre", zero(), zero())
    sweep = Literal(360.0 / layers, Kind.ANGLE, f"{360 // layers}°")
    arc = Apply("swept arc", (centre, radius, Literal(0.0, Kind.ANGLE, "0°"), sweep), pen.place)
    pen.point("right", radius, zero())
    if layers == 1:
        return (pen.side("edge", arc, ("right", "right"), centre=centre),)
    if layers == 2:
        pen.point("left", zero() - radius, zero())
        return (
            pen.side("edge", arc, ("right", "left"), folds=1, centre=centre),
            pen.line("fold", "left", "right", on_fold=True),
        )
    pen.point("bottom", zero(), radius)
    return (
        pen.side("edge", arc, ("right", "bottom"), folds=2, centre=centre),
        pen.line("second fold", "bottom", "centre", on_fold=True),
        pen.line("fold", "centre", "right", on_fold=True),
    )


def _flounce(pen: _Pen) -> tuple[Side, ...]:
    inner, depth = pen.given("inner radius"), pen.given("depth")
    outer = inner + depth
    circle = Literal(360.0, Kind.ANGLE, "360°")
    angle = circle - _gap(pen) * circle
    start = Literal(0.0, Kind.ANGLE, "0°")
    centre = pen.point("centre", zero(), zero())
    pen.point("inner right", inner, zero())
    pen.point("outer right", outer, zero())
    pen.construct("outer left", Apply("polar", (centre, angle, outer), pen.place))
    pen.construct("inner left", Apply("polar", (centre, angle, inner), pen.place))
    back = Apply("swept arc", (centre, inner, angle, Apply("neg", (angle,), pen.place)), pen.place)
    return (
        pen.line("right end", "inner right", "outer right"),
        pen.side(
            "outer",
            Apply("swept arc", (centre, outer, start, angle), pen.place),
            ("outer right", "outer left"),
            centre=centre,
        ),
        pen.line("left end", "outer left", "inner left"),
        pen.side("inner", back, ("inner left", "inner right"), centre=centre),
    )


def _gap(pen: _Pen) -> Name:
    """What a flounce leaves of its circle: ends that lie on or over each other cannot be drawn."""
    return pen.desk.step(
        f"gap between the ends of {pen.piece}",
        1 - Name(f"fraction of {pen.piece}", pen.place),
        pen.place,
        style=Style.FRACTION,
        limit=Limit.POSITIVE,
        kind=Kind.PLAIN,
        why=(
            f"{pen.piece} is a full circle or more, so that its two ends cannot lie apart",
            "cut two halves: write `fraction: 1/2` and `cut: 2 in main`",
        ),
    )
