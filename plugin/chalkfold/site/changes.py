"""``chalkfold changes``: what differs from the ledger, for the writer, as text or as data."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Faults
from chalkfold.plan import Manner
from chalkfold.site.build import no_site
from chalkfold.site.ledger.compare import Change, Moved, What
from chalkfold.site.ledger.folder import read_ledger
from chalkfold.site.ledger.now import Differences, Differing, differences, work_today
from chalkfold.site.ledger.printed import before_and_after, moved_by
from chalkfold.site.ledger.renames import POST, Question, Told
from chalkfold.trade.settings import SITE_FILE
from chalkfold.trade.shelf import Shelf

ARROW = " → "
Rows = list[tuple[tuple[int, ...], str]]
"""Sizes (indexes) and what is said of them."""


def changes_of(site: Path, day: date, faults: Faults) -> Differences:
    """What differs on that day; with any fault in ``faults`` it is not the whole truth.

    Raises RefusedError where the folder is no site.
    """
    if not (site / SITE_FILE).is_file():
        raise no_site(site)
    shelf = Shelf.open(site, faults)
    ledger = read_ledger(site, faults)
    return differences(ledger, work_today(site, shelf, day, faults), Told(), shelf.settings.printer)


def rows_of(change: Change, differing: Differing, found: Differences, sizes: Sequence[int] | None = None) -> Rows:
    """Before and after for each size (or some), sizes of which the same is true together."""
    rows: dict[str, list[int]] = {}
    for moved in change.moved:
        if sizes is None or moved.size in sizes:
            rows.setdefault(_said(change, moved, differing, found), []).append(moved.size)
    return [(tuple(numbers), said) for said, numbers in rows.items()]


def _said(change: Change, moved: Moved, differing: Differing, found: Differences) -> str:
    number, now = change.either, differing.now
    manner = now.manner(number.key) if now else Manner()
    if number.kind is Kind.OUTLINE:
        by = moved_by(moved.old, moved.new, found.printer)
        return f"its line moves by up to {by}" if by else "drawn anew"
    return ARROW.join(before_and_after(moved.old, moved.new, number.kind, manner, found.printer))


def sizes_said(numbers: Sequence[int], labels: Sequence[str]) -> str:
    """``S, M``, ``all sizes``, or nothing where a post has none."""
    if labels == ("",):
        return ""
    return "all sizes" if len(numbers) == len(labels) else ", ".join(labels[number] for number in numbers)


def as_lines(found: Differences) -> Iterator[str]:
    """The report for a terminal."""
    for each in found.posts:
        yield _post_said(each)
        yield from (f"  {line}" for line in _sizes_changed(each))
        for change in each.change.numbers:
            yield from (f"  {line}" for line in _number_said(change, each, found))
        yield ""
    yield from (f"{file}: held back; the ledger keeps it as it was" for file in found.held_back)
    yield from map(_asked, found.questions)
    yield _total(found)


def _post_said(each: Differing) -> str:
    change = each.change
    if change.new is None:
        assert change.old is not None, "a post that differs is there or was there"
        return f"{change.old.file}: gone"
    if change.old is None:
        return f"{change.new.file}: new, not released yet"
    renamed = f": renamed? It was {change.old.name}" if change.post_renamed else ""
    return f"{change.new.file}{renamed}"


def _sizes_changed(each: Differing) -> Iterator[str]:
    change = each.change
    for old, new in change.sizes_renamed:
        yield f"size {new}: renamed? It was {old}"
    yield from (f"size {label}: gone" for label in change.sizes_gone)
    yield from (f"size {label}: new" for label in change.sizes_new)


def _number_said(change: Change, each: Differing, found: Differences) -> Iterator[str]:
    number = change.either
    was = f": renamed? It was {change.old.name}" if change.renamed and change.old else ""
    head = was or ("" if change.what is What.CHANGED else f": {change.what}")
    yield f"{number.name}{head}"
    record = each.change.new
    for sizes, said in rows_of(change, each, found) if record else ():
        labels = sizes_said(sizes, record.sizes) if record else ""
        small = set(sizes).isdisjoint(each.told.get(number.key, ()))
        quiet = " (less than a mark, not announced)" if small else ""
        yield f"  {labels}: {said}{quiet}" if labels else f"  {said}{quiet}"
    yield from _formulas(change)


def _formulas(change: Change) -> Iterator[str]:
    old, new = change.old, change.new
    if change.what is What.PRINTED and old and new:
        yield f"  printed {old.printed}{ARROW}{new.printed}"
    elif old and new and (old.formula, old.where) != (new.formula, new.where):
        yield f"  was: {old.formula or 'made by the block'}, from {old.where}"
        yield f"  now: {new.formula or 'made by the block'}, from {new.where}"
    else:
        number = change.either
        formula = f"{number.formula}, " if number.formula else ""
        yield f"  {formula}from {number.where}"


def _asked(question: Question) -> str:
    what = f"{question.what} " if question.what else ""
    was = "this post" if question.what == POST else f"{what}`{question.old}`"
    return (
        f"{question.post}: was {was} renamed `{question.new}`? Release with "
        f'--renamed "{question.answer}" if so, with --renamed "{what}{question.old}=" if not'
    )


def _total(found: Differences) -> str:
    if not found.posts:
        return "Nothing differs from the ledger."
    numbers = sum(len(each.change.numbers) for each in found.posts)
    counted = "1 number" if numbers == 1 else f"{numbers} numbers"
    posts = "1 post" if len(found.posts) == 1 else f"{len(found.posts)} posts"
    return f"{posts} differ{'s' if len(found.posts) == 1 else ''} from the ledger, in {counted}."


def as_data(found: Differences) -> dict[str, object]:
    """The report as plain data."""
    asked = [
        {"post": each.post, "what": each.what or "number", "old": each.old, "new": each.new} for each in found.questions
    ]
    return {
        "posts": [_post_data(each, found) for each in found.posts],
        "held back": list(found.held_back),
        "questions": asked,
    }


def _post_data(each: Differing, found: Differences) -> dict[str, object]:
    change = each.change
    record = change.new or change.old
    assert record is not None, "a post that differs is there or was there"
    what = "gone" if change.new is None else "new" if change.old is None else "changed"
    return {
        "post": record.name,
        "file": record.file,
        "what": what,
        "was": change.old.name if change.post_renamed and change.old else None,
        "sizes": {
            "renamed": dict(change.sizes_renamed),
            "gone": list(change.sizes_gone),
            "new": list(change.sizes_new),
        },
        "numbers": [_number_data(one, each, found, record.sizes) for one in change.numbers],
    }


def _number_data(change: Change, each: Differing, found: Differences, labels: Sequence[str]) -> dict[str, object]:
    number, told = change.either, each.told.get(change.either.key, ())
    return {
        "name": number.name,
        "what": str(change.what),
        "was": change.old.name if change.renamed and change.old else None,
        "kind": str(number.kind),
        "before": None if change.old is None else {"formula": change.old.formula, "from": change.old.where},
        "now": None if change.new is None else {"formula": change.new.formula, "from": change.new.where},
        "sizes": [
            {"size": labels[size], "said": said, "announced": size in told}
            for sizes, said in rows_of(change, each, found)
            for size in sizes
        ],
    }
