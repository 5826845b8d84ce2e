"""The primitives of a draft: points, edges, the seam line and the cutting line. Lengths in mm, angles in degrees.

Values are plain tuples, as ``geometry`` has them; folds are a number whose bit i says that edge i lies on a fold.
What cannot be constructed is a ``Trouble``; its message names edges as ``#0``, ``#1`` …, for which the evaluator puts
the names that the step gives them.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from chalkfold.diagnostics import Code
from chalkfold.geometry import arcs, edges, outlines, points
from chalkfold.geometry.crossings import first_crossing
from chalkfold.geometry.offset import inset, offset
from chalkfold.geometry.shapes import JOIN, SAME, Edge, Outline, Point, centre, is_arc, line, start
from chalkfold.geometry.trouble import GeometryTrouble
from chalkfold.geometry.unfold import unfold
from chalkfold.plan.curving import CURVING
from chalkfold.plan.fold_bits import which
from chalkfold.plan.shaping import SHAPING
from chalkfold.plan.trouble import Trouble

FULL_CIRCLE = 360 + 1e-9
"""Degrees that an arc turns by at most; the rest is what rounding adds."""


def constructed(work: Callable[..., Any]) -> Callable[..., Any]:
    """Turn what cannot be constructed into trouble of the plan."""

    @wraps(work)
    def guarded(*operands: Any) -> Any:
        try:
            return work(*operands)
        except GeometryTrouble as trouble:
            named = " and ".join(f"#{edge}" for edge in trouble.edges)
            where = f" ({named})" if named else ""
            raise Trouble(Code.WORK_DRAFT, f"{trouble.message}{where}", trouble.hint) from None

    return guarded


def along_from(edge: Edge, distance: float, end: Point) -> Point:
    """The point at ``distance`` along an edge from the end that lies at ``end``."""
    if points.same(end, edges.first(edge), JOIN):
        return edges.point_at(edge, distance)
    if points.same(end, edges.last(edge), JOIN):
        return edges.point_at(edge, distance, from_end=True)
    raise Trouble(Code.WORK_DRAFT, "this point is no end of the edge", "measure from one of the two ends of the edge")


def swept_arc(middle: Point, radius: float, begin: float, sweep: float) -> Edge:
    """The arc round ``middle`` from the angle ``begin`` over ``sweep``; more than half a circle is two segments."""
    if abs(sweep) > FULL_CIRCLE:
        message = f"this arc turns by {abs(sweep):.4g}°, more than a full circle"
        raise Trouble(Code.WORK_DRAFT, message, "turn by at most 360°")
    if radius <= SAME:
        raise Trouble(Code.WORK_DRAFT, "this arc has no radius", "give it a radius above 0, in every size")
    if abs(sweep) > 180:
        half = sweep / 2
        return (*swept_arc(middle, radius, begin, half), *swept_arc(middle, radius, begin + half, half))
    first, last = points.polar(middle, begin, radius), points.polar(middle, begin + sweep, radius)
    return ((*first, *last, *middle, sweep),)


def outline(
    *sides: Edge, hint: str = "move a point, so that the edges only meet at their ends, in every size"
) -> Outline:
    """The edges in order, if they close and neither cross nor touch."""
    found: Outline = tuple(sides)
    index, gap = outlines.gap(found)
    if gap > JOIN:
        message = f"the outline is open: there is a gap of {gap / 10:.4g} cm behind #{index}"
        raise Trouble(Code.WORK_DRAFT, message, "end each edge at the point where the next begins")
    crossing = first_crossing(found)
    if crossing is not None:
        pair = (
            f"#{crossing.first} and #{crossing.second}" if crossing.first != crossing.second else f"#{crossing.first}"
        )
        across, down = (round(place / 10, 6) + 0.0 for place in crossing.at)
        at = f"{across:.4g} cm across, {down:.4g} cm down"
        message = f"the outline crosses or touches itself: {pair} meet at {at}"
        raise Trouble(Code.WORK_DRAFT, message, hint)
    outlines.orientation(found)
    return found


def shaped_outline(*sides: Edge) -> Outline:
    """The outline of a piece that was slashed, of which darts were closed."""
    return outline(*sides, hint="open the slashes less, in every size, or make more of them")


def cutting_line(seam: Outline, allowances: tuple[float, ...], folds: float) -> Outline:
    return offset(seam, allowances, which(folds))


def seam_line(cutting: Outline, allowances: tuple[float, ...], folds: float) -> Outline:
    return inset(cutting, allowances, which(folds))


def unfolded(seam: Outline, folds: float) -> Outline:
    """The whole piece, opened at its folds."""
    return unfold(seam, which(folds)).whole.outline


def radius_of(edge: Edge) -> float:
    """The radius of an edge that is an arc (of its first arc, where corners have added straight bits)."""
    for segment in edge:
        if is_arc(segment):
            return points.distance(start(segment), centre(segment))
    raise Trouble(Code.WORK_DRAFT, "this edge is no arc and has no radius", "ask for its length")


def extent(found: Outline, towards: Point) -> float:
    """How far it reaches (mm) from end to end in the direction of a unit vector."""
    low, high = outlines.reach(found, towards)
    return high - low


def ends_on(edge: Edge, fold: Edge) -> float:
    """How many of its two ends lie on a fold."""
    return float(sum(edges.contains(fold, end, JOIN) for end in (edges.first(edge), edges.last(edge))))


def inside(found: Outline, point: Point) -> bool:
    """Whether a point lies on the piece, its edge included."""
    return outlines.encloses(found, point) or any(edges.contains(edge, point, JOIN) for edge in found)


_PLAIN: dict[str, Callable[..., Any]] = {
    "moved": lambda p, across, down: (p[0] + across, p[1] + down),
    "polar": points.polar,
    "towards": points.towards,
    "between": points.between,
    "corner": points.square_corner,
    "meeting": points.meeting,
    "along": edges.point_at,
    "along from": along_from,
    "line": lambda a, b: (line(a, b),),
    "arc around": lambda a, b, middle: (arcs.around(middle, a, b),),
    "long arc around": lambda a, b, middle: (arcs.around(middle, a, b, long_way=True),),
    "arc bulging left": lambda a, b, radius: (arcs.bulging(a, b, radius, "left"),),
    "arc bulging right": lambda a, b, radius: (arcs.bulging(a, b, radius, "right"),),
    "arc bulging up": lambda a, b, radius: (arcs.bulging(a, b, radius, "up"),),
    "arc bulging down": lambda a, b, radius: (arcs.bulging(a, b, radius, "down"),),
    "swept arc": swept_arc,
    "join": edges.joined,
    "length of": edges.length,
    "radius of": radius_of,
    "outline": outline,
    "shaped outline": shaped_outline,
    "cutting line": cutting_line,
    "seam line": seam_line,
    "unfolded": unfolded,
    "edge of": lambda found, index: found[int(index)],
    "corner of": lambda found, index: edges.first(found[int(index)]),
    "outline area": lambda found: abs(outlines.area(found)),
    "outline width": lambda found: extent(found, (1.0, 0.0)),
    "outline height": lambda found: extent(found, (0.0, 1.0)),
    "outline along": lambda found, angle: extent(found, points.facing(angle)),
    "ends on": ends_on,
    "inside": inside,
}

DRAFTING: dict[str, Callable[..., Any]] = {
    name: constructed(work) for name, work in (_PLAIN | CURVING | SHAPING).items()
}
