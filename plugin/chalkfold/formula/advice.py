"""What is wrong with a formula and what to write instead, in the writer's words."""

from __future__ import annotations

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import near
from chalkfold.formula.expression import Expression, Literal, key_of
from chalkfold.formula.lexer import Sort, Token
from chalkfold.formula.signatures import PRIMITIVES, Primitive

Advice = tuple[str, str]
"""A message and a hint."""

SPLIT = "give parts of it names of their own under `numbers`, and write those names here"
TOO_LONG = ("a formula is at most 2,000 characters long", SPLIT)
TOO_DEEP = ("this formula has more than 50 steps inside one another", SPLIT)
NO_FORMULA = ("there is no formula here", "write an amount such as `12 cm`, or one such as `waist girth / 4`")
ENDS = ("the formula ends too early", "write an amount or a name at the end, or take the last sign away")
COMPARED_TWICE = ("two comparisons in a row", "write two comparisons: `a < b and b < c`")
HALF = ("`half` stands alone", "write `half of …`, or `1/2`")
NOT_INSIDE = ("`not` needs brackets here", "write `(not …)`")
IF_INSIDE = ("`if` needs brackets here", "write `(if … then … else …)`")
NEVER_CLOSED = ("this bracket is never closed", "write `)` where it ends")
NEVER_OPENED = ("this bracket closes nothing", "take the `)` away, or write `(` where it starts")
COMMA = ("a comma stands only between a function's values", "write a point in a decimal number: `3.5 cm`")
TOLERANCE = (
    "a tolerance stands only at the end of a check",
    "write `left = right ± 2 mm` in a `checks` block; to add a negative number, write `+ -3`",
)
NOT_A_CHECK = (
    "a check compares two values",
    "write `left = right`, `left >= right` or `left = right ± 2 mm`",
)
CHECKED_TWICE = ("a check compares two values, not three", "write two checks, each on a line of its own")
TOLERANCE_WITHOUT_EQUALS = (
    "a tolerance goes with `=` only",
    "write `left = right ± 2 mm`, or put the room to spare into the formula: `left >= right - 2 mm`",
)
TOLERANCE_UNREAD = ("after `±` stands an amount", "write `± 2 mm` or `± 10 %`")
SPACES = {
    "-": "a minus needs a space on both sides, because a hyphen joins words",
    "/": "a division needs a space on both sides, because a fraction has none",
}


_OWN_HINTS = {
    "then": "write `if … then … else …`",
    "else": "write `if … then … else …`",
    "of": "write a fraction, a share or brackets before `of`: `1/4 of …`, `15 % of …`, `(…) of …`",
}


def shorten(text: str) -> str:
    """Text for a hint: one line, not longer than a writer wants to read."""
    line = " ".join(text.split())
    return line if len(line) <= 60 else f"{line[:59]}…"


def operand(token: Token) -> str:
    """What begins with ``token``, for a hint."""
    return shorten(token.text) if token.sort in (Sort.AMOUNT, Sort.NAME) or token.text == "pi" else "(…)"


def missing_operator(left: str, node: Expression, token: Token) -> Advice:
    """Two operands side by side, and the likeliest sign between them."""
    right = operand(token)
    message = f"a sign is missing between `{left}` and `{right}`"
    number = isinstance(node, Literal) and node.kind in (Kind.PLAIN, Kind.ZERO)
    plain_right = _is_plain(token.text)
    if token.sort is Sort.AMOUNT and not number:
        if plain_right and ("/" in token.text or not token.text.isascii()):
            return (message, f"write `{right} of {left}`")
        return (message, f"write `{left} * {right}`" if plain_right else f"write `{left} + {right}`")
    if isinstance(node, Literal) and number and ("/" in node.text or "%" in node.text):
        return (f"`of` is missing between `{left}` and `{right}`", f"write `{left} of {right}`")
    return (message, f"write `{left} * {right}`")


def _is_plain(amount: str) -> bool:
    return not any(character.isalpha() or character in "°\"'″′" for character in amount)


def unexpected(token: Token) -> Advice:
    """A token that can neither go on with the formula nor end it."""
    if token.sort is Sort.CLOSE:
        return NEVER_OPENED
    if token.sort is Sort.COMMA:
        return COMMA
    if token.text == "±":
        return TOLERANCE
    hint = _OWN_HINTS.get(token.text, "write an amount or a name on both sides of it")
    return (f"`{token.text}` is out of place", hint)


def no_operand(token: Token, before: Token) -> Advice:
    """An amount, a name or a bracket was due, and something else came."""
    if token.sort is Sort.END:
        return NO_FORMULA if before.sort is Sort.END else ENDS
    if token.text == "±":
        return TOLERANCE
    if before.sort is Sort.OPEN and token.sort is Sort.CLOSE:
        return ("there is nothing in these brackets", "write an amount or a formula between them")
    if before.text in ("", "(") and token.sort is Sort.SIGN:
        return (f"there is nothing before `{token.text}`", f"write an amount or a name before `{token.text}`")
    if token.text in _OWN_HINTS:
        return (f"there is nothing before `{token.text}`", _OWN_HINTS[token.text])
    place = f"between `{before.text}` and `{token.text}`" if before.text else f"before `{token.text}`"
    return (f"there is nothing {place}", "write an amount or a name there")


def name_of(name: str, following: Token) -> Advice:
    """``of`` after a name, with no name behind it."""
    shown = shorten(name)
    message = f"after a name `of` asks for a measure, as in `hem of skirt`, and no name follows `{shown} of`"
    if following.sort is Sort.END:
        return (message, f"write what `{shown}` is taken of: `{shown} of …`")
    if following.sort is Sort.NAME:
        return (message, f"write `half of` first: `half of {shown} of …`")
    return (message, f"to multiply, write `{shown} * …` or `({shown}) of …`")


def unit_alone(word: str) -> Advice:
    return (f"`{word}` is a unit, and no number stands before it", f"write `1 {word}`")


def unknown_function(name: str) -> Advice:
    """A name with a bracket behind it that is no function."""
    typed = [each.name for each in PRIMITIVES.values() if each.called]
    shown = shorten(name)
    message = f"there is no function `{shown}`"
    last = key_of(name.rpartition(" of ")[2])
    if " of " in name and last in typed:
        return (message, f"write `{shorten(name.rpartition(' of ')[0])} * {last}(…)`")
    if close := near(name, typed):
        return (message, f"write `{close}(…)`")
    return (message, f"to multiply, write `{shown} * (…)`; the functions are {', '.join(sorted(typed))}")


def wrong_count(primitive: Primitive, given: int) -> Advice:
    name = primitive.name
    if primitive.most == 1:
        return (f"`{name}` takes one value, not {given}", f"write `{name}(x)`")
    return (f"`{name}` takes one value or more", f"write `{name}(a, b)`")


def two_ways(left: str, sign: str, fraction: str) -> Advice:
    space = " " if sign == "/" else ""
    message = f"a fraction straight after `{sign}` can be read two ways"
    return (message, f"write `{left}{space}{sign}{space}({fraction})`")


def unclear_base(base: str, exponent: str) -> Advice:
    return (f"it is not clear whether `^` raises all of `{base}`", f"write `({base})^{exponent}`")
