"""Which kinds of value an operation takes and gives, and what to write where they don't fit."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.formula.expression import Apply, Expression, Literal
from chalkfold.formula.printing import to_text

NUMBERS = (Kind.PLAIN, Kind.LENGTH, Kind.AREA, Kind.ANGLE, Kind.WEIGHT)
LARGEST_EXPONENT = 8
LONGEST_SHOWN = 60

_SHOWN = {
    Kind.PLAIN: "a plain number",
    Kind.ZERO: "zero",
    Kind.LENGTH: "a length",
    Kind.AREA: "an area",
    Kind.ANGLE: "an angle",
    Kind.WEIGHT: "a weight of cloth",
    Kind.TRUTH: "a yes or no",
    Kind.SERIES: "a row of lengths",
    Kind.POINT: "a point",
    Kind.POINTS: "a row of points",
    Kind.EDGE: "an edge",
    Kind.OUTLINE: "an outline",
}
_WRITE = {
    Kind.PLAIN: "write a number without a unit, such as `3` or `1/2`",
    Kind.LENGTH: "write a length, such as `4 cm`",
    Kind.AREA: "write an area: a length times a length",
    Kind.ANGLE: "write an angle, such as `30°`",
    Kind.WEIGHT: "write a weight of cloth, such as `140 g/m²`",
    Kind.TRUTH: "write a comparison, such as `hip girth > waist girth`",
    Kind.SERIES: "write the name of a spacing",
    Kind.POINT: "write the name of a point",
    Kind.POINTS: "write a construction that finds points",
    Kind.EDGE: "write the name of an edge",
    Kind.OUTLINE: "write the name of a piece",
}


class WrongKind(Exception):
    """``at`` is the operand that does not fit; None where they don't fit together."""

    def __init__(self, message: str, hint: str, at: int | None = None) -> None:
        super().__init__(message)
        self.message, self.hint, self.at = message, hint, at


@dataclass(frozen=True, slots=True)
class Given:
    """The operands of one operation with their kinds, all known."""

    op: str
    args: tuple[Expression, ...]
    kinds: tuple[Kind, ...]

    def text(self, at: int) -> str:
        """An operand as printed, in brackets where it is more than one name or amount."""
        arg = self.args[at]
        text = to_text(arg)
        if len(text) > LONGEST_SHOWN:
            return "(…)"
        return f"({text})" if isinstance(arg, Apply) else text


Rule = Callable[[Given], Kind]


def shown(kind: Kind) -> str:
    """A kind as it stands in a message: ``a length``."""
    return _SHOWN[kind]


def fits(kind: Kind, wanted: Kind) -> bool:
    """The literal ``0`` fits every kind of number."""
    return kind is wanted or (kind is Kind.ZERO and wanted in NUMBERS)


def common(kinds: tuple[Kind, ...]) -> Kind | None:
    """The one kind that all are of, zero aside; None if they differ."""
    others = {kind for kind in kinds if kind is not Kind.ZERO}
    if len(others) > 1:
        return None
    only = next(iter(others), Kind.ZERO)
    return only if len(kinds) == 1 or all(fits(kind, only) or kind is only for kind in kinds) else None


def takes(*wanted: Kind, gives: Kind, hint: str = "", typed: bool = True) -> Rule:
    """Each operand of its own kind; the last kind stands for all that follow. One that nobody types is not named."""

    def rule(given: Given) -> Kind:
        for at, kind in enumerate(given.kinds):
            due = wanted[min(at, len(wanted) - 1)]
            if not fits(kind, due):
                due_here = f"`{given.op}` takes {shown(due)}" if typed else f"{shown(due)} is due here"
                message = f"{due_here}, and `{given.text(at)}` is {shown(kind)}"
                raise WrongKind(message, hint or _WRITE[due], at)
        return gives

    return rule


def add(given: Given) -> Kind:
    return _sum(given, "plus")


def subtract(given: Given) -> Kind:
    return _sum(given, "minus")


