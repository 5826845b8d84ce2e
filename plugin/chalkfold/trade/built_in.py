"""Checks made by themselves, as data: what each asks, in formulas over what its finder names; ``checks.yml``."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from chalkfold.amounts import Rounding
from chalkfold.diagnostics import Faults
from chalkfold.formula import Expression, key_of, parse, parse_prose
from chalkfold.plan import Manner, Style, names_in
from chalkfold.reading import Fields, Text
from chalkfold.reading import Mapping as Body
from chalkfold.trade.files import read_mapping

FILE = Path(__file__).with_name("checks.yml")

Told = tuple[str | Expression, ...]
"""A message or hint: words, with ``{word}`` in them to be filled in, and formulas whose values stand there."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A number that a check uses, and where it comes from."""

    name: str
    expression: Expression
    manner: Manner
    source: str


@dataclass(frozen=True, slots=True)
class Ask:
    """One thing a check asks. Without ``holds`` it is never fulfilled: something was not said."""

    holds: Expression | None
    message: Told
    hint: Told

    @property
    def formulas(self) -> tuple[Expression, ...]:
        told = tuple(part for part in (*self.message, *self.hint) if not isinstance(part, str))
        return told if self.holds is None else (self.holds, *told)


@dataclass(frozen=True, slots=True)
class BuiltIn:
    """``says`` follows "Not checked:" on a page; ``figures`` may build on each other in their order.

    ``words`` are those a writer may type, and the names they stand for.
    """

    name: str
    says: str
    source: str
    figures: tuple[Figure, ...]
    asks: Mapping[str, Ask]
    words: Mapping[str, tuple[str, ...]]

    def figures_of(self, ask: Ask) -> list[Figure]:
        """Those that an ask needs, in an order in which they can be worked out."""
        needed = {name.key for formula in ask.formulas for name in names_in(formula)}
        found: list[Figure] = []
        for figure in reversed(self.figures):
            if key_of(figure.name) in needed:
                found.append(figure)
                needed |= {name.key for name in names_in(figure.expression)}
        return found[::-1]


@cache
def built_in_checks() -> dict[str, BuiltIn]:
    """Every check by name, in the order of the file."""
    faults = Faults()
    found = read_mapping(FILE, FILE.name, "turning: {says: …}", faults)
    assert found is not None and not len(faults), [fault.message for fault in faults]
    checks = {name: _check(name, body, faults) for name, body in _bodies(found[1])}
    assert not len(faults), [(fault.message, fault.hint) for fault in faults]
    return checks


def _bodies(body: Body | None) -> Iterator[tuple[str, Body]]:
    for entry in body or ():
        assert isinstance(entry.value, Body), entry.key.value
        yield entry.key.value, entry.value


def _check(name: str, body: Body, faults: Faults) -> BuiltIn:
    fields = Fields(body, faults, name)
    says, source = fields.required_text("says"), fields.required_text("source")
    figures, asks, words = fields.mapping("figures"), fields.mapping("asks"), fields.mapping("words")
    fields.finish()
    assert says is not None and source is not None
    return BuiltIn(
        name,
        says.value,
        source.value,
        tuple(_figure(each, inner, source, faults) for each, inner in _bodies(figures)),
        {each: _ask(inner, each, faults) for each, inner in _bodies(asks)},
        {
            entry.key.value: tuple(entry.value.value.split(", "))
            for entry in words or ()
            if isinstance(entry.value, Text)
        },
    )


def _figure(name: str, body: Body, source: Text, faults: Faults) -> Figure:
    fields = Fields(body, faults, name)
    said, style, own = fields.required_text("is"), fields.text("as"), fields.text("source")
    fields.finish()
    assert said is not None
    expression = parse(said, faults)
    assert expression is not None, said.value
    return Figure(name, expression, _manner(style), (own or source).value)


def _manner(said: Text | None) -> Manner:
    """A style by its name, or ``up`` and ``down``: what must be at least so much is never told as less."""
    if said is not None and said.value in ("up", "down"):
        return Manner(Rounding("up" if said.value == "up" else "down"))
    return Manner() if said is None else Manner(style=Style(said.value))


def _ask(body: Body, name: str, faults: Faults) -> Ask:
    fields = Fields(body, faults, name)
    holds, message, hint = fields.text("holds"), fields.required_text("message"), fields.required_text("hint")
    fields.finish()
    assert message is not None and hint is not None
    return Ask(None if holds is None else parse(holds, faults), _told(message, faults), _told(hint, faults))


def _told(said: Text, faults: Faults) -> Told:
    return tuple(part if isinstance(part, str) else part.expression for part in parse_prose(said, faults).parts)
