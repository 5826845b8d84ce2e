"""Trouble: what a primitive raises where a value cannot be worked out."""

from __future__ import annotations

from chalkfold.diagnostics import Code


class Trouble(Exception):
    """A value that cannot be worked out. The evaluator adds the place and the size."""

    def __init__(self, code: Code, message: str, hint: str) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.hint = hint
