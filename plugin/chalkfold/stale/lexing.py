"""A text in its smallest parts: numbers, fractions, words, inch marks. One pass, linear in the text."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from chalkfold.amounts.numbers import SLASHES, VULGAR

Kind = Literal["fraction", "number", "sign", "word", "mark", "dash", "times", "other"]

_SIGNS = "".join(VULGAR)
_TOKEN = re.compile(
    rf"(?P<fraction>[0-9]{{1,3}}[{SLASHES}][0-9]{{1,3}}(?![0-9{SLASHES}]))"
    r"|(?P<number>[0-9]++(?:[.,][0-9]++)*+|\.[0-9]++)"
    rf"|(?P<sign>[{_SIGNS}])"
    rf"|(?P<word>[^\W\d_{_SIGNS}]++)"
    r"|(?P<mark>''|′′|’’|[\"″”'′’])"
    r"|(?P<dash>[-‐‑–—−])"
    r"|(?P<times>[×*])"
    r"|(?P<other>\S)"
)
_OPENING = re.compile(r"(?<![^\s(\[–—-])[\"“](?=\S)")


@dataclass(frozen=True, slots=True)
class Token:
    """``word`` is the text case-folded; ``gap`` says that white space stands before it."""

    kind: Kind
    text: str
    word: str
    start: int
    end: int
    gap: bool


NOTHING = Token("other", "", "", 0, 0, True)
"""Stands before the first token and behind the last."""


def tokens_of(text: str) -> list[Token]:
    """The tokens of a text; a quote mark that closes a quotation is no inch mark."""
    closing = _closing_quotes(text)
    found: list[Token] = []
    end = 0
    for match in _TOKEN.finditer(text):
        kind: Kind = match.lastgroup  # type: ignore[assignment]  # the groups are the kinds
        if kind == "mark" and match.start() in closing:
            kind = "other"
        written, start = match[0], match.start()
        found.append(Token(kind, written, written.casefold(), start, match.end(), start > end or not found))
        end = match.end()
    return found


def _closing_quotes(text: str) -> frozenset[int]:
    """Where a quotation ends: each opening mark has the next mark of its sort that could close it."""
    closing: set[int] = set()
    end = 0
    for match in _OPENING.finditer(text):
        if match.start() < end:
            continue
        at = text.find('"' if match[0] == '"' else "”", match.end())
        if at < 0:
            break
        closing.add(at)
        end = at + 1
    return frozenset(closing)
