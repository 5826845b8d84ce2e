"""What readers must be told: a change that shows, in the number itself or in any number built on it."""

from __future__ import annotations

from collections import defaultdict

from chalkfold.amounts import Marks
from chalkfold.plan import names_in
from chalkfold.site.ledger.compare import Change, What
from chalkfold.site.ledger.printed import in_marks
from chalkfold.site.ledger.taking import Taken

SHOWS = 1.0 - 1e-9
"""From a whole mark on a change is announced."""


def announced(now: Taken, changes: tuple[Change, ...], marks: Marks) -> dict[str, tuple[int, ...]]:
    """The sizes of each changed number (by key) in which it is to be announced.

    A change is announced unless this number and every number built on it stay below the mark at which they are
    printed. 2 mm on a radius hardly show on the tape, and move the waist by 12.6 mm.
    """
    moved = {each.either.key: each for each in changes if each.what is What.CHANGED}
    visible = {key: _visible(change, now, marks) for key, change in moved.items()}
    carried = _carried(now, visible)
    found = {}
    for key, change in moved.items():
        sizes = set(visible[key]).union(*(carried[step] for step in now.steps[key]))
        if told := tuple(each.size for each in change.moved if each.size in sizes):
            found[key] = told
    return found


def _visible(change: Change, now: Taken, marks: Marks) -> frozenset[int]:
    """The sizes in which the number itself moves by a mark."""
    number = change.either
    manner = now.manner(number.key)
    if change.old is None or change.old.kind is not number.kind:
        return frozenset(each.size for each in change.moved)
    return frozenset(
        each.size for each in change.moved if in_marks(each.old, each.new, number.kind, manner, marks) >= SHOWS
    )


def _carried(now: Taken, visible: dict[str, frozenset[int]]) -> dict[str, set[int]]:
    """For each step the sizes in which it, or anything built on it, moves by a mark."""
    carried: dict[str, set[int]] = defaultdict(set)
    for key, sizes in visible.items():
        for step in now.steps[key]:
            carried[step] |= sizes
    plan = now.worked.plan.steps
    for key in reversed(plan):  # in working order a step comes after what it needs
        for name in names_in(plan[key].expression):
            carried[name.key] |= carried[key]
    return carried