def _sum(given: Given, word: str) -> Kind:
    _only_numbers(given)
    if kind := common(given.kinds):
        return kind
    first, second = given.kinds
    raise WrongKind(f"{shown(first)} {word} {shown(second)}", _sum_hint(given))


def _sum_hint(given: Given) -> str:
    if Kind.PLAIN in given.kinds:
        at = given.kinds.index(Kind.PLAIN)
        arg, other, kind = given.args[at], given.text(1 - at), given.kinds[1 - at]
        if isinstance(arg, Literal) and ("%" in arg.text or "/" in arg.text):
            return f"write `{_pair(given, at, f'{arg.text} of {other}')}`"
        unit = {Kind.LENGTH: " cm", Kind.AREA: " cm²", Kind.ANGLE: "°", Kind.WEIGHT: " g/m²"}[kind]
        if isinstance(arg, Literal):
            return f"write `{_pair(given, at, arg.text + unit)}`: give {arg.text} a unit"
        product = _pair(given, at, f"{given.text(at)} * 1{unit}")
        return f"multiply the plain number by {shown(kind)}, as in `{product}`"
    if set(given.kinds) == {Kind.LENGTH, Kind.AREA}:
        at = given.kinds.index(Kind.AREA)
        side = _pair(given, at, f"sqrt({to_text(given.args[at])})")
        return f"write `{side}`, or multiply the length by another"
    return "add and take away lengths from lengths, areas from areas, angles from angles"


def _pair(given: Given, at: int, replaced: str) -> str:
    texts = [replaced if i == at else to_text(arg) for i, arg in enumerate(given.args)]
    whole = f" {given.op} ".join(texts)
    return whole if len(whole) <= 2 * LONGEST_SHOWN else f"… {given.op} {replaced}"


def multiply(given: Given) -> Kind:
    _only_numbers(given)
    first, second = given.kinds
    if Kind.ZERO in given.kinds:
        other = second if first is Kind.ZERO else first
        return Kind.ZERO if other in (Kind.PLAIN, Kind.ZERO) else other
    if Kind.PLAIN in given.kinds:
        return second if first is Kind.PLAIN else first
    if first is second is Kind.LENGTH:
        return Kind.AREA
    message = f"{shown(first)} times {shown(second)}"
    if Kind.WEIGHT in given.kinds:
        weight = given.text(given.kinds.index(Kind.WEIGHT))
        raise WrongKind(message, f"write `{weight} / (1 g/m²)` for the grams of a square metre as a plain number")
    raise WrongKind(message, "multiply by a plain number, or a length by a length for an area")


def divide(given: Given) -> Kind:
    _only_numbers(given)
    first, second = given.kinds
    if second in (Kind.PLAIN, Kind.ZERO):
        return first
    if first is second:
        return Kind.PLAIN
    if first is Kind.ZERO:
        return Kind.ZERO
    if (first, second) == (Kind.AREA, Kind.LENGTH):
        return Kind.LENGTH
    hint = f"turn it round: write `{given.text(1)} / {given.text(0)}`, or divide like by like"
    raise WrongKind(f"{shown(first)} divided by {shown(second)}", hint)


def share_of(given: Given) -> Kind:
    """``1/4 of x``: a plain number on the left."""
    first, second = given.kinds
    _only_numbers(given)
    if first in (Kind.PLAIN, Kind.ZERO):
        return second
    message = f"before `of` stands {shown(first)}, where a fraction or share is due"
    raise WrongKind(message, "write `1/4 of …` or `15 % of …`; to multiply two lengths, write `*`", 0)


def negate(given: Given) -> Kind:
    _only_numbers(given)
    return given.kinds[0]


