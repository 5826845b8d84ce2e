"""A sector of a ring (a flounce, part of a circle skirt) as it is marked on cloth.

The first straight end lies along ``across``; the ring sweeps down from it by ``angle`` degrees. Each straight end
may carry an allowance (mm) laid parallel outside it. Source: plane geometry.
"""

from __future__ import annotations

from math import asin, cos, degrees, radians, sin, sqrt


def width(outer: float, inner: float, angle: float, end: float) -> float:
    """Extent across (mm) of the sector with radii ``outer`` and ``inner`` (mm) and end allowances ``end``."""
    xs = [x for x, _ in _extremes(outer, inner, angle, end)]
    return max(xs) - min(xs)


def height(outer: float, inner: float, angle: float, end: float) -> float:
    """Extent down (mm), as for :func:`width`."""
    ys = [y for _, y in _extremes(outer, inner, angle, end)]
    return max(ys) - min(ys)


def _extremes(outer: float, inner: float, angle: float, end: float) -> list[tuple[float, float]]:
    """The four corners of the sector with its allowances, and where its outer arc meets the axes."""
    beyond = degrees(asin(max(-1.0, min(1.0, end / outer)))) if outer > 0 else 0.0
    points = []
    for radius in (outer, inner):
        foot = sqrt(max(0.0, radius * radius - end * end))
        points.append((foot, -end))
        points.append(_turned(foot, end, angle))
    points += [
        (outer * cos(radians(quarter)), outer * sin(radians(quarter)))
        for quarter in (0.0, 90.0, 180.0, 270.0, 360.0)
        if -beyond <= quarter <= angle + beyond
    ]
    return points


def _turned(foot: float, end: float, angle: float) -> tuple[float, float]:
    turn = radians(angle)
    return foot * cos(turn) - end * sin(turn), foot * sin(turn) + end * cos(turn)
