"""Text with values in it: ``elastic, {= width of elastic } wide``."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from chalkfold.diagnostics import Code, Faults, Span
from chalkfold.formula.expression import Expression
from chalkfold.formula.parser import parse
from chalkfold.reading import Text

OPENER = "{="


@dataclass(frozen=True, slots=True)
class Value:
    """A formula whose result stands in the text; ``span`` goes from bracket to bracket."""

    expression: Expression
    span: Span


@dataclass(frozen=True, slots=True)
class Prose:
    parts: tuple[str | Value, ...]


def parse_prose(text: Text, faults: Faults) -> Prose:
    r"""Take a text apart at its ``{= … }``; ``\{=`` stands for ``{=`` itself.

    A value that cannot be read is left out, with a fault. Linear in the length of the text.
    """
    value, at = text.value, 0
    parts: list[str | Value] = []
    while (found := value.find(OPENER, at)) >= 0:
        inside = found + len(OPENER)
        if found > at and value[found - 1] == "\\":
            parts += [value[at : found - 1], OPENER]
            at = inside
            continue
        end = value.find("}", inside)
        if end < 0:
            hint = "write ` }` where the formula ends, or `\\{=` to print it as it stands"
            faults.add(Code.VALUE_UNCLOSED, "this value is never closed", text.span(found, inside), hint)
            return _joined([*parts, value[at:found]])
        parts.append(value[at:found])
        at = end + 1
        if read := _value(text, found, at, faults):
            parts.append(read)
    return _joined([*parts, value[at:]])


def _joined(parts: list[str | Value]) -> Prose:
    """Texts that stand side by side become one."""
    joined: list[str | Value] = []
    for is_text, group in groupby(parts, lambda part: isinstance(part, str)):
        members = list(group)
        if not is_text:
            joined += members
        elif text := "".join(map(str, members)):
            joined.append(text)
    return Prose(tuple(joined))


def _value(text: Text, start: int, end: int, faults: Faults) -> Value | None:
    inside = start + len(OPENER)
    if not text.value[inside].isspace():
        formula = " ".join(text.value[inside : min(end - 1, inside + 60)].split())
        hint = f"write `{{= {formula} }}`, or `\\{{=` to print it as it stands"
        faults.add(Code.FORMULA_SYNTAX, "a value needs a space after `{=`", text.span(start, inside), hint)
        return None
    expression = parse(text.part(inside, end - 1), faults)
    return None if expression is None else Value(expression, text.span(start, end))
