"""A page as the checks see it: read and worked out, not shown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from markdown_it.token import Token

from chalkfold.diagnostics import Faults, Source
from chalkfold.post import Looked
from chalkfold.site.links import Ground, Target
from chalkfold.site.pages import Page
from chalkfold.stale.prose import Prose, prose_of
from chalkfold.trade import Shelf
from chalkfold.work import Worked


@dataclass(frozen=True, slots=True)
class Seen:
    """What is kept of a page for links to places on it, and from it. ``sound`` says that it has no fault."""

    path: str
    address: str
    sound: bool
    links: tuple[Target, ...]


@dataclass(frozen=True)
class Look:
    """One page, and where findings go. ``sound`` says that it has no fault: what is missing is really missing."""

    page: Page
    looked: Looked
    shelf: Shelf
    ground: Ground
    sound: bool
    found: Faults

    @property
    def source(self) -> Source:
        return self.looked.source

    @property
    def tokens(self) -> Sequence[Token]:
        """They stand below ``skipped`` lines of front matter."""
        return self.looked.tokens

    @property
    def skipped(self) -> int:
        return self.looked.skipped

    @property
    def worked(self) -> Worked:
        return self.looked.worked

    @property
    def seen(self) -> Seen:
        links = tuple(link for link in self.worked.scan.links if "#" in link[0])
        return Seen(self.source.path, self.page.address, self.sound, links)

    @cached_property
    def prose(self) -> list[Prose]:
        """The running text, headings and cells of the page."""
        return list(prose_of(self.tokens, self.source, self.skipped))
