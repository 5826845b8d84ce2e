"""What goes with a page besides its text: drawings and covers as PNG, patterns as PDF, each made once and kept."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from importlib.metadata import version
from pathlib import Path, PurePosixPath
from typing import TypeVar
from urllib.parse import quote, unquote
from xml.etree.ElementTree import ParseError, fromstring

from slugify import slugify

from chalkfold.diagnostics import Code, Faults, Source, Span
from chalkfold.draw.paint import painted
from chalkfold.paper.inked import TooManyPages, inked
from chalkfold.paper.job import ALL, Bill, CannotPrint, Job, Order
from chalkfold.paper.papers import PAPERS
from chalkfold.paper.pieces import drawings
from chalkfold.paper.tiles import tiles
from chalkfold.raster import NoCairo, NotDrawable, Renderer
from chalkfold.show.drawing import sample_drawing
from chalkfold.site.card import HEIGHT, WIDTH, card
from chalkfold.site.contents import Picture, View
from chalkfold.site.pages import Page
from chalkfold.site.printing import bill_of, file_part, missing_library, pattern_pdf, too_many, unused
from chalkfold.site.store import Store
from chalkfold.trade.settings import SITE_FILE
from chalkfold.trade.shelf import Shelf
from chalkfold.work import Worked

PIXELS = 1280
"""How wide a drawing is in a feed: twice what a page shows."""

T = TypeVar("T")
SVG = "{http://www.w3.org/2000/svg}svg"
STAMP = 16
"""Pixels of a picture that is drawn to see whether it can be."""

PICTURES, PATTERNS = "pictures", "patterns"


class Pictures:
    """Makes the pictures and patterns of one site into ``new``; ``left_out`` tells that cairo is missing, if it is.

    ``files`` gathers the address of each file and its name in the store.
    """

    def __init__(self, site: Path, new: Path, shelf: Shelf, *, cached: bool = True) -> None:
        self.site, self.new, self.shelf = site, new, shelf
        self.store = Store(site, used=cached)
        self.files: list[tuple[str, str]] = []
        self.left_out = Faults()
        self._render: Renderer | None = None

    def drawings(self, page: Page, worked: Worked) -> list[Picture]:
        """Every drawing of a post in its sample size."""
        render = self._renderer(Span(Source(SITE_FILE, ""), 0, 0))
        if render is None:
            return []
        taken: set[str] = set()
        return [
            Picture(self._png(f"{_stem(page)}-{unused(name, taken)}", svg, render), said)
            for name, said, svg in self._svgs(worked, page)
        ]

    def cover(self, page: Page, worked: Worked, found: str, faults: Faults) -> str:
        """The address of the picture for previews: of the cover, or of the first drawing; empty where there is none.

        ``found`` is the address of the cover on the site. A photograph is taken as it is.
        """
        if found and not found.endswith(".svg"):
            return found
        render = self._renderer(Span(Source(SITE_FILE, ""), 0, 0))
        picture = self._cover_svg(page, worked, found)
        if render is None or picture is None:
            return ""
        return _drawn(page, faults, lambda: self._card(page, picture, render)) or ""

    def patterns(self, page: Page, worked: Worked, faults: Faults) -> list[View]:
        """The downloads of a post that asks for them: one PDF for each size, on the site's paper."""
        if page.patterns is None:
            return []
        render = self._renderer(page.patterns)

        def make(jobs: list[Job]) -> list[View]:
            return [] if render is None else list(self._downloads(page, jobs, render))

        return self._printed(page, page.patterns, worked, faults, make) or []

    def try_patterns(self, page: Page, worked: Worked, faults: Faults) -> None:
        """Tell what would keep the patterns from being made, without rendering them."""

        def cut(jobs: list[Job]) -> None:
            for job in jobs:
                tiles(inked(job.pieces, job.paper))

        if page.patterns is not None:
            self._printed(page, page.patterns, worked, faults, cut)

    def try_cover(self, page: Page, found: str, faults: Faults) -> None:
        """Tell whether the cover cannot be drawn; one that looks unusual is drawn very small to see."""
        if not found.endswith(".svg"):
            return
        picture = (self.site / unquote(found)).read_bytes()
        render = None if _is_usual(picture) else self._renderer(Span(Source(SITE_FILE, ""), 0, 0))
        if render is not None:
            _drawn(page, faults, lambda: render.png(picture, STAMP))

    def _printed(
        self, page: Page, asks: Span, worked: Worked, faults: Faults, make: Callable[[list[Job]], T]
    ) -> T | None:
        """What ``make`` makes of the jobs of all sizes; what cannot be printed is a fault where a post asks for it."""
        order = Order(PAPERS[self.shelf.settings.paper], ALL)
        try:
            return make(self._bill(worked, page).jobs(order))
        except CannotPrint as slip:
            faults.add(Code.PRINT_ORDER, str(slip), asks, f"{slip.hint}, or take `patterns` out")
        except TooManyPages:
            message, _ = too_many(order.paper)
            faults.add(Code.PRINT_ORDER, message, asks, "look for a length that is too long, or take `patterns` out")
        return None

    def _bill(self, worked: Worked, page: Page) -> Bill:
        return bill_of(worked, self.shelf, page.title, page.address)

    def _svgs(self, worked: Worked, page: Page) -> Iterator[tuple[str, str, str]]:
        """Name, what is shown and image of each drawing."""
        bill = self._bill(worked, page)
        for view in drawings(bill.views):
            said, drawn = sample_drawing(bill.write, view)
            if drawn is not None:
                yield slugify(view.piece) or "piece", said, painted(drawn)

    def _cover_svg(self, page: Page, worked: Worked, found: str) -> bytes | None:
        if found:
            return (self.site / unquote(found)).read_bytes()
        first = next(self._svgs(worked, page), None)
        return None if first is None else first[2].encode()

    def _card(self, page: Page, picture: bytes, render: Renderer) -> str:
        title, site = page.title, self.shelf.settings.title

        def make() -> bytes:
            return render.png(card(render.png(picture, WIDTH), title, site), WIDTH, HEIGHT)

        inputs = (picture.decode("utf-8", "replace"), title, site, render.version)
        return self._write(f"{PICTURES}/{_stem(page)}-cover.png", self.store.get(inputs, "png", make))

    def _png(self, name: str, svg: str, render: Renderer) -> str:
        data = self.store.get((svg, str(PIXELS), render.version), "png", lambda: render.png(svg, PIXELS))
        return self._write(f"{PICTURES}/{name}.png", data)

    def _downloads(self, page: Page, jobs: list[Job], render: Renderer) -> Iterator[View]:
        language, libraries = self.shelf.settings.language.tag, f"{render.version}, pypdf {version('pypdf')}"
        for place, job in self.places(page, jobs):
            data = self.store.get((repr(job), language, libraries), "pdf", partial(pattern_pdf, job, language, render))
            yield as_download(job, self._write(place, data), -(-len(data) // 1000))

    @staticmethod
    def places(page: Page, jobs: list[Job]) -> Iterator[tuple[str, Job]]:
        """The address of the pattern that each job makes."""
        taken: set[str] = set()
        for job in jobs:
            parts = filter(None, (_stem(page), file_part(job.size), file_part(job.paper.name)))
            yield f"{PATTERNS}/{unused('-'.join(parts), taken)}.pdf", job

    def _write(self, address: str, data: bytes) -> str:
        path = self.new / address
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
        self.files.append((address, self.store.name_of(data)))
        return quote(address)

    def _renderer(self, asks: Span) -> Renderer | None:
        """Cairo, opened when it is first needed; None and a fault to tell where it is not there."""
        if self._render is None:
            try:
                self._render = Renderer.open()
            except NoCairo as missing:
                self.left_out.take(missing_library(asks, missing))
        return self._render


def as_download(job: Job, url: str, kilobytes: int) -> View:
    """A pattern as a page lists it; ``kilobytes`` are 0 where it is made later."""
    return {
        "size": job.size,
        "url": url,
        "paper": job.paper.name,
        "kilobytes": kilobytes,
        "sign": job.said.digest,
    }


def _drawn(page: Page, faults: Faults, draw: Callable[[], T]) -> T | None:
    """What ``draw`` draws; a cover that cannot be drawn is a fault."""
    try:
        return draw()
    except NotDrawable as error:
        span = page.cover.span() if page.cover else Span(Source(SITE_FILE, ""), 0, 0)
        hint = "open it in a drawing program and save it as plain SVG, or take another picture"
        faults.add(Code.SITE_PICTURE, f"this picture cannot be drawn: {error}", span, hint)
        return None


def _is_usual(picture: bytes) -> bool:
    """Whether this is SVG, well formed, with a size and without entities of its own, which no renderer refuses."""
    try:
        root = fromstring(picture)
    except ParseError:
        return False
    return root.tag == SVG and "viewBox" in root.attrib and b"<!" not in picture.replace(b"<!--", b"")


def _stem(page: Page) -> str:
    return PurePosixPath(page.address).stem
