"""``chalkfold release``: the site as it is becomes what readers were told; who was told otherwise gets a correction."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from chalkfold.diagnostics import Code, Fault, Faults, Source, Span
from chalkfold.formula.printing import for_readers
from chalkfold.site.build import BuildReport, build_site
from chalkfold.site.changes import rows_of, sizes_said
from chalkfold.site.check import check_site
from chalkfold.site.ledger.compare import Change
from chalkfold.site.ledger.corrections import MOST_ROWS, Correction, Release
from chalkfold.site.ledger.folder import (
    LEDGER,
    Ledger,
    add_correction,
    move_corrections,
    read_ledger,
    renewing,
    swap_in,
    write_ledger,
)
from chalkfold.site.ledger.now import Differences, Differing, differences, work_today
from chalkfold.site.ledger.records import PostRecord
from chalkfold.site.ledger.renames import POST, Question, Told, unused
from chalkfold.site.swap import Change as Folder
from chalkfold.site.swap import RefusedError, disk_fault
from chalkfold.trade.settings import SITE_FILE
from chalkfold.trade.shelf import Shelf


@dataclass
class Released:
    """How a release went; with any fault nothing was written. ``said`` tells post by post what was done."""

    faults: Faults = field(default_factory=Faults)
    said: list[str] = field(default_factory=list)
    build: BuildReport | None = None
    to_mend: int = 0
    """So many things mislead in the pages, as ``chalkfold check`` tells; they stop no release."""


def release(site: Path, out: Path, note: str, day: date, told: Told) -> Released:
    """Build the site, write the ledger and the corrections, and swap both in; or do nothing and say why."""
    done = Released()
    try:
        if not (site / SITE_FILE).is_file():
            done.build = build_site(site, out, today=day)  # which says what is missing
            done.faults.extend(done.build.faults)
            return done
        with renewing(site) as folder:
            _release(site, out, " ".join(note.split()), day, told, folder, done)
    except RefusedError as error:
        done.faults.take(error.fault)
    except OSError as error:
        done.faults.take(disk_fault(site / LEDGER, error))
    return done


def _release(site: Path, out: Path, note: str, day: date, told: Told, folder: Folder, done: Released) -> None:
    faults = done.faults
    shelf = Shelf.open(site, faults)
    ledger = read_ledger(site, faults)
    today = work_today(site, shelf, day, faults)
    if len(faults):
        return
    found = differences(ledger, today, told, shelf.settings.printer)
    for fault in _refusals(ledger, found, told, day):
        faults.take(fault)
    if len(faults):
        return
    if found.posts:
        _write(folder.new, ledger, found, note, day, done)
    commit = (lambda: swap_in(folder)) if found.posts else _nothing
    done.build = build_site(site, out, today=day, ledger=folder.new.name, before_swap=commit)
    faults.extend(done.build.faults)
    if not len(faults):
        done.to_mend = len(check_site(site, today=day).found)


def _nothing() -> None:
    """Nothing differs, so the ledger stays as it is."""


def _refusals(ledger: Ledger, found: Differences, told: Told, day: date) -> Iterator[Fault]:
    """What must be settled before a release, as faults of the command."""
    here = Span(Source(LEDGER, ""), 0, 0)
    latest = max((each.day for each in ledger.public.releases), default=date.min)
    if day < latest:
        hint = f"write `--date {latest.isoformat()}` or a later day"
        yield Fault(Code.SITE_RELEASE, f"the last release was on {latest.isoformat()}, after this one", here, hint)
    for question in found.questions:
        yield _question(question, here)
    for old in unused(told):
        hint = "write the name as `chalkfold changes` tells it, and leave out what it does not call gone"
        yield Fault(Code.SITE_RELEASE, f"nothing called `{old}` is gone from the ledger", here, hint)


def _question(asked: Question, here: Span) -> Fault:
    what = f"{asked.what} " if asked.what else ""
    where = "" if asked.what == POST else f"in {asked.post} "
    message = f"{where}{what}`{asked.old}` is gone and {what}`{asked.new}` is new: is it the same?"
    hint = f'write `--renamed "{asked.answer}"` if so, and `--renamed "{what}{asked.old}="` if it is really gone'
    return Fault(Code.SITE_RELEASE, message, here, hint)


def _write(new: Path, ledger: Ledger, found: Differences, note: str, day: date, done: Released) -> None:
    """Write the new ledger into its folder."""
    posts = dict(ledger.posts)
    for each in found.posts:
        done.said.append(_take_over(new, posts, each, found, note, day))
    write_ledger(new, posts, (Release(day, note), *ledger.public.releases))


def _take_over(
    new: Path, posts: dict[str, PostRecord], each: Differing, found: Differences, note: str, day: date
) -> str:
    """Bring one post into the ledger; returns what was done."""
    old, now = each.change.old, each.change.new
    if now is None:
        assert old is not None, "a post that differs is there or was there"
        del posts[old.name]
        move_corrections(new, old.name, None)
        return f"{old.file}: gone from the ledger"
    if old is not None and old.name != now.name:
        posts.pop(old.name, None)
        move_corrections(new, old.name, now.name)
    posts[now.name] = now
    if old is None:
        return f"{now.file}: new"
    correction = correction_of(each, found, note, day)
    if correction is None:
        return f"{now.file}: nothing that a reader would see"
    add_correction(new, now.name, correction)
    count = len(correction.changed) + correction.more
    return f"{now.file}: correction of {'1 number' if count == 1 else f'{count} numbers'}"


def correction_of(each: Differing, found: Differences, note: str, day: date) -> Correction | None:
    """What readers are told: numbers on the page and those that were mended, with old and new values.

    A number that is only on the way from one to the other is left out, unless it is all there is.
    """
    told = [change for change in each.change.numbers if change.either.key in each.told]
    shown = each.now.shown if each.now else frozenset[str]()
    listed = [change for change in told if change.redefined or change.either.key in shown] or told
    changed, rows = [], 0
    for change in listed:
        found_rows = _rows(change, each, found)
        rows += len(found_rows)
        if rows <= MOST_ROWS:
            changed.append((for_readers(change.either.name), found_rows))
    return Correction(day, note, tuple(changed), len(listed) - len(changed)) if listed else None


def _rows(change: Change, each: Differing, found: Differences) -> tuple[tuple[str, str], ...]:
    labels: Sequence[str] = each.change.new.sizes if each.change.new else ()
    sizes = each.told[change.either.key]
    return tuple((sizes_said(numbers, labels), said) for numbers, said in rows_of(change, each, found, sizes))
