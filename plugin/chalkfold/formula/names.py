"""The names that a writer may give to numbers."""

from __future__ import annotations

from chalkfold.diagnostics import Code, Faults
from chalkfold.formula.expression import key_of
from chalkfold.formula.lexer import RESERVED, is_letter, is_unit, name_end
from chalkfold.formula.signatures import PRIMITIVES
from chalkfold.reading import Text

LONGEST_NAME = 80
EXAMPLE = "write words with single spaces, such as `waist edge` or `tier 1 depth`"


def parse_name(text: Text, faults: Faults) -> str | None:
    """The name that is defined here, as typed; None, with a fault, where it cannot be one."""
    wrong = _what_is_wrong(text.value)
    if wrong is None:
        return text.value
    message, hint, start, end = wrong
    faults.add(Code.FORMULA_NAME, message, text.span(start, end), hint)
    return None


def _what_is_wrong(name: str) -> tuple[str, str, int, int] | None:
    end = len(name)
    if not name.strip():
        return ("a name is missing", EXAMPLE, 0, end)
    if end > LONGEST_NAME:
        return (f"a name is at most {LONGEST_NAME} characters long", "write a shorter name", 0, end)
    single = " ".join(name.split())
    if single != name:
        return ("the words of a name have single spaces between them", f"write `{single}`", 0, end)
    if not is_letter(name[0]):
        return ("a name starts with a letter", EXAMPLE, 0, 1)
    return _reserved(name) or _stops_early(name)


def _reserved(name: str) -> tuple[str, str, int, int] | None:
    key, end = key_of(name), len(name)
    at = 0
    for word in name.split(" "):
        if key_of(word) in RESERVED | {"pi"}:
            hint = f"write the name without `{word}`, as in `waist edge`"
            return (f"`{word}` has a meaning in formulas and is never in a name", hint, at, at + len(word))
        at += len(word) + 1
    if is_unit(name):
        return (f"`{name}` is a unit", f"write a longer name, such as `{name} wide`", 0, end)
    if key == "half" or (key in PRIMITIVES and PRIMITIVES[key].called):
        hint = f"write a longer name, such as `{name} girth`"
        return (f"`{name}` has a meaning of its own in formulas", hint, 0, end)
    return None


def _stops_early(name: str) -> tuple[str, str, int, int] | None:
    """Whatever the formula would not read as one name is no name."""
    stop = name_end(name, 0)
    if stop == len(name):
        return None
    rest = name[stop:].lstrip()
    at = len(name) - len(rest)
    if rest[0].isnumeric():
        hint = "write only whole numbers in a name, and no unit behind them, as in `tier 1 depth`"
        return ("a word of a name starts with a letter, or is a whole number", hint, at, len(name))
    if rest[0] == "-":
        hint = "write a hyphen only between letters, as in `cross-back width`"
        return ("this hyphen does not stand between letters", hint, at, at + 1)
    shown = rest[0] if rest[0].isprintable() else f"U+{ord(rest[0]):04X}"
    return (f"`{shown}` does not belong in a name", EXAMPLE, at, at + 1)
