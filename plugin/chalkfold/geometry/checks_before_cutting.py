"""What to lay the tape on before the only cut.

The rule (our own; common practice, no source):

* the longest distance between two corners of the cutting line that no straight edge joins: it is wrong when any
  length or angle is. On a strap it tells no more than the length does; what goes wrong there is the width half-way;
* along one curved edge of the seam line: of those at least ``SHORTEST_TAPED`` long the shortest, in which a wrong
  factor or a forgotten fold shows most; if all are shorter, the longest.

Ties go to the edge or corner that comes first.
"""

from __future__ import annotations

from collections.abc import Container, Iterable

from chalkfold.geometry import edges, outlines
from chalkfold.geometry.points import between, distance
from chalkfold.geometry.shapes import SAME, Outline, is_line

SHORTEST_TAPED = 100.0
"""A tape follows a curve badly on less than this (mm). Common practice, no source."""

STRAP = 6.0
"""So many times as long as wide, a piece is a strap. Common practice, no source."""

Corners = tuple[int, int]
"""The numbers of the two edges that start at them."""


def is_strap(cut: Outline) -> bool:
    left, top, right, bottom = outlines.box(cut)
    short, long = sorted((right - left, bottom - top))
    return long >= STRAP * short - SAME


def longest_diagonal(cut: Outline, of: Iterable[Corners]) -> Corners | None:
    """Of the cutting line, between corners ``of`` which no straight edge joins; ``None`` when there is none."""
    found, longest = None, 0.0
    corners = outlines.corners(cut)
    for first, second in of:
        length = distance(corners[first], corners[second])
        if length > longest + SAME and not _joined_straight(cut, first, second):
            found, longest = (first, second), length
    return found


def _joined_straight(cut: Outline, first: int, second: int) -> bool:
    between = [first] if second == first + 1 else []
    if first == 0 and second == len(cut) - 1:
        between.append(second)
    return any(edges.is_straight(cut[index]) for index in between)


def width_half_way(cut: Outline) -> int | None:
    """Across which side of a strap with four straight sides its width is measured: from its middle to that of the one
    opposite. ``None`` for any other shape.
    """
    if len(cut) != 4 or not all(edges.is_straight(edge) for edge in cut):
        return None
    middles = [between(edges.first(edge), edges.last(edge), 0.5) for edge in cut]
    return 0 if distance(middles[0], middles[2]) <= distance(middles[1], middles[3]) else 1


def telling_curve(seam: Outline, of: Container[int]) -> int | None:
    """The curved edge of the seam line to measure along, ``of`` those with these numbers; ``None`` when every one is
    of straight lines.
    """
    lengths = {
        index: edges.length(edge)
        for index, edge in enumerate(seam)
        if index in of and not all(is_line(segment) for segment in edge)
    }
    long = [index for index in lengths if lengths[index] >= SHORTEST_TAPED]
    if long:
        return min(long, key=lambda index: round(lengths[index], 3))
    return max(lengths, key=lambda index: round(lengths[index], 3), default=None)
