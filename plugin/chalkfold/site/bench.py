"""One worker's place: with the shelf and the theme open, it turns drafts into finished pages."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from markupsafe import Markup

from chalkfold.diagnostics import Faults
from chalkfold.post import build_post
from chalkfold.site.contents import Contents, View, is_out
from chalkfold.site.links import Ground, follow, rewrite
from chalkfold.site.pages import FRONT, LOST, Draft, Page
from chalkfold.site.theme import Theme, ThemeError
from chalkfold.trade.shelf import Shelf


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


class Bench:
    """Makes the pages of one plan; every fault goes into ``faults``."""

    def __init__(self, plan: Plan, shelf: Shelf) -> None:
        self.plan, self.shelf, self.faults = plan, shelf, Faults()
        self.theme = Theme(plan.theme) if plan.theme else None

    @classmethod
    def open(cls, plan: Plan) -> Bench:
        """A bench with a shelf of its own, for another process; the first has reported the shelf's faults."""
        return cls(plan, Shelf.open(plan.site, Faults()))

    def make(self, drafts: Iterable[Draft]) -> None:
        """Write the page of each draft."""
        for draft in drafts:
            html = self.body(draft)
            if draft.page is not None:
                view = {**self._heading(draft.page), "html": html}
                self._write(f"{draft.page.kind}.html", draft.page.address, page=view)

    def make_lists(self, contents: Contents, front: Draft | None) -> None:
        """Write the front page (introduced by ``pages/index.md``), the tag pages and the lost-page notice."""
        page = self._plain(str(self.plan.frame["title"]))
        if front is not None:
            html = self.body(front)
            page = {**self._heading(front.page), "html": html} if front.page else page
        self._write("index.html", FRONT, page=page, posts=contents.posts, tags=contents.tags)
        for tag in contents.tags:
            address = str(tag["url"])
            view = self._plain(str(tag["name"]))
            self._write("tag.html", address, page=view, tag=tag, posts=contents.tagged[address])
        self._write("404.html", LOST, page=self._plain("404"))

    def body(self, draft: Draft) -> Markup:
        """Build a post's or page's own part, its links pointed at their addresses."""
        built = build_post(draft.source, self.shelf)
        self.faults.extend(built.faults)
        found = follow(draft.source.path, built.links, built.pictures, self.plan.ground, self.faults)
        address = draft.page.address if draft.page else ""
        return Markup(rewrite(built.html, found, address))  # build_post has escaped what the writer typed

    def _heading(self, page: Page) -> View:
        names = self.plan.tag_names
        return {
            **self._plain(page.title, page.summary),
            "date": self.shelf.settings.language.date(page.date) if page.date else "",
            "iso": page.date.isoformat() if page.date else "",
            "tags": [{"name": names.get(tag.address, tag.name), "url": tag.address} for tag in page.tags],
            "unpublished": not is_out(page, self.plan.today),
        }

    def _plain(self, title: str, summary: str = "") -> View:
        return {"title": title, "summary": summary, "head": "", "html": ""}

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
