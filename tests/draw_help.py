"""Drawings to try, and an oracle (shapely) for what touches what in a placed one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, hypot, pi, radians, sin, sqrt

from shapely import LineString, Point, Polygon
from shapely.affinity import rotate
from shapely.geometry.base import BaseGeometry

from chalkfold.draw.drawn import Drawn, Layer, Written
from chalkfold.draw.lines import LineType
from chalkfold.draw.paths import lines_through
from chalkfold.draw.sheet import (
    Callout,
    Check,
    Dimension,
    Grain,
    NameBlock,
    Notch,
    OnFold,
    Radius,
    Sheet,
    Spot,
    Stroke,
    letters,
)
from chalkfold.draw.words import Both, plain, width_of

XY = tuple[float, float]


def cm(mm: float) -> Both:
    return Both(f"{mm / 10:.1f} cm", f"{mm / 25.4:.1f} in")


def closed(points: Sequence[XY]) -> tuple[tuple[float, ...], ...]:
    return lines_through([*points, points[0]])


def quarter_ring(radius: float = 325.0, depth: float = 600.0) -> Sheet:
    """The half-circle skirt on the fold: a quarter of a ring, with all a piece can have."""
    r, whole, letter = radius, radius + depth, letters()
    inner, outer = (r, 0.0, 0.0, r, 0.0, 0.0, 90.0), (0.0, whole, whole, 0.0, 0.0, 0.0, -90.0)
    fold = ((whole, 0.0, r, 0.0),)
    cut = (inner, (0.0, r, 0.0, whole), outer)
    c, s = cos(radians(35)), sin(radians(35))
    items = (
        Dimension((r, 0), (whole, 0), (0, -1), (cm(depth),), next(letter)),
        Dimension((0, r), (0, whole), (-1, 0), (cm(depth),), next(letter)),
        Radius((0, 0), (r * s, r * c), (cm(r),), next(letter)),
        Callout((r * c, r * s), (c, s), (("waist, ", cm(r * pi / 2), " drawn"),), next(letter)),
        Callout((whole * c, whole * s), (c, s), (("hem, ", cm(whole * pi / 2), " drawn"),), next(letter)),
        Notch((0, r + depth / 3), (-1, 0), False, (("notch ", cm(depth / 3), " from the waist"),), next(letter)),
        OnFold((whole, 0), (r, 0), (0, 1), ("place on the fold",), next(letter)),
        Check(((r, 0.0, 0.0, r),), (("check ", cm(r * sqrt(2))),), next(letter)),
        Spot((0, 0), (("centre",),), next(letter)),
        Grain(90, ("grain",), next(letter)),
    )
    strokes = (Stroke(LineType.CUTTING, cut), Stroke(LineType.FOLD, fold))
    return Sheet((*cut, *fold), strokes, items, NameBlock("skirt", (("cut 1 on the fold in main",),)))


def polygon(points: Sequence[XY], labels: Sequence[str], clockwise: bool = True) -> Sheet:
    """A piece with straight edges, each dimensioned, with a notch and a callout on each that has a label."""
    letter, edges = letters(), list(zip(points, [*points[1:], points[0]], strict=True))
    items: list[Dimension | Notch | Callout | Grain] = []
    for (x0, y0), (x1, y1) in edges:
        out = (y1 - y0, x0 - x1) if clockwise else (y0 - y1, x1 - x0)
        items.append(Dimension((x0, y0), (x1, y1), out, (cm(hypot(x1 - x0, y1 - y0)),), next(letter)))
    for ((x0, y0), (x1, y1)), label in zip(edges, labels, strict=False):
        out = (y1 - y0, x0 - x1) if clockwise else (y0 - y1, x1 - x0)
        at = (x0 + (x1 - x0) / 3, y0 + (y1 - y0) / 3)
        items.append(Notch(at, out, len(label) % 2 == 1, ((f"notch {label}",),), next(letter)))
        half = (x0 + (x1 - x0) * 0.6, y0 + (y1 - y0) * 0.6)
        items.append(Callout(half, out, ((label,), (f"on {label}",)), next(letter)))
    items.append(Grain(90, ("grain",), next(letter)))
    outline = closed(points)
    name = NameBlock("piece", (("cut 2 in main",), ("size M · the whole piece",)))
    return Sheet(outline, (Stroke(LineType.CUTTING, outline),), tuple(items), name)


def text_box(text: Written) -> Polygon:
    """The room a text takes, a hair less, as lines of one label stand right below each other."""
    x, y = text.at
    width = width_of(plain(text.words), text.lettering)
    left = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor] * width
    size, hair = text.lettering.size, 0.05
    top, bottom = y - text.lettering.ascent * size + hair, y + text.lettering.descent * size - hair
    box = Polygon([(left, top), (left + width, top), (left + width, bottom), (left, bottom)])
    return rotate(box, text.angle, origin=(x, y))


def drawn_lines(layer: Layer) -> Iterator[BaseGeometry]:
    for _, edge in layer.strokes:
        for segment in edge:
            yield LineString(fine(segment))
    for edge in layer.solids:
        yield Polygon([point for segment in edge for point in fine(segment)])


def fine(segment: Sequence[float]) -> list[XY]:
    """Points along a segment, far finer than the layout takes them."""
    if len(segment) == 4:
        return [(segment[0], segment[1]), (segment[2], segment[3])]
    if len(segment) == 8:
        return [on_cubic(segment, step / 360) for step in range(361)]
    x, y = segment[0] - segment[4], segment[1] - segment[5]
    turns = [radians(segment[6] * step / 360) for step in range(361)]
    return [(segment[4] + x * cos(t) - y * sin(t), segment[5] + x * sin(t) + y * cos(t)) for t in turns]


def on_cubic(segment: Sequence[float], t: float) -> XY:
    """Bernstein's form of a cubic Bézier curve."""
    x0, y0, x3, y3, x1, y1, x2, y2 = segment
    parts = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    along = ((x0, x1, x2, x3), (y0, y1, y2, y3))
    x, y = (sum(part * at for part, at in zip(parts, axis, strict=True)) for axis in along)
    return x, y


