"""The primitives of curves and of arcs by their bow. Lengths in mm, directions of travel in degrees, 90 is down."""

from __future__ import annotations

from collections.abc import Callable
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


CURVING: dict[str, Callable[..., Any]] = {
    "arc bowed left": lambda a, b, bow: (arcs.bowed(a, b, bow, "left"),),
    "arc bowed right": lambda a, b, bow: (arcs.bowed(a, b, bow, "right"),),
    "arc bowed up": lambda a, b, bow: (arcs.bowed(a, b, bow, "up"),),
    "arc bowed down": lambda a, b, bow: (arcs.bowed(a, b, bow, "down"),),
    "arc through": lambda a, b, place: (arcs.through(a, place, b),),
    "across from": curves.across,
    "direction": points.direction,
    "square to": square_to,
    "leaves": lambda edge: edges.direction_at(edge, 0.0),
    "arrives": lambda edge: edges.direction_at(edge, 0.0, from_end=True),
    "curve": curves.curve,
    "curve to length": curves.of_length,
    "curve through": lambda *places: curves.through(places),
    "curve through leaving": lambda leaving, *places: curves.through(places, leaving),
    "curve through arriving": lambda arriving, *places: curves.through(places, None, arriving),
    "curve through both": lambda leaving, arriving, *places: curves.through(places, leaving, arriving),
}
