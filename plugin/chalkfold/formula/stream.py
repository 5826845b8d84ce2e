"""The tokens of one formula, one at a time, and the faults that point at them."""

from __future__ import annotations

from chalkfold.diagnostics import Code
from chalkfold.formula import advice
from chalkfold.formula.lexer import LONGEST, Sort, Token, Trouble, tokens
from chalkfold.reading import Text


class Stream:
    """``token`` is the one to read next; ``before`` the one read last."""

    def __init__(self, text: Text) -> None:
        if len(text.value) > LONGEST:
            raise Trouble(Code.FORMULA_TOO_LONG, *advice.TOO_LONG, 0, len(text.value))
        self.text = text
        self._tokens = tokens(text.value)
        self.before = Token(Sort.END, "", 0, 0)
        self.token = next(self._tokens)

    def advance(self) -> Token:
        self.before, self.token = self.token, next(self._tokens, self.token)
        return self.before

    def at(self, sort: Sort, text: str) -> bool:
        return self.token.sort is sort and self.token.text == text

    def source(self, start: int, end: int) -> str:
        """Characters of the formula, cut short for a hint."""
        return advice.shorten(self.text.value[start:end])

    def trouble(self, token: Token, wrong: advice.Advice, code: Code = Code.FORMULA_SYNTAX) -> Trouble:
        return Trouble(code, *wrong, token.start, token.end)
