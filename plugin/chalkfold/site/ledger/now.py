"""The posts of a site as they are today, and what differs from the ledger."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path, PurePosixPath

from chalkfold.amounts import Printer
from chalkfold.diagnostics import Faults
from chalkfold.post import work_post
from chalkfold.site.contents import is_out
from chalkfold.site.ledger.announce import announced
from chalkfold.site.ledger.compare import PostChange, compare
from chalkfold.site.ledger.folder import Ledger
from chalkfold.site.ledger.renames import Question, Told, pair, pair_posts
from chalkfold.site.ledger.taking import Taken, take
from chalkfold.site.pages import Draft, find_drafts
from chalkfold.trade.shelf import Shelf


@dataclass(frozen=True, slots=True)
class Today:
    """The published posts by the last part of their address; ``held_back`` are those that are there and not out."""

    posts: Mapping[str, Taken]
    held_back: frozenset[str]


@dataclass(frozen=True, slots=True)
class Differing:
    """One post that differs. ``now`` is None where it is gone; ``told`` are the sizes of each changed number, by key,
    in which readers must be told.
    """

    change: PostChange
    now: Taken | None
    told: Mapping[str, tuple[int, ...]]


@dataclass(frozen=True, slots=True)
class Differences:
    """All posts that differ, by file, and what the writer is asked.

    ``held_back`` are files of released posts that are not published now; the ledger keeps them as they were.
    """

    posts: tuple[Differing, ...]
    questions: tuple[Question, ...]
    held_back: tuple[str, ...]
    printer: Printer


def work_today(site: Path, shelf: Shelf, day: date, faults: Faults) -> Today:
    """Work out every post that is published on that day; what is wrong with one is in ``faults``."""
    posts, waiting = {}, set()
    for draft in find_drafts(site, faults):
        if draft.page is None or draft.page.kind != "post":
            continue
        name = PurePosixPath(draft.page.address).stem
        if is_out(draft.page, day):
            found = _taken(draft, shelf, faults)
            if found is not None:
                posts[name] = found
        else:
            waiting.add(name)
    return Today(posts, frozenset(waiting))


def _taken(draft: Draft, shelf: Shelf, faults: Faults) -> Taken | None:
    own = Faults()
    worked = work_post(draft.source, shelf, own)
    faults.extend(own)
    assert draft.page is not None, "the caller has looked"
    marks = shelf.settings.marks
    return None if len(own) else take(worked, draft.page, draft.source.path, marks)


def differences(ledger: Ledger, today: Today, told: Told, printer: Printer) -> Differences:
    """Hold every post against the ledger."""
    records = {name: taken.record for name, taken in today.posts.items()}
    here = {name: old for name, old in ledger.posts.items() if name not in today.held_back}
    pairs, asked = pair_posts(here, records, told)
    was = {now: old for old, now in pairs.items()}
    found: list[Differing] = []
    for name, taken in today.posts.items():
        old = ledger.posts.get(was.get(name, ""))
        if old is None:
            found.append(Differing(PostChange(None, taken.record), taken, {}))
            continue
        paired, questions = pair(old, taken.record, told)
        change = compare(old, taken.record, paired)
        asked += questions
        if change.differs:
            found.append(Differing(change, taken, announced(taken, change.numbers, printer.marks)))
    away = [old for name, old in ledger.posts.items() if name not in pairs]
    found += [Differing(PostChange(old, None), None, {}) for old in away if old.name not in today.held_back]
    waiting = sorted(old.file for old in away if old.name in today.held_back)
    return Differences(tuple(sorted(found, key=_file)), tuple(asked), tuple(waiting), printer)


def _file(each: Differing) -> tuple[str, str]:
    record = each.change.new or each.change.old
    assert record is not None, "a change is of something"
    return record.file, record.name
