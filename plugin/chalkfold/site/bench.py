"""One worker's place: with the shelf and the theme open, it turns drafts into finished pages."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import unquote

from markupsafe import Markup

from chalkfold.diagnostics import Faults
from chalkfold.site.contents import Contents, Picture, View, is_out
from chalkfold.site.ledger.corrections import Notices
from chalkfold.site.links import Ground, Target, cover, follow, rewrite
from chalkfold.site.pages import FEED, FRONT, LOST, Draft, Page
from chalkfold.site.theme import Theme, ThemeError
from chalkfold.trade.shelf import Shelf

if TYPE_CHECKING:  # what makes a page is loaded when one is to be made
    from chalkfold.site.pictures import Pictures
    from chalkfold.work import Worked


@dataclass(frozen=True)
class Plan:
    """What every worker is told: where to read and write, where links lead, what stands on each page."""

    site: Path
    new: Path
    theme: tuple[Path, ...]
    ground: Ground
    frame: View
    tag_names: dict[str, str]
    today: date
    notices: Mapping[str, Notices] = field(default_factory=dict)
    """The corrections of a post, by its address."""
    cached: bool = True
    """Whether pictures and pages are kept for the next build, and those of the last one used."""


@dataclass(frozen=True)
class Body:
    """A post's or page's own part: what it was made from, its faults, and where its ``links`` led (``found``)."""

    html: Markup
    worked: Worked
    faults: Faults
    links: tuple[Target, ...] = ()
    pictures: tuple[Target, ...] = ()
    found: Mapping[str, str] = field(default_factory=dict)


@dataclass
class Yield:
    """What comes of some drafts besides their pages: faults, what was left out, the drawings by address of the post.

    ``rendered`` counts the pictures and patterns that had to be made, as no build before had made them.
    """

    faults: Faults = field(default_factory=Faults)
    left_out: Faults = field(default_factory=Faults)
    pictures: dict[str, list[Picture]] = field(default_factory=dict)
    rendered: int = 0

    def add(self, other: Yield) -> None:
        self.faults.extend(other.faults)
        self.left_out.extend(other.left_out)
        self.pictures |= other.pictures
        self.rendered += other.rendered


class Bench:
    """Makes the pages of one plan; what comes of it goes into ``yielded``."""

    def __init__(self, plan: Plan, shelf: Shelf) -> None:
        self.plan, self.shelf, self.yielded = plan, shelf, Yield()
        self.theme = Theme(plan.theme) if plan.theme else None

    @cached_property
    def pictures(self) -> Pictures:
        from chalkfold.site.pictures import Pictures

        return Pictures(self.plan.site, self.plan.new, self.shelf, cached=self.plan.cached)

    @property
    def faults(self) -> Faults:
        return self.yielded.faults

    @classmethod
    def open(cls, plan: Plan) -> Bench:
        """A bench with a shelf of its own, for another process; the first has reported the shelf's faults."""
        return cls(plan, Shelf.open(plan.site, Faults()))

    def make(self, drafts: Iterable[Draft]) -> None:
        """Write the page of each draft, and what goes with it."""
        for draft in drafts:
            body = self.body(draft)
            if draft.page is not None:
                view = {**self._heading(draft.page), "html": body.html, **self._beside(draft, draft.page, body.worked)}
                self._write(f"{draft.page.kind}.html", draft.page.address, page=view)
        if "pictures" in vars(self):
            self.yielded.left_out.extend(self.pictures.left_out)
            self.yielded.rendered, self.pictures.store.made = self.yielded.rendered + self.pictures.store.made, 0

    def make_lists(self, contents: Contents, front: Draft | None) -> None:
        """Write the front page (introduced by ``pages/index.md``), the tag pages and the lost-page notice."""
        page = self._plain(str(self.plan.frame["title"]))
        if front is not None:
            html = self.front(front)
            page = {**self._heading(front.page), "html": html} if front.page else page
        self._write("index.html", FRONT, page=page, posts=contents.posts, tags=contents.tags)
        for tag in contents.tags:
            address = str(tag["url"])
            view = self._plain(str(tag["name"]))
            self._write("tag.html", address, page=view, tag=tag, posts=contents.tagged[address])
        self._write("404.html", LOST, page=self._plain("404"))

    def make_feed(self, contents: Contents, pictures: dict[str, list[Picture]]) -> None:
        """Write the feed, which only a site with an address can have."""
        if self.shelf.settings.address:
            from chalkfold.site.feed import feed

            notices = self.plan.notices
            (self.plan.new / FEED).write_bytes(feed(self.shelf.settings, contents.posts, pictures, notices))

    def front(self, draft: Draft) -> Markup:
        """What introduces the front page."""
        return self.body(draft).html

    def body(self, draft: Draft) -> Body:
        """Build a post's or page's own part, its links pointed at their addresses."""
        from chalkfold.post import build_post

        built = build_post(draft.source, self.shelf)
        faults = built.faults
        found = follow(draft.source.path, built.links, built.pictures, self.plan.ground, faults)
        self.faults.extend(faults)
        address = draft.page.address if draft.page else ""
        html = Markup(rewrite(built.html, found, address))  # build_post has escaped what the writer typed
        return Body(html, built.worked, faults, built.links, built.pictures, found)

    def _beside(self, draft: Draft, page: Page, worked: Worked) -> View:
        """The picture for previews and the downloads of a post; a site without an address needs no pictures."""
        if page.kind != "post" or len(self.faults):
            return {}
        beside: View = {}
        if page.patterns:
            beside["downloads"] = self.pictures.patterns(page, worked, self.faults)
        if address := self.shelf.settings.address:
            found = cover(draft.source.path, page.cover, self.plan.ground, Faults())
            picture = self.pictures.cover(page, worked, found, self.faults)
            beside["picture"] = f"{address}/{picture}" if picture else ""
            self.yielded.pictures[page.address] = self.pictures.drawings(page, worked)
        return beside

    def cover_hash(self, draft: Draft, page: Page) -> str:
        """Of the drawing that the picture for previews is made from, where the cover is one."""
        if not self.shelf.settings.address:
            return ""
        found = cover(draft.source.path, page.cover, self.plan.ground, Faults())
        return sha256((self.plan.site / unquote(found)).read_bytes()).hexdigest() if found.endswith(".svg") else ""

    def _heading(self, page: Page) -> View:
        names = self.plan.tag_names
        return {
            **self._plain(page.title, page.summary),
            "date": self.shelf.settings.language.date(page.date) if page.date else "",
            "iso": page.date.isoformat() if page.date else "",
            "tags": [{"name": names.get(tag.address, tag.name), "url": tag.address} for tag in page.tags],
            "unpublished": not is_out(page, self.plan.today),
            "notices": self.plan.notices.get(page.address, Notices()),
        }

    def _plain(self, title: str, summary: str = "") -> View:
        return {
            "title": title,
            "summary": summary,
            "head": "",
            "html": "",
            "picture": "",
            "downloads": [],
            "notices": Notices(),
        }

    def _write(self, template: str, address: str, **values: object) -> None:
        if self.theme is None:
            return
        lost = address == LOST
        root = str(self.plan.frame["path"]) if lost else "../" * address.count("/")
        try:
            html = self.theme.render(
                template, {"site": self.plan.frame, "root": root, "here": "" if lost else address, **values}
            )
        except ThemeError as error:
            self.faults.take(error.fault)
        else:
            (self.plan.new / address).write_bytes(html.encode())
