"""One build: read everything, make every page in a new folder, and swap it in if there is no fault."""

from __future__ import annotations

import os
from collections.abc import Callable
from concurrent.futures import BrokenExecutor
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from time import perf_counter
from urllib.parse import urlsplit

from chalkfold.diagnostics import Code, Faults, Source, Span
from chalkfold.reading import Excerpt, Mapping, load, read_text
from chalkfold.site.again.first import FirstBench, Memory
from chalkfold.site.again.keeping import KeepingBench, Made
from chalkfold.site.again.records import Index
from chalkfold.site.bench import Plan
from chalkfold.site.contents import Contents, View, find_photos, is_out, list_contents, survey
from chalkfold.site.ledger.corrections import Notices
from chalkfold.site.ledger.folder import LEDGER, read_public
from chalkfold.site.links import Ground
from chalkfold.site.pages import FEED, FRONT, Draft, check_addresses, find_drafts
from chalkfold.site.store import Store
from chalkfold.site.swap import Change, RefusedError, changing, disk_fault, refused
from chalkfold.site.theme import Theme, copy_files, find_theme
from chalkfold.trade.settings import SITE_FILE, Settings
from chalkfold.trade.shelf import Shelf

FEWEST = 60
"""Drafts below which starting another process costs more than it saves."""


@dataclass(frozen=True)
class BuildReport:
    """How a build went; with any fault nothing was written and ``pages`` is 0.

    ``left_out`` tells what the pages lack because a library is missing; ``rendered`` counts the pictures and patterns
    that had to be made anew, and ``made`` names the posts and pages that had to be.
    """

    pages: int
    faults: Faults
    seconds: float
    left_out: Faults = field(default_factory=Faults)
    rendered: int = 0
    made: tuple[str, ...] = ()


def build_site(
    folder: Path,
    out: Path,
    *,
    today: date,
    unpublished: bool = False,
    workers: int | None = None,
    ledger: str = LEDGER,
    before_swap: Callable[[], None] = lambda: None,
    cached: bool = True,
) -> BuildReport:
    """Build the site in ``folder`` into ``out``, all faults in one go; with any fault ``out`` stays as it is.

    ``today`` decides which posts are published; ``unpublished`` shows the others too. ``workers`` is the
    number of processes, by default one for a small site and one for each processor for a large one. A release
    names the folder of its new ``ledger`` and makes it the site's own in ``before_swap``, when all pages are made.
    Where it is ``cached``, only what owes to something that changed is made again; the outcome is the same.
    Never raises for what the writer or the disk got wrong.
    """
    began = perf_counter()
    yielded = Made()
    faults, pages = yielded.faults, 0
    try:
        if not (folder / SITE_FILE).is_file():
            raise no_site(folder)
        with changing(folder, out) as change:
            bench, shown, contents = _ready(folder, change, today, unpublished, ledger, cached, faults)
            _make_pages(bench, shown, contents, workers, yielded)
            if sound := not len(faults):
                bench.link()
                before_swap()
                change.swap_in()
            bench.keep(yielded, change.out if sound else None)
            pages = count_pages(bench.plan.ground)
    except RefusedError as error:
        faults.take(error.fault)
    except OSError as error:
        faults.take(disk_fault(out, error))
    except BrokenExecutor:
        hint = "close other programs and build again; the last good site is still there"
        faults.take(refused(Code.SITE_OUTPUT, "the system ended a part of the build", out, hint).fault)
    seconds = perf_counter() - began
    made = tuple(sorted(yielded.made))
    return BuildReport(0 if len(faults) else pages, faults, seconds, yielded.left_out, yielded.rendered, made)


def _ready(
    site: Path, change: Change, today: date, unpublished: bool, ledger: str, cached: bool, faults: Faults
) -> tuple[FirstBench, list[Draft], Contents]:
    """Read the site, and open the first bench with what builds before have left."""
    shelf, index = Shelf.open(site, faults), Index.load(Store(site, used=cached))
    known = Memory(index, shelf.settings).draft
    plan, shown, contents = look_over(site, change.new, shelf, today, unpublished, faults, ledger, known)
    return FirstBench(replace(plan, cached=cached), shelf, index, change.out), shown, contents


def count_pages(ground: Ground) -> int:
    """How many pages there are, with the lists."""
    return len(ground.pages) + len(ground.lists - {FRONT}) + (FRONT not in ground.pages.values())


