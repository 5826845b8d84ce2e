"""The patterns of a post: the page lists them at once, and each is made when somebody opens it."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import quote

from chalkfold.diagnostics import Faults
from chalkfold.paper.inked import inked
from chalkfold.paper.job import Job
from chalkfold.paper.tiles import tiles
from chalkfold.raster import Renderer
from chalkfold.site.contents import View
from chalkfold.site.pages import Page
from chalkfold.site.pictures import Pictures, as_download
from chalkfold.site.printing import pattern_pdf
from chalkfold.trade.shelf import Shelf
from chalkfold.work import Worked


class Patterns(Pictures):
    """Lists the patterns of one post; ``jobs`` holds how each is made, by its address."""

    def __init__(self, site: Path, shelf: Shelf) -> None:
        super().__init__(site, site, shelf, cached=False)
        self.jobs: dict[str, Job] = {}

    def patterns(self, page: Page, worked: Worked, faults: Faults) -> list[View]:
        """The downloads of a post that asks for them. What keeps one from being printed is a fault."""

        def listed(jobs: list[Job]) -> list[View]:
            for job in jobs:
                tiles(inked(job.pieces, job.paper))
            self.jobs = dict(self.places(page, jobs))
            return [as_download(job, quote(address), 0) for address, job in self.jobs.items()]

        return [] if page.patterns is None else self._printed(page, page.patterns, worked, faults, listed) or []


def pdf(job: Job, shelf: Shelf) -> bytes:
    """One pattern. Raises NoCairo where it cannot be drawn on this computer."""
    return pattern_pdf(job, shelf.settings.language.tag, Renderer.open())
