"""One pattern from pieces to pages: what ``chalkfold print`` and the build ask for."""

from __future__ import annotations

from collections.abc import Sequence

from chalkfold.draw.paths import Extent
from chalkfold.paper.front import BLOCK, Said, front
from chalkfold.paper.inked import inked
from chalkfold.paper.pages import page, tile_page
from chalkfold.paper.papers import MARGIN, UNITS, Paper
from chalkfold.paper.pieces import Piece
from chalkfold.paper.tiles import Element, elements, name_tiles, tiles


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
        (x, y), (width, height) = sheet.block, BLOCK
        block = Extent(x, y, x + width, y + height)
        drawn += [Element(block, each) for each in front(said, pieces, sheet, found, sheet.block)]
    pages = [tile_page(sheet, tile, found, drawn, said.foot) for tile in found]
    if sheet.block:
        return pages
    return [page(paper, front(said, pieces, sheet, found, (MARGIN * UNITS, MARGIN * UNITS))), *pages]


def whole_sheet(pieces: Sequence[Piece], paper: Paper) -> str:
    """The same sheet that pages of ``paper`` are cut from, uncut, as one image: for comparison."""
    sheet = inked(pieces, paper)
    margin = MARGIN * UNITS
    box = Extent(0.0, 0.0, *(each + margin for each in (sheet.extent.right, sheet.extent.bottom)))
    size = Paper("whole", box.width / UNITS, box.height / UNITS)
    return page(size, [each.svg for each in elements(sheet)])
