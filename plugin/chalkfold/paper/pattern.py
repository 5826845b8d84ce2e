"""One pattern from pieces to pages: what ``chalkfold print`` and the build ask for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from chalkfold.draw.paths import Extent
from chalkfold.paper.front import Said, front
from chalkfold.paper.inked import Inked, inked
from chalkfold.paper.overview import overview
from chalkfold.paper.pages import page, tile_page
from chalkfold.paper.papers import BLOCK, MARGIN, UNITS, Paper
from chalkfold.paper.pieces import Piece
from chalkfold.paper.tiles import Element, Tile, elements, name_tiles, tiles


def pattern_pages(pieces: Sequence[Piece], paper: Paper, said: Said) -> list[str]:
    """Every page as an SVG image in millimetres: the title block, then the sheet row by row.

    On large paper the block lies on the sheet itself. Raises TooManyPages.
    """
    sheet = inked(pieces, paper, BLOCK if paper.is_large else None)
    found = tiles(sheet)
    drawn = elements(sheet)
    if len(found) > 1:
        drawn = [*name_tiles(sheet, found), *drawn]
    if sheet.block:
        block, _ = front(said, pieces, sheet, found, sheet.block)
        (x, y), (width, height) = sheet.block, BLOCK
        drawn += [Element(Extent(x, y, x + width, y + height), each) for each in block]
    pages = [tile_page(sheet, tile, found, drawn, said.foot) for tile in found]
    return pages if sheet.block else [*_first_pages(said, pieces, sheet, found), *pages]


def _first_pages(said: Said, pieces: Sequence[Piece], sheet: Inked, found: Sequence[Tile]) -> Iterator[str]:
    """The title block, and the plan of the sheets where that has no room in it."""
    margin, (width, height) = MARGIN * UNITS, sheet.paper.window
    block, is_all = front(said, pieces, sheet, found, (margin, margin))
    yield page(sheet.paper, block)
    if not is_all:
        yield page(sheet.paper, list(overview(sheet, found, Extent(margin, margin, margin + width, margin + height))))


def whole_sheet(pieces: Sequence[Piece], paper: Paper) -> str:
    """The same sheet that pages of ``paper`` are cut from, uncut, as one image: for comparison."""
    sheet = inked(pieces, paper)
    margin = MARGIN * UNITS
    box = Extent(0.0, 0.0, *(each + margin for each in (sheet.extent.right, sheet.extent.bottom)))
    size = Paper("whole", box.width / UNITS, box.height / UNITS)
    return page(size, [each.svg for each in elements(sheet)])
