"""Pages in which nothing was found, so that the next check need not look at them while all they owe to is the same.

They stand in one file of the store, ``clean.json``. A page with a finding is never kept: what is told is always new.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import asdict, dataclass
from functools import cached_property
from typing import Any

from chalkfold.diagnostics import Span
from chalkfold.site.again.records import Told, sealed, unsealed
from chalkfold.site.again.stamps import beside_stamp, body_stamp, theme_stamp, view_stamp
from chalkfold.site.bench import Plan
from chalkfold.site.checking.look import Seen
from chalkfold.site.links import Target
from chalkfold.site.pages import Draft, Page
from chalkfold.site.store import Store
from chalkfold.trade.drawers import hashed
from chalkfold.trade.shelf import Shelf

FILE = "clean.json"


@dataclass(frozen=True)
class Clean:
    """``key`` is a hash of a page's text and of all that every page owes to; ``asked`` holds kind, name and digest of
    what it looked up on the shelf; ``links`` those to places on pages."""

    key: str
    asked: tuple[tuple[str, str, str], ...]
    links: tuple[Told, ...]


class CleanPages:
    """What the last check of a site left, and what this one leaves."""

    def __init__(self, plan: Plan, shelf: Shelf) -> None:
        self._plan, self._shelf = plan, shelf
        self._store = Store(plan.site, used=plan.cached)
        self._digests: dict[tuple[str, str], str] = {}

    def seen(self, draft: Draft, page: Page, cover: str) -> Seen | None:
        """What links to places have to know of a page that need not be looked at again; else nothing.

        ``cover`` is a hash of the drawing that its cover is made from.
        """
        clean = self._before.get(draft.source.path)
        if clean is None or clean.key != self._key(draft, page, cover):
            return None
        if any(self._digest(kind, name) != digest for kind, name, digest in clean.asked):
            return None
        links = tuple((target, Span(draft.source, start, end)) for target, start, end in clean.links)
        return Seen(draft.source.path, page.address, True, links)

    def clean(self, draft: Draft, page: Page, cover: str, links: Iterable[Target]) -> Clean:
        """The record of a page in which nothing was found, made while ``Shelf.asked`` is that of the page."""
        asked = tuple((kind, name, self._digest(kind, name)) for kind, name in sorted(self._shelf.asked))
        told = tuple((target, span.start, span.end) for target, span in links)
        return Clean(self._key(draft, page, cover), asked, told)

    def keep(self, clean: Mapping[str, Clean], paths: Iterable[str]) -> None:
        """Leave what was found ``clean`` now or before, of the pages there are, to the next check."""
        known = {**self._before, **clean}
        self._store.write(FILE, sealed({path: asdict(known[path]) for path in sorted(paths) if path in known}))

    @cached_property
    def _before(self) -> dict[str, Clean]:
        with suppress(ValueError, TypeError, KeyError, AttributeError):
            data = unsealed(self._store.read_file(FILE))
            return {path: Clean(each["key"], _rows(each["asked"]), _rows(each["links"])) for path, each in data.items()}
        return {}

    def _key(self, draft: Draft, page: Page, cover: str) -> str:
        rendered = self._rendered if self._shelf.settings.address or page.patterns else ""
        return hashed(self._stamp, rendered, draft.source.path, draft.source.text, page.address, cover)

    @cached_property
    def _stamp(self) -> str:
        plan, settings, ground = self._plan, self._shelf.settings, self._plan.ground
        places = (ground.pages, *map(sorted, (ground.lists, ground.photos, ground.waiting, ground.faulty)))
        site = (theme_stamp(plan.theme), view_stamp(plan.frame), view_stamp(places))
        return hashed(body_stamp(settings), *settings.allowed, *site)

    @cached_property
    def _rendered(self) -> str:
        return beside_stamp(self._shelf.settings)

    def _digest(self, kind: str, name: str) -> str:
        if (kind, name) not in self._digests:
            self._digests[kind, name] = self._shelf.digest(kind, name)
        return self._digests[kind, name]


def _rows(told: Iterable[Iterable[Any]]) -> tuple[Any, ...]:
    return tuple(map(tuple, told))
