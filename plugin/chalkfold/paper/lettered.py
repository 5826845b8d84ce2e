"""Single texts and lines of a page that are no part of a piece, straight as SVG in resolved paint."""

from __future__ import annotations

from collections.abc import Iterable

from chalkfold.draw.paint import FONT, INK, legible
from chalkfold.draw.svg import dash_pattern, number
from chalkfold.draw.words import Anchor, Lettering, Words, plain, width_of, wrapped
from chalkfold.geometry.shapes import Point

SMALL = Lettering("small", 11)
TEXT = Lettering("text", 13.5)
STRONG = Lettering("strong", 13.5, bold=True)
TITLE = Lettering("title", 30, bold=True)

LEADING = 1.35
"""From line to line, in sizes of the letters."""


def text(
    at: Point, said: str, lettering: Lettering = TEXT, anchor: Anchor = "start", angle: float = 0, ink: str = INK
) -> str:
    """A line of text on its writing line."""
    x, y = number(at[0]), number(at[1])
    bold = ' font-weight="700"' if lettering.bold else ""
    turn = f' transform="rotate({number(angle)} {x} {y})"' if angle else ""
    look = f'font-family="{FONT}" font-size="{number(lettering.size)}"{bold} text-anchor="{anchor}" fill="{ink}"'
    return f'<text x="{x}" y="{y}" {look}{turn}>{legible(said)}</text>'


def line(start: Point, end: Point, weight: float = 1.0, dashes: tuple[float, ...] = (), ink: str = INK) -> str:
    """A straight line."""
    return path([start, end], weight, dashes, ink)


def path(points: Iterable[Point], weight: float = 1.0, dashes: tuple[float, ...] = (), ink: str = INK) -> str:
    """Straight lines from point to point."""
    drawn = "L".join(f"{number(x)} {number(y)}" for x, y in points)
    look = f'fill="none" stroke="{ink}" stroke-width="{number(weight)}"{dash_pattern(dashes)}'
    return f'<path {look} d="M{drawn}"/>'


def rectangle(left: float, top: float, width: float, height: float, weight: float = 1.0, ink: str = INK) -> str:
    """A rectangle of lines."""
    corners = ((left, top), (left + width, top), (left + width, top + height), (left, top + height), (left, top))
    return path(corners, weight, (), ink)


def shortened(said: str, lettering: Lettering, most: float) -> str:
    """The text, cut off with an ellipsis where it is wider than ``most``."""
    if width_of(said, lettering) <= most:
        return said
    kept = said
    while kept and width_of(f"{kept}…", lettering) > most:
        kept = kept[:-1]
    return f"{kept.rstrip()}…"


class Column:
    """Lines of text below each other, broken to a width; ``down`` is where the next one starts."""

    def __init__(self, left: float, top: float, width: float) -> None:
        self.left, self.down, self.width = left, top, width
        self.parts: list[str] = []

    def write(self, said: str, lettering: Lettering = TEXT, most_lines: int = 4, ink: str = INK) -> None:
        """Write a paragraph; what goes beyond ``most_lines`` lines is cut off with an ellipsis."""
        rows = [_fitting(row, lettering, self.width) for row in wrapped((said,), lettering, self.width)]
        if len(rows) > most_lines:
            rows = [*rows[: most_lines - 1], shortened(f"{rows[most_lines - 1]} …", lettering, self.width)]
        for row in rows:
            self.parts.append(text((self.left, self.down + lettering.size), row, lettering, ink=ink))
            self.down += lettering.size * LEADING

    def space(self, height: float) -> None:
        self.down += height


def _fitting(row: Words, lettering: Lettering, most: float) -> str:
    """A single word may be wider than the column."""
    return shortened(plain(row), lettering, most)
