"""The folder ``ledger/`` of a site: read whole, and written whole or not at all.

    releases.yml                          day and note of every release, the latest first
    posts/half-circle-skirt.txt           the numbers of a post as last released
    corrections/half-circle-skirt/2026-11-01.yml

A release writes a new folder beside it and swaps that in, as a build does with the pages (``site/swap.py``).
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from filelock import FileLock, Timeout

from chalkfold.amounts import Language
from chalkfold.diagnostics import Code, Faults
from chalkfold.reading import leads_out, read_text
from chalkfold.site.ledger.corrections import (
    Correction,
    Notices,
    Release,
    correction_text,
    notices,
    read_correction,
    read_releases,
    releases_text,
)
from chalkfold.site.ledger.records import PostRecord
from chalkfold.site.ledger.text import from_text, to_text
from chalkfold.site.pages import files_below
from chalkfold.site.swap import MARKER, Change, is_ours, real, refused
from chalkfold.trade.files import read_mapping

LEDGER = "ledger"
RELEASES, POSTS, CORRECTIONS = "releases.yml", "posts", "corrections"
MARKER_TEXT = "`chalkfold release` wrote this folder; the next release replaces it. What else lies here is kept.\n"
EXAMPLE = "note: what was wrong"


@dataclass(frozen=True, slots=True)
class Public:
    """What readers were told: corrections by the last part of the post's address, newest first, and the releases."""

    corrections: Mapping[str, tuple[Correction, ...]] = field(default_factory=dict)
    releases: tuple[Release, ...] = ()

    def notices(self, language: Language) -> dict[str, Notices]:
        """What each corrected post shows."""
        latest = max((each.day for each in self.releases), default=date.min)
        return {name: notices(found, latest, language) for name, found in self.corrections.items()}


@dataclass(frozen=True, slots=True)
class Ledger:
    """All of it."""

    posts: Mapping[str, PostRecord]
    public: Public


def read_public(site: Path, faults: Faults, folder: str = LEDGER) -> Public:
    """Read what pages show of the ledger. ``folder`` is that of a release that is not made yet."""
    _put_right(site)
    top = site / folder
    releases: list[Release] = []
    if top.is_symlink() and leads_out(site, top, folder, faults):
        return Public()
    if (top / RELEASES).exists():
        body = read_mapping(top / RELEASES, f"{folder}/{RELEASES}", "releases: …", faults, site)
        releases = read_releases(body[1], faults) if body else []
    found: dict[str, list[tuple[date, str, Correction]]] = {}
    for path, shown in files_below(site, f"{folder}/{CORRECTIONS}", "*.yml", faults):
        body = read_mapping(path, shown, EXAMPLE, faults, site)
        correction = read_correction(body[1], faults) if body else None
        if correction is not None:
            found.setdefault(path.parent.name, []).append((correction.day, path.name, correction))
    newest_first = {name: sorted(each, key=_order, reverse=True) for name, each in found.items()}
    return Public({name: tuple(one for _, _, one in each) for name, each in newest_first.items()}, tuple(releases))


def _order(each: tuple[date, str, Correction]) -> tuple[date, int, str]:
    """By day, and within a day by number: ``2026-11-01-10`` after ``2026-11-01-9``."""
    return each[0], len(each[1]), each[1]


def read_ledger(site: Path, faults: Faults) -> Ledger:
    """Read the whole ledger of a site; one that was never released has an empty one."""
    public = read_public(site, faults)  # which first puts right what a killed release has left
    return Ledger(read_records(site, faults), public)


def read_records(site: Path, faults: Faults) -> dict[str, PostRecord]:
    """The numbers of every released post; a faulty record is reported and left out."""
    posts = {}
    for path, shown in files_below(site, f"{LEDGER}/{POSTS}", "*.txt", faults):
        source = read_text(path, shown, faults)
        record = None if source is None else from_text(source, path.stem, faults)
        if record is not None:
            posts[record.name] = record
    return posts


@contextmanager
def renewing(site: Path) -> Iterator[Change]:
    """Hold the lock on the ledger and give a copy of it to change; leaving without a swap drops the copy.

    Raises RefusedError where another release is at work, OSError where the disk says no.
    """
    ledger = real(site / LEDGER)
    change, lock = Change(ledger), _lock(ledger)
    try:
        lock.acquire(timeout=0)
    except Timeout:
        hint = "wait until it has ended, then release again"
        raise refused(Code.SITE_BUSY, "another release is writing the ledger", site / LEDGER, hint) from None
    try:
        change.recover()
        if change.new.exists():
            hint = "move it away, then release again"
            raise refused(Code.SITE_OUTPUT, "this folder stands where the new ledger is written", change.new, hint)
        change.new.mkdir()
        _mark(change.new)
        if ledger.is_dir():
            shutil.copytree(ledger, change.new, dirs_exist_ok=True)
        yield change
    finally:
        change.recover()
        lock.release()


def write_ledger(folder: Path, posts: Mapping[str, PostRecord], releases: Sequence[Release]) -> None:
    """Write every record that differs, and the releases, into a copy of the ledger. Records of no post go."""
    (folder / POSTS).mkdir(exist_ok=True)
    for path in (folder / POSTS).glob("*.txt"):
        if path.stem not in posts:
            path.unlink()
    for name, record in posts.items():
        _write(folder / POSTS / f"{name}.txt", to_text(record))
    _write(folder / RELEASES, releases_text(releases))


def add_correction(folder: Path, name: str, correction: Correction) -> None:
    """Write a correction into a copy of the ledger, beside others of the same day."""
    post = folder / CORRECTIONS / name
    post.mkdir(parents=True, exist_ok=True)
    day, number = correction.day.isoformat(), 1
    while (path := post / (f"{day}-{number}.yml" if number > 1 else f"{day}.yml")).exists():
        number += 1
    _write(path, correction_text(correction))


def move_corrections(folder: Path, old: str, new: str | None) -> None:
    """Let a renamed post keep its corrections; those of a post that is gone go with it."""
    before = folder / CORRECTIONS / old
    if not before.is_dir():
        return
    if new is None:
        shutil.rmtree(before)
    elif not (folder / CORRECTIONS / new).exists():
        before.rename(folder / CORRECTIONS / new)


def swap_in(change: Change) -> None:
    """Make the copy the ledger, in one step or two that can be taken back."""
    if change.out.is_dir():
        _mark(change.out)  # so that what is left of it after a kill is known to be ours
    change.swap_in()


def _put_right(site: Path) -> None:
    """Put the last ledger back where a release was killed between two renames."""
    change = Change(real(site / LEDGER))
    if change.out.exists() or not is_ours(change.old):
        return
    with _lock(change.out).acquire(timeout=5):
        change.recover()


def _lock(ledger: Path) -> FileLock:
    return FileLock(ledger.with_name(f".{ledger.name}.chalkfold-lock"))


def _mark(folder: Path) -> None:
    _write(folder / MARKER, MARKER_TEXT)


def _write(path: Path, text: str) -> None:
    """Leave a file alone that says the same."""
    data = text.encode()
    if not path.is_file() or path.read_bytes() != data:
        path.write_bytes(data)
