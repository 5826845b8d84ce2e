"""Cuts a formula into signs, words, names and amounts."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum, auto

from chalkfold.amounts.literals import AmountTrouble, scan
from chalkfold.amounts.units import unit_words
from chalkfold.diagnostics import Code, Faults
from chalkfold.formula.expression import key_of
from chalkfold.formula.printing import COMPARISONS
from chalkfold.reading import Text

LONGEST = 2_000
RESERVED = frozenset({"of", "if", "then", "else", "and", "or", "not"})

_SIGNS = {
    **{op: op for op in (*COMPARISONS, "+", "-", "*", "/", "^", "±")},
    "+/-": "±", "+-": "±", "<>": "!=", "≠": "!=", "≤": "<=", "≥": ">=", "−": "-", "×": "*", "÷": "/",
}  # fmt: skip
_LONGEST_FIRST = sorted(_SIGNS, key=lambda sign: -len(sign))
_WRONG_SIGNS = {
    "==": "write `=` once: it compares, as in `a = b`",
    "=<": "write `<=`",
    "=>": "write `>=`",
    "**": "write `^` for a power",
    "//": "write ` / `, with a space on both sides, to divide",
    "&": "write `and`",
    "|": "write `or`",
    "!": "write `not`, or `≠` for different",
    "–": "write `-` with a space on both sides",
    "—": "write `-` with a space on both sides",
    "[": "write round brackets: `( … )`",
    "]": "write round brackets: `( … )`",
    "{": "write round brackets: `( … )`",
    "}": "write round brackets: `( … )`",
    "_": "write names as words with a space between them, as in `waist girth`",
    ";": "write a comma between the values of a function, as in `max(a, b)`",
    "%": "write a number before it, as in `85 % of waist girth`",
}


class Trouble(Exception):
    """The first fault of a formula, with its place in the formula's own characters."""

    def __init__(self, code: Code, message: str, hint: str, start: int, end: int) -> None:
        super().__init__(message)
        self.code, self.message, self.hint, self.start, self.end = code, message, hint, start, end

    def report(self, text: Text, faults: Faults) -> None:
        faults.add(self.code, self.message, text.span(self.start, self.end), self.hint)


class Sort(Enum):
    AMOUNT = auto()
    NAME = auto()
    WORD = auto()
    SIGN = auto()
    OPEN = auto()
    CLOSE = auto()
    COMMA = auto()
    END = auto()


@dataclass(frozen=True, slots=True)
class Token:
    """``text`` is the canonical spelling; it stands at ``start`` up to ``end`` of the formula."""

    sort: Sort
    text: str
    start: int
    end: int


def tokens(text: str) -> Iterator[Token]:
    """Cut one after the other, so that the fault found first is the one furthest left. Raises Trouble."""
    at = _skip_space(text, 0)
    while at < len(text):
        token = _token(text, at)
        yield token
        at = _skip_space(text, token.end)
    yield Token(Sort.END, "", len(text), len(text))


def _token(text: str, at: int) -> Token:
    character = text[at]
    if bracket := {"(": Sort.OPEN, ")": Sort.CLOSE, ",": Sort.COMMA}.get(character):
        return Token(bracket, character, at, at + 1)
    if is_letter(character):
        return _words(text, at)
    for wrong, hint in _WRONG_SIGNS.items():
        if text.startswith(wrong, at):
            raise Trouble(Code.FORMULA_SYNTAX, f"`{wrong}` means nothing here", hint, at, at + len(wrong))
    for sign in _LONGEST_FIRST:
        if text.startswith(sign, at):
            return Token(Sort.SIGN, _SIGNS[sign], at, at + len(sign))
    return _amount(text, at)


def _amount(text: str, at: int) -> Token:
    try:
        scanned = scan(text, at)
    except AmountTrouble as trouble:
        raise Trouble(trouble.code, trouble.message, trouble.hint, trouble.start, trouble.end) from None
    if scanned is not None:
        return Token(Sort.AMOUNT, text[at : scanned.end], at, scanned.end)
    hint = "write names, amounts such as `12 cm`, and the signs + - * / ^ ( )"
    shown = text[at] if text[at].isprintable() else f"U+{ord(text[at]):04X}"
    raise Trouble(Code.FORMULA_SYNTAX, f"`{shown}` means nothing here", hint, at, at + 1)


def _words(text: str, at: int) -> Token:
    end = word_end(text, at)
    key = key_of(text[at:end])
    if key in RESERVED or key == "pi":
        return Token(Sort.WORD, key, at, end)
    end = name_end(text, at)
    return Token(Sort.NAME, " ".join(text[at:end].split()), at, end)


def name_end(text: str, at: int) -> int:
    """Where the name that starts at ``at`` ends: words, and after the first also bare whole numbers."""
    end = word_end(text, at)
    while True:
        start = _skip_space(text, end)
        stop = word_end(text, start) or _whole_number_end(text, start)
        if start == end or stop == 0 or key_of(text[start:stop]) in RESERVED | {"pi"}:
            return end
        end = stop


def word_end(text: str, at: int) -> int:
    """Where the word at ``at`` ends; 0 if none starts there. A hyphen between letters belongs to it."""
    if at >= len(text) or not is_letter(text[at]):
        return 0
    end = at
    while end < len(text):
        inside = is_letter(text[end]) or text[end].isdecimal()
        hyphen = text[end] == "-" and is_letter(text[end - 1]) and is_letter(text[end + 1 : end + 2])
        if not (inside or hyphen):
            break
        end += 1
    return end


def _whole_number_end(text: str, at: int) -> int:
    """Where a bare whole number ends; 0 if there is none, or it is the start of an amount (``2 cm``)."""
    end = at
    while end < len(text) and text[end] in "0123456789":
        end += 1
    follower = text[end : end + 1]
    if end == at or is_letter(follower) or follower.isnumeric() or (follower and follower in "./%°\"'′″”’⁄"):
        return 0
    start = _skip_space(text, end)
    follower = text[start : start + 1]
    marked = follower.isnumeric() or (follower != "" and follower in "%°")
    return 0 if marked or is_unit(text[start : word_end(text, start)]) else end


def is_unit(word: str) -> bool:
    """Whether ``word`` turns a number before it into an amount."""
    return key_of(word) in unit_words()


def is_letter(character: str) -> bool:
    """A letter, or a mark that belongs to the letter before it."""
    return character.isalpha() or (bool(character) and unicodedata.category(character).startswith("M"))


def _skip_space(text: str, at: int) -> int:
    while at < len(text) and text[at].isspace():
        at += 1
    return at
