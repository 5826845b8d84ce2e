"""The bench of a preview: one look at the site, whose pages are made when somebody asks for them."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, replace

from markupsafe import Markup

from chalkfold.diagnostics import Fault, Faults
from chalkfold.preview.bodies import Bodies
from chalkfold.preview.boxes import put_boxes
from chalkfold.shipped import shipped
from chalkfold.site.bench import Bench, Plan
from chalkfold.site.contents import Contents
from chalkfold.site.feed import feed
from chalkfold.site.links import cover, follow, rewrite
from chalkfold.site.pages import FRONT, LOST, Draft
from chalkfold.site.theme import Theme, ThemeError
from chalkfold.trade.shelf import Shelf

PLAIN = Theme([shipped("themes") / "calico"])
"""Takes the place of a theme that cannot be used."""


@dataclass(frozen=True)
class Sight:
    """What one look has found: what is shown, and the faults of the site as a whole."""

    plan: Plan
    shown: tuple[Draft, ...]
    contents: Contents
    shelf: Shelf
    theme: Theme | None
    faults: Faults


class PreviewBench(Bench):
    """Makes the pages of one look. ``faults`` are those of the templates."""

    def __init__(self, sight: Sight, bodies: Bodies) -> None:
        super().__init__(replace(sight.plan, frame={**sight.plan.frame, "path": "/"}), sight.shelf)
        self.theme = sight.theme or PLAIN
        self._sight, self._bodies = sight, bodies
        self._made: dict[str, str] = {}
        self.drafts: dict[str, Draft] = {}
        for draft in sight.shown:
            if draft.page is not None:
                self.drafts.setdefault(draft.page.address, draft)
        bodies.put(sight.shelf)

    def page(self, address: str) -> str | None:
        """The page at an address as the theme shows it; None where there is none."""
        if address not in self._made:
            if address in self.drafts and address != FRONT:
                self._make(self.drafts[address])
            elif address in self.plan.ground.lists or address in (FRONT, LOST):
                self.make_lists(self._sight.contents, self.drafts.get(FRONT))
        return self._made.get(address)

    def feed(self) -> bytes | None:
        """The feed, without pictures; a site without an address has none."""
        if not self.shelf.settings.address:
            return None
        return feed(self.shelf.settings, self._sight.contents.posts, {}, self.plan.notices)

    def front(self, draft: Draft) -> Markup:
        return self._shown(draft)

    def faults_of(self, draft: Draft) -> Faults:
        """The faults of a draft, wherever they lie."""
        body, faults = self._bodies.of(draft), Faults()
        for fault in self._sight.faults:
            if fault.span.source.path == draft.source.path:
                faults.take(fault)
        faults.extend(body.faults)
        follow(draft.source.path, body.links, body.pictures, self.plan.ground, faults)
        if draft.page is not None and self.shelf.settings.address:
            found = cover(draft.source.path, draft.page.cover, self.plan.ground, Faults())
            with suppress(OSError):  # gone since the look
                self.pictures.try_cover(draft.page, found, faults)
        return faults

    def _make(self, draft: Draft) -> None:
        if draft.page is not None:
            html, downloads = self._shown(draft), self._bodies.of(draft).downloads
            view = {**self._heading(draft.page), "html": html, "downloads": list(downloads)}
            self._write(f"{draft.page.kind}.html", draft.page.address, page=view)

    def _shown(self, draft: Draft) -> Markup:
        body = self._bodies.of(draft)
        found = follow(draft.source.path, body.links, body.pictures, self.plan.ground, Faults())
        loose: list[Fault] = [fault for fault in self.faults_of(draft) if fault.order not in body.boxed]
        html = put_boxes(body.html, draft.source.path, loose)
        return Markup(rewrite(html, found, draft.page.address if draft.page else ""))  # escaped where it was made

    def _write(self, template: str, address: str, **values: object) -> None:
        lost = address == LOST
        root = "/" if lost else "../" * address.count("/")
        filled = {"site": self.plan.frame, "root": root, "here": "" if lost else address, **values}
        try:
            self._made[address] = (self.theme or PLAIN).render(template, filled)
        except ThemeError as error:
            self.faults.take(error.fault)
            self._made[address] = PLAIN.render(template, filled)
