"""Where names are looked up after the post's own: its books, the goods in their roles, the size chart."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Code, Faults, Span
from chalkfold.formula import key_of
from chalkfold.plan import Manner, Origin, Scope, Step
from chalkfold.trade.book_uses import uses_of
from chalkfold.trade.numbers import style_of
from chalkfold.trade.records import Book, Chart, Goods


class BookScope(Scope):
    """The books a post lists. A name in two of them is an error unless the post settles it."""

    def __init__(self, books: Sequence[tuple[Book, Span]], faults: Faults) -> None:
        super().__init__(broken=frozenset().union(*(book.broken for book, _ in books)))
        self.books = books
        self.faults = faults

    def find(self, key: str) -> Step | None:
        holders = [(book, span) for book, span in self.books if key in book.numbers]
        if not holders:
            return None
        step = holders[0][0].numbers[key]
        if len(holders) > 1:
            names = " and ".join(f"`{book.name}`" for book, _ in holders)
            self.faults.add(
                Code.PLAN_TWO_BOOKS,
                f"`{step.name}` stands in {names}",
                holders[1][1],
                f"settle it in the post: write `{step.name}: …` under `numbers:`",
                related=tuple((f"in {book.name}", book.numbers[key].span) for book, _ in holders),
            )
        return step

    def names(self) -> Iterable[str]:
        return [step.name for book, _ in self.books for step in book.numbers.values()]

    def demanded_kind(self, key: str) -> Kind | None:
        return next((book.expects[key].kind for book, _ in self.books if key in book.expects), None)

    def why_missing(self, key: str, said: Span) -> tuple[Code, str, Span, str] | None:
        for book, span in self.books:
            expected = book.expects.get(key)
            if expected is not None:
                note = f" ({expected.note})" if expected.note else ""
                return (
                    Code.PLAN_EXPECTS,
                    f"the book `{book.name}` expects `{expected.name}`{note}, and the post does not give it",
                    span,
                    f"write `{expected.name}: …` under `numbers:`{_for_all(book, expected.name)}",
                )
        uses = [f"`{name}`" for name in uses_of(key, self.books)]
        if uses:
            message = f"`{said.text or key}` is there once for each thing that its book is used for"
            return Code.PLAN_UNKNOWN, message, said, f"write {' or '.join(uses)}"
        return None


def _for_all(book: Book, name: str) -> str:
    """What else to write where a book is used for several things, and one number may count for all."""
    plain = name.removeprefix(f"{book.purpose} ") if book.purpose else ""
    return f", or `{plain}: …` where it is the same for all that the book is used for" if plain else ""


class RoleScope(Scope):
    """``usable width of main``, ``stretch of elastic``: the amounts of the goods in the post's roles."""

    def __init__(self, roles: Mapping[str, tuple[Goods, str | None]]) -> None:
        steps: dict[str, Step] = {}
        self.roles = roles
        for role, (goods, size) in roles.items():
            for key in goods.amounts:
                found = goods.amount(key, size)
                if found is None:
                    continue
                name, expression, span = found
                origin = Origin(
                    f"{goods.kind} {goods.name}", goods.texts.get("note", ""), goods.texts.get("source", "")
                )
                step = Step(f"{name} of {role}", expression, span, origin, Manner(style=style_of(expression)))
                steps[step.key] = step
        super().__init__(steps)

    def why_missing(self, key: str, said: Span) -> tuple[Code, str, Span, str] | None:
        wanted, _, role = key.rpartition(" of ")
        found = next((each for each in self.roles if key_of(each) == role), None)
        if found is None:
            return None
        goods, _ = self.roles[found]
        if wanted in goods.amounts:
            sizes = ", ".join(goods.sizes)
            return (
                Code.PLAN_SIZE_MISSING,
                f"`{wanted} of {found}` depends on the size of the {goods.kind}",
                said,
                f"write `{found}: {{donor: {goods.name}, sample: {goods.sizes[0]}}}`; its sizes are {sizes}",
            )
        known = ", ".join(name for name, _, _ in goods.amounts.values())
        return (
            Code.PLAN_UNKNOWN,
            f"the {goods.kind} `{goods.name}` ({found}) has no `{wanted}`",
            said,
            f"it has {known}; add `{wanted}: …` to it, or use one of these" if known else f"add `{wanted}: …` to it",
        )


class ChartScope(Scope):
    """The body measures of the post's size chart."""

    def __init__(self, chart: Chart | None) -> None:
        steps = {} if chart is None else {key: each.step for key, each in chart.measures.items()}
        super().__init__(steps, frozenset() if chart is None else chart.broken)
