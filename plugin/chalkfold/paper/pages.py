"""Pages as SVG images in millimetres: each shows its part of the sheet, names its neighbours and says what it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from chalkfold.draw.paint import FAINT, INK, image
from chalkfold.draw.paths import Extent
from chalkfold.draw.svg import number
from chalkfold.geometry.shapes import Point
from chalkfold.paper.inked import Inked
from chalkfold.paper.lettered import SMALL, STRONG, line, path, shortened, text
from chalkfold.paper.papers import MARGIN, UNITS, Paper
from chalkfold.paper.room import MARK
from chalkfold.paper.tiles import Element, Tile, meets

EDGE = MARGIN * UNITS
BESIDE = 16.0
"""Units from the frame to the line its texts are written on, in the margin."""

FOOT = 0.7
"""The part of a page's width its foot may take."""


def page(paper: Paper, parts: Sequence[str]) -> str:
    """A whole page of paper, in drawing units."""
    extent = Extent(0.0, 0.0, paper.width * UNITS, paper.height * UNITS)
    return image(extent, list(parts), (f"{number(paper.width)}mm", f"{number(paper.height)}mm"))


def tile_page(sheet: Inked, tile: Tile, all_tiles: Sequence[Tile], drawn: Sequence[Element], foot: str) -> str:
    """One page of the sheet, with what of ``drawn`` lies on it."""
    paper = sheet.paper
    shown = paper.shown(tile.column, tile.row)
    inner = [each.svg for each in drawn if meets(each.extent, shown)]
    parts = [
        f'<defs><clipPath id="window"><rect x="{number(EDGE)}" y="{number(EDGE)}" width="{number(shown.width)}"'
        f' height="{number(shown.height)}"/></clipPath></defs>',
        '<g clip-path="url(#window)">',
        f'<g transform="translate({number(EDGE - shown.left)} {number(EDGE - shown.top)})">',
        *inner,
        "</g>",
        "</g>",
        *_joins(paper, tile, {(each.column, each.row): each.name for each in all_tiles}),
        *_foot(paper, tile, foot, len(all_tiles) > 1),
    ]
    return page(paper, parts)


def _joins(paper: Paper, tile: Tile, names: dict[tuple[int, int], str]) -> Iterator[str]:
    """Where each neighbour comes, with its name; only for pages that there are."""
    (width, height), (across, down) = paper.window, paper.step
    right, bottom, middle = EDGE + width, EDGE + height, (EDGE + width / 2, EDGE + height / 2)
    column, row = tile.column, tile.row
    if name := names.get((column - 1, row)):
        yield line((EDGE, EDGE), (EDGE, bottom))
        yield from _mark((EDGE, middle[1]))
        yield _told((EDGE - 6, middle[1] - 2 * MARK), f"cut here, lay on {name}", -90)
    if name := names.get((column, row - 1)):
        yield line((EDGE, EDGE), (right, EDGE))
        yield from _mark((middle[0], EDGE))
        yield text((middle[0] + 2 * MARK, EDGE - 6), f"cut here, lay on {name}", SMALL)
    if name := names.get((column + 1, row)):
        x = EDGE + across
        yield line((x, EDGE), (x, bottom), 1.0, (6, 4), FAINT)
        yield from _mark((x, middle[1]))
        yield _told((right + BESIDE, middle[1] - 2 * MARK), f"{name} comes to the dashed line", -90)
    if name := names.get((column, row + 1)):
        y = EDGE + down
        yield line((EDGE, y), (right, y), 1.0, (6, 4), FAINT)
        yield from _mark((middle[0], y))
        yield text((right, bottom + BESIDE), f"{name} comes to the dashed line", SMALL, "end")


def _told(at: Point, said: str, angle: float) -> str:
    return text(at, said, SMALL, "start", angle)


def _mark(at: Point) -> Iterator[str]:
    """A diamond on the line where two pages meet: half of it stays on either."""
    (x, y), reach = at, MARK * 0.75
    yield path(((x - reach, y), (x, y - reach), (x + reach, y), (x, y + reach), (x - reach, y)), 1.0)
    yield line((x - reach, y), (x + reach, y), 0.8)
    yield line((x, y - reach), (x, y + reach), 0.8)


def _foot(paper: Paper, tile: Tile, foot: str, many: bool) -> Iterator[str]:
    """What the page is, in the margin below: a loose page can be put back where it belongs."""
    width, height = paper.window
    baseline = EDGE + height + BESIDE
    name = tile.name if many else ""
    if name:
        yield text((EDGE, baseline), name, STRONG, ink=INK)
    said = shortened(foot, SMALL, width * FOOT - 40.0)
    yield text((EDGE + (40.0 if name else 0.0), baseline), said, SMALL)
