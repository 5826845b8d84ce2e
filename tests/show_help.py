"""Hand-made values and views of a skirt in five sizes, for the tests of ``show`` and of the theme."""

from __future__ import annotations

from pathlib import Path

import html5lib
from jinja2 import Environment, FileSystemLoader, StrictUndefined
from lxml import etree
from markupsafe import Markup

from chalkfold.amounts import Kind, Printer, language
from chalkfold.diagnostics import Source, Span
from chalkfold.formula import Literal
from chalkfold.plan import (
    Choice,
    Fact,
    Facts,
    Frame,
    Group,
    Listing,
    Manner,
    Product,
    Ruler,
    Shown,
    Sizes,
    Step,
    Style,
    Table,
    Value,
    Values,
)
from chalkfold.show import Shower

CALICO = Path(__file__).parents[1] / "themes" / "calico"
NOWHERE = Span(Source("posts/skirt.md", ""), 0, 0)
FIVE = Sizes(("XS", "S", "M", "L", "XL"), 2)
Rows = dict[str, tuple[Kind, Style, tuple[Value | None, ...]]]

LENGTH, FINE, USUAL = Kind.LENGTH, Style.FINE, Style.USUAL
SKIRT: Rows = {
    "waist edge": (LENGTH, USUAL, (920.0, 970.0, 1020.0, 1090.0, 1160.0)),
    "skirt length": (LENGTH, USUAL, (600.0,) * 5),
    "waist radius": (LENGTH, FINE, (292.8451, 308.7606, 324.6761, 346.9578, 369.2395)),
    "cut radius": (LENGTH, FINE, (282.8451, 298.7606, 314.6761, 336.9578, 359.2395)),
    "hem": (LENGTH, USUAL, (2805.0, 2855.0, 2905.0, 2975.0, 3045.0)),
    "across": (LENGTH, USUAL, (918.0, 934.0, 950.0, 972.0, 994.0)),
    "down": (LENGTH, USUAL, (903.0, 919.0, 935.0, 957.0, 979.0)),
    "band": (LENGTH, USUAL, (940.0, 990.0, 1040.0, 1110.0, 1180.0)),
    "band height": (LENGTH, USUAL, (78.0,) * 5),
    "elastic": (LENGTH, Style.TO_BUY, (600.0, 640.0, 690.0, 750.0, 820.0)),
    "stretch": (Kind.PLAIN, Style.PERCENT, (0.6,) * 5),
    "count": (Kind.PLAIN, Style.COUNT, (9.0, 9.0, 9.0, 10.0, 10.0)),
    "hem edge": (LENGTH, USUAL, (720.0, 720.0, 720.0, 800.0, 800.0)),
    "places": (
        Kind.SERIES,
        FINE,
        (tuple(n * 80.0 for n in range(10)),) * 3 + (tuple(n * 80.0 for n in range(11)),) * 2,
    ),
    "loop": (LENGTH, USUAL, (10.0,) * 5),
    "it fits": (Kind.TRUTH, USUAL, (True,) * 5),
    "lost": (LENGTH, USUAL, (None,) * 5),
}


def values(rows: Rows, sizes: Sizes) -> Values:
    """A worked plan with these values, each step as if written as a number."""
    steps = {
        name: Step(name, Literal(0.0, kind, "0"), NOWHERE, manner=Manner(style=style))
        for name, (kind, style, _) in rows.items()
    }
    return Values(sizes, steps, {k: v[0] for k, v in rows.items()}, {k: v[2] for k, v in rows.items()})


def shower(
    rows: Rows = SKIRT, sizes: Sizes = FIVE, *, reader_chooses: bool = True, main: str = "cm", prefix: str = "p-"
) -> Shower:
    """A shower of these values in British English."""
    printer = Printer(language("en-GB"), "in" if main == "in" else "cm")
    return Shower(values(rows, sizes), printer, reader_chooses=reader_chooses, prefix=prefix)