def raise_to_power(given: Given) -> Kind:
    _only_numbers(given)
    base, exponent = given.kinds
    if not fits(exponent, Kind.PLAIN):
        raise WrongKind(f"an exponent is a plain number, and this is {shown(exponent)}", "write `x^2`", 1)
    value = _literal_value(given.args[1])
    if value is not None and abs(value) > LARGEST_EXPONENT:
        message = f"an exponent is at most {LARGEST_EXPONENT}"
        raise WrongKind(message, "write a smaller exponent, as in `x^2`", 1)
    if fits(base, Kind.PLAIN):
        return Kind.PLAIN
    if base is Kind.LENGTH and value == 2:
        return Kind.AREA
    if base is Kind.LENGTH:
        hint = f"write `{given.text(0)}^2` for an area, or divide by a length first"
        raise WrongKind("a length can be raised to the power 2 only", hint, 1)
    raise WrongKind(f"{shown(base)} has no powers", "raise a plain number, or a length to 2", 0)


def _literal_value(expression: Expression) -> float | None:
    sign = 1
    while isinstance(expression, Apply) and expression.op == "neg":
        sign, expression = -sign, expression.args[0]
    return sign * expression.value if isinstance(expression, Literal) else None


def compare(given: Given) -> Kind:
    _only_numbers(given)
    if common(given.kinds):
        return Kind.TRUTH
    first, second = given.kinds
    message = f"{shown(first)} compared with {shown(second)}"
    if Kind.PLAIN in given.kinds and isinstance(given.args[given.kinds.index(Kind.PLAIN)], Literal):
        raise WrongKind(message, _sum_hint(given))
    raise WrongKind(message, "compare lengths with lengths and plain numbers with plain numbers")


def if_else(given: Given) -> Kind:
    test, *branches = given.kinds
    if test is not Kind.TRUTH:
        raise WrongKind(f"after `if` stands {shown(test)}, where a yes or no is due", _WRITE[Kind.TRUTH], 0)
    if kind := common(tuple(branches)):
        return kind
    message = f"after `then` stands {shown(branches[0])}, and after `else` {shown(branches[1])}"
    raise WrongKind(message, "write two values of one kind: give both a unit, or neither")


def largest_or_smallest(given: Given) -> Kind:
    _only_numbers(given)
    if kind := common(given.kinds):
        return kind
    first = next(kind for kind in given.kinds if kind is not Kind.ZERO)
    at, other = next((i, k) for i, k in enumerate(given.kinds) if k not in (first, Kind.ZERO))
    plain = Kind.PLAIN in (first, other)
    hint = "give the number without a unit one, such as `4 cm`" if plain else "write values of one kind"
    raise WrongKind(f"`{given.op}` of {shown(first)} and {shown(other)}", hint, at)


def root(given: Given) -> Kind:
    kind = given.kinds[0]
    if fits(kind, Kind.PLAIN):
        return Kind.PLAIN
    if kind is Kind.AREA:
        return Kind.LENGTH
    message = f"`sqrt` takes an area or a plain number, and `{given.text(0)}` is {shown(kind)}"
    raise WrongKind(message, "write `sqrt(a * b)` with two lengths", 0)


def whole(given: Given) -> Kind:
    """Rounding to a whole number; lengths round to the tape mark."""
    kind = given.kinds[0]
    if fits(kind, Kind.PLAIN):
        return Kind.PLAIN
    hint = _WRITE[Kind.PLAIN]
    if kind is Kind.LENGTH:
        hint = f"write `marked({to_text(given.args[0])})` for the value as the tape shows it"
    raise WrongKind(f"`{given.op}` takes a plain number, and `{given.text(0)}` is {shown(kind)}", hint, 0)


def _only_numbers(given: Given) -> None:
    for at, kind in enumerate(given.kinds):
        if kind not in (*NUMBERS, Kind.ZERO):
            sign = "a minus" if given.op == "neg" else f"`{given.op}`"
            message = f"{sign} works on numbers and amounts, and `{given.text(at)}` is {shown(kind)}"
            raise WrongKind(message, "write an amount, or a name that stands for one", at)


def along_an_edge(given: Given) -> Kind:
    """An edge, how far along it (a length, or a part as a plain number), and perhaps the end to measure from."""
    due = Kind.PLAIN if given.kinds[1] is Kind.PLAIN else Kind.LENGTH
    return takes(Kind.EDGE, due, Kind.POINT, gives=Kind.POINT, typed=False)(given)
