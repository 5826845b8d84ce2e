"""The one point that is meant, of several that a construction finds."""

from __future__ import annotations

from chalkfold.geometry import points
from chalkfold.geometry.arcs import SIDES, Side
from chalkfold.geometry.constructions import Candidates
from chalkfold.geometry.outlines import orientation
from chalkfold.geometry.shapes import JOIN, Outline, Point
from chalkfold.geometry.trouble import GeometryTrouble, Reason, in_cm

_SAY = "add `side: up` (or down, left, right), or `nearest to: P`"


def only(found: Candidates) -> Point:
    """The point, where there is one. Raises when there are several."""
    if _as_one(found):
        return found[0]
    number = {2: "two"}.get(len(found), str(len(found)))
    raise GeometryTrouble(Reason.SEVERAL, f"{number} points answer to this", f"say which: {_SAY}")


def nearest(found: Candidates, place: Point) -> Point:
    """The one nearest to ``place``. Raises when two are equally near."""
    order = sorted(found, key=lambda point: points.distance(point, place))
    if _as_one(order) or points.distance(order[1], place) - points.distance(order[0], place) > JOIN:
        return order[0]
    message = f"two points answer to this, both {in_cm(points.distance(order[0], place))} from there"
    raise GeometryTrouble(Reason.SEVERAL, message, "name another point that lies nearer to the one you mean")


def farthest(found: Candidates, side: Side) -> Point:
    """The one farthest to a side of the page. Raises when two are equally far that way."""
    order = sorted(found, key=lambda point: -points.dot(point, SIDES[side]))
    if _as_one(order) or points.dot(points.minus(order[0], order[1]), SIDES[side]) > JOIN:
        return order[0]
    level, others = ("level", "left or right") if side in ("up", "down") else ("below each other", "up or down")
    message = f"two points answer to this, and they lie {level}, so that neither is farther {side}"
    raise GeometryTrouble(Reason.NO_SIDE, message, f"write `side:` {others}")


def below(found: Candidates, place: Point, *, above: bool = False) -> Candidates:
    """Those that lie below ``place`` (or above it), or level with it. Raises when there are none."""
    way = -1.0 if above else 1.0
    kept = tuple(point for point in found if (point[1] - place[1]) * way >= -JOIN)
    if kept:
        return kept
    said, other = ("above", "below") if above else ("below", "above")
    off = min(abs(point[1] - place[1]) for point in found)
    message = f"this lies {in_cm(off)} {other} that point, not {said} it"
    raise GeometryTrouble(Reason.NO_SIDE, message, f"write `{other}:` if that is meant", measures=(off,))


def inwards(found: Candidates, outline: Outline, *, outwards: bool = False) -> Point:
    """Of two points square off an edge of an outline, left of it first: the one to the inside, or the outside."""
    clockwise = orientation(outline) > 0
    return found[0] if clockwise is outwards else found[-1]


def _as_one(found: tuple[Point, ...] | list[Point]) -> bool:
    return all(points.same(point, found[0], JOIN) for point in found)
