"""All that would fail or mislead: each fault of a build, and what the modules of ``checking/`` find. Writes nothing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from markupsafe import Markup

from chalkfold.diagnostics import Faults
from chalkfold.post import build_post, look_at
from chalkfold.site.bench import Bench, Plan
from chalkfold.site.build import look_over, no_site
from chalkfold.site.checking import anchors, loose_ends, pictures, step_numbers, step_things, typed
from chalkfold.site.checking.look import Look
from chalkfold.site.contents import View
from chalkfold.site.links import cover, follow
from chalkfold.site.pages import FRONT, Draft, Page
from chalkfold.site.swap import RefusedError
from chalkfold.site.theme import ThemeError
from chalkfold.trade.settings import SITE_FILE
from chalkfold.trade.shelf import Shelf
from chalkfold.work import Worked

CHECKS: tuple[Callable[[Look], None], ...] = (
    typed.check,
    step_numbers.check,
    step_things.check,
    pictures.check,
    loose_ends.check,
)


@dataclass(frozen=True)
class Checked:
    """What was found in so many posts and pages."""

    found: Faults
    pages: int


def check_site(folder: Path, *, today: date, unpublished: bool = False) -> Checked:
    """Check the site in ``folder`` as it would be built ``today``. Never raises for what the writer got wrong."""
    found = Faults()
    if not (folder / SITE_FILE).is_file():
        found.take(no_site(folder).fault)
        return Checked(found, 0)
    try:
        shelf = Shelf.open(folder, found)
        plan, shown, contents = look_over(folder, folder, shelf, today, unpublished, found)
        bench = CheckBench(plan, shelf)
        front = next((each for each in shown if each.page and each.page.address == FRONT), None)
        bench.make(each for each in shown if each is not front)
        bench.make_lists(contents, front)
    except RefusedError as error:
        found.take(error.fault)
        return Checked(found, 0)
    anchors.check(bench.looks, plan.ground, bench.html)
    found.extend(bench.faults)
    for look in bench.looks:
        found.extend(look.found)
    return Checked(found, len(shown))


class CheckBench(Bench):
    """A bench on which pages are worked out and held against the checks; its templates are filled in for nobody."""

    def __init__(self, plan: Plan, shelf: Shelf) -> None:
        super().__init__(plan, shelf)
        self.looks: list[Look] = []

    def body(self, draft: Draft) -> tuple[Markup, Worked]:
        looked = look_at(draft.source, self.shelf)
        self.faults.extend(looked.faults)
        links, images = looked.worked.scan.links, looked.worked.scan.pictures
        follow(draft.source.path, links, images, self.plan.ground, self.faults)
        if draft.page is not None:
            sound, found = not len(looked.faults), Faults()
            look = Look(
                draft.page, looked.source, looked.tokens, looked.skipped, looked.worked, self.shelf, sound, found
            )
            self.looks.append(look)
            for check in CHECKS:
                check(look)
        return Markup(), looked.worked

    def html(self, look: Look) -> str:
        """A page's own part as a build shows it, for the places that links lead to."""
        return build_post(look.source, self.shelf).html

    def _beside(self, draft: Draft, page: Page, worked: Worked) -> View:
        """Whether the picture for previews and the patterns of a sound post can be made."""
        if page.kind == "post" and self.looks[-1].sound:
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
