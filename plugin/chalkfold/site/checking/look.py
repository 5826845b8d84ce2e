"""A page as the checks see it: read and worked out, not shown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from markdown_it.token import Token

from chalkfold.diagnostics import Faults, Source
from chalkfold.site.pages import Page
from chalkfold.stale.prose import Prose, prose_of
from chalkfold.trade import Shelf
from chalkfold.work import Worked


@dataclass(frozen=True)
class Look:
    """One page: its tokens below ``skipped`` lines of front matter, what it works out, and where findings go.

    ``sound`` says that it has no fault, so that what is missing is really missing.
    """

    page: Page
    source: Source
    tokens: Sequence[Token]
    skipped: int
    worked: Worked
    shelf: Shelf
    sound: bool
    found: Faults

    @cached_property
    def prose(self) -> list[Prose]:
        """The running text, headings and cells of the page."""
        return list(prose_of(self.tokens, self.source, self.skipped))