PROJECT = Group(
    Frame(),
    (
        Choice(Frame()),
        Facts(
            Frame(title=("Finished",)),
            (
                Fact(("Waist before the elastic",), (Shown("waist edge"),)),
                Fact(("Length below the band",), (Shown("skirt length"),), ("planned",)),
                Fact(("Hem circumference",), (Shown("hem"),)),
            ),
            "finished",
        ),
        Facts(
            Frame(title=("You need",)),
            (
                Fact(("Duvet cover, double or larger",), ("1",)),
                Fact(("Elastic, firm, stretches by ", Shown("stretch")), (Shown("elastic"),)),
            ),
            "need",
        ),
    ),
)
CUT_LIST = Table(
    Frame(
        id="cut-list", title=("Cut list",), caption=("On the cutting line, allowances in.",), note=("Nap runs down.",)
    ),
    (("Piece",), ("Cut",), ("In",), ("Across × down",)),
    (
        (("Skirt",), ("1 on the fold",), ("main",), (Product(("across", "down")),)),
        (("Casing band",), ("1",), ("main",), (Product(("band", "band height")),)),
    ),
    all_sizes=(3,),
)
TASSELS = Ruler(
    Frame(id="tassels", title=("tassels",), caption=("Measure every mark from the back seam.",)),
    "hem edge",
    "places",
    ("from the back seam",),
    width="loop",
)
PIECES = Listing(
    Frame(title=("tassels, piece by piece",)), ((("hem of front",), "places"), (("hem of back",), "places"))
)
CHECKS = Facts(
    Frame(title=("Checks",)),
    (Fact(("The waist arcs make the waist edge",), (Shown("it fits"),), ("to ", Shown("loop"))),),
    "checks",
)
ALL_VIEWS = (PROJECT, CUT_LIST, TASSELS, PIECES, CHECKS)


def templates() -> Environment:
    """The theme's templates as the builder opens them."""
    return Environment(
        loader=FileSystemLoader(CALICO / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )


SITE = {
    "title": "Tidewater Mending Room",
    "address": "https://mending.example/",
    "language": "en-GB",
    "nav": [{"title": "Guide", "url": "guide.html"}, {"title": "About", "url": "about.html"}],
    "feed": "feed.xml",
}


CORRECTION = {
    "date": "1 November 2026",
    "iso": "2026-11-01",
    "note": "The seam was counted once.",
    "parts": [
        [
            {"name": "waist", "span": 2, "sizes": "S", "change": "90 cm → 91 cm"},
            {"name": "", "span": 2, "sizes": "M", "change": "95 cm → 96 cm"},
        ],
        [{"name": "hem", "span": 1, "sizes": "all sizes", "change": "1 cm → 2 cm"}],
    ],
    "others": 1,
    "by_size": True,
    "more": 3,
}


def page(html: str, **more: object) -> dict[str, object]:
    """What the builder gives a page's template."""
    return {
        "title": "Half-circle skirt from a duvet cover",
        "summary": "One cut, one seam, an elastic casing.",
        "date": "11 April 2026",
        "iso": "2026-04-11",
        "tags": [{"name": "skirt", "url": "tags/skirt.html"}, {"name": "bedding", "url": "tags/bedding.html"}],
        "unpublished": False,
        "head": "",
        "html": Markup(html),  # markup of our own
        "picture": "https://mending.example/pictures/skirt-cover.png",
        "downloads": [
            {"size": "M", "url": "patterns/skirt-M-A4.pdf", "paper": "A4", "kilobytes": 290, "sign": "3f2a 91bc"}
        ],
        "notices": {"recent": [CORRECTION], "earlier": [CORRECTION | {"iso": "2026-05-01", "parts": [[], []]}]},
        **more,
    }


def rendered(template: str, **given: object) -> str:
    """A page of the theme, filled in."""
    frame = {"site": SITE, "root": "../", "here": "posts/skirt.html", "page": page(""), **given}
    return templates().get_template(template).render(frame)


def tree(html: str) -> etree._Element:
    """The page parsed by the rules of HTML; any error in the markup fails."""
    parser = html5lib.HTMLParser(tree=html5lib.getTreeBuilder("lxml"), strict=True, namespaceHTMLElements=False)
    return parser.parse(f"<!doctype html><title>x</title>{html}").getroot()


def text(element: etree._Element) -> str:
    """The text of an element, with plain spaces."""
    return "".join(element.itertext()).replace("\N{NO-BREAK SPACE}", " ")
