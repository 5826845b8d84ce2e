"""Does an outline cross or touch itself?"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from math import atan2, cos, hypot, sin

from chalkfold.geometry import bezier, cubic_meetings, segments
from chalkfold.geometry.intersect import meetings
from chalkfold.geometry.points import distance, dot, left_of, minus, same, unit
from chalkfold.geometry.shapes import JOIN, SAME, Outline, Point, Segment, end, handles, is_arc, is_cubic, start

WHOLE = 360.0 + 1e-9
"""An arc that turns by more (degrees) lies on itself."""


_WELL_OFF = 0.1
"""Part of its distance from a joint that a point lies ahead of it or behind; then what is nearer than ``SAME`` to both
sides is much nearer than ``JOIN`` to the joint."""


@dataclass(frozen=True, slots=True)
class Crossing:
    """Edges ``first`` and ``second`` (indexes, the lower first, or the same) meet ``at`` a point they should not."""

    first: int
    second: int
    at: Point


def first_crossing(outline: Outline) -> Crossing | None:
    """The first place, in the order of the edges, where the outline crosses, touches or covers itself.

    Segments that follow each other may share the point between them, to ``JOIN``: where they run smoothly into each
    other, rounding makes them meet again that near to it. Segments without length are left out. Work: pairs whose
    extents overlap, looked for across the way most of the outline runs.
    """
    chain = [
        (index, segment) for index, edge in enumerate(outline) for segment in edge if segments.length(segment) > SAME
    ]
    found: tuple[int, int, Point] | None = next(
        ((i, i, at) for i, (_, segment) in enumerate(chain) if (at := _on_itself(segment)) is not None),
        None,
    )
    for i, j in _near_pairs([segment for _, segment in chain]):
        if found is None or (i, j) < found[:2]:
            (_, a), (_, b) = chain[i], chain[j]
            if j == i + 1 and len(chain) > 2 and only_joined(a, b):
                continue
            joints = _joints(i, j, a, b, len(chain))
            met = [point for point in meetings(a, b) if not any(same(point, joint, JOIN) for joint in joints)]
            found = (i, j, met[0]) if met else found
    return Crossing(chain[found[0]][0], chain[found[1]][0], found[2]) if found else None


def is_simple(outline: Outline) -> bool:
    return first_crossing(outline) is None


def _on_itself(segment: Segment) -> Point | None:
    """Where an arc of more than a circle lies on itself, or a curve loops."""
    if is_arc(segment):
        return start(segment) if abs(segment[6]) > WHOLE else None
    loop = cubic_meetings.loop(segment) if is_cubic(segment) else None
    return None if loop is None else bezier.point(segment, loop[0])


def only_joined(a: Segment, b: Segment) -> bool:
    """A quick yes: ``b`` goes on where ``a`` ends, and corners and handles of the two keep to their own side of a line
    across the joint, well off it. Then they share that point alone. Curves and lines only.
    """
    joint, whole = end(a), distance(start(a), end(b))
    if is_arc(a) or is_arc(b) or not same(joint, start(b)) or whole <= JOIN:
        return False
    along = unit(start(a), end(b))
    behind = [minus(joint, place) for place in (start(a), *(handles(a) if is_cubic(a) else ()))]
    ahead = [minus(place, joint) for place in (end(b), *(handles(b) if is_cubic(b) else ()))]
    return all(dot(way, along) > _WELL_OFF * hypot(*way) for way in (*behind, *ahead))


def _joints(i: int, j: int, a: Segment, b: Segment, count: int) -> list[Point]:
    """The points that two segments share by right: ``a`` ends where ``b`` starts, or the other way about."""
    joints = [end(a)] if j == i + 1 else []
    return [*joints, start(a)] if i == 0 and j == count - 1 else joints


def _near_pairs(chain: list[Segment]) -> Iterator[tuple[int, int]]:
    """Pairs of indexes, the lower first, whose extents overlap both across and along the main way."""
    main = _main_way(chain)
    spans = sorted(
        (*segments.reach(segment, left_of(main)), *segments.reach(segment, main), index)
        for index, segment in enumerate(chain)
    )
    lows = [span[0] for span in spans]
    for place, (_, high, begin, stop, index) in enumerate(spans):
        begin, stop = begin - SAME, stop + SAME
        for other in spans[place + 1 : bisect_right(lows, high + SAME)]:
            if other[2] <= stop and other[3] >= begin:
                yield (index, other[4]) if index < other[4] else (other[4], index)


def _main_way(chain: list[Segment]) -> Point:
    """The direction in which most of the length runs, to and fro alike: a mean of doubled angles."""
    across = down = 0.0
    for segment in chain:
        x, y = end(segment)[0] - start(segment)[0], end(segment)[1] - start(segment)[1]
        weight = (x * x + y * y) ** 0.5 or 1.0
        across, down = across + (x * x - y * y) / weight, down + 2.0 * x * y / weight
    angle = atan2(down, across) / 2.0
    return cos(angle), sin(angle)
