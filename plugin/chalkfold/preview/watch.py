"""Notices that something changed in a site. Which change it was matters little: a look finds out what differs.

Only the folder of the site and its own rooms are watched, each folder by itself, so that a large folder beside them
costs nothing. Whenever the folders are others, the watch begins anew and anything may have changed.
"""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Iterable
from contextlib import suppress
from pathlib import Path

from watchfiles import awatch

from chalkfold.preview.texts import Changed
from chalkfold.trade.settings import SITE_FILE

ROOMS = ("posts", "pages", "sizes", "books", "donors", "photos", "themes", "ledger")
FILES = frozenset({SITE_FILE, "fabrics.yml", "fabrics.yaml", "notions.yml", "notions.yaml"})

STEP, AT_MOST, TICK = 10, 200, 1000
"""Milliseconds: without a further change before a batch ends, of a batch, between two looks at the folders."""


async def changes(site: Path) -> AsyncIterator[Changed]:
    """Yield the paths of each batch of changes, from the folder of the site; None where anything may have changed."""
    polling = False
    while True:
        folders = _folders(site)
        try:
            async for told in _batches(site, folders, polling):
                yield told
        except OSError:  # a folder went just now, or the system watches no more of them
            polling = bool(folders) and folders == _folders(site)
        await asyncio.sleep(0.05 if folders else TICK / 1000)


async def _batches(site: Path, folders: list[Path], polling: bool) -> AsyncIterator[Changed]:
    """The batches while the folders stay the same."""
    yield None  # of what happened while nobody watched
    if not folders:
        return
    first = True
    async for batch in awatch(
        *folders,
        watch_filter=None,
        debounce=AT_MOST,
        step=STEP,
        rust_timeout=TICK,
        yield_on_timeout=True,
        force_polling=polling or None,
        recursive=False,
        ignore_permission_denied=True,
    ):
        paths = {Path(path) for _, path in batch}
        told = _ours(site, paths)
        if first or told:
            yield None if first else told
        first = False
        if not paths.isdisjoint(folders) or _folders(site) != folders:
            return


def _ours(site: Path, paths: Iterable[Path]) -> frozenset[str]:
    """Those of the paths at which a site keeps anything."""
    names = (path.relative_to(site).as_posix() for path in paths if path.is_relative_to(site))
    return frozenset(name for name in names if name in FILES or name.partition("/")[0] in ROOMS)


def _folders(site: Path) -> list[Path]:
    """The folder of the site and all folders of its rooms, but for hidden ones."""
    found = [site] if site.is_dir() else []
    for room in ROOMS:
        with suppress(OSError):
            found += _below(site / room)
    return found


def _below(folder: Path) -> list[Path]:
    if not folder.is_dir():
        return []
    inner = (each for each in sorted(folder.iterdir()) if each.is_dir() and not each.is_symlink())
    return [folder, *(each for path in inner if not path.name.startswith(".") for each in _below(path))]
