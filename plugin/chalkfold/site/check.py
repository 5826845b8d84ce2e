"""All that would fail or mislead: each fault of a build, and what the modules of ``checking/`` find. Writes no page."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from markupsafe import Markup

from chalkfold.diagnostics import Code, Faults
from chalkfold.post import build_post, look_at
from chalkfold.site.bench import Bench, Body, Plan, Yield
from chalkfold.site.build import look_over, no_site
from chalkfold.site.checking import anchors, html_links, loose_ends, pictures, step_numbers, step_things, typed
from chalkfold.site.checking.clean import Clean, CleanPages
from chalkfold.site.checking.look import Look, Seen
from chalkfold.site.contents import View
from chalkfold.site.ledger.folder import read_records
from chalkfold.site.links import cover, follow
from chalkfold.site.pages import FRONT, Draft, Page
from chalkfold.site.swap import RefusedError, refused
from chalkfold.site.theme import ThemeError
from chalkfold.site.workers import share_out
from chalkfold.trade.settings import SITE_FILE
from chalkfold.trade.shelf import Shelf
from chalkfold.work import Worked

CHECKS: tuple[Callable[[Look], None], ...] = (
    typed.check,
    step_numbers.check,
    step_things.check,
    pictures.check,
    html_links.check,
    loose_ends.check,
)
FEWEST = 24
"""Drafts below which starting another process costs more than it saves."""


@dataclass(frozen=True)
class Checked:
    """What was found in so many posts and pages."""

    found: Faults
    pages: int


@dataclass
class Findings(Yield):
    """What comes of checking some drafts: faults and findings, and what links to places have to know of each page;
    ``clean`` are those in which nothing was found."""

    seen: list[Seen] = field(default_factory=list)
    clean: dict[str, Clean] = field(default_factory=dict)

    def add(self, other: Yield) -> None:
        super().add(other)
        if isinstance(other, Findings):
            self.seen += other.seen
            self.clean |= other.clean


def check_site(
    folder: Path, *, today: date, unpublished: bool = False, workers: int | None = None, cached: bool = True
) -> Checked:
    """Check the site in ``folder`` as it would be built ``today``. Never raises for what the writer got wrong.

    ``workers`` is the number of processes, by default one for a small site and one for each processor for a larger one.
    If ``cached``, pages in which the last check found nothing are not looked at while they are as they were.
    """
    findings = Findings()
    pages = 0
    try:
        if not (folder / SITE_FILE).is_file():
            raise no_site(folder)
        pages = _check_all(folder, today, unpublished, workers, findings, cached)
    except RefusedError as error:
        findings.faults.take(error.fault)
    except BrokenProcessPool:
        hint = "close other programs and check again"
        findings.faults.take(refused(Code.SITE_OUTPUT, "the system ended a part of the check", folder, hint).fault)
    return Checked(findings.faults, pages)


def _check_all(
    folder: Path, today: date, unpublished: bool, workers: int | None, findings: Findings, cached: bool
) -> int:
    """Check every draft and return their number."""
    shelf = Shelf.open(folder, findings.faults)
    plan, shown, contents = look_over(folder, folder, shelf, today, unpublished, findings.faults)
    plan = replace(plan, cached=cached)
    read_records(folder, findings.faults)  # a faulty one would stop a release
    bench = CheckBench(plan, shelf)
    front = next((each for each in shown if each.page and each.page.address == FRONT), None)
    others = [each for each in shown if each is not front and not bench.knows(each)]

    def lists() -> None:
        bench.make_lists(contents, front)

    count = workers or (os.cpu_count() or 1 if len(others) >= FEWEST else 1)
    if count > 1:
        share_out(plan, others, count, lists, findings, CheckBench)
    else:
        bench.make(others)
        lists()
    findings.add(bench.yielded)
    bench.pages.keep(findings.clean, (draft.source.path for draft in shown))
    by_path = {draft.source.path: draft for draft in shown}
    anchors.check(
        findings.seen, plan.ground, lambda path: build_post(by_path[path].source, shelf).html, findings.faults
    )
    return len(shown)


class CheckBench(Bench):
    """A bench on which pages are worked out and held against the checks; its templates are filled in for nobody."""

    yielded: Findings

    def __init__(self, plan: Plan, shelf: Shelf) -> None:
        super().__init__(plan, shelf)
        self.yielded = Findings()
        self.pages = CleanPages(plan, shelf)
        self._sound = False

    def knows(self, draft: Draft) -> bool:
        """Whether nothing was found in a page before, and nothing differs since."""
        page = draft.page
        seen = None if page is None else self.pages.seen(draft, page, self.cover_hash(draft, page))
        if seen is not None:
            self.yielded.seen.append(seen)
        return seen is not None

    def make(self, drafts: Iterable[Draft]) -> None:
        for draft in drafts:
            self.shelf.asked.clear()
            before, page = len(self.faults), draft.page
            super().make([draft])
            if page is not None and len(self.faults) == before:
                cover_hash, links = self.cover_hash(draft, page), self.yielded.seen[-1].links
                self.yielded.clean[draft.source.path] = self.pages.clean(draft, page, cover_hash, links)

    def body(self, draft: Draft) -> Body:
        looked = look_at(draft.source, self.shelf)
        self._sound = not len(looked.faults)
        self.faults.extend(looked.faults)
        links, images = looked.worked.scan.links, looked.worked.scan.pictures
        follow(draft.source.path, links, images, self.plan.ground, self.faults)
        if draft.page is not None:
            self._findings(Look(draft.page, looked, self.shelf, self.plan.ground, self._sound, self.faults))
        return Body(Markup(), looked.worked, looked.faults)

    def _findings(self, look: Look) -> None:
        for check in CHECKS:
            check(look)
        self.yielded.seen.append(look.seen)

    def _beside(self, draft: Draft, page: Page, worked: Worked) -> View:
        """Whether the picture for previews and the patterns of a sound post can be made."""
        if page.kind == "post" and self._sound:
            self.pictures.try_patterns(page, worked, self.faults)
            if self.shelf.settings.address:
                found = cover(draft.source.path, page.cover, self.plan.ground, Faults())
                self.pictures.try_cover(page, found, self.faults)
        return {}

    def _write(self, template: str, address: str, **values: object) -> None:
        """Fill the template in, as it may have faults, and throw the page away."""
        if self.theme is None:
            return
        try:
            self.theme.render(template, {"site": self.plan.frame, "root": "", "here": address, **values})
        except ThemeError as error:
            self.faults.take(error.fault)
