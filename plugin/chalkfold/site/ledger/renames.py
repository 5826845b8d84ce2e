"""Which number, size or post of the ledger is which of today's: recognised, told, or asked about."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from difflib import SequenceMatcher

from chalkfold.diagnostics import Faults, Source, Span
from chalkfold.formula import key_of, parse
from chalkfold.plan import names_in
from chalkfold.reading import Text
from chalkfold.site.ledger.compare import Pairs
from chalkfold.site.ledger.records import Number, PostRecord, same

ALIKE = 0.6
"""From this likeness of their names two may be one thing, and the writer is asked."""

_WORD = re.compile(r"\w+")

SAME_POST = 0.5
"""So large a part of the numbers of a post that is gone, equal in a new one, makes it the same post."""

SIZE, POST = "size", "post"


@dataclass(frozen=True, slots=True)
class Told:
    """What the writer says was renamed: old → new, by key; an empty new name says that the old one is really gone.

    ``used`` collects the old names that fitted something.
    """

    numbers: Mapping[str, str] = field(default_factory=dict)
    sizes: Mapping[str, str] = field(default_factory=dict)
    posts: Mapping[str, str] = field(default_factory=dict)
    used: set[str] = field(default_factory=set)

    @staticmethod
    def of(answers: Iterable[str]) -> Told:
        """Read ``old=new``, ``size old=new`` and ``post old=new``. Raises ValueError with one that is none of them."""
        told = Told({}, {}, {})
        for answer in answers:
            old, sign, new = (part.strip() for part in answer.partition("="))
            if not (old and sign):
                raise ValueError(answer)
            word, _, rest = old.partition(" ")
            table = {SIZE: told.sizes, POST: told.posts}.get(word if rest else "", told.numbers)
            assert isinstance(table, dict)
            table[key_of(rest if table is not told.numbers else old)] = key_of(new)
        return told


@dataclass(frozen=True, slots=True)
class Question:
    """Two names in a post that may be one thing. ``what`` is ``size``, ``post``, or empty for a number."""

    post: str
    what: str
    old: str
    new: str

    @property
    def answer(self) -> str:
        """What to write behind ``--renamed`` for yes."""
        return f"{self.what} {self.old}={self.new}".strip()


Likeness = Callable[[str, str], float]
"""How alike an old and a new one are: 0 where they are not one thing."""


def _matched(gone: list[str], new: list[str], alike: Likeness) -> dict[str, str]:
    """Pairs of what is most alike, each once; of equals the first in order of spelling."""
    ways = sorted((-found, a, b) for a in gone for b in new if (found := alike(a, b)) > 0)
    pairs: dict[str, str] = {}
    for _, a, b in ways:
        if a not in pairs and b not in pairs.values():
            pairs[a] = b
    return pairs


def _as_told(gone: list[str], new: list[str], answers: Mapping[str, str], told: Told) -> dict[str, str]:
    """Pairs that the writer told, and an empty name for what he says is gone. What is settled leaves both lists."""
    found: dict[str, str] = {}
    for old, now in answers.items():
        if old in gone and (not now or now in new):
            found[old] = now
            told.used.add(old)
    gone[:] = [each for each in gone if each not in found]
    new[:] = [each for each in new if each not in found.values()]
    return found


def _spelling(one: str, other: str) -> float:
    return SequenceMatcher(None, one, other, autojunk=False).ratio()


def _likeness(one: str, other: str) -> float:
    """Of two names: that of their spellings, and enough to ask where all words of one stand in the other."""
    words, others = ({*_WORD.findall(each)} for each in (one, other))
    within = bool(words and others) and (words <= others or others <= words)
    return max(_spelling(one, other), ALIKE if within else 0.0)


def pair(old: PostRecord, new: PostRecord, told: Told) -> tuple[Pairs, list[Question]]:
    """Pair the sizes and numbers of a post; what may be one thing and is not clear, is asked."""
    sizes, asked = _sizes(old, new, told)
    was, now = ({key_of(label): number for number, label in enumerate(each.sizes)} for each in (old, new))
    numbers, questions = _numbers(old, new, told, [(was[a], now[b]) for a, b in sizes.items()])
    labels = {label: new.sizes[now[sizes[key_of(label)]]] for label in old.sizes if key_of(label) in sizes}
    renamed = tuple((a, b) for a, b in labels.items() if key_of(a) != key_of(b))
    return Pairs(labels, numbers, renamed), [*asked, *questions]


def _numbers(
    old: PostRecord, new: PostRecord, told: Told, columns: list[tuple[int, int]]
) -> tuple[dict[str, str], list[Question]]:
    """``columns`` are the places of each size, before and now."""
    gone, fresh = _without(old.numbers, new.numbers), _without(new.numbers, old.numbers)
    pairs = {key: key for key in old.numbers if key in new.numbers}
    pairs |= _as_told(gone, fresh, told.numbers, told)
    found = _matched(gone, fresh, lambda a, b: _same_number(old.numbers[a], new.numbers[b], columns))
    left, rest = _without(gone, found), _without(fresh, found.values())
    unclear = _matched(left, rest, lambda a, b: _maybe(old.numbers[a], new.numbers[b]))
    asked = [Question(new.name, "", old.numbers[a].name, new.numbers[b].name) for a, b in unclear.items()]
    return {**pairs, **found}, asked


def _maybe(old: Number, new: Number) -> float:
    """A formula that is shown without a name is kept under its own words, and nobody is asked about it."""
    named = old.name != old.formula and new.name != new.formula
    like = _likeness(old.key, new.key)
    return like if named and old.kind is new.kind and like >= ALIKE else 0.0


def _without(keys: Iterable[str], others: Iterable[str]) -> list[str]:
    known = set(others)
    return [key for key in keys if key not in known]


def _sizes(old: PostRecord, new: PostRecord, told: Told) -> tuple[dict[str, str], list[Question]]:
    was, now = [key_of(each) for each in old.sizes], [key_of(each) for each in new.sizes]
    if len(was) == len(now) == 1:  # the only size is that of today, whatever it is called
        return {was[0]: now[0]}, []
    gone, fresh = _without(was, now), _without(now, was)
    pairs = {each: each for each in was if each in now}
    pairs |= {a: b for a, b in _as_told(gone, fresh, told.sizes, told).items() if b}
    found = _matched(gone, fresh, lambda a, b: _same_column(old, was.index(a), new, now.index(b)))
    unclear = {
        a: b
        for a, b in zip(gone, fresh, strict=False)
        if a not in found and b not in found.values() and was.index(a) == now.index(b)
    }
    asked = [Question(new.name, SIZE, old.sizes[was.index(a)], new.sizes[now.index(b)]) for a, b in unclear.items()]
    return {**pairs, **found}, asked


def _same_column(old: PostRecord, was: int, new: PostRecord, now: int) -> float:
    """Whether every number that differs by size has the same value in two sizes."""
    by_size = [key for key in old.numbers if key in new.numbers and len(old.numbers[key].values) > 1]
    equal = (same(old.numbers[key].at(was), new.numbers[key].at(now), new.numbers[key].kind) for key in by_size)
    return 1.0 if by_size and all(equal) else 0.0


def _same_number(old: Number, new: Number, columns: list[tuple[int, int]]) -> float:
    """Two numbers are one where their values are equal in all sizes, or the formula is, if it says more than an
    amount. The likeness of the names decides among several.
    """
    if old.kind is not new.kind:
        return 0.0
    values = bool(columns) and all(same(old.at(was), new.at(now), new.kind) for was, now in columns)
    formula = bool(old.formula) and old.formula == new.formula and _names_something(old.formula)
    return 2.0 * formula + values + _spelling(old.key, new.key) / 2 if values or formula else 0.0


def _names_something(formula: str) -> bool:
    expression = parse(Text(formula, Span(Source("", formula), 0, len(formula))), Faults())
    return expression is not None and any(True for _ in names_in(expression))


def pair_posts(
    old: Mapping[str, PostRecord], new: Mapping[str, PostRecord], told: Told
) -> tuple[dict[str, str], list[Question]]:
    """Which released post is which of today's, by the last part of the address."""
    gone, fresh = _without(sorted(old), new), _without(sorted(new), old)
    pairs = {name: name for name in old if name in new}
    settled = _as_told(gone, fresh, told.posts, told)
    found = _matched(gone, fresh, lambda a, b: _same_post(old[a], new[b]))
    left, rest = _without(gone, found), _without(fresh, found.values())
    unclear = _matched(left, rest, lambda a, b: like if (like := _likeness(a, b)) >= ALIKE else 0.0)
    asked = [Question(a, POST, a, b) for a, b in unclear.items()]
    return {**pairs, **{a: b for a, b in settled.items() if b}, **found}, asked


def _same_post(old: PostRecord, new: PostRecord) -> float:
    if old.file == new.file:
        return 2.0
    equal = sum(_equal(number, new.numbers.get(key)) for key, number in old.numbers.items())
    part = equal / len(old.numbers) if old.numbers else 0.0
    return part if part >= SAME_POST else 0.0


def _equal(old: Number, new: Number | None) -> bool:
    if new is None or old.kind is not new.kind or len(old.values) != len(new.values):
        return False
    return all(same(a, b, new.kind) for a, b in zip(old.values, new.values, strict=True))


def unused(told: Told) -> Iterator[str]:
    """Old names that the writer told of and that nothing in the ledger has lost."""
    for table in (told.numbers, told.sizes, told.posts):
        yield from (old for old in table if old not in told.used)
