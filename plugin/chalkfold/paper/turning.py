"""A sheet turned by a quarter on the paper: its grain stays parallel or square to the edge of the page."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from chalkfold.draw.sheet import Grain, Item, Sheet, Stroke
from chalkfold.geometry.shapes import Edge, Point, Segment

PLACES = ("at", "start", "end", "centre", "on_arc", "outward", "inward")


def quarter_turn(sheet: Sheet) -> Sheet:
    """The sheet turned a quarter clockwise: what ran across runs down."""
    strokes = tuple(Stroke(stroke.line, _edge(stroke.edge)) for stroke in sheet.strokes)
    return replace(sheet, cloth=_edge(sheet.cloth), strokes=strokes, items=tuple(_item(each) for each in sheet.items))


def _item(item: Item) -> Item:
    if isinstance(item, Grain):
        return replace(item, direction=item.direction + 90)
    changed: dict[str, Any] = {name: _point(getattr(item, name)) for name in PLACES if hasattr(item, name)}
    if hasattr(item, "edge"):
        changed["edge"] = _edge(item.edge)
    return replace(item, **changed)


def _edge(edge: Edge) -> Edge:
    return tuple(_segment(segment) for segment in edge)


def _segment(segment: Segment) -> Segment:
    """Coordinates in pairs, x and y; what is left over (the sweep of an arc) stays."""
    count = len(segment) - len(segment) % 2
    turned = [each for at in range(0, count, 2) for each in _point((segment[at], segment[at + 1]))]
    return (*turned, *segment[count:])


def _point(point: Point) -> Point:
    return -point[1], point[0]
