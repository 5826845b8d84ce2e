"""The radii of a drawing: to the cutting line, which is what a reader swings, where they are best seen."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.draw.paths import turned
from chalkfold.draw.sheet import Item, Radius, Spot
from chalkfold.geometry import outlines, points
from chalkfold.geometry.points import between, distance, dot, minus, shifted
from chalkfold.geometry.shapes import Edge, Point, Segment, is_arc
from chalkfold.show.drawn_values import Measured

SWUNG = (0.5, 0.62, 0.38, 0.75, 0.25, 0.87, 0.13)
"""How far along an arc its radius may be drawn, the best first: where it meets fewest other lines with its middle."""

BESIDE = (0.1, 0.17, 0.25, 0.38, 0.5, 0.62, 0.75, 0.83)
"""The same for a radius that crosses the piece: from its first end on, so that the middle is free for its name."""


def swings_of(drawn: Measured) -> tuple[float, ...]:
    """How far along each edge its radius meets fewest other lines; of an edge without, as far as any."""
    lines = [(start, end) for start, end, _, _ in drawn.straight_checks()]
    found = []
    for number in range(len(drawn.view.edges)):
        arc, part = _swung(drawn, number), SWUNG[0]
        if arc:
            centre = arc[4], arc[5]
            tips = {part: _tip(drawn, number, arc, part) for part in _parts(drawn, number, arc)}
            part = min(tips, key=lambda part: _met(centre, tips[part], lines))
            lines.append((centre, tips[part]))
        found.append(part)
    return tuple(found)


def _swung(drawn: Measured, number: int) -> Segment | None:
    """The arc of an edge that a reader swings around a centre, on the cutting line."""
    return arc_of(drawn.cutting[number]) if drawn.view.edges[number].centre else None


def _tip(drawn: Measured, number: int, cut: Segment, part: float) -> Point:
    """Where the radius ends on the cutting line; one beside an edge of the piece runs along its seam line."""
    if part in SWUNG:
        return turned(cut, part)
    centre, radius = (cut[4], cut[5]), distance((cut[0], cut[1]), (cut[4], cut[5]))
    return shifted(centre, points.unit(centre, turned(arc_of(drawn.seam[number]) or cut, part)), radius)


def _parts(drawn: Measured, number: int, cut: Segment) -> tuple[float, ...]:
    """Where along its arc a radius may be drawn: anywhere if it keeps off the piece, else beside its end that lies
    farther from a fold, for there is a bracket.
    """
    centre, middle = (cut[4], cut[5]), turned(cut, 0.5)
    over = sum(outlines.encloses(drawn.cutting, between(centre, middle, part / 10)) for part in range(1, 10))
    if over < 2:
        return SWUNG
    following = drawn.view.edges[(number + 1) % len(drawn.view.edges)]
    return BESIDE if following.on_fold else tuple(1 - part for part in BESIDE)


def radii(drawn: Measured, swung: tuple[float, ...]) -> Iterator[Item]:
    """Radii to the cutting line, which is what a reader swings, and their centres."""
    spots: set[str] = set()
    several = len({edge.centre for edge in drawn.view.edges if edge.centre}) > 1
    for number, (edge, letter) in enumerate(zip(drawn.view.edges, drawn.piece.radii, strict=True)):
        arc = _swung(drawn, number)
        if arc is None:
            continue
        centre = arc[4], arc[5]
        yield Radius(centre, _tip(drawn, number, arc, swung[number]), (drawn.both(edge.cut_radius),), letter)
        if edge.centre not in spots:
            spots.add(edge.centre)
            yield Spot(centre, ((f"centre of {edge.name}" if several else "centre",),))


def arc_of(edge: Edge) -> Segment | None:
    """The first arc of an edge."""
    return next((segment for segment in edge if is_arc(segment)), None)


def _met(start: Point, end: Point, lines: list[tuple[Point, Point]]) -> float:
    """How many lines the middle half of a line crosses, those of its own start counted by how close they run."""
    along, found = points.unit(start, end), 0.0
    for a, b in lines:
        if points.same(a, start):
            found += max(0.0, dot(along, points.unit(a, b)) - 0.8)
            continue
        met = points.crossing(start, along, a, points.unit(a, b))
        if met is not None and points.same(met, between(a, b, 0.5), distance(a, b) / 2):
            found += abs(dot(minus(met, start), along) / distance(start, end) - 0.5) < 0.3
    return found
