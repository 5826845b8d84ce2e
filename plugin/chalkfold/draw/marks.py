"""The signs on a piece: notches, drill marks, buttons, gaps, the bracket at a fold, radii."""

from __future__ import annotations

from chalkfold.draw.dimensions import head
from chalkfold.draw.drawn import Layer
from chalkfold.draw.lines import LineType
from chalkfold.draw.paths import Extent, aside, circle, end_of, flat, lines_through, normal, start_of, unit
from chalkfold.draw.room import Room
from chalkfold.geometry.points import between, distance, shifted
from chalkfold.geometry.shapes import Edge, Point

TICK = 6.0
"""Units a notch reaches to each side of the cutting line."""

FAR = 0.75
"""A centre farther off the piece than this part of its diagonal is only pointed at."""


def ink(room: Room, layer: Layer, line: LineType, edge: Edge) -> None:
    """Draw a line that texts keep off."""
    layer.strokes.append((line, edge))
    room.add_path(flat(edge))


def solid(room: Room, layer: Layer, edge: Edge) -> None:
    """Draw a filled shape that texts keep off."""
    layer.solids.append(edge)
    room.add_path(flat(edge))


def notch(room: Room, layer: Layer, at: Point, outward: Point, double: bool) -> None:
    out = unit(outward)
    along = (-out[1], out[0])
    for by in (-2.5, 2.5) if double else (0.0,):
        foot = shifted(at, along, by)
        ink(room, layer, LineType.MARK, lines_through((shifted(foot, out, -TICK), shifted(foot, out, TICK))))


def cross(room: Room, layer: Layer, at: Point, radius: float) -> None:
    """A circle with a cross in it: a button as large as it is, or a drill mark."""
    ink(room, layer, LineType.MARK, circle(at, radius))
    for direction in ((1.0, 0.0), (0.0, 1.0)):
        ends = (shifted(at, direction, -radius * 0.6), shifted(at, direction, radius * 0.6))
        ink(room, layer, LineType.DIMENSION, lines_through(ends))


def gap(room: Room, layer: Layer, edge: Edge, outward: Point) -> None:
    """A tick across each end of the gap and a bar along it, inside the edge."""
    if not edge:
        return
    bar = aside(edge, outward, -5.0)
    ink(room, layer, LineType.DIMENSION, bar)
    for foot, inner in ((start_of(edge), start_of(bar)), (end_of(edge), end_of(bar))):
        ink(room, layer, LineType.MARK, lines_through((inner, between(inner, foot, 2.0))))


def bracket(room: Room, layer: Layer, start: Point, end: Point, inward: Point) -> tuple[Point, Point, Point]:
    """The place-on-fold bracket: where its bar begins and ends, and on which side of it the piece goes on."""
    into = normal((end[0] - start[0], end[1] - start[1]), inward)
    inset = min(0.12 * distance(start, end), 40.0)
    along = unit((end[0] - start[0], end[1] - start[1]))
    one, other = shifted(start, along, inset), shifted(end, along, -inset)
    middle = between(start, end, 0.5)
    depths = [each for each in (18.0, 13.0, 9.0) if not room.crossings(middle, shifted(middle, into, each + 3), 2.0)]
    depth = min(
        depths, key=lambda each: room.crossings(shifted(one, into, each), shifted(other, into, each)), default=-14.0
    )
    bar = (shifted(one, into, depth), shifted(other, into, depth))
    out = (-into[0], -into[1]) if depth > 0 else into
    for foot, top in ((one, bar[0]), (other, bar[1])):
        tip = shifted(foot, out, -2.5)
        solid(room, layer, head(tip, out, 7.0, 2.4))
        ink(room, layer, LineType.DIMENSION, lines_through((tip, top)))
    ink(room, layer, LineType.DIMENSION, lines_through(bar))
    return bar[0], bar[1], (-out[0], -out[1])


def radius(room: Room, layer: Layer, extent: Extent, centre: Point, on_arc: Point) -> tuple[Point, Point]:
    """The line of a radius with its arrowhead at the arc; where it begins and ends."""
    towards = unit((on_arc[0] - centre[0], on_arc[1] - centre[1]))
    start = shifted(on_arc, towards, -72.0) if is_far(extent, centre) else centre
    ink(room, layer, LineType.DIMENSION, lines_through((start, on_arc)))
    solid(room, layer, head(on_arc, towards))
    return start, on_arc


def is_far(extent: Extent, centre: Point) -> bool:
    """Whether a point lies so far off the piece that showing it would make the piece small."""
    across = max(extent.left - centre[0], centre[0] - extent.right, 0.0)
    down = max(extent.top - centre[1], centre[1] - extent.bottom, 0.0)
    return distance((0.0, 0.0), (across, down)) > FAR * distance((0.0, 0.0), (extent.width, extent.height))