def look_over(
    site: Path,
    new: Path,
    shelf: Shelf,
    today: date,
    unpublished: bool,
    faults: Faults,
    ledger: str = LEDGER,
    known: Callable[[Source], Draft | None] = lambda _: None,
) -> tuple[Plan, list[Draft], Contents]:
    """Read every post and page far enough to know what is shown, where it stands, and where links lead."""
    found = Found(
        find_drafts(site, faults, known),
        find_photos(site, faults),
        theme_of(site, shelf.settings.theme, faults),
        notices_of(site, ledger, shelf, faults),
    )
    return lay_out(site, new, found, shelf, today, unpublished, faults)


@dataclass(frozen=True)
class Found:
    """What lies in a site: its texts, pictures, theme, and the corrections of each post by its address."""

    drafts: list[Draft]
    photos: frozenset[str]
    theme: Theme | None
    notices: dict[str, Notices]


def lay_out(
    site: Path, new: Path, found: Found, shelf: Shelf, today: date, unpublished: bool, faults: Faults
) -> tuple[Plan, list[Draft], Contents]:
    """Decide what is shown of all that lies in a site, where it stands, and where links lead."""
    shown = [each for each in found.drafts if unpublished or each.page is None or is_out(each.page, today)]
    held_back = [each for each in found.drafts if each.page and not is_out(each.page, today)]
    check_addresses(shown, faults)
    ground = survey(shown, [] if unpublished else held_back, found.photos)
    contents = list_contents(shown, ground, shelf.settings.language, today, faults)
    names = {str(tag["url"]): str(tag["name"]) for tag in contents.tags}
    frame = _frame(shelf.settings, contents)
    folders = tuple(found.theme.folders) if found.theme else ()
    return Plan(site, new, folders, ground, frame, names, today, found.notices), shown, contents


def _make_pages(bench: FirstBench, shown: list[Draft], contents: Contents, workers: int | None, yielded: Made) -> None:
    front = next((each for each in shown if each.page and each.page.address == FRONT), None)
    plan = bench.plan
    for folder in ("posts", "tags"):
        (plan.new / folder).mkdir()
    others = bench.use(each for each in shown if each is not front)

    def the_rest() -> None:
        bench.make_lists(contents, front)
        if bench.theme and not len(yielded.faults):  # with a fault nothing will be swapped in
            bench.theme.copy_static(plan.new)
            copy_files(plan.site / "photos", plan.new / "photos")

    count = workers or (os.cpu_count() or 1 if len(others) >= FEWEST else 1)
    if count > 1:
        from chalkfold.site.workers import share_out

        share_out(plan, others, count, the_rest, yielded, KeepingBench)
    else:
        bench.make(others)
        the_rest()
    yielded.add(bench.yielded)
    bench.make_feed(contents, yielded.pictures)


def notices_of(site: Path, ledger: str, shelf: Shelf, faults: Faults) -> dict[str, Notices]:
    """The corrections of each post, by its address."""
    found = read_public(site, faults, ledger).notices(shelf.settings.language)
    return {f"posts/{name}.html": each for name, each in found.items()}


def theme_of(site: Path, name: str, faults: Faults) -> Theme | None:
    """The theme the site file names; a fault points at the line that names it."""
    quiet = Faults()
    source = read_text(site / SITE_FILE, SITE_FILE, quiet) or Source(SITE_FILE, "")
    body = load(Excerpt.whole(source), quiet)
    named = body.get("theme") if isinstance(body, Mapping) else None
    return find_theme(site, name, named.where if named else Span(source, 0, 0), faults)


def _frame(settings: Settings, contents: Contents) -> View:
    """What a template knows of the site. ``path`` is the way to its root from anywhere, for the lost page."""
    path = urlsplit(settings.address).path if settings.address else ""
    return {
        "title": settings.title,
        "address": settings.address,
        "language": settings.language.tag,
        "nav": contents.nav,
        "feed": FEED if settings.address else "",
        "path": f"{path.rstrip('/')}/" if settings.address else "",
    }


def no_site(folder: Path) -> RefusedError:
    if not folder.is_dir():
        hint = "check the name, or start a site with `chalkfold new FOLDER`"
        return refused(Code.FILE_MISSING, "there is no such folder", folder, hint)
    hint = f"name the folder that holds {SITE_FILE}, or start a site with `chalkfold new FOLDER`"
    return refused(Code.FILE_MISSING, f"this folder holds no {SITE_FILE}, so it is not a site", folder, hint)
