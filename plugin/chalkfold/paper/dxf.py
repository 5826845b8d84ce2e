"""Pieces as DXF in millimetres, for cutters and other drawing programs: one layer for each kind of line.

The layers are ``cutting``, ``seam``, ``fold``, ``grain``, ``notch``, ``mark``, ``line`` and ``name``. Arcs stay arcs,
as bulges of polylines (bulge = tan(sweep / 4)); curves are splines of degree 3. In DXF y runs up.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from importlib import import_module
from io import StringIO
from itertools import groupby
from math import cos, radians, sin, tan
from typing import Any

from chalkfold.draw.lines import LineType
from chalkfold.draw.paths import Extent, flat
from chalkfold.draw.sheet import Button, Drill, Grain, Item, Notch, Sheet
from chalkfold.geometry.shapes import ARC, LINE, Edge, Point, Segment
from chalkfold.paper.pieces import Piece

LAYERS = ("cutting", "seam", "fold", "grain", "notch", "mark", "line", "name")
OF_LINE = {LineType.CUTTING: "cutting", LineType.SEAM: "seam", LineType.FOLD: "fold"}

GAP = 30.0
"""Millimetres between two pieces, which lie side by side."""

TICK, CROSS, ARROW = 3.0, 4.0, 100.0
"""Millimetres: half a notch, half a drill mark, and a grain line at most."""

LETTERS = 8.0
MILLIMETRES = 4
"""The value of $INSUNITS (DXF reference of the format's publisher)."""


class NoEzdxf(Exception):
    """The library for DXF is not installed."""


def dxf(pieces: Sequence[Piece]) -> bytes:
    """The pieces side by side, every size of a nest on its own layers. Raises NoEzdxf.

    The same pieces give the same bytes with the same version of the library.
    """
    try:
        ezdxf: Any = import_module("ezdxf")
    except ImportError:
        raise NoEzdxf from None
    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True  # no dates and no random ids
    try:
        document = ezdxf.new("R2010", units=MILLIMETRES)
        _draw(document, pieces)
        text = StringIO()
        document.write(text)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before
    return text.getvalue().encode()


def _draw(document: Any, pieces: Sequence[Piece]) -> None:
    space, right = document.modelspace(), 0.0
    for piece in pieces:
        extent = Extent.of(point for sheet in piece.sheets for point in flat(sheet.cloth))
        move = (right - extent.left, extent.bottom)
        for sheet, label in zip(piece.sheets, piece.labels, strict=True):
            ending = f" {label}" if piece.is_nest else ""
            for name in LAYERS:
                if f"{name}{ending}" not in document.layers:
                    document.layers.add(f"{name}{ending}")
            _sheet(space, sheet, move, ending)
        right += extent.width + GAP


def _sheet(space: Any, sheet: Sheet, move: Point, ending: str) -> None:
    for stroke in sheet.strokes:
        _edge(space, stroke.edge, move, OF_LINE.get(stroke.line, "line") + ending)
    for item in sheet.items:
        for name, segment in _sign(item, sheet):
            _edge(space, (segment,), move, name + ending)
    if sheet.name:
        box = Extent.of(flat(sheet.cloth))
        lines = (sheet.name.name, *("".join(str(part) for part in line) for line in sheet.name.lines))
        for number, said in enumerate(lines):
            at = _moved(((box.left + box.right) / 2, (box.top + box.bottom) / 2 + number * LETTERS * 1.6), move)
            text = space.add_text(said, height=LETTERS, dxfattribs={"layer": f"name{ending}"})
            text.set_placement(at)


def _sign(item: Item, sheet: Sheet) -> Iterator[tuple[str, Segment]]:
    """The lines of a sign with the layer each is on."""
    match item:
        case Notch():
            (x, y), (u, v) = item.at, _unit(item.outward)
            for by in (-1.0, 1.0) if item.double else (0.0,):
                a, b = x - v * by, y + u * by
                yield "notch", (a - u * TICK, b - v * TICK, a + u * TICK, b + v * TICK)
        case Drill() | Button():
            x, y = item.at
            yield "mark", (x - CROSS, y, x + CROSS, y)
            yield "mark", (x, y - CROSS, x, y + CROSS)
        case Grain():
            box = Extent.of(flat(sheet.cloth))
            x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2
            reach = min(ARROW, box.width, box.height) / 2
            u, v = cos(radians(item.direction)) * reach, sin(radians(item.direction)) * reach
            yield "grain", (x - u, y - v, x + u, y + v)


def _unit(vector: Point) -> Point:
    length = (vector[0] ** 2 + vector[1] ** 2) ** 0.5 or 1.0
    return vector[0] / length, vector[1] / length


def _edge(space: Any, edge: Edge, move: Point, layer: str) -> None:
    """Lines and arcs that follow each other as one polyline, every curve as a spline of its own."""
    for is_curve, run in groupby(edge, lambda segment: len(segment) not in (LINE, ARC)):
        if is_curve:
            for segment in run:
                _spline(space, segment, move, layer)
        else:
            _polyline(space, list(run), move, layer)


def _spline(space: Any, segment: Segment, move: Point, layer: str) -> None:
    """A cubic: start, end and two control points."""
    x0, y0, x1, y1, *controls = segment
    points = ((x0, y0), (controls[0], controls[1]), (controls[2], controls[3]), (x1, y1))
    space.add_open_spline([_moved(each, move) for each in points], degree=3, dxfattribs={"layer": layer})


def _polyline(space: Any, run: list[Segment], move: Point, layer: str) -> None:
    halves = [half for segment in run for half in _halved(segment)]
    points = [(*_moved((each[0], each[1]), move), _bulge(each)) for each in halves]
    points.append((*_moved((halves[-1][2], halves[-1][3]), move), 0.0))
    space.add_lwpolyline(points, format="xyb", dxfattribs={"layer": layer})


def _halved(segment: Segment) -> list[Segment]:
    """An arc of more than half a turn as two: the bulge of a full circle would be endless."""
    if len(segment) != ARC or abs(segment[6]) <= 180:
        return [segment]
    x, y, turn = segment[0] - segment[4], segment[1] - segment[5], radians(segment[6] / 2)
    middle = segment[4] + x * cos(turn) - y * sin(turn), segment[5] + x * sin(turn) + y * cos(turn)
    rest = (segment[4], segment[5], segment[6] / 2)
    return [(segment[0], segment[1], *middle, *rest), (*middle, segment[2], segment[3], *rest)]


def _bulge(segment: Segment) -> float:
    """Positive runs counter-clockwise with y up, which is the other way on our page."""
    return -tan(radians(segment[6]) / 4) if len(segment) == ARC else 0.0


def _moved(point: Point, move: Point) -> Point:
    return point[0] + move[0], move[1] - point[1]
