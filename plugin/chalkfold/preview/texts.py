"""The posts and pages of a site as they were last read: a look reads only what has changed since."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path, PurePosixPath

from slugify import slugify

from chalkfold.diagnostics import Faults
from chalkfold.reading import read_text
from chalkfold.site.pages import KINDS, Draft, Page, files_below, read_draft

Changed = frozenset[str] | None
"""Paths, from the folder of the site, at which something was noticed; None where anything may have changed."""


@dataclass
class _Read:
    state: tuple[int, ...]
    draft: Draft | None
    faults: Faults


class Texts:
    """Every draft has a page here: a broken front matter keeps its last, or gets one from the file's name."""

    def __init__(self, site: Path) -> None:
        self._site = site
        self._read: dict[str, _Read] = {}
        self._pages: dict[str, Page] = {}

    def drafts(self, changed: Changed, faults: Faults) -> list[Draft]:
        """All posts and pages, in the order of their paths."""
        found: dict[str, _Read] = {}
        for folder, kind in KINDS.items():
            for path, shown in files_below(self._site, folder, "*.md", faults):
                known = None if changed is not None and shown in changed else self._read.get(shown)
                found[shown] = self._one(path, shown, kind, known)
        self._read = found
        for each in found.values():
            faults.extend(each.faults)
        return [each.draft for each in found.values() if each.draft is not None]

    def _one(self, path: Path, shown: str, kind: str, known: _Read | None) -> _Read:
        state = state_of(path)
        if known is not None and known.state == state:
            return known
        faults = Faults()
        source = read_text(path, shown, faults)
        before = self._read.get(shown)
        if source is None:
            return _Read(state, None, faults)
        if before is not None and before.draft is not None and before.draft.source.text == source.text:
            return _Read(state, before.draft, before.faults)  # saved as it was: all made from it still holds
        return _Read(state, self._with_page(read_draft(source, kind, faults), kind), faults)

    def _with_page(self, draft: Draft, kind: str) -> Draft:
        path = draft.source.path
        if draft.page is not None:
            self._pages[path] = draft.page
            return draft
        return replace(draft, page=self._pages.get(path) or _made_up(path, kind))


def _made_up(path: str, kind: str) -> Page:
    """What a text is shown as whose front matter never said anything."""
    stem = PurePosixPath(path).stem
    last = f"{slugify(stem) or 'untitled'}.html"
    return Page(kind, f"posts/{last}" if kind == "post" else last, stem, None, (), "", None, True)


def state_of(path: Path) -> tuple[int, ...]:
    """Of a file: another one whenever it was written; empty where there is none."""
    with suppress(OSError, ValueError):
        found = path.stat()
        return found.st_ino, found.st_size, found.st_mtime_ns, found.st_ctime_ns
    return ()
