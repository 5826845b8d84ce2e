"""The stand on which a site is looked at while it is worked on. It reads, keeps and shows; it writes nothing."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from typing import TypeVar

from chalkfold.diagnostics import Code, Faults
from chalkfold.preview.bench import PLAIN, PreviewBench, Sight
from chalkfold.preview.bodies import Bodies
from chalkfold.preview.frame import framed, notice
from chalkfold.preview.patterns import pdf
from chalkfold.preview.texts import Changed, Texts, state_of
from chalkfold.reading import inside
from chalkfold.site.build import Found, count_pages, lay_out, notices_of, theme_of
from chalkfold.site.contents import find_photos
from chalkfold.site.ledger.folder import LEDGER
from chalkfold.site.pages import FEED, LOST
from chalkfold.site.swap import refused
from chalkfold.site.theme import Theme
from chalkfold.trade.shelf import Shelf

T = TypeVar("T")
_NOT_THE_SHELF = frozenset({"posts", "pages", "photos", "themes", "ledger"})


class Stand:
    """Call ``look`` whenever something may have changed; pages and files are then those of today's site."""

    def __init__(self, site: Path, today: Callable[[], date]) -> None:
        self.site = site
        self._today = today
        self._texts, self._bodies = Texts(site), Bodies(site)
        self._kept: dict[str, tuple[object, Faults]] = {}
        self._pages: dict[str, tuple[str, str]] = {}
        self._faulty: dict[str, Faults] = {}
        self._assets = ""
        self.look()

    def look(self, changed: Changed = None) -> None:
        """Read what has changed. A folder that cannot be read leaves what was seen before, with a fault."""
        try:
            self.sight = self._seen(changed)
        except OSError as error:
            if not hasattr(self, "sight"):
                raise
            why = (error.strerror or str(error)).lower()
            hint = "mend the permissions; what is shown was seen before"
            self.sight.faults.take(refused(Code.FILE_MISSING, f"this cannot be read: {why}", self.site, hint).fault)
        self._bench = PreviewBench(self.sight, self._bodies)
        self._pages.clear()

    def _seen(self, changed: Changed) -> Sight:
        rooms = None if changed is None else {each.partition("/")[0] for each in changed}
        faults = Faults()

        def keep(name: str, stale: bool, make: Callable[[Faults], T]) -> T:
            if stale or name not in self._kept:
                own = Faults()
                self._kept[name] = make(own), own
            value, own = self._kept[name]
            faults.extend(own)
            return value  # type: ignore[return-value]  # what ``make`` has made under this name

        def touched(room: str) -> bool:
            return rooms is None or room in rooms

        data = rooms is None or not rooms <= _NOT_THE_SHELF
        shelf = keep("shelf", data, self._shelf)
        found = Found(
            self._texts.drafts(changed, faults),
            keep("photos", touched("photos"), lambda own: find_photos(self.site, own)),
            keep("theme", data or touched("themes"), lambda own: theme_of(self.site, shelf.settings.theme, own)),
            keep("notices", data or touched("ledger"), lambda own: notices_of(self.site, LEDGER, shelf, own)),
        )
        plan, shown, contents = lay_out(self.site, self.site, found, shelf, self._today(), True, faults)
        static = keep("static", data or touched("themes"), lambda _: _static(found.theme or PLAIN))
        if data or touched("themes") or touched("photos"):
            paths = [*(self.site / each for each in sorted(found.photos)), *(path for path, _ in static.values())]
            self._assets = _digest("".join(f"{path} {state_of(path)}" for path in paths))
        return Sight(plan, tuple(shown), contents, shelf, found.theme, faults)

    def _shelf(self, faults: Faults) -> Shelf:
        """The shelf of today; while the site file is faulty, what it said last still holds."""
        shelf = Shelf.open(self.site, faults)
        known = "shelf" in self._kept and len(faults) > 0
        return Shelf(self.sight.shelf.settings, self.site) if known else shelf

    def page(self, address: str) -> str | None:
        """A page with what is wrong on top, and with what makes a browser show changes by itself."""
        found = self._framed(address)
        return found and found[0]

    def lost(self, address: str) -> str:
        """What stands where there is no page; it watches whether one comes to stand there."""
        found = self._framed(LOST)
        return framed(self._bench.page(LOST) or "", address, found[1]) if found else ""

    def pages(self) -> int:
        """How many pages there are, as a build counts them."""
        return count_pages(self.sight.plan.ground)

    def sign(self, address: str) -> str:
        """Another one whenever the page at an address is another; another begin where its pictures or styles may be."""
        found = self._framed(address) or self._framed(LOST)
        return found[1] if found else ""

    def file(self, address: str) -> bytes | None:
        """A picture, a file of the theme, a pattern or the feed. Raises NoCairo where a pattern cannot be drawn."""
        if address == FEED:
            return self._bench.feed()
        for draft in self.sight.shown if address.endswith(".pdf") else ():
            if (job := self._bodies.of(draft).jobs.get(address)) is not None:
                return pdf(job, self.sight.shelf)
        path, root = self._path(address)
        try:
            return path.read_bytes() if path is not None and inside(root, path) else None
        except OSError:
            return None

    def rest(self) -> Iterator[None]:
        """Make whatever is not made yet, a step at a time, so that all faults come to light."""
        faulty: dict[str, Faults] = {}
        for draft in self.sight.shown:
            if draft.page is not None:
                faults = self._bench.faults_of(draft)
                if len(faults):
                    faulty[draft.source.path] = faults
                self._bench.page(draft.page.address)
                yield
        for address in (LOST, *sorted(self.sight.plan.ground.lists)):
            self._bench.page(address)
        self._faulty = faulty
        self._pages.clear()

    def faults(self) -> Faults:
        """All that is known to be wrong."""
        whole = Faults()
        for each in (self.sight.faults, self._bench.faults, *self._faulty.values()):
            whole.extend(each)
        return whole

    def _framed(self, address: str) -> tuple[str, str] | None:
        if address not in self._pages:
            html = self._bench.page(address)
            if html is None:
                return None
            html = notice(html, self._of_the_site(), self._elsewhere(address), address)
            sign = f"{self._assets}-{_digest(html)}"
            self._pages[address] = framed(html, address, sign), sign
        return self._pages[address]

    def _of_the_site(self) -> Faults:
        """Faults that belong to no post or page."""
        texts, found = {draft.source.path for draft in self.sight.shown}, Faults()
        for fault in (*self.sight.faults, *self._bench.faults):
            if fault.span.source.path not in texts:
                found.take(fault)
        return found

    def _elsewhere(self, address: str) -> list[tuple[str, str, int]]:
        """Path, address and number of faults of each other post or page that has some."""
        return [
            (draft.source.path, page.address, len(self._faulty[draft.source.path]))
            for draft in self.sight.shown
            if draft.source.path in self._faulty and (page := draft.page) and page.address != address
        ]

    def _path(self, address: str) -> tuple[Path | None, Path]:
        if address in self.sight.plan.ground.photos:
            return self.site / address, self.site
        static = self._kept["static"][0]
        return static.get(address, (None, self.site)) if isinstance(static, dict) else (None, self.site)


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "replace")).hexdigest()[:16]


def _static(theme: Theme) -> dict[str, tuple[Path, Path]]:
    """The files of a theme by their address, each with the folder it must lie in."""
    return {
        f"static/{path.relative_to(folder / 'static').as_posix()}": (path, folder)
        for folder in reversed(theme.folders)
        for path in sorted((folder / "static").rglob("*"))
        if path.is_file() and not any(part.startswith(".") for part in path.relative_to(folder / "static").parts)
    }
