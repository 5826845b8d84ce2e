"""The primitives of curves and of arcs by their bow. Lengths in mm, directions of travel in degrees, 90 is down."""

from __future__ import annotations

from collections.abc import Callable
from math import asin, degrees
from typing import Any

from chalkfold.geometry import arcs, curves, edges, points
from chalkfold.geometry.shapes import JOIN, Edge, Point
from chalkfold.geometry.trouble import GeometryTrouble, Reason


def square_to(edge: Edge, place: Point, a: Point, b: Point) -> float:
    """Square to an edge at its end that lies at ``place``, to the side on which a curve runs from ``a`` to ``b``."""
    if points.same(place, edges.first(edge), JOIN):
        return curves.square(edges.tangent_at(edge, 0.0), a, b)
    if points.same(place, edges.last(edge), JOIN):
        return curves.square(edges.tangent_at(edge, 0.0, from_end=True), a, b)
    raise GeometryTrouble(
        Reason.PAST_THE_END,
        "the edge that the curve should be square to does not end there",
        "name an edge that ends at this point, or write a direction such as `down`",
    )


def off_square(one: Edge, other: Edge) -> float:
    """Degrees by which two edges miss a right angle where they meet; the worse of two corners."""
    found = [
        _off(edges.tangent_at(one, 0.0, from_end=a), edges.tangent_at(other, 0.0, from_end=b))
        for a in (False, True)
        for b in (False, True)
        if points.same(_end(one, a), _end(other, b), JOIN)
    ]
    if not found:
        raise GeometryTrouble(
            Reason.PAST_THE_END, "the two edges do not meet at a corner", "name two edges that follow each other"
        )
    return max(found)


def _off(one: Point, other: Point) -> float:
    return degrees(asin(min(1.0, abs(points.dot(one, other)))))


def _end(edge: Edge, last: bool) -> Point:
    return edges.last(edge) if last else edges.first(edge)


CURVING: dict[str, Callable[..., Any]] = {
    "arc bowed left": lambda a, b, bow: (arcs.bowed(a, b, bow, "left"),),
    "arc bowed right": lambda a, b, bow: (arcs.bowed(a, b, bow, "right"),),
    "arc bowed up": lambda a, b, bow: (arcs.bowed(a, b, bow, "up"),),
    "arc bowed down": lambda a, b, bow: (arcs.bowed(a, b, bow, "down"),),
    "arc through": lambda a, b, place: (arcs.through(a, place, b),),
    "across from": curves.across,
    "direction": points.direction,
    "square to": square_to,
    "off square": off_square,
    "leaves": lambda edge: edges.direction_at(edge, 0.0),
    "arrives": lambda edge: edges.direction_at(edge, 0.0, from_end=True),
    "curve": curves.curve,
    "curve to length": curves.of_length,
    "curve through": lambda *places: curves.through(places),
    "curve through leaving": lambda leaving, *places: curves.through(places, leaving),
    "curve through arriving": lambda arriving, *places: curves.through(places, None, arriving),
    "curve through both": lambda leaving, arriving, *places: curves.through(places, leaving, arriving),
}
