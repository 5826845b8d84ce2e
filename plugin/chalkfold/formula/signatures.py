"""The closed table of primitives: how many operands each takes, and what kinds.

To add one, add a line to a list below; the plan and the page's interpreter then must know it too.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

from chalkfold.amounts.kinds import Kind
from chalkfold.formula import kind_rules as rules
from chalkfold.formula.expression import Apply, Expression
from chalkfold.formula.kind_rules import Rule, takes
from chalkfold.formula.printing import COMPARISONS
from chalkfold.formula.walking import fold, parts_of

ANY_NUMBER_OF = None
PLAIN, LENGTH, AREA, ANGLE = Kind.PLAIN, Kind.LENGTH, Kind.AREA, Kind.ANGLE
TRUTH, SERIES, POINT, POINTS = Kind.TRUTH, Kind.SERIES, Kind.POINT, Kind.POINTS
EDGE, OUTLINE = Kind.EDGE, Kind.OUTLINE


@dataclass(frozen=True, slots=True)
class Primitive:
    """``most`` is None for any number of operands. ``called`` ones a writer types with brackets."""

    name: str
    least: int
    most: int | None
    rule: Rule
    called: bool = False

    def takes(self, count: int) -> bool:
        return self.least <= count and (self.most is None or count <= self.most)


OPERATORS = [
    Primitive("+", 2, 2, rules.add),
    Primitive("-", 2, 2, rules.subtract),
    Primitive("*", 2, 2, rules.multiply),
    Primitive("/", 2, 2, rules.divide),
    Primitive("^", 2, 2, rules.raise_to_power),
    Primitive("neg", 1, 1, rules.negate),
    Primitive("of", 2, 2, rules.share_of),
    *(Primitive(op, 2, 2, rules.compare) for op in COMPARISONS),
    Primitive("and", 2, 2, takes(TRUTH, gives=TRUTH)),
    Primitive("or", 2, 2, takes(TRUTH, gives=TRUTH)),
    Primitive("not", 1, 1, takes(TRUTH, gives=TRUTH)),
    Primitive("if", 3, 3, rules.if_else),
]
"""Written between or before their operands."""

_AN_ANGLE = "write an angle with its unit, such as `30°`"
_AS_ANGLE = takes(ANGLE, gives=PLAIN, hint=_AN_ANGLE)
FUNCTIONS = [
    Primitive("min", 1, ANY_NUMBER_OF, rules.largest_or_smallest, called=True),
    Primitive("max", 1, ANY_NUMBER_OF, rules.largest_or_smallest, called=True),
    Primitive("sqrt", 1, 1, rules.root, called=True),
    Primitive("sin", 1, 1, _AS_ANGLE, called=True),
    Primitive("cos", 1, 1, _AS_ANGLE, called=True),
    Primitive("tan", 1, 1, _AS_ANGLE, called=True),
    Primitive("round", 1, 1, rules.whole, called=True),
    Primitive("round up", 1, 1, rules.whole, called=True),
    Primitive("round down", 1, 1, rules.whole, called=True),
    Primitive("marked", 1, 1, takes(LENGTH, gives=LENGTH), called=True),
]
"""Written with brackets."""

INTERNAL = [
    # first place, step, count
    Primitive("series", 3, 3, takes(LENGTH, LENGTH, PLAIN, gives=SERIES)),
    # those at or after `from` and before `to`, measured from `from`
    Primitive("positions between", 3, 3, takes(SERIES, LENGTH, LENGTH, gives=SERIES)),
    # step, seams: how far to move places so that they stay clear of the seams
    Primitive("clear shift", 2, 2, takes(LENGTH, SERIES, gives=LENGTH)),
    # places, seams, girth of a closed edge (0 for a flat one): the least distance from a place to a seam
    Primitive("clearance", 3, 3, takes(SERIES, SERIES, LENGTH, gives=LENGTH)),
    # length, tape mark: `marked` with its mark filled in
    Primitive("to mark", 2, 2, takes(LENGTH, LENGTH, gives=LENGTH)),
    Primitive("row", 1, ANY_NUMBER_OF, takes(LENGTH, gives=SERIES)),
    Primitive("count of series", 1, 1, takes(SERIES, gives=PLAIN)),
    Primitive("asin", 1, 1, takes(PLAIN, gives=ANGLE)),
    # outer radius, inner radius, angle, allowance at the ends
    Primitive("sector width", 4, 4, takes(LENGTH, LENGTH, ANGLE, LENGTH, gives=LENGTH)),
    Primitive("sector height", 4, 4, takes(LENGTH, LENGTH, ANGLE, LENGTH, gives=LENGTH)),
    Primitive("point", 2, 2, takes(LENGTH, gives=POINT)),
    Primitive("across of", 1, 1, takes(POINT, gives=LENGTH)),
    Primitive("down of", 1, 1, takes(POINT, gives=LENGTH)),
    Primitive("distance", 2, 2, takes(POINT, gives=LENGTH)),
]
"""Only blocks use these; a writer cannot type them."""

_drawn = partial(takes, typed=False)
_EDGE_OF_POINTS = _drawn(POINT, POINT, LENGTH, gives=EDGE)
SHAPING = [
    # outline, edge, from and to along it, how deep into the piece, from which part of the way
    Primitive("square in", 6, 6, _drawn(OUTLINE, EDGE, LENGTH, LENGTH, LENGTH, PLAIN, gives=POINT)),
    # edge, tip, what the dart takes: where on the edge its middle stands
    Primitive("square place", 3, 3, _drawn(EDGE, POINT, LENGTH, gives=LENGTH)),
    # outline, edge, from and to along it, from which part of the way, the edge to reach
    Primitive("square across", 6, 6, _drawn(OUTLINE, EDGE, LENGTH, LENGTH, PLAIN, EDGE, gives=POINT)),
    # edge, the leg on the side it is pressed to, the other leg
    Primitive("dart cap", 3, 3, _drawn(EDGE, gives=POINT)),
    # edge, from, out to, back at
    Primitive("through", 4, 4, _drawn(EDGE, POINT, POINT, POINT, gives=EDGE)),
    # from, to, which part of the way, how far to the left
    Primitive("beside", 4, 4, _drawn(POINT, POINT, PLAIN, LENGTH, gives=POINT)),
    # outline, where the slash opens, its hinge, the edges on a fold as bits of a number: the part that moves
    Primitive("moving part", 4, 4, _drawn(OUTLINE, POINT, POINT, PLAIN, gives=OUTLINE)),
    # outline, where it opens, the tip of a dart, from leg to leg, folds: the part that moves when the dart is closed
    Primitive("dart part", 5, 5, _drawn(OUTLINE, POINT, POINT, EDGE, PLAIN, gives=OUTLINE)),
    # moving part, how far it opens at either end: where the slash comes to lie
    Primitive("opened", 3, 3, _drawn(OUTLINE, LENGTH, LENGTH, gives=EDGE)),
    # moving part, from leg to leg
    Primitive("closed", 2, 2, _drawn(OUTLINE, EDGE, gives=EDGE)),
    # edge, moving part, where the slash comes to lie, whether a gap at an end of the edge belongs to it
    Primitive("spread", 4, 4, _drawn(EDGE, OUTLINE, EDGE, PLAIN, gives=EDGE)),
    # edge, from leg to leg, moving part, where the slash comes to lie
    Primitive("closed edge", 4, 4, _drawn(EDGE, EDGE, OUTLINE, EDGE, gives=EDGE)),
    Primitive("spread point", 3, 3, _drawn(POINT, OUTLINE, EDGE, gives=POINT)),
    # edge, a point on it
    Primitive("how far along", 2, 2, _drawn(EDGE, POINT, gives=LENGTH)),
    # an edge without the corners that slashes left in it
    Primitive("trued", 1, 1, _drawn(EDGE, gives=EDGE)),
    Primitive("shaped outline", 1, ANY_NUMBER_OF, _drawn(EDGE, gives=OUTLINE)),
]
"""Darts, pleats and slashes."""


_DIRECTIONS = _drawn(POINT, gives=ANGLE)
CURVING = [
    # from, to, how far its middle stands off
    *(Primitive(f"arc bowed {side}", 3, 3, _EDGE_OF_POINTS) for side in ("left", "right", "up", "down")),
    # from, to, a point on it
    Primitive("arc through", 3, 3, _drawn(POINT, gives=EDGE)),
    # directions of travel: across from the one towards the other; straight from the one to the other
    Primitive("across from", 2, 2, _DIRECTIONS),
    Primitive("direction", 2, 2, _DIRECTIONS),
    # an edge, where it ends, and from where to where the curve runs there
    Primitive("square to", 4, 4, _drawn(EDGE, POINT, gives=ANGLE)),
    # by how much two edges miss a right angle where they meet
    Primitive("off square", 2, 2, _drawn(EDGE, gives=ANGLE)),
    Primitive("leaves", 1, 1, _drawn(EDGE, gives=ANGLE)),
    Primitive("arrives", 1, 1, _drawn(EDGE, gives=ANGLE)),
    # from, to, directions of travel there; length
    Primitive("curve", 4, 4, _drawn(POINT, POINT, ANGLE, gives=EDGE)),
    Primitive("curve to length", 5, 5, _drawn(POINT, POINT, ANGLE, ANGLE, LENGTH, gives=EDGE)),
    # the points in order, after the directions that are given
    Primitive("curve through", 3, ANY_NUMBER_OF, _drawn(POINT, gives=EDGE)),
    Primitive("curve through leaving", 4, ANY_NUMBER_OF, _drawn(ANGLE, POINT, gives=EDGE)),
    Primitive("curve through arriving", 4, ANY_NUMBER_OF, _drawn(ANGLE, POINT, gives=EDGE)),
    Primitive("curve through both", 5, ANY_NUMBER_OF, _drawn(ANGLE, ANGLE, POINT, gives=EDGE)),
]
"""Arcs by their bow, and curves."""
DRAFTING = [
    Primitive("moved", 3, 3, _drawn(POINT, LENGTH, LENGTH, gives=POINT)),
    Primitive("polar", 3, 3, _drawn(POINT, ANGLE, LENGTH, gives=POINT)),
    Primitive("towards", 3, 3, _drawn(POINT, POINT, LENGTH, gives=POINT)),
    Primitive("between", 3, 3, _drawn(POINT, POINT, PLAIN, gives=POINT)),
    Primitive("corner", 2, 2, _drawn(POINT, gives=POINT)),
    Primitive("meeting", 4, 4, _drawn(POINT, gives=POINT)),
    # an edge, a length from its start (or a part of it); or from the end that lies at a point
    Primitive("along", 2, 2, rules.along_an_edge),
    Primitive("along from", 3, 3, rules.along_an_edge),
    Primitive("line", 2, 2, _drawn(POINT, gives=EDGE)),
    # from, to, centre
    Primitive("arc around", 3, 3, _drawn(POINT, gives=EDGE)),
    Primitive("long arc around", 3, 3, _drawn(POINT, gives=EDGE)),
    # from, to, radius
    *(Primitive(f"arc bulging {side}", 3, 3, _EDGE_OF_POINTS) for side in ("left", "right", "up", "down")),
    # centre, radius, angle where it starts, sweep
    Primitive("swept arc", 4, 4, _drawn(POINT, LENGTH, ANGLE, ANGLE, gives=EDGE)),
    *CURVING,
    Primitive("join", 1, ANY_NUMBER_OF, _drawn(EDGE, gives=EDGE)),
    Primitive("length of", 1, 1, _drawn(EDGE, gives=LENGTH)),
    Primitive("radius of", 1, 1, _drawn(EDGE, gives=LENGTH)),
    Primitive("ends on", 2, 2, _drawn(EDGE, gives=PLAIN)),
    Primitive("outline", 1, ANY_NUMBER_OF, _drawn(EDGE, gives=OUTLINE)),
    # outline, an allowance for each edge, the edges on a fold as bits of a number
    Primitive("cutting line", 3, 3, _drawn(OUTLINE, SERIES, PLAIN, gives=OUTLINE)),
    Primitive("seam line", 3, 3, _drawn(OUTLINE, SERIES, PLAIN, gives=OUTLINE)),
    Primitive("unfolded", 2, 2, _drawn(OUTLINE, PLAIN, gives=OUTLINE)),
    # outline, index
    Primitive("edge of", 2, 2, _drawn(OUTLINE, PLAIN, gives=EDGE)),
    Primitive("corner of", 2, 2, _drawn(OUTLINE, PLAIN, gives=POINT)),
    Primitive("outline area", 1, 1, _drawn(OUTLINE, gives=AREA)),
    Primitive("outline width", 1, 1, _drawn(OUTLINE, gives=LENGTH)),
    Primitive("outline height", 1, 1, _drawn(OUTLINE, gives=LENGTH)),
    # how far it reaches in a direction
    Primitive("outline along", 2, 2, _drawn(OUTLINE, ANGLE, gives=LENGTH)),
    Primitive("inside", 2, 2, _drawn(OUTLINE, POINT, gives=TRUTH)),
    *SHAPING,
]
"""Points, edges and outlines of a draft."""

FROM_PIECES = [
    # outline, allowances, edges on a fold, edges whose allowance is turned up
    Primitive("turned cutting line", 4, 4, _drawn(OUTLINE, SERIES, PLAIN, PLAIN, gives=OUTLINE)),
    # outline, index: through how much (radians) an edge turns outwards
    Primitive("turn outwards", 2, 2, _drawn(OUTLINE, PLAIN, gives=PLAIN)),
    # a point or an edge, seen in the line between two points
    Primitive("mirrored point", 3, 3, _drawn(POINT, gives=POINT)),
    Primitive("mirrored edge", 3, 3, _drawn(EDGE, POINT, POINT, gives=EDGE)),
    Primitive("backwards", 1, 1, _drawn(EDGE, gives=EDGE)),
    # the stretches of an edge before a point, behind one, between two
    Primitive("up to", 2, 2, _drawn(EDGE, POINT, gives=EDGE)),
    Primitive("on from", 2, 2, _drawn(EDGE, POINT, gives=EDGE)),
    Primitive("stretch", 3, 3, _drawn(EDGE, POINT, POINT, gives=EDGE)),
    # index of the edge on which a point lies and the part of it before the point; -1 off the outline
    Primitive("place round", 2, 2, _drawn(OUTLINE, POINT, gives=PLAIN)),
    Primitive("middle of", 1, 1, _drawn(OUTLINE, gives=POINT)),
    # outline, how far inside; the edge before, those it runs beside, the edge behind them
    Primitive("inner line", 5, ANY_NUMBER_OF, _drawn(OUTLINE, LENGTH, EDGE, gives=EDGE)),
    # an edge and the legs folded onto each other on it, two by two; with it an edge that lies beyond its end
    Primitive("taken in", 1, ANY_NUMBER_OF, _drawn(EDGE, gives=EDGE)),
    Primitive("carried along", 2, ANY_NUMBER_OF, _drawn(EDGE, gives=EDGE)),
]
"""Pieces made from pieces."""

CONSTRUCTING = [
    # a point, moved as another leads to a third; turned round another; seen in a straight edge
    Primitive("copied", 3, 3, _drawn(POINT, gives=POINT)),
    Primitive("turned", 3, 3, _drawn(POINT, POINT, ANGLE, gives=POINT)),
    Primitive("mirrored", 2, 2, _drawn(POINT, EDGE, gives=POINT)),
    Primitive("carried on", 2, 2, _drawn(POINT, gives=EDGE)),
    # an edge, one of its ends, a length beyond it
    Primitive("carried past", 3, 3, _drawn(EDGE, POINT, LENGTH, gives=POINT)),
    Primitive("foot", 2, 2, _drawn(EDGE, POINT, gives=POINT)),
    # an edge, a point of it, a length
    Primitive("square from", 3, 3, _drawn(EDGE, POINT, LENGTH, gives=POINTS)),
    Primitive("square line", 2, 2, _drawn(EDGE, POINT, gives=EDGE)),
    Primitive("meetings", 2, 2, _drawn(EDGE, gives=POINTS)),
    Primitive("compasses", 4, 4, _drawn(POINT, LENGTH, POINT, LENGTH, gives=POINTS)),
    Primitive("compass on", 3, 3, _drawn(POINT, LENGTH, EDGE, gives=POINTS)),
    # which of several points
    Primitive("only", 1, 1, _drawn(POINTS, gives=POINT)),
    Primitive("nearest", 2, 2, _drawn(POINTS, POINT, gives=POINT)),
    *(Primitive(f"farthest {side}", 1, 1, _drawn(POINTS, gives=POINT)) for side in ("left", "right", "up", "down")),
    Primitive("those below", 2, 2, _drawn(POINTS, POINT, gives=POINTS)),
    Primitive("those above", 2, 2, _drawn(POINTS, POINT, gives=POINTS)),
    Primitive("inwards", 2, 2, _drawn(POINTS, OUTLINE, gives=POINT)),
    Primitive("outwards", 2, 2, _drawn(POINTS, OUTLINE, gives=POINT)),
    # an outline, the index of an edge, a length, the edges on a fold as bits
    Primitive("parallel line", 4, 4, _drawn(OUTLINE, PLAIN, LENGTH, PLAIN, gives=EDGE)),
]
"""Points found with compasses, a square and a ruler."""

PRIMITIVES = {each.name: each for each in (*OPERATORS, *FUNCTIONS, *INTERNAL, *DRAFTING, *CONSTRUCTING, *FROM_PIECES)}

_WRITTEN = frozenset(each.name for each in (*OPERATORS, *FUNCTIONS))


def is_written(expression: Expression) -> bool:
    """Whether a writer could have typed it; what blocks build may hold primitives of their own."""

    def own(node: Expression, parts: list[bool]) -> bool:
        return all(parts) and not (isinstance(node, Apply) and node.op not in _WRITTEN)

    return fold(expression, parts_of, own)
