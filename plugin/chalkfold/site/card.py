"""The picture of a post for link previews: 1200 × 630 pixels, its title beside its cover or first drawing."""

from __future__ import annotations

from base64 import b64encode

from chalkfold.draw.paint import image
from chalkfold.draw.paths import Extent
from chalkfold.draw.words import Lettering, wrapped
from chalkfold.paper.lettered import Column

WIDTH, HEIGHT = 1200, 630
"""Pixels; common practice for previews (about 1.91 to 1), no source."""

GROUND, MARGIN = "#f4f1ea", 45
SIDE = 620
"""How wide the picture may be."""
NAME = Lettering("name", 26)
TITLE = Lettering("title", 62, bold=True)
SMALLER = Lettering("title", 46, bold=True)
LINES = 5
"""A title of more lines than this is set smaller."""


def card(picture: bytes, title: str, site: str) -> str:
    """The card as SVG; ``picture`` is a PNG, which stands in it as data."""
    left = WIDTH - SIDE - MARGIN / 2
    data = b64encode(picture).decode("ascii")
    parts = [
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="{GROUND}"/>',
        f'<image href="data:image/png;base64,{data}" x="{left}" y="{MARGIN / 2}" width="{SIDE}"'
        f' height="{HEIGHT - MARGIN}" preserveAspectRatio="xMidYMid meet"/>',
    ]
    return image(Extent(0, 0, WIDTH, HEIGHT), [*parts, *_words(title, site, left - 2.2 * MARGIN)])


def _words(title: str, site: str, width: float) -> list[str]:
    """The name of the site over the title, which is set smaller where it is long."""
    rows = len(wrapped((title,), TITLE, width))
    column = Column(MARGIN * 1.2, MARGIN * 1.2, width)
    column.write(site, NAME, 2)
    column.space(24)
    column.write(title, TITLE if rows <= LINES else SMALLER, LINES + 3)
    return column.parts
