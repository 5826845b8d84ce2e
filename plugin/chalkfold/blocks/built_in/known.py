"""Which names a post knows, so that a check asks only what can be worked out."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk
from chalkfold.diagnostics import Span
from chalkfold.formula import Expression, Name, key_of
from chalkfold.plan import Limit, names_in
from chalkfold.reading import Text
from chalkfold.trade import Goods
from chalkfold.trade.numbers import style_of


def expression_of(key: str, desk: Desk) -> Expression | None:
    """The formula behind a name, looked up where the plan would look; None where there is none."""
    project = desk.project
    if key in project.numbers:
        return project.numbers[key].expression
    if key in desk.steps:
        return desk.steps[key].expression
    for book, _ in project.books:
        if key in book.numbers:
            return book.numbers[key].expression
    words, _, role = key.rpartition(" of ")
    for name, (goods, size) in project.roles.items():
        found = goods.amount(words, size) if key_of(name) == role else None
        if found is not None:
            return found[1]
    measure = None if project.chart is None else project.chart.measures.get(key)
    return None if measure is None else measure.step.expression


def is_known(name: str, desk: Desk) -> bool:
    """Whether a name, and every name that it is built on, can be looked up."""
    waiting, seen = [key_of(name)], set[str]()
    while waiting:
        key = waiting.pop()
        if key in seen:
            continue
        seen.add(key)
        expression = expression_of(key, desk)
        if expression is None:
            return False
        waiting += [inner.key for inner in names_in(expression)]
    return True


def is_missing(name: str, desk: Desk) -> bool:
    """Whether a name is nowhere, and nothing that was faulty and is reported could have given it."""
    project, key = desk.project, key_of(name)
    faulty = project.incomplete or key in project.broken or any(key in book.broken for book, _ in project.books)
    faulty |= project.chart is not None and key in project.chart.broken
    return expression_of(key, desk) is None and not faulty


def all_known(expression: Expression, desk: Desk) -> bool:
    return all(is_known(name.key, desk) for name in names_in(expression))


def told(text: Text | None, kind: Kind, desk: Desk) -> Name | None:
    """A step for a formula of the writer's, so that its kind is checked where it stands; None after a fault."""
    expression = desk.formula(text)
    if text is None or expression is None:
        return None
    name = f"= {len(desk.steps) + 1} told"
    limit = Limit.POSITIVE if kind is Kind.LENGTH else Limit.NOT_NEGATIVE
    step = desk.step(name, expression, text.span(), style=style_of(expression), limit=limit, kind=kind)
    desk.want(step)
    return step


def first_known(names: Iterator[str] | list[str], place: Span, desk: Desk) -> Name | None:
    """The first of these names that the post knows."""
    return next((Name(name, place) for name in names if is_known(name, desk)), None)


def notions(amount: str, word: str, desk: Desk) -> list[str]:
    """``width of ROLE`` for each notion that is a ``word`` and has this amount; the role called so comes first."""
    found = [
        role
        for role, (goods, size) in desk.roles.items()
        if goods.kind == "notion" and (key_of(role) == word or _is(word, goods)) and goods.amount(amount, size)
    ]
    return [f"{amount} of {role}" for role in sorted(found, key=lambda role: key_of(role) != word)]


def _is(word: str, goods: Goods) -> bool:
    return word in goods.name.casefold() or word in goods.texts.get("what", "").casefold()
