"""What differs between a post as last released and as it is now. Nothing is lost: what is gone or new is told too."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from chalkfold.formula import key_of
from chalkfold.site.ledger.records import BY_SIZE, Cell, Number, PostRecord, same


class What(StrEnum):
    """What happened to a number."""

    CHANGED = "changed"
    FORMULA = "another formula, the same values"
    PRINTED = "printed to another mark"
    RENAMED = "renamed?"
    GONE = "gone"
    NEW = "new"


@dataclass(frozen=True, slots=True)
class Moved:
    """A value in one size, before and after; ``size`` is its index among the sizes of today."""

    size: int
    old: Cell
    new: Cell


@dataclass(frozen=True, slots=True)
class Change:
    """One number that differs. ``moved`` are the sizes in which its value does; ``renamed`` that its name does too."""

    what: What
    old: Number | None
    new: Number | None
    moved: tuple[Moved, ...] = ()
    renamed: bool = False

    @property
    def either(self) -> Number:
        found = self.new or self.old
        assert found is not None, "a change is of something"
        return found

    @property
    def redefined(self) -> bool:
        """Whether the number itself was mended, and not only one it is made from."""
        if self.old is None or self.new is None:
            return True
        typed = self.new.formula == BY_SIZE and self.what is What.CHANGED
        return typed or (self.old.formula, self.old.where) != (self.new.formula, self.new.where)


@dataclass(frozen=True, slots=True)
class Pairs:
    """Which size, and which number, of the ledger is which one of today: old → new, numbers by key."""

    sizes: Mapping[str, str]
    numbers: Mapping[str, str]
    renamed_sizes: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class PostChange:
    """All that differs in one post. ``old`` is None for a new post, ``new`` for one that is gone."""

    old: PostRecord | None
    new: PostRecord | None
    numbers: tuple[Change, ...] = ()
    sizes_renamed: tuple[tuple[str, str], ...] = ()
    sizes_gone: tuple[str, ...] = ()
    sizes_new: tuple[str, ...] = ()

    @property
    def post_renamed(self) -> bool:
        return self.old is not None and self.new is not None and self.old.name != self.new.name

    @property
    def differs(self) -> bool:
        gone_or_new = self.old is None or self.new is None
        return bool(gone_or_new or self.post_renamed or self.numbers or self._sizes_differ)

    @property
    def _sizes_differ(self) -> bool:
        return bool(self.sizes_renamed or self.sizes_gone or self.sizes_new)


def compare(old: PostRecord, new: PostRecord, pairs: Pairs) -> PostChange:
    """Hold a post against its record; ``pairs`` says what was only renamed."""
    now = {key_of(label): number for number, label in enumerate(new.sizes)}
    columns = {now[key_of(pairs.sizes[each])]: i for i, each in enumerate(old.sizes) if each in pairs.sizes}
    told = set(pairs.sizes)
    return PostChange(
        old,
        new,
        tuple(sorted(_numbers(old, new, pairs, columns), key=_mended_first)),
        pairs.renamed_sizes,
        tuple(label for label in old.sizes if label not in told),
        tuple(label for number, label in enumerate(new.sizes) if number not in columns),
    )


def _mended_first(change: Change) -> tuple[bool, str]:
    return not change.redefined, change.either.key


def _numbers(old: PostRecord, new: PostRecord, pairs: Pairs, columns: Mapping[int, int]) -> Iterator[Change]:
    for key, before in old.numbers.items():
        after = new.numbers.get(pairs.numbers.get(key, ""))
        if after is None:
            yield Change(What.GONE, before, None)
        elif (change := _change(before, after, columns)) is not None:
            yield change
    for key in _without(new.numbers, pairs.numbers.values()):
        yield Change(What.NEW, None, new.numbers[key])


def _without(keys: Iterable[str], others: Iterable[str]) -> list[str]:
    known = set(others)
    return [key for key in keys if key not in known]


def _change(old: Number, new: Number, columns: Mapping[int, int]) -> Change | None:
    """``columns`` says which size of old a size of today was."""
    moved = tuple(
        Moved(size, old.at(was), new.at(size))
        for size, was in sorted(columns.items())
        if old.kind is not new.kind or not same(old.at(was), new.at(size), new.kind)
    )
    renamed = old.key != new.key
    if moved:
        return Change(What.CHANGED, old, new, moved, renamed)
    if renamed:
        return Change(What.RENAMED, old, new, renamed=True)
    if (old.formula, old.where) != (new.formula, new.where):
        return Change(What.FORMULA, old, new)
    return Change(What.PRINTED, old, new) if old.printed != new.printed else None
