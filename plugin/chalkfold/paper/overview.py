"""The plan of the sheets: the pages in small with the pieces over them, and the name of each page and piece."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from chalkfold.draw.drawn import Layer
from chalkfold.draw.inside import UP, Area, room_for
from chalkfold.draw.labels import Board
from chalkfold.draw.paint import FAINT
from chalkfold.draw.paths import Extent, Frame
from chalkfold.draw.places import NOWHERE
from chalkfold.draw.room import Room, box
from chalkfold.draw.words import Block
from chalkfold.geometry.points import shifted
from chalkfold.geometry.shapes import Point
from chalkfold.paper.inked import Inked
from chalkfold.paper.lettered import SMALL, STRONG, TEXT, path, rectangle, text
from chalkfold.paper.papers import BLOCK
from chalkfold.paper.room import counts
from chalkfold.paper.tiles import Tile, core_of


def overview(sheet: Inked, pages: Sequence[Tile], given: Extent) -> Iterator[str]:
    """The plan with its title, as large as a box allows."""
    yield text((given.left, given.top + TEXT.size), "The sheets, put together", STRONG)
    columns, rows = counts(sheet.paper, sheet.extent)
    last = core_of(sheet, columns - 1, rows - 1)
    scale = min(given.width / last.right, (given.height - 30.0) / last.bottom)
    frame = Frame(scale, given.left, given.top + 26.0)
    board = Board(Room(), Layer("plan"), given)
    for tile in pages:
        yield from _page(board, frame, core_of(sheet, tile.column, tile.row), tile.name)
    for outline in sheet.outlines:
        drawn = [frame.point(point) for point in outline]
        board.room.add_path(drawn)
        yield path(drawn, 1.2)
    for name, outline in sheet.names:
        yield _name(board, Area([frame.point(point) for point in outline]), name)
    if sheet.block:
        x, y = frame.point(sheet.block)
        yield rectangle(x, y, BLOCK[0] * scale, BLOCK[1] * scale, 0.8, FAINT)


def _page(board: Board, frame: Frame, core: Extent, name: str) -> Iterator[str]:
    (left, top), (right, bottom) = frame.point((core.left, core.top)), frame.point((core.right, core.bottom))
    yield rectangle(left, top, right - left, bottom - top, 0.8, FAINT)
    block = Block.of(((name,),), SMALL)
    board.room.add_text(box((left + 4.0 + block.width / 2, top + 2.0 + SMALL.size / 2), block.width, SMALL.size))
    yield text((left + 4.0, top + SMALL.size + 2.0), name, SMALL, ink=FAINT)


def _name(board: Board, area: Area, name: str) -> str:
    """A piece's name in it, clear of lines and of the names of pages: level, up the page, or as it comes."""
    block = Block.of(((name,),), SMALL)
    angle, found = next(
        ((turn, place) for turn in (0.0, UP) if (place := room_for(board, area, block, turn)) != NOWHERE),
        (0.0, NOWHERE),
    )
    centre = area.heart if found == NOWHERE else area.point(found)
    board.room.add_text(box(centre, block.width, block.height, angle))
    return text(_base(centre, angle), name, SMALL, "middle", angle)


def _base(centre: Point, angle: float) -> Point:
    """Where the line of a text lies whose letters stand round a point."""
    return shifted(centre, (1.0, 0.0) if angle else (0.0, 1.0), SMALL.size * 0.36)
