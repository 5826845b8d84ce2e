"""Expressions as plain data, for hashing and for the interpreter in the page.

===================  =====================================================
a plain number       ``4``
any other amount     ``["amount", value in mm, mm² or degrees, kind, text]``
a name               ``["name", key]`` or ``["name", key, spelling]``
a graded number      ``["by size", [label, expression], …]``
an operation         ``[operation, operand, …]``
===================  =====================================================
"""

from __future__ import annotations

from collections.abc import Sequence

from chalkfold.amounts.kinds import Kind
from chalkfold.formula.expression import Apply, BySize, Expression, Literal, Name, plain
from chalkfold.formula.signatures import PRIMITIVES
from chalkfold.formula.walking import fold, parts_of

Data = int | float | list["Data"] | str
NOT_OPERATIONS = ("amount", "name", "by size")


def to_data(expression: Expression) -> Data:
    """Turn into numbers, texts and lists; places are dropped."""
    return fold(expression, parts_of, _to_data)


def _to_data(expression: Expression, parts: list[Data]) -> Data:
    if isinstance(expression, Literal):
        value, kind = _shortest(expression.value), expression.kind
        return value if expression == plain(value) else ["amount", value, kind.value, expression.text]
    if isinstance(expression, Name):
        key, name = expression.key, expression.name
        return ["name", key] if key == name else ["name", key, name]
    if isinstance(expression, BySize):
        return ["by size", *([label, part] for (label, _), part in zip(expression.cases, parts, strict=True))]
    assert isinstance(expression, Apply)
    return [expression.op, *parts]


def _shortest(value: float) -> int | float:
    return int(value) if value.is_integer() else value


def from_data(data: Data) -> Expression:
    """Turn back. Raises ValueError for anything that ``to_data`` does not make."""
    return fold(data, _parts, _from_data)


def _parts(data: Data) -> Sequence[Data]:
    if not isinstance(data, list) or not data or data[0] in ("amount", "name"):
        return ()
    if data[0] == "by size":
        return [case[1] for case in data[1:] if isinstance(case, list) and len(case) == 2]
    return data[1:]


def _from_data(data: Data, parts: list[Expression]) -> Expression:
    match data:
        case bool():
            pass
        case int() | float():
            return plain(data)
        case ["amount", int() | float() as value, str(kind), str(text)]:
            return Literal(float(value), Kind(kind), text)
        case ["name", str(), *_]:
            return Name(str(data[-1]))
        case ["by size", *cases] if cases and len(cases) == len(parts):
            labels = [str(case[0]) for case in cases if isinstance(case, list)]
            return BySize(tuple(zip(labels, parts, strict=True)))
        case [str(op), *_] if op in PRIMITIVES and PRIMITIVES[op].takes(len(parts)):
            return Apply(op, tuple(parts))
    raise ValueError("not an expression")
