"""Measures in a text: ``16 inches``, ``7½"``, ``40 × 60 cm``, ``5–7 cm``, ``a metre and a half``, ``5 ft 4 in``.

Each token is looked at from a bounded number of places, so that reading is linear in the text.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from chalkfold.amounts.kinds import Kind
from chalkfold.amounts.units import Unit
from chalkfold.stale.counting import Count, Counting
from chalkfold.stale.lexing import tokens_of
from chalkfold.stale.words import Words

Form = Literal["one", "range", "product"]

MOST_PARTS = 3
TAPE_MARKS = 4.2
"""Half of 5 mm and half of 1/8 in, in mm."""
INCH, METRE = "in", "m"
_FEET = ("'", "’", "′")
_BETWEEN_SYSTEMS = re.compile(r" ?(?P<open>\()? ?(?:[/=≈~]|or|about|approx\.?|ca\.?)?(?: about)? ?")


@dataclass(frozen=True, slots=True)
class Measure:
    """``value`` in mm or mm², and ``step``: by how much the last place, as it is written, goes on."""

    value: float
    step: float
    unit: Unit


@dataclass(frozen=True, slots=True)
class Typed:
    """A measure from ``start`` to ``end`` of a text: one, the ends of a range, or the sides of a product."""

    start: int
    end: int
    form: Form
    parts: tuple[Measure, ...]
    about: bool = False


@dataclass(frozen=True, slots=True)
class _Sized:
    """A number, in mm where it has a unit, that ends before token ``end``."""

    value: Fraction
    step: Fraction
    unit: Unit | None
    end: int


def measures_in(text: str, words: Words) -> list[Typed]:
    """Every measure of ``text``, in order. One given in both systems, ``40 cm (15¾ in)``, counts as one."""
    reader = _Measuring(tokens_of(text), words)
    found: list[Typed] = []
    at = 0
    while at < len(reader.tokens):
        typed, at = reader.typed(at)
        if typed is not None:
            found.append(typed)
    return _joined(found, text)


class _Measuring(Counting):
    """Reads measures among the tokens of a text."""

    def typed(self, at: int) -> tuple[Typed | None, int]:
        """The measure that begins at a token, if one does, and the token to go on from."""
        first = None if self._belongs_to_what_is_before(at) else self._sized(at, at)
        if first is None:
            return None, at + 1
        members, form = self._members(first, at)
        if not members or not all(each.value for each in members):
            return None, max(at + 1, first.end)
        unit, parts = members[-1].unit, []
        for each in reversed(members):
            unit = each.unit or unit
            assert unit is not None, "the last of them has one"
            size = Fraction(1) if each.unit else unit.size
            parts.append(Measure(float(each.value * size), float(each.step * size), unit))
        end = members[-1].end
        so = self.is_in(end, "range") and self.is_in(end + 1, "or so")
        start, stop = self.tokens[at].start, self.tokens[end - 1].end
        return Typed(start, stop, form, tuple(reversed(parts)), so or self._about(at)), end

    def _members(self, first: _Sized, start: int) -> tuple[list[_Sized], Form]:
        """What ``to`` or ``×`` joins; a number without a unit has that of the next."""
        members, form = [first], "one"
        while len(members) < (2 if form == "range" else MOST_PARTS):
            joined, at = self._joiner(members[-1].end, start)
            following = self._sized(at, start, sure=joined == "product") if joined and form in ("one", joined) else None
            if following is None:
                break
            members.append(following)
            form = joined
        while members and members[-1].unit is None:
            members.pop()
        return members, ("one" if len(members) == 1 else "product" if form == "product" else "range")

    def _joiner(self, at: int, start: int) -> tuple[str, int]:
        token = self.token(at)
        is_range = token.kind == "dash" or self.is_in(at, "range")
        if is_range or (self.is_in(at, "and") and self.is_in(start - 1, "between")):
            return "range", at + 1
        return ("product", at + 1) if token.kind == "times" or self.is_in(at, "product") else ("", at)

    def _sized(self, at: int, start: int, sure: bool = False) -> _Sized | None:
        """A number with its unit, if it has one, and what is added to it: ``and a half``, ``5 ft 4 in``."""
        count = self.count(at)
        if count is None:
            return None
        unit, end = self._unit(count, start, sure)
        if unit is None:
            return None if count.alone else _Sized(count.value, count.step, None, count.end)
        value, step = count.value * unit.size, count.step * unit.size
        if count.step == 1 and (part := self.and_part(end)):
            return _Sized(value + part.value * unit.size, part.step * unit.size, unit, part.end)
        smaller = self._smaller(end, unit) if count.step == 1 else None
        if smaller is not None:
            return _Sized(value + smaller.value, smaller.step, smaller.unit, smaller.end)
        if unit.sign == "ft" and self.token(end - 1).text in _FEET and self.token(end - 1).text != "′":
            return None  # 5' alone may be the end of a quotation
        return _Sized(value, step, unit, end)

    def _smaller(self, at: int, unit: Unit) -> _Sized | None:
        """The inches behind feet, the centimetres behind metres."""
        at += 1 if self.is_in(at, "and") else 0
        count = self.count(at)
        smaller, end = (None, at) if count is None or count.alone else self._unit(count, at, sure=True)
        if count is None or smaller is None or smaller.system != unit.system or smaller.kind is not Kind.LENGTH:
            return None
        value = count.value * smaller.size
        return _Sized(value, count.step * smaller.size, smaller, end) if value < unit.size > smaller.size else None

    def _unit(self, count: Count, start: int, sure: bool) -> tuple[Unit | None, int]:
        """The unit behind a number, and where it ends."""
        at = count.end + (1 if self.is_hyphen(count.end) else 0)
        token = self.token(at)
        if token.kind == "mark":
            return (None, at) if token.gap or count.alone else (self.words.marks.get(token.text), at + 1)
        if token.kind != "word":
            return None, at
        unit, end = self._unit_word(at)
        if unit is None or (unit.sign == METRE and token.text == "M"):
            return None, at
        if token.text.casefold() == INCH and token.text != INCH and not sure:
            return None, at
        if count.alone and (self.is_in(at, "not alone") or self.is_in(end, "tools")):
            return None, at
        if count.spoken and token.word == INCH:
            return None, at
        if token.word == INCH and not sure and not self._is_inches(count, at, end, start):
            return None, at
        return unit, end

    def _unit_word(self, at: int) -> tuple[Unit | None, int]:
        token, following = self.token(at), self.token(at + 1)
        if self.words.is_one(token.word, "square"):
            stop = 1 if following.text == "." else 0
            return self.words.units.get(f"{token.word} {self.token(at + 1 + stop).word}"), at + 2 + stop
        if following.text == "2" and not following.gap:
            return self.words.units.get(f"{token.word}2"), at + 2
        if following.kind in ("number", "fraction") and not following.gap:
            return None, at
        return self.words.units.get(token.word), at + 1

    def _is_inches(self, count: Count, at: int, end: int, start: int) -> bool:
        """Whether the word ``in`` is the unit: ``2 in wide``, not ``2 in main``."""
        if self.is_in(start - 1, "names before"):
            return False
        following, written = self.token(end), self.token(at)
        if not count.bare or not written.gap:
            return True
        if following.kind == "word":
            after_article = self.is_in(start - 1, "articles")
            return self.is_in(end, "after in") or (after_article and not self.is_in(end, "articles"))
        if following.text == "," and self.token(end + 1).kind == "number":  # 2 in, 1 out
            return self._unit_word(end + 2)[0] is not None
        if self.is_hyphen(end) and self.token(end + 1).kind == "word":  # in-between
            return self.is_in(end + 1, "after in")
        return following.kind in ("dash", "times") or following.text in ("", ".", ",", ";", ":", ")", "!", "?", "(")

    def _belongs_to_what_is_before(self, at: int) -> bool:
        """``A4``, ``12:30``, ``per 10 cm``: the number is part of something else."""
        token, before = self.token(at), self.token(at - 1)
        if self.is_in(at - 1, "per"):
            return True
        if token.gap or before.text in ("", "(", "[", "~", "≈", "“", '"', "‘", "'", ","):
            return False
        if before.kind == "dash":
            return not before.gap and self.token(at - 2).kind in ("word", "number", "fraction")
        return before.kind in ("word", "number", "fraction", "sign") or before.text in (".", ":", "/", "#", "№", "\\")

    def _about(self, at: int) -> bool:
        before = at - 1 - (self.token(at - 1).text == ".")
        return self.is_in(before, "about") or self.token(at - 1).text in ("~", "≈")


def _joined(found: list[Typed], text: str) -> list[Typed]:
    """A measure followed by the same in the other system becomes one with it."""
    joined: list[Typed] = []
    for each in found:
        before = joined[-1] if joined else None
        between = before and _BETWEEN_SYSTEMS.fullmatch(text, before.end, each.start)
        if before and between and _is_same(before, each):
            end = each.end + (1 if between["open"] and text.startswith(")", each.end) else 0)
            finer = min(before, each, key=lambda typed: typed.parts[0].step)
            joined[-1] = replace(finer, start=before.start, end=end, about=before.about or each.about)
        else:
            joined.append(each)
    return joined


def _is_same(one: Typed, other: Typed) -> bool:
    """Whether two measures are one length in two systems."""
    if len(one.parts) != len(other.parts) or one.parts[0].unit.system == other.parts[0].unit.system:
        return False
    pairs = zip(one.parts, other.parts, strict=True)
    return all(abs(a.value - b.value) <= _apart(a, b) for a, b in pairs)


def _apart(one: Measure, other: Measure) -> float:
    """By how much one length can differ when each system is rounded for itself, to what is written or to a tape."""
    written = min((one.step + other.step) / 2, one.value / 10)
    on_tape = min(TAPE_MARKS, one.value / 2) if one.unit.kind is Kind.LENGTH else 0.0
    return max(written, on_tape)
