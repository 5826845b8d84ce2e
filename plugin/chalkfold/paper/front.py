"""The title block: what is printed, a square and a bar to measure, how to put the pages together, and their plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from chalkfold.draw.lines import NESTED
from chalkfold.draw.paths import Extent
from chalkfold.geometry.shapes import Point
from chalkfold.paper.inked import Inked
from chalkfold.paper.lettered import SMALL, STRONG, TEXT, TITLE, Column, line, rectangle, shortened, text
from chalkfold.paper.overview import overview
from chalkfold.paper.papers import BLOCK, OVERLAP, UNITS, Paper
from chalkfold.paper.pieces import Piece
from chalkfold.paper.tiles import Tile
from chalkfold.trade.cautions import on_paper

SQUARE, BAR, EIGHT_INCHES = 50.0 * UNITS, 200.0 * UNITS, 203.2 * UNITS
ASIDE = 18.0 * UNITS
"""The bar stands in this strip at the left."""

LEAST_PLAN = 240.0
"""Units of height below which a plan of the sheets cannot be read; it then gets a page of its own."""

MOST_PIECES = 8
"""So many pieces are listed; the others are told by their number."""

MISSING = "Allowances are NOT in: you see seam lines. Add them before you cut."


@dataclass(frozen=True, slots=True)
class Said:
    """What the title block says of the print. ``others`` are pieces that are not drafted, with their measures; ``key``
    holds number and label of each size where they lie over each other; ``corrections`` is where those of the
    post stand.
    """

    post: str
    site: str
    sizes: str
    digest: str
    allowances: bool
    inches_first: bool
    others: tuple[str, ...] = ()
    key: tuple[tuple[int, str], ...] = ()
    cautions: tuple[tuple[str, str], ...] = ()
    """Of the post's page, by what they are about."""
    corrections: str = ""

    @property
    def foot(self) -> str:
        """The same in one line, for the foot of each page: what is cut off where the title is long comes last."""
        return " · ".join(filter(None, (self.sizes, f"numbers {self.digest}", self.post)))


def front(
    said: Said, pieces: Sequence[Piece], sheet: Inked, pages: Sequence[Tile], at: Point
) -> tuple[list[str], bool]:
    """The whole block with its upper left corner at a point, in drawing units; whether the plan of the sheets is in it
    or needless. Where much is to be said it has no room.
    """
    width, height = BLOCK if sheet.block else sheet.paper.window
    left, top = at
    column = Column(left + ASIDE, top, width - ASIDE - SQUARE - 24.0)
    column.write(said.post, TITLE, 3)
    column.space(4)
    for row in _facts(said, pieces, sheet.paper, len(pages)):
        column.write(row, most_lines=3)
    square = _square((left + width - SQUARE, top + 4.0))
    below = Column(left + ASIDE, max(column.down, top + SQUARE + 60.0) + 12.0, width - ASIDE)
    for row in _steps(sheet.paper, len(pages)):
        below.write(row)
    if said.corrections:
        below.write(f"Before you cut, see whether numbers {said.digest} still hold:")
        below.write(said.corrections)
    below.space(8)
    below.write("Mind your hands", STRONG)
    for row in _cautions(dict(said.cautions)):
        below.write(row)
    key = _key(said.key, below) if any(piece.is_nest for piece in pieces) else []
    parts = [*column.parts, *square, *below.parts, *key, *_bar((left + 8.0, top + 4.0))]
    if len(pages) > 1 and top + height - below.down >= LEAST_PLAN:
        parts += overview(sheet, pages, Extent(left + ASIDE, below.down + 16.0, left + width, top + height))
        return parts, True
    return parts, len(pages) == 1


