"""Where lines, arcs and cubic curves meet.

Every meeting is found to ``SAME``. A stretch that two segments share counts as its two ends.
Source of all formulas: plane geometry of line and circle; ``cubic_meetings.py`` for curves.
"""

from __future__ import annotations

from math import sqrt

from chalkfold.geometry import arcs, cubic_meetings, segments
from chalkfold.geometry.points import cross, crossing, distance, dot, left_of, minus, same, shifted, unit
from chalkfold.geometry.shapes import SAME, Point, Segment, centre, end, is_cubic, is_line, start


def meetings(a: Segment, b: Segment) -> tuple[Point, ...]:
    """All points that two segments share, in order along ``a``. Segments without length share nothing."""
    if min(segments.length(a), segments.length(b)) <= SAME or _apart(a, b):
        return ()
    if _follows(a, b):
        return (end(a),)
    on_both = [point for point in endless(a, b) if segments.contains(a, point) and segments.contains(b, point)]
    on_both += [point for point in (start(a), end(a)) if segments.contains(b, point)]
    on_both += [point for point in (start(b), end(b)) if segments.contains(a, point)]
    kept: list[Point] = []
    for point in on_both:
        if not any(same(point, other, 2.0 * SAME) for other in kept):
            kept.append(point)
    return tuple(sorted(kept, key=lambda found: segments.nearest(a, found)) if len(kept) > 1 else kept)


def _follows(a: Segment, b: Segment) -> bool:
    """A quick yes where a curve ends or begins: ``b`` goes on from the end of ``a``, and the line square to ``b`` lies
    there between the two, so that they share nothing else.
    """
    if not (is_cubic(a) or is_cubic(b)) or end(a) != start(b):
        return False
    along = segments.tangent_at(b, 0.0)
    here = dot(end(a), along)
    return segments.reach(a, along)[1] <= here + SAME and segments.reach(b, along)[0] >= here - SAME


def _apart(a: Segment, b: Segment) -> bool:
    """A quick no: of two lines, the commonest pair, one lies wholly on one side of the other; or boxes keep clear."""
    if is_cubic(a) and is_cubic(b):
        return cubic_meetings.apart(a, b)
    if not (is_line(a) and is_line(b)):
        return False
    return _on_one_side(a, b) or _on_one_side(b, a)


def _on_one_side(a: Segment, b: Segment) -> bool:
    x, y, across, down = a[0], a[1], a[2] - a[0], a[3] - a[1]
    first = across * (b[1] - y) - down * (b[0] - x)
    last = across * (b[3] - y) - down * (b[2] - x)
    slack = SAME * (abs(across) + abs(down))
    return (first > slack and last > slack) or (first < -slack and last < -slack)


def endless(a: Segment, b: Segment) -> tuple[Point, ...]:
    """Where the endless line or whole circle of ``a`` meets that of ``b``: none for parallel lines and one circle.

    A cubic is not run on.
    """
    if is_cubic(a) or is_cubic(b):
        return cubic_meetings.endless(a, b)
    if is_line(a) and is_line(b):
        found = crossing(start(a), unit(start(a), end(a)), start(b), unit(start(b), end(b)))
        return () if found is None else (found,)
    if is_line(a):
        return line_and_circle(a, centre(b), arcs.radius(b))
    if is_line(b):
        return line_and_circle(b, centre(a), arcs.radius(a))
    return circles(centre(a), arcs.radius(a), centre(b), arcs.radius(b))


def line_and_circle(line: Segment, middle: Point, radius: float) -> tuple[Point, ...]:
    """Two points, one where the line only touches (to ``SAME``), or none; in the direction of the line."""
    along = unit(start(line), end(line))
    foot = shifted(start(line), along, dot(minus(middle, start(line)), along))
    off = abs(cross(along, minus(middle, start(line))))
    return _either_side(foot, along, off, radius)


def circles(a: Point, first: float, b: Point, second: float) -> tuple[Point, ...]:
    """Two points, one where the circles only touch (to ``SAME``), or none; none for circles around one centre."""
    apart = distance(a, b)
    if apart <= SAME:
        return ()
    along = unit(a, b)
    if apart > first + second or apart < abs(first - second):
        return _touching(a, first, b, second)
    ahead = (apart * apart + (first - second) * (first + second)) / (2.0 * apart)
    return _either_side(shifted(a, along, ahead), left_of(along), abs(ahead), first)


def _touching(a: Point, first: float, b: Point, second: float) -> tuple[Point, ...]:
    """Where two circles that do not quite reach each other are nearest, if they miss by ``SAME`` at most."""
    apart = distance(a, b)
    if min(abs(apart - first - second), abs(apart - abs(first - second))) > SAME:
        return ()
    if apart < abs(first - second) and second > first:
        return (shifted(b, unit(b, a), second),)
    return (shifted(a, unit(a, b), first),)


def _either_side(foot: Point, along: Point, off: float, radius: float) -> tuple[Point, ...]:
    """The points of a circle on a line, given the foot of the perpendicular from its centre and how far off it is."""
    if off > radius + SAME:
        return ()
    half = sqrt(max(0.0, (radius - off) * (radius + off)))
    if half == 0.0:
        return (foot,)
    return shifted(foot, along, -half), shifted(foot, along, half)
