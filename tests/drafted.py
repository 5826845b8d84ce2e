"""Drafts for the tests: posts with one, and its lines as shapely sees them. Lengths typed in cm, worked in mm."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import shapely

from chalkfold.formula import key_of
from chalkfold.geometry.shapes import Edge, Outline
from chalkfold.work import Worked
from geometry_help import as_polygon
from post_help import block, post, worked, workroom

SHELF = workroom()
CIRCLE = {
    "1": ("1 on two folds", "90°", "[front fold, back]"),
    "1/2": ("1 on fold", "90°", "front fold"),
    "1/4": ("1", "90°", ""),
    "1/3": ("1", "120°", ""),
    "3/4": ("1", "270°", ""),
}
"""Part of a circle → how it is cut, the angle drawn, and which edges lie on a fold."""


def circle_skirt(
    fraction: str = "1/2",
    *,
    cut: str = "",
    allowances: str = "none",
    radius: str = "waist radius",
    hem: str = "waist radius + skirt length",
) -> str:
    """A draft that needs the numbers it names: the edges are waist, back, hem and front fold."""
    usual, angle, folds = CIRCLE[fraction]
    way = " the long way" if fraction == "3/4" else ""
    return block(
        "draft",
        f"""
        piece: skirt
        cut: {cut or usual} in main
        points:
          centre: here
          a: {{from: centre, across: {radius}}}
          b: {{from: centre, angle: {angle}, distance: {radius}}}
          c: {{from: centre, angle: {angle}, distance: {hem}}}
          d: {{from: centre, across: {hem}}}
        outline:
          start: a
          waist: arc to b around centre{way}
          back: line to c
          hem: arc to d around centre{way}
          front fold: line to a
        {f"on fold: {folds}" if folds else "grain: down"}
        allowances: {allowances}
        """,
    )


def skirt_numbers(waist: str, length: str, fraction: str = "1/2") -> tuple[str, ...]:
    return (
        f"waist edge: {waist}",
        f"skirt length: {length}",
        f"fraction: {fraction}",
        "waist radius: waist edge / (2 * pi * fraction)",
    )


def drafted(text: str, *also: str) -> Worked:
    """A post without faults, and with it some further names."""
    found = worked(text, SHELF, also)
    assert [fault.message for fault in found.faults] == []
    return found


def value(found: Worked, name: str, size: int = 0) -> float:
    number = found.values.row(key_of(name))[size]
    assert isinstance(number, float), name
    return number


def edge(found: Worked, name: str, size: int = 0) -> Edge:
    row = found.values.row(key_of(name))[size]
    assert isinstance(row, tuple)
    return row


def line(found: Worked, name: str, size: int = 0) -> Outline:
    """``outline of …`` is the seam line."""
    row = found.values.row(key_of(name))[size]
    assert isinstance(row, tuple)
    return row


def shape(found: Worked, name: str, size: int = 0) -> shapely.Polygon:
    return as_polygon(line(found, name, size))


def by_size(values: Mapping[str, Sequence[float]]) -> str:
    """A post's project with sizes ``b0``, ``b1`` … and a number of each name in cm for each of them."""
    count = len(next(iter(values.values())))
    labels = [f"b{number}" for number in range(count)]
    numbers = [
        f"{name}: {{{', '.join(f'{label}: {each} cm' for label, each in zip(labels, row, strict=True))}}}"
        for name, row in values.items()
    ]
    return post(*numbers, head=f"sizes: [{', '.join(labels)}]")
