"""A drawing in resolved paint: plain colours and weights, no style sheet, so that any renderer of SVG can draw it.

It draws the same paths and texts as the page's player (``svg.py``), with full labels; amounts stand in both units.
"""

from __future__ import annotations

from chalkfold.amounts.typography import SLASH
from chalkfold.draw.lines import PENS, LineType
from chalkfold.draw.paths import Extent
from chalkfold.draw.svg import HEAVY, Drawing, SvgPaths, dash_pattern, number, safe
from chalkfold.draw.words import Anchor, Lettering, Words, plain
from chalkfold.geometry.shapes import Point

INK, FAINT, WASH, GROUND = "#111111", "#8a8a8a", "#eef1f3", "#ffffff"
FONT = "sans-serif"
"""A family every system has; the room of texts is measured for a wide one."""

HIDDEN = "letters"
"""The group that stands for the labels on narrow screens only."""


class Paint(SvgPaths):
    """A surface that writes the elements of an SVG image in plain colours; ``elements`` holds what was drawn."""

    def __init__(self) -> None:
        super().__init__()
        self._skipping = False

    @property
    def elements(self) -> list[str]:
        return self._parts

    def stroke(self, line: LineType) -> None:
        pen = PENS[line]
        self._drawn(FAINT if pen.faint else INK, pen.weight, pen.dashes)

    def dashed(self, name: str, dashes: tuple[float, ...], heavy: bool) -> None:
        self._drawn(INK, HEAVY if heavy else 1, () if heavy else dashes)

    def fill(self, role: str) -> None:
        self._end(f'fill="{WASH if role == "cloth" else INK}" stroke="none"')

    def text(self, at: Point, words: Words, lettering: Lettering, anchor: Anchor, angle: float, name: str) -> None:
        if self._skipping:
            return
        x, y = number(at[0]), number(at[1])
        bold = ' font-weight="700"' if lettering.bold and lettering.name != "size" else ""
        turn = f' transform="rotate({number(angle)} {x} {y})"' if angle else ""
        look = f'font-family="{FONT}" font-size="{number(lettering.size)}"{bold} text-anchor="{anchor}" fill="{INK}"'
        self._parts.append(f'<text x="{x}" y="{y}" {look} stroke="none"{turn}>{legible(plain(words))}</text>')

    def open_group(self, name: str) -> None:
        self._skipping = name == HIDDEN

    def close_group(self) -> None:
        self._skipping = False

    def _drawn(self, colour: str, weight: float, dashes: tuple[float, ...]) -> None:
        self._end(f'fill="none" stroke="{colour}" stroke-width="{number(weight)}"{dash_pattern(dashes)}')

    def _end(self, attributes: str) -> None:
        if self._skipping:
            self._path = []
        else:
            super()._end(attributes)


def legible(said: str) -> str:
    """Text for an element; a fraction's slash becomes a plain one, as letters are set one by one and would touch it."""
    return safe(said.replace(SLASH, "/"))


def painted(drawing: Drawing) -> str:
    """The drawing as an SVG image of its own on a white ground."""
    paint = Paint()
    drawing.play(paint)
    return image(drawing.extent, paint.elements)


def image(extent: Extent, elements: list[str], size: tuple[str, str] | None = None) -> str:
    """Elements as an SVG image that shows ``extent``; ``size`` is its width and height with their units."""
    left, top, width, height = (number(each) for each in (extent.left, extent.top, extent.width, extent.height))
    across, down = size or (width, height)
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{across}" height="{down}"'
            f' viewBox="{left} {top} {width} {height}">',
            f'<rect x="{left}" y="{top}" width="{width}" height="{height}" fill="{GROUND}"/>',
            *elements,
            "</svg>",
        ]
    )
