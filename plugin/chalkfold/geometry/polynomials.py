"""Where a polynomial is zero between 0 and 1. Coefficients in rising order: ``(1, 0, 2)`` is 1 + 2 t².

Between two places where it turns, a polynomial runs one way and is zero at most once; where it turns, its derivative
is zero. So the zeros of each derivative bracket those of the one before. Source: calculus; the zeros of a quadratic
in the form that loses no figures.
"""

from __future__ import annotations

from itertools import pairwise
from math import copysign, sqrt

Polynomial = tuple[float, ...]

_MOST_STEPS = 80
_FINE = 1e-15


def value(polynomial: Polynomial, t: float) -> float:
    total = 0.0
    for coefficient in reversed(polynomial):
        total = total * t + coefficient
    return total


def derivative(polynomial: Polynomial) -> Polynomial:
    return tuple(power * coefficient for power, coefficient in enumerate(polynomial))[1:]


def plus(a: Polynomial, b: Polynomial) -> Polynomial:
    """Of two of the same degree."""
    return tuple(one + other for one, other in zip(a, b, strict=True))


def times(a: Polynomial, b: Polynomial) -> Polynomial:
    total = [0.0] * (len(a) + len(b) - 1)
    for i, one in enumerate(a):
        for j, other in enumerate(b):
            total[i + j] += one * other
    return tuple(total)


def zeros(polynomial: Polynomial, slack: float = 0.0) -> list[float]:
    """From 0 to 1 in rising order: zeros, and places where it turns or begins within ``slack`` of zero."""
    if len(polynomial) <= 3 and slack == 0.0:
        return [t for t in _of_quadratic((*polynomial, 0.0, 0.0, 0.0)[:3]) if 0.0 <= t <= 1.0]
    stops = [0.0, *(t for t in zeros(derivative(polynomial)) if 0.0 < t < 1.0), 1.0]
    values = [value(polynomial, t) for t in stops]
    found = [t for t, here in zip(stops, values, strict=True) if abs(here) <= slack]
    for (a, b), (low, high) in zip(pairwise(stops), pairwise(values), strict=True):
        if low * high < 0.0:
            found.append(_between(polynomial, a, b, low))
    return sorted(found)


def _of_quadratic(polynomial: Polynomial) -> list[float]:
    c, b, a = polynomial
    inside = b * b - 4.0 * a * c
    if inside < 0.0:
        return []
    far = -0.5 * (b + copysign(sqrt(inside), b))
    found = [top / below for top, below in ((far, a), (c, far)) if below != 0.0]
    return sorted(set(found))


def _between(polynomial: Polynomial, a: float, b: float, low: float) -> float:
    """The one zero between ``a`` and ``b``, where it has the sign of ``low`` at ``a``: Newton, else by halves."""
    slope, t = derivative(polynomial), (a + b) / 2.0
    for _ in range(_MOST_STEPS):
        here = value(polynomial, t)
        if here == 0.0:
            break
        a, b = (t, b) if here * low > 0.0 else (a, t)
        steep = value(slope, t)
        ahead = t - here / steep if steep != 0.0 else a
        ahead = ahead if a < ahead < b else (a + b) / 2.0
        if abs(ahead - t) <= _FINE:
            break
        t = ahead
    return t
