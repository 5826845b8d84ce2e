"""Makes a built-in check of what was found: the formulas of ``trade/checks.yml`` with the post's names put in."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

from chalkfold.blocks.desk import Desk
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, Literal, Name, fold, key_of, parts_of
from chalkfold.plan import Line, Manner, Shown
from chalkfold.trade.built_in import Ask, BuiltIn, Told


@dataclass(frozen=True, slots=True)
class Found:
    """Something that a check applies to: which ask, where a fault stands, and what the words and names of it mean.

    Of two asks ``about`` the same thing the first that is not fulfilled is told; none where a number of it is missing.
    """

    ask: str
    place: Span
    words: Mapping[str, str] = field(default_factory=dict)
    values: Mapping[str, Expression] = field(default_factory=dict)
    about: str = ""


Finder = Callable[[Desk], Iterator[Found]]


def make(check: BuiltIn, found: Found, desk: Desk) -> None:
    """Demand it in every size; where the ask never holds, report it at once."""
    ask, code = check.asks[found.ask], Code(f"check.{check.name.replace(' ', '-')}")
    if ask.holds is None:
        desk.faults.add(code, _words(ask.message, found), found.place, _words(ask.hint, found))
        return
    bound, manners = _bound(check, ask, found, desk)

    def shown(part: Expression) -> Shown:
        put = _put_in(part, bound, found.place)
        name = put if isinstance(put, Name) else desk.hidden(put, found.place, quiet=True)
        return desk.shown(name, manners.get(name.key))

    def told(parts: Told) -> Line:
        return tuple(_filled(part, found) if isinstance(part, str) else shown(part) for part in parts)

    desk.demand(
        _put_in(ask.holds, bound, found.place),
        told(ask.message),
        found.place,
        told(ask.hint),
        about=f"{check.name}: {found.about}" if found.about else "",
        code=code,
    )


def _words(parts: Told, found: Found) -> str:
    return "".join(_filled(part, found) for part in parts if isinstance(part, str))


def _filled(text: str, found: Found) -> str:
    for word, said in found.words.items():
        text = text.replace(f"{{{word}}}", said)
    return text


def _bound(check: BuiltIn, ask: Ask, found: Found, desk: Desk) -> tuple[dict[str, Expression], dict[str, Manner]]:
    """What the names of an ask stand for: what was found, and the figures worked out of that.

    With them how each figure is printed.
    """
    manners: dict[str, Manner] = {}
    bound = {key_of(name): expression for name, expression in found.values.items()}
    for figure in check.figures_of(ask):
        name = f"= {len(desk.steps) + 1} {figure.name}"
        expression = _put_in(figure.expression, bound, found.place)
        bound[key_of(figure.name)] = desk.step(name, expression, found.place, quiet=True)
        manners[key_of(name)] = figure.manner
    return bound, manners


def _put_in(expression: Expression, bound: Mapping[str, Expression], place: Span) -> Expression:
    def build(node: Expression, parts: list[Expression]) -> Expression:
        if isinstance(node, Name):
            return bound[node.key]
        if isinstance(node, Literal):
            return Literal(node.value, node.kind, node.text)
        assert isinstance(node, Apply)
        return Apply(node.op, tuple(parts), place)

    return fold(expression, parts_of, build)
