"""The own part of each post and page, kept while all that it was made from is the same."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path

from chalkfold.diagnostics import Code, Faults, Source, Span
from chalkfold.markdown import is_boxed
from chalkfold.paper.job import Job
from chalkfold.post import build_post
from chalkfold.preview.patterns import Patterns
from chalkfold.site.contents import View
from chalkfold.site.links import Target
from chalkfold.site.pages import Draft
from chalkfold.trade.shelf import Shelf

Asked = tuple[tuple[str, str, str], ...]


@dataclass
class Body:
    """What was made of a text. ``html`` still has the comments that tell lines; ``boxed`` faults stand in it already.

    ``asked`` holds what was looked up on the ``shelf``, with a hash of each answer.
    """

    source: Source
    shelf: Shelf
    asked: Asked = ()
    html: str = ""
    faults: Faults = field(default_factory=Faults)
    boxed: frozenset[tuple[object, ...]] = frozenset()
    links: tuple[Target, ...] = ()
    pictures: tuple[Target, ...] = ()
    downloads: tuple[View, ...] = ()
    jobs: dict[str, Job] = field(default_factory=dict)


class Bodies:
    """Makes bodies, and keeps each until its text or an answer of the shelf is another."""

    def __init__(self, site: Path) -> None:
        self._site = site
        self._kept: dict[str, Body] = {}
        self._shelf: Shelf | None = None
        self._digest = lru_cache(maxsize=None)(lambda kind, name: "")

    def put(self, shelf: Shelf) -> None:
        """Take another shelf from now on."""
        if shelf is not self._shelf:
            self._shelf, self._digest = shelf, lru_cache(maxsize=None)(shelf.digest)

    def of(self, draft: Draft) -> Body:
        """The body of a draft. A fault of the program is told like one of the writer, and ends nothing."""
        assert self._shelf is not None, "a stand puts its shelf here first"
        kept = self._kept.get(draft.source.path)
        if kept is None or kept.source is not draft.source or not self._holds(kept, self._shelf):
            try:
                kept = self._made(draft, self._shelf)
            except Exception as error:  # a preview outlives what would end a build
                kept = _failed(draft, self._shelf, error)
            self._kept[draft.source.path] = kept
        return kept

    def _holds(self, kept: Body, shelf: Shelf) -> bool:
        if kept.shelf is not shelf:
            if kept.shelf.settings != shelf.settings:
                return False
            if any(self._digest(kind, name) != digest for kind, name, digest in kept.asked):
                return False
            kept.shelf = shelf
        return True

    def _made(self, draft: Draft, shelf: Shelf) -> Body:
        shelf.asked.clear()
        built = build_post(draft.source, shelf, despite=True)
        asked = tuple((kind, name, self._digest(kind, name)) for kind, name in sorted(shelf.asked))
        boxed = frozenset(fault.order for fault in built.faults if is_boxed(fault, built.worked))
        body = Body(draft.source, shelf, asked, built.html, built.faults, boxed, built.links, built.pictures)
        if draft.page is not None and draft.page.patterns is not None and not len(built.faults):
            patterns = Patterns(self._site, shelf)
            body.downloads = tuple(patterns.patterns(draft.page, built.worked, body.faults))
            body.jobs = patterns.jobs
        return body


def _failed(draft: Draft, shelf: Shelf, error: Exception) -> Body:
    body = Body(draft.source, shelf)
    message = f"chalkfold itself fails on this page ({type(error).__name__}: {error})"
    hint = "this is no fault of yours; take back the last change, and report it with the post"
    body.faults.add(Code.PREVIEW_FAILED, message, Span(draft.source, 0, 0), hint)
    return body