def _facts(said: Said, pieces: Sequence[Piece], paper: Paper, count: int) -> Iterator[str]:
    yield f"Pattern at full size · {said.site}" if said.site else "Pattern at full size"
    if said.sizes:
        yield f"{said.sizes[:1].upper()}{said.sizes[1:]}"
    for piece in pieces[:MOST_PIECES]:
        yield f"{piece.name}: cut {', '.join(piece.cuts)}"
    if len(pieces) > MOST_PIECES:
        yield f"and {len(pieces) - MOST_PIECES} more pieces"
    if said.others:
        yield f"Not drawn here, mark with a ruler, allowances in: {'; '.join(said.others)}"
    yield _allowances(said.allowances, any(piece.is_nest for piece in pieces))
    units = "inches, centimetres beside them" if said.inches_first else "centimetres, inches beside them"
    sheets = "1 sheet" if count == 1 else f"{count} sheets"
    yield f"Measures in {units}. {sheets} of {paper.name}{'' if paper.is_large else ' and this one'}."
    yield f"Numbers {said.digest}: a mended pattern has another sign here."


def _allowances(included: bool, is_nest: bool) -> str:
    if is_nest:
        lines = "Each size has a line pattern of its own."
        return f"Allowances are in: you see cutting lines. {lines}" if included else f"{MISSING} {lines}"
    if included:
        return "Allowances are in: the solid line is the cutting line, the dashed one the seam line."
    return MISSING


def _steps(paper: Paper, count: int) -> Iterator[str]:
    yield "Print at 100 %, without “fit to page”. Then measure the square and the bar, before you print the rest."
    if count > 1:
        yield (
            f"Sheets overlap by {OVERLAP:g} mm. Where a sheet has a solid line at its edge, cut its margin off along"
            " it; lay that edge on the dashed line of its neighbour so that the diamonds meet, and tape or glue."
            " First each row, then row to row."
        )


def _cautions(on_page: dict[str, str]) -> Iterator[str]:
    """What stands on every pattern, as the post words it, and what else its page warns of."""
    for caution in on_paper():
        yield on_page.pop(caution.label, caution.says)
    if on_page:
        yield f"The page of the post says more: {', '.join(on_page).casefold()}."


def _square(at: Point) -> Iterator[str]:
    x, y = at
    yield rectangle(x, y, SQUARE, SQUARE, 1.0)
    yield text((x + SQUARE / 2, y + SQUARE + 17.0), "This square: 5 × 5 cm,", TEXT, "middle")
    yield text((x + SQUARE / 2, y + SQUARE + 34.0), "a hair under 2 × 2 in.", TEXT, "middle")


def _bar(at: Point) -> Iterator[str]:
    """From the top mark to the others: 20 cm, and 8 in, which is 3.2 mm more."""
    x, y = at
    yield line((x, y), (x, y + EIGHT_INCHES))
    for down, reach in ((0.0, 20.0), (BAR, 20.0), (EIGHT_INCHES, 20.0)):
        yield line((x - 8.0, y + down), (x + reach, y + down))
    yield text((x + 24.0, y + BAR + 1.0), "20 cm", SMALL)
    yield text((x + 24.0, y + EIGHT_INCHES + 9.0), "8 in", SMALL)
    yield text((x + 16.0, y + BAR / 2), "from the top mark: 20 cm and 8 in", SMALL, "middle", -90)


def _key(sizes: Sequence[tuple[int, str]], column: Column) -> list[str]:
    """Which pattern of line is whose size, in rows of four."""
    column.space(8)
    column.write("Which line is whose size", STRONG)
    column.write("A line that several sizes share has the pattern of the first. Each line has its sizes written on it.")
    parts, across = [], column.width / 4
    for place, (number, label) in enumerate(sizes):
        x, y = column.left + across * (place % 4), column.down + 20.0 * (place // 4) + 12.0
        parts.append(line((x, y - 4.0), (x + 70.0, y - 4.0), 1.0, NESTED[number % len(NESTED)]))
        parts.append(text((x + 78.0, y), shortened(label, TEXT, across - 86.0)))
    column.space(20.0 * -(-len(sizes) // 4) + 6.0)
    return parts
