"""The seam that a style line becomes, and the darts it takes up.

A line that leads to the tip of a dart takes the dart up: the part on one side of it gets one leg, that on the other the
other, and what lies between them is gone. So a princess seam is drawn; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from chalkfold.blocks.desk import Desk
from chalkfold.blocks.drafting.contour import laid, place_of
from chalkfold.blocks.drafting.darts import Dart
from chalkfold.blocks.drafting.edges import Drawn
from chalkfold.blocks.drafting.points import Points
from chalkfold.blocks.drafting.taken_shapings import Item
from chalkfold.blocks.drafting.trial import answers
from chalkfold.formula import Apply, Expression, Name, key_of
from chalkfold.geometry.shapes import JOIN


@dataclass(frozen=True, slots=True)
class Seam:
    """A style line from edge to edge: as the part ahead of its start gets it, and as the part behind."""

    ahead: Drawn
    behind: Drawn
    darts: tuple[Dart, ...] = ()

    @property
    def ends(self) -> tuple[str, str, str, str]:
        """The keys of the points where it starts and ends, for the one part and the other."""
        return self.ahead.start, self.ahead.end, self.behind.start, self.behind.end


def seam_of(line: Drawn, points: Points, items: Sequence[Item], desk: Desk) -> Seam:
    """The seam of a line whose ends have names; it goes on along the legs of darts that it ends at."""
    darts = [item for item in items if isinstance(item, Dart)]
    ends = [Name(points.step_name(key), place_of(line)) for key in (line.start, line.end)]
    first, last = _darts_at(ends, darts, line, desk)
    if first is None and last is None:
        return Seam(line, line)
    (one, other), (near, far) = (_legs(dart, points, line) for dart in (first, last))
    return Seam(  # the outline runs from the first leg of a dart to its last
        _led(line, other, near, points),
        _led(line, one, far, points),
        tuple(dart for dart in (first, last) if dart is not None),
    )


def _darts_at(ends: Sequence[Name], darts: Sequence[Dart], line: Drawn, desk: Desk) -> list[Dart | None]:
    """For each point the dart whose tip lies in it in every size, if there is one."""
    questions = [Apply("distance", (end, dart.tip)) for end in ends for dart in darts]
    rows = iter(answers(desk, place_of(line), *questions) if questions else [])
    found: list[Dart | None] = []
    for _ in ends:
        there = [dart for dart in darts if all(isinstance(apart, float) and apart <= JOIN for apart in next(rows))]
        found.append(there[0] if there else None)
    return found


def _legs(dart: Dart | None, points: Points, line: Drawn) -> tuple[str, str]:
    """The keys of the points on the edge where the two legs of a dart end."""
    if dart is None:
        return "", ""
    names = tuple(f"{word} leg of {dart.name}" for word in ("first", "last"))
    for name, leg in zip(names, dart.legs, strict=True):
        points.names.setdefault(key_of(name), name)
        points.lay(key_of(name), leg, place_of(line))
    return key_of(names[0]), key_of(names[1])


def _led(line: Drawn, start: str, end: str, points: Points) -> Drawn:
    """A line led on from its ends along the legs of darts, to points on the edge; their keys, or nothing."""
    place = place_of(line)

    def point(key: str) -> Name:
        return Name(points.step_name(key), place)

    parts: list[Expression] = [line.step]
    if start:
        parts.insert(0, Apply("line", (point(start), point(line.start)), place))
    if end:
        parts.append(Apply("line", (point(line.end), point(end)), place))
    step = laid(Apply("join", tuple(parts), place), place, points.desk)
    return replace(
        line, step=step, start=start or line.start, end=end or line.end, is_arc=False, is_line=False, centre=None
    )
