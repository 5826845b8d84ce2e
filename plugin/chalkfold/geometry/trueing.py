"""An edge trued: the corners that slashes left in it rounded off, so that it runs as one fair curve.

Over each corner comes a curve that leaves the edge and joins it again as it runs there, as far before the corner as
behind it: half-way to the next corner, and at most ``REACH``. Ends and their directions stay. Redrawing an edge by eye
over its corners is common practice in pattern cutting, no source; the curve is that of ``curves.py``.
"""

from __future__ import annotations

from itertools import pairwise

from chalkfold.geometry import edges, segments
from chalkfold.geometry.curves import curve
from chalkfold.geometry.shapes import SAME, Edge

REACH = 60.0
"""A corner is rounded off over at most so much (mm) to either side; what lies beyond keeps its line. Our own limit."""
TRUED_WITHIN = 2.0
"""Rounding corners off makes an edge shorter, and by this much (mm) it may: as exact as a hem is marked. Our own."""
_CORNER = 0.25
"""A turn of less (degrees) is none that could be seen."""


def trued(edge: Edge) -> Edge:
    """The edge without corners. Raises where one is so sharp that no smooth curve leads round it."""
    corners = _corners(edge)
    whole = edges.length(edge)
    found: list[Edge] = []
    done = 0.0
    for before, here, after in zip([0.0, *corners], corners, [*corners[1:], whole], strict=False):
        reach = min((here - before) / 2.0, (after - here) / 2.0, REACH)
        found += _stretch(edge, done, here - reach)
        found.append(_round(edge, here - reach, here + reach))
        done = here + reach
    return edges.joined(*found, *_stretch(edge, done, whole))


def _corners(edge: Edge) -> list[float]:
    """How far along the edge it turns at once."""
    found, passed = [], 0.0
    for segment, after in pairwise(edge):
        passed += segments.length(segment)
        came = segments.direction_at(segment, segments.length(segment))
        if abs((segments.direction_at(after, 0.0) - came + 180.0) % 360.0 - 180.0) > _CORNER:
            found.append(passed)
    return found


def _round(edge: Edge, begin: float, stop: float) -> Edge:
    ends = edges.point_at(edge, begin), edges.point_at(edge, stop)
    return curve(*ends, edges.direction_at(edge, begin), edges.direction_at(edge, stop))


def _stretch(edge: Edge, begin: float, stop: float) -> list[Edge]:
    return [edges.part(edge, begin, stop)] if stop - begin > SAME else []
