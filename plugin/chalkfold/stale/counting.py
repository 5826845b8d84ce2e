"""Numbers as prose has them: ``7 1/2``, ``7½``, ``twenty-five``, ``three quarters of``, ``two and a half``."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction

from chalkfold.amounts.numbers import SLASHES, VULGAR
from chalkfold.stale.lexing import NOTHING, Token
from chalkfold.stale.words import Words

LONGEST = 9
PARTS = frozenset({2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 16, 32, 64})
"""What a tape or a maker divides by; 80/12 is a needle."""
_SLASH = re.compile(f"[{SLASHES}]")
_WHOLE, _POINT, _THOUSANDS = (re.compile(each) for each in ("[0-9]+", r"[0-9]*[.,][0-9]+", "[1-9][0-9]{0,2},[0-9]{3}"))


@dataclass(frozen=True, slots=True)
class Count:
    """A number that ends before token ``end``. ``step`` is that of its last place: 1, 1/10, 1/8 …

    ``bare`` is a whole number in figures, or the article of ``a metre``.
    """

    value: Fraction
    step: Fraction
    end: int
    bare: bool = False
    alone: bool = False
    """One, or an article: ``a metre``."""
    spoken: bool = False
    """In words, behind which ``in`` is never a unit."""


class Counting:
    """Reads numbers among the tokens of a text."""

    def __init__(self, tokens: list[Token], words: Words) -> None:
        self.tokens, self.words = tokens, words

    def token(self, at: int) -> Token:
        return self.tokens[at] if 0 <= at < len(self.tokens) else NOTHING

    def is_in(self, at: int, *sets: str) -> bool:
        """Whether the token at ``at`` is a word of one of these lists."""
        token = self.token(at)
        return token.kind == "word" and self.words.is_one(token.word, *sets)

    def count(self, at: int) -> Count | None:
        """The number that begins at token ``at``."""
        token = self.token(at)
        match token.kind:
            case "fraction" | "sign":
                part = self._part(at)
                return None if part is None else self._of(part)
            case "number":
                number = _figures(token.text)
                if number is None:
                    return None
                whole = Count(*number, at + 1, bare=number[1] == 1)
                return self._with_part(whole)
            case "word":
                spoken = self._in_words(at)
                return None if spoken is None else replace(spoken, spoken=True)
        return None

    def _in_words(self, at: int) -> Count | None:
        word, one = self.token(at).word, Fraction(1)
        if self.is_in(at, "part alone"):  # half an inch
            part = Fraction(1, self.words.parts[word])
            return self._of(Count(part, part, at + 1))
        if self.is_in(at, "articles"):
            return self._parts(Count(one, one, at + 1, bare=True, alone=True))
        if word in self.words.numbers:
            value = Fraction(self.words.numbers[word])
            return self._with_part(Count(value, one, at + 1, alone=value == 1))
        if word in self.words.tens:
            return self._with_part(self._tens(at, Fraction(self.words.tens[word])))
        return None

    def _tens(self, at: int, value: Fraction) -> Count:
        """``twenty``, ``twenty-five``, ``twenty five``."""
        unit = at + 1 + self.is_hyphen(at + 1)
        more = self.words.numbers.get(self.token(unit).word, 10)
        return Count(value + more, Fraction(1), unit + 1) if more < 10 else Count(value, Fraction(1), at + 1)

    def is_hyphen(self, at: int) -> bool:
        token = self.token(at)
        return token.kind == "dash" and not token.gap and not self.token(at + 1).gap

    def _with_part(self, whole: Count) -> Count:
        """``7 1/2``, ``7-1/2``, ``7½``, ``7 and a half``, or ``three quarters of``."""
        if whole.step == 1:
            part = self._part(whole.end + self.is_hyphen(whole.end))
            part = part or self.and_part(whole.end)
            if part is not None:
                return Count(whole.value + part.value, part.step, part.end)
        return self._parts(whole)

    def and_part(self, at: int) -> Count | None:
        """``and a half``, ``-and-a-half``, ``and three quarters``, ``and 1/2``."""
        at += self.is_hyphen(at)
        if not self.is_in(at, "and"):
            return None
        at += 1 + self.is_hyphen(at + 1)
        many = 1
        if self.is_in(at, "articles") or (self.token(at).word in self.words.numbers and self.token(at).kind == "word"):
            many = self.words.numbers.get(self.token(at).word, 1)
            at += 1 + self.is_hyphen(at + 1)
        elif part := self._part(at):
            return part
        below = self.words.parts.get(self.token(at).word)
        return None if below is None or many >= below else Count(Fraction(many, below), Fraction(1, below), at + 1)

    def _parts(self, many: Count) -> Count:
        """``three quarters of an inch``, ``a half inch``: a number of parts; else the number itself."""
        at = many.end + self.is_hyphen(many.end)
        below = self.words.parts.get(self.token(at).word)
        if below is None or many.value > 3 * below:
            return many
        return self._of(Count(many.value / below, Fraction(1, below), at + 1))

    def _of(self, part: Count) -> Count:
        """``of an`` behind a part, ``a`` in ``half a metre``."""
        end = part.end + (1 if self.is_in(part.end, "of") else 0)
        end += 1 if self.is_in(end, "articles") else 0
        return Count(part.value, part.step, end)

    def _part(self, at: int) -> Count | None:
        """``1/2`` or ``½``."""
        token = self.token(at)
        if token.kind == "sign":
            value = VULGAR[token.text]
        elif token.kind == "fraction":
            above, below = (int(each) for each in _SLASH.split(token.text))
            if below not in PARTS or not 0 < above < below * 4:
                return None
            value = Fraction(above, below)
            return Count(value, Fraction(1, below), at + 1)
        else:
            return None
        return Count(value, Fraction(1, value.denominator), at + 1)


def _figures(text: str) -> tuple[Fraction, Fraction] | None:
    """A number in figures and the step of its last place; ``1,5`` has a decimal comma, ``1,500`` thousands."""
    if len(text) > LONGEST:
        return None
    if _WHOLE.fullmatch(text) or _THOUSANDS.fullmatch(text):
        return Fraction(text.replace(",", "")), Fraction(1)
    if not _POINT.fullmatch(text):
        return None
    places = len(re.split("[.,]", text)[1])
    return Fraction(text.replace(",", ".") if text[0] != "." else f"0{text}"), Fraction(1, 10**places)