def faults(drawn: Drawn) -> list[str]:
    """What lies on what, for the labels and for the letters; empty where all is well."""
    found = []
    for layer in (drawn.full, drawn.letters):
        boxes = [(plain(text.words), text_box(text)) for text in layer.texts]
        lines = [*drawn_lines(drawn.base), *drawn_lines(layer)]
        for number, (text, box) in enumerate(boxes):
            found += [f"{text} on {other}" for other, taken in boxes[:number] if box.intersects(taken)]
            found += [f"{text} on a line of {layer.name}" for line in lines if box.intersects(line)]
            found += [f"{text} out of sight" for x, y in box.exterior.coords if not in_sight(drawn, x, y)]
    everything = [line for layer in (drawn.base, drawn.full, drawn.letters) for line in drawn_lines(layer)]
    return found + [f"{line} out of sight" for line in everything if not all(in_sight(drawn, *p) for p in ends(line))]


def ends(line: BaseGeometry) -> list[XY]:
    left, top, right, bottom = line.bounds
    return [(left, top), (right, bottom)]


def in_sight(drawn: Drawn, x: float, y: float) -> bool:
    left, top, right, bottom = drawn.extent
    return left <= x <= right and top <= y <= bottom


def stands_inside(drawn: Drawn, name: str) -> bool:
    """Whether the line of text with a name, or with the first words of one in two lines, lies wholly in the piece."""
    piece = Polygon([p for segment in drawn.cloth for p in fine(segment)])
    (box,) = (
        text_box(text)
        for text in drawn.full.texts
        if (text.lettering.bold and name.startswith(plain(text.words).split(" ·")[0].strip()))
        or plain(text.words).startswith(name)
    )
    return bool(piece.contains(box))


def in_piece(sheet_edge: Sequence[Sequence[float]], at: XY) -> bool:
    return bool(Polygon([p for segment in sheet_edge for p in fine(segment)]).contains(Point(at)))
