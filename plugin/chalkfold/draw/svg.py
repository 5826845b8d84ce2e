"""A drawing as SVG for the page: classes and ``currentColor``, so that the theme paints it.

Weights and patterns stand in it too, as attributes any style sheet wins over: on a page without ours the drawing is
still right, with full labels.
"""

from __future__ import annotations

import re
from html import escape
from typing import Protocol

from chalkfold.amounts.rounding import trimmed
from chalkfold.draw.lines import PENS, LineType
from chalkfold.draw.paths import Extent
from chalkfold.draw.surface import Surface
from chalkfold.draw.words import BETWEEN, Anchor, Both, Lettering, Part, Words
from chalkfold.geometry.shapes import Point

_ODD = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufffe\uffff]+")

SMALL = 320
"""CSS pixels a nest or a sketch is wide on a page without our style sheet; a sheet takes the room there is."""

HEAVY = 2.4
"""Weight of the chosen one among nested sizes."""
FAINT = 0.6
"""What is left of the colour in faint lines, which can still be seen on paper, light or dark."""


class Drawing(Protocol):
    """Anything placed: a sheet, a nest, a sketch of folds."""

    @property
    def extent(self) -> Extent: ...

    def play(self, surface: Surface) -> None: ...


def page_svg(drawing: Drawing, prefix: str, title: str, description: str, kind: str = "sheet") -> str:
    """The drawing as an element for the page; ``kind`` is its class: ``sheet``, ``nest`` or ``folds``.

    ``prefix`` starts the ids in it; ``title`` and ``description`` are what is read out.
    """
    svg = Svg(drawing.extent, prefix, title, description, kind)
    drawing.play(svg)
    return str(svg)


class SvgPaths:
    """What every surface that writes SVG has in common: a path, gathered until it is drawn."""

    def __init__(self) -> None:
        self._parts: list[str] = []
        self._path: list[str] = []

    def move(self, x: float, y: float) -> None:
        self._path.append(f"M{number(x)} {number(y)}")

    def line(self, x: float, y: float) -> None:
        self._path.append(f"L{number(x)} {number(y)}")

    def arc(self, radius: float, large: bool, clockwise: bool, x: float, y: float) -> None:
        r = number(radius)
        self._path.append(f"A{r} {r} 0 {large:d} {clockwise:d} {number(x)} {number(y)}")

    def curve(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        self._path.append("C" + " ".join(number(each) for each in (x1, y1, x2, y2, x, y)))

    def close(self) -> None:
        self._path.append("Z")

    def _end(self, attributes: str) -> None:
        self._parts.append(f'<path {attributes} d="{"".join(self._path)}"/>')
        self._path = []


class Svg(SvgPaths):
    """A surface that writes SVG. ``str()`` of it is the whole element."""

    def __init__(self, extent: Extent, prefix: str, title: str, description: str, kind: str = "sheet") -> None:
        super().__init__()
        self._set: dict[str, str] = {}
        box = " ".join(number(each) for each in (extent.left, extent.top, extent.width, extent.height))
        width = "" if kind == "sheet" else f' width="{SMALL}"'
        self._parts += [
            f'<svg class="draw {kind}"{width} viewBox="{box}" fill="none" stroke="currentColor" role="img"'
            f' aria-labelledby="{safe(prefix)}-title {safe(prefix)}-desc">',
            f'<title id="{safe(prefix)}-title">{safe(title)}</title>',
            f'<desc id="{safe(prefix)}-desc">{safe(description)}</desc>',
        ]

    def __str__(self) -> str:
        return "\n".join([*self._parts, "</svg>"])

    def stroke(self, line: LineType) -> None:
        pen = PENS[line]
        faint = f' stroke-opacity="{FAINT}"' if pen.faint else ""
        self._end(f'class="{line.value}" stroke-width="{number(pen.weight)}"{dash_pattern(pen.dashes)}{faint}')

    def dashed(self, name: str, dashes: tuple[float, ...], heavy: bool) -> None:
        weight = number(HEAVY if heavy else 1)
        self._end(f'class="{safe(name)}" stroke-width="{weight}"{dash_pattern(() if heavy else dashes)}')

    def fill(self, role: str) -> None:
        faint = ' fill-opacity="0.06"' if role == "cloth" else ""
        self._end(f'class="{safe(role)}" fill="currentColor"{faint} stroke="none"')

    def text(self, at: Point, words: Words, lettering: Lettering, anchor: Anchor, angle: float, name: str) -> None:
        """Texts that follow each other stand in a group that says how the first is set; the others what differs."""
        x, y = number(at[0]), number(at[1])
        bold = lettering.bold and lettering.name != "size"
        look = {"font-size": number(lettering.size), "font-weight": "700" if bold else "400", "text-anchor": anchor}
        if not self._set:
            self._set = look
            self._parts.append(f'<g{_said(look)} fill="currentColor" stroke="none">')
        own = _said({key: value for key, value in look.items() if self._set[key] != value})
        turn = f' transform="rotate({number(angle)} {x} {y})"' if angle else ""
        names = f"{lettering.name} {name}".strip()
        self._parts.append(f'<text class="{safe(names)}" x="{x}" y="{y}"{own}{turn}>{_words(words)}</text>')

    def _end_texts(self) -> None:
        if self._set:
            self._parts.append("</g>")
            self._set = {}

    def _end(self, attributes: str) -> None:
        self._end_texts()
        super()._end(attributes)

    def open_group(self, name: str) -> None:
        hidden = ' display="none"' if name == "letters" else ""
        self._end_texts()
        self._parts.append(f'<g class="{safe(name)}"{hidden}>' if name else "<g>")

    def close_group(self) -> None:
        self._end_texts()
        self._parts.append("</g>")


def number(value: float) -> str:
    """Two decimals at most, rounded as everywhere, never ``-0``."""
    return trimmed(value, 2)


def safe(given: str) -> str:
    """Text for an element or attribute; characters that XML has no place for become spaces."""
    return escape(_ODD.sub(" ", given))


def _said(look: dict[str, str]) -> str:
    return "".join(f' {key}="{value}"' for key, value in look.items())


def dash_pattern(dashes: tuple[float, ...]) -> str:
    return f' stroke-dasharray="{" ".join(number(each) for each in dashes)}"' if dashes else ""


def _words(words: Words) -> str:
    return "".join(_part(part) for part in words)


def _part(part: Part) -> str:
    """Amounts as ``.m`` and ``.i`` for the reader's choice of units; what joins them goes with either."""
    if isinstance(part, str):
        return safe(part)
    if part.metric == part.inch:
        return safe(part.metric)
    return _both(part)


def _both(amount: Both) -> str:
    metric = f'<tspan class="m">{safe(amount.metric)}</tspan>'
    inch = f'<tspan class="i">{safe(amount.inch)}</tspan>'
    first, second = (inch, metric) if amount.inch_first else (metric, inch)
    return f'{first}<tspan class="m i">{safe(BETWEEN)}</tspan>{second}'
