"""The large sheet as single elements, and which pages there are: a page with nothing on it is left out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, radians, sin

from chalkfold.draw.drawn import Written, trace
from chalkfold.draw.labels import Board
from chalkfold.draw.lines import LineType
from chalkfold.draw.paint import Paint
from chalkfold.draw.paths import Extent, flat
from chalkfold.draw.room import Box, Room, box, inside
from chalkfold.draw.sheet import letters
from chalkfold.draw.words import Block, Lettering, plain, width_of
from chalkfold.geometry.shapes import Edge, Point
from chalkfold.paper.inked import Inked
from chalkfold.paper.lettered import text
from chalkfold.paper.papers import OVERLAP, UNITS
from chalkfold.paper.room import counts

TILE_NAME = Lettering("tile", 64, bold=True)
QUIET = "#9a9a9a"
"""A page's name is grey, so that no line of the pattern is lost on it."""

PLACES = 5
"""A page's name is tried in so many places across and down."""

SLACK = 12.0
"""Drawing units a line or text may reach beyond its middle line: half its weight, with room to spare."""


@dataclass(frozen=True, slots=True)
class Tile:
    """One page: its column and row from 0, and its name: ``A1`` is the first, ``A2`` to its right, ``B1`` below."""

    column: int
    row: int
    name: str


@dataclass(frozen=True, slots=True)
class Element:
    """One line or text as SVG, and what it covers of the sheet."""

    extent: Extent
    svg: str


def tiles(sheet: Inked) -> list[Tile]:
    """The pages that are needed, row by row."""
    columns, rows = counts(sheet.paper, sheet.extent)
    named = letters()
    found = []
    for row in range(rows):
        letter = next(named)
        found += [
            Tile(column, row, f"{letter}{column + 1}")
            for column in range(columns)
            if _is_needed(sheet, core_of(sheet, column, row))
        ]
    return found


def core_of(sheet: Inked, column: int, row: int) -> Extent:
    """The part of a page that no page before it shows."""
    (across, down), shared = sheet.paper.step, OVERLAP * UNITS
    left, top = column * across, row * down
    return Extent(
        left + (shared if column else 0.0), top + (shared if row else 0.0), left + across + shared, top + down + shared
    )


def _is_needed(sheet: Inked, core: Extent) -> bool:
    """Whether anything is drawn there, or a piece lies all over it."""
    middle = ((core.left + core.right) / 2, (core.top + core.bottom) / 2)
    if any(Room.met(sheet.room, box(middle, core.width - 1, core.height - 1))):
        return True
    return any(inside(middle, outline) for outline in sheet.outlines)


def name_tiles(sheet: Inked, found: list[Tile]) -> Iterator[Element]:
    """The name of each page, large on it; none where it would lie on something."""
    board = Board(sheet.room, sheet.layer, sheet.extent)
    for tile in found:
        block = Block.of(((tile.name,),), TILE_NAME)
        core = core_of(sheet, tile.column, tile.row)
        for at in _spread(core, block):
            if board.fits(block, at):
                board.room.add_text(box(at, block.width, block.height))
                base = (at[0], at[1] + TILE_NAME.size * 0.36)
                taken = box(at, block.width, block.height).extent
                yield Element(taken, text(base, tile.name, TILE_NAME, "middle", ink=QUIET))
                break


def _spread(core: Extent, block: Block) -> Iterator[Point]:
    """Places on a page, from its upper left corner on."""
    margin = 24.0
    width, height = core.width - block.width - 2 * margin, core.height - block.height - 2 * margin
    left, top = core.left + margin + block.width / 2, core.top + margin + block.height / 2
    for down in range(PLACES):
        for across in range(PLACES):
            yield left + width * across / (PLACES - 1), top + height * down / (PLACES - 1)


def elements(sheet: Inked) -> list[Element]:
    """Everything on the sheet, in the order it is painted."""
    found = [_line(edge, line) for line in LineType for kind, edge in sheet.layer.strokes if kind is line and edge]
    found += [_nested(edge, dashes) for edge, dashes in sheet.nested if edge]
    found += [_solid(edge) for edge in sheet.layer.solids if edge]
    return found + [_written(said) for said in sheet.layer.texts]


def _line(edge: Edge, line: LineType) -> Element:
    paint = Paint()
    trace(paint, edge)
    paint.stroke(line)
    return Element(_around(flat(edge)), paint.elements[0])


def _nested(edge: Edge, dashes: tuple[float, ...]) -> Element:
    paint = Paint()
    trace(paint, edge)
    paint.dashed("", dashes, False)
    return Element(_around(flat(edge)), paint.elements[0])


def _solid(edge: Edge) -> Element:
    paint = Paint()
    trace(paint, edge)
    paint.close()
    paint.fill("solid")
    return Element(_around(flat(edge)), paint.elements[0])


def _written(said: Written) -> Element:
    paint = Paint()
    paint.text(said.at, said.words, said.lettering, said.anchor, said.angle, said.name)
    return Element(_text_box(said).extent, paint.elements[0])


def _text_box(said: Written) -> Box:
    """The corners of the room a text takes, turned as it is."""
    lettering, (x, y) = said.lettering, said.at
    width, c, s = width_of(plain(said.words), lettering), cos(radians(said.angle)), sin(radians(said.angle))
    along = {"start": 0.5, "middle": 0.0, "end": -0.5}[said.anchor] * width
    up = (lettering.ascent - lettering.descent) / 2 * lettering.size
    return box((x + along * c + up * s, y + along * s - up * c), width, lettering.height, said.angle)


def _around(points: list[Point]) -> Extent:
    box = Extent.of(points)
    return Extent(box.left - SLACK, box.top - SLACK, box.right + SLACK, box.bottom + SLACK)


def meets(one: Extent, other: Extent) -> bool:
    """Whether two extents have something in common."""
    across = one.left <= other.right and other.left <= one.right
    return across and one.top <= other.bottom and other.top <= one.bottom
