"""The printed form: canonical spelling, fewest brackets, and it parses back to the same expression."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import IntEnum

from chalkfold.formula.expression import Apply, BySize, Expression, Literal, Name
from chalkfold.formula.walking import fold, parts_of

BARE_NUMBER = re.compile(r"\d+(\.\d+)?|pi")
"""Literals that may stand before ``^`` without brackets: in ``2 cm^2`` it is not clear what is raised."""


class Level(IntEnum):
    """How tightly an operator holds its operands, loosest first."""

    IF = 0
    OR = 1
    AND = 2
    NOT = 3
    COMPARE = 4
    SUM = 5
    PRODUCT = 6
    NEG = 7
    OF = 8
    POWER = 9
    ATOM = 10


COMPARISONS = ("=", "!=", "<", "<=", ">", ">=")

BINARY: dict[str, tuple[Level, Level, Level]] = {
    "or": (Level.OR, Level.OR, Level.AND),
    "and": (Level.AND, Level.AND, Level.NOT),
    **dict.fromkeys(COMPARISONS, (Level.COMPARE, Level.SUM, Level.SUM)),
    "+": (Level.SUM, Level.SUM, Level.PRODUCT),
    "-": (Level.SUM, Level.SUM, Level.PRODUCT),
    "*": (Level.PRODUCT, Level.PRODUCT, Level.NEG),
    "/": (Level.PRODUCT, Level.PRODUCT, Level.NEG),
    "of": (Level.OF, Level.ATOM, Level.NEG),
    "^": (Level.POWER, Level.ATOM, Level.POWER),
}
"""Operator → its own level, and the least its left and right operands need to stand without brackets."""


FOR_READERS = {"*": "×", "<=": "≤", ">=": "≥"}
"""Operators as typed, and as printed on a page; no name holds one."""


@dataclass(frozen=True, slots=True)
class _Printed:
    """``inner`` is the level behind any minus signs; ``fraction`` tells that it begins with one (``1/4``)."""

    text: str
    level: Level
    inner: Level
    fraction: bool = False

    @property
    def bracketed(self) -> _Printed:
        return _Printed(f"({self.text})", Level.ATOM, Level.ATOM)

    def at(self, least: Level) -> _Printed:
        return self if self.level >= least else self.bracketed


def to_text(expression: Expression) -> str:
    """Print an expression as a writer would type it."""
    return fold(expression, parts_of, _print).text


def to_readers(expression: Expression) -> str:
    """Print an expression as a reader knows it from school: ``×``, ``≤``, ``≥``."""
    return for_readers(to_text(expression))


def for_readers(text: str) -> str:
    """A formula that is printed already, with a reader's operators."""
    for typed, printed in FOR_READERS.items():
        text = text.replace(f" {typed} ", f" {printed} ")
    return text


def _print(expression: Expression, parts: list[_Printed]) -> _Printed:
    if isinstance(expression, Literal):
        level = Level.NEG if expression.text.startswith("-") else Level.ATOM
        return _Printed(expression.text, level, Level.ATOM, "/" in expression.text)
    if isinstance(expression, Name):
        return _Printed(expression.name, Level.ATOM, Level.ATOM)
    if isinstance(expression, BySize):
        labels = (label for label, _ in expression.cases)
        cases = ", ".join(f"{label}: {part.text}" for label, part in zip(labels, parts, strict=True))
        return _Printed(f"{{{cases}}}", Level.ATOM, Level.ATOM)
    assert isinstance(expression, Apply)
    if expression.op in BINARY and len(parts) == 2:
        return _print_binary(expression, *parts)
    return _print_prefix(expression.op, parts)


def _print_prefix(op: str, parts: list[_Printed]) -> _Printed:
    if op == "neg":
        inner = parts[0].at(Level.NEG)
        return _Printed(f"-{inner.text}", Level.NEG, inner.inner, inner.fraction)
    if op == "not":
        return _Printed(f"not {parts[0].at(Level.NOT).text}", Level.NOT, Level.NOT)
    if op == "if":
        test, yes, no = parts
        return _Printed(f"if {test.text} then {yes.text} else {no.text}", Level.IF, Level.IF)
    return _Printed(f"{op}({', '.join(part.text for part in parts)})", Level.ATOM, Level.ATOM)


def _print_binary(expression: Apply, left: _Printed, right: _Printed) -> _Printed:
    op = expression.op
    level, least_left, least_right = BINARY[op]
    if _needs_brackets(op, expression.args[0]):
        left = left.bracketed
    if op in "/^" and right.fraction:
        right = right.bracketed
    if not (op == "^" and right.inner >= Level.POWER):
        right = right.at(least_right)
    left = left.at(least_left)
    sign = {"^": "^", "!=": " ≠ "}.get(op, f" {op} ")
    return _Printed(f"{left.text}{sign}{right.text}", level, level, left.fraction)


def _needs_brackets(op: str, left: Expression) -> bool:
    """``(a) of b`` multiplies where ``a of b`` is a name; ``2 cm^2`` could be read two ways."""
    if op == "of":
        return isinstance(left, Name)
    return op == "^" and isinstance(left, Literal) and not BARE_NUMBER.fullmatch(left.text)
