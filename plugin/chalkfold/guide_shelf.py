"""The shelf in a guide: a fence ``shelf`` lists what is on it, or shows one book, straight from the data files."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Code, Faults
from chalkfold.formula import BySize, Literal, key_of, to_readers
from chalkfold.plan import Step
from chalkfold.reading import Fence
from chalkfold.show.markup import element, escape, lines
from chalkfold.trade import Shelf
from chalkfold.trade.built_in import built_in_checks
from chalkfold.trade.care import care_in_words
from chalkfold.trade.measures import takings
from chalkfold.trade.memory import from_memory
from chalkfold.trade.records import Book, Chart, Goods, Measure

Row = Sequence[str]
"""Cells of markup; the first is the row's heading."""
KINDS = {Kind.LENGTH: "length", Kind.AREA: "area", Kind.ANGLE: "angle", Kind.WEIGHT: "weight", Kind.PLAIN: "plain"}
STATUS = {"found": "found in a published list", "practice": "common practice", "memory": "from memory"}


def show_shelf(fence: Fence, shelf: Shelf, faults: Faults) -> str:
    """What the words after ``shelf`` ask for: ``book NAME``, or one of the ``LISTS``."""
    what, _, name = fence.rest.partition(" ")
    if what == "book" and name:
        found = shelf.book(name, faults)
        if found is not None:
            return _book(found)
    elif fence.rest in LISTS:
        return LISTS[fence.rest](shelf, faults)
    known = ", ".join(f"`shelf {each}`" for each in LISTS)
    message = f"the shelf has no `{fence.rest}`" if fence.rest else "this does not say what to show of the shelf"
    faults.add(Code.EXAMPLE, message, fence.span, f"write {known}, or `shelf book` and the name of a book")
    return ""


def with_code(text: str) -> str:
    """A sentence of a data file: what stands between backticks is code."""
    return re.sub(r"`([^`]+)`", r"<code>\1</code>", escape(text))


def _book(book: Book) -> str:
    expects = [(each.name, KINDS[each.kind or Kind.PLAIN], with_code(each.note)) for each in book.expects.values()]
    usual = [step for step in book.numbers.values() if isinstance(step.expression, Literal)]
    sums = [step for step in book.numbers.values() if not isinstance(step.expression, Literal)]
    return lines(
        element("p", with_code(book.note)),
        _table("It expects", ("Number", "Kind", "What it is"), expects),
        _table("Usual, unless the post says otherwise", ("Number", "Usual", "What it is"), map(_number, usual)),
        _table("It works out", ("Number", "How", "What it is"), map(_number, sums)),
        element("p", f"Sources: {with_code(book.source)}") if book.source else "",
    )


def _number(step: Step) -> Row:
    source = element("small", f"Source: {escape(step.origin.source)}", class_="remark")
    how = to_readers(step.expression)
    if isinstance(step.expression, Literal):
        how = how.replace(" ", "\N{NO-BREAK SPACE}")
    return step.name, escape(how), f"{with_code(step.origin.note)} {source}"


def _books(shelf: Shelf, faults: Faults) -> str:
    found = [book for name in shelf.names("book") if (book := shelf.book(name, faults)) is not None]
    rows = [
        (
            book.name,
            with_code(book.note),
            _names(each.name for each in book.expects.values()),
            _names(step.name for step in book.numbers.values()),
        )
        for book in found
    ]
    return _table("", ("Book", "For", "It expects", "It gives"), rows)


def _names(names: Iterable[str]) -> str:
    return escape(" · ".join(names)) or "nothing"


def _charts(shelf: Shelf, faults: Faults) -> str:
    found = [chart for name in shelf.names("chart") if (chart := shelf.chart(name, faults)) is not None]
    return "\n".join(_chart(chart) for chart in found)


def _chart(chart: Chart) -> str:
    ends = (chart.sizes[0], chart.sizes[-1])
    rows = [(each.step.name, *_ends(each), escape(each.how)) for each in chart.measures.values()]
    heads = ("Measure", *(f"in size {escape(end)}" for end in ends), "How it is taken")
    sizes = f"Sizes: {', '.join(chart.sizes)}."
    return _table(chart.name, heads, rows, (sizes, chart.note, f"Source: {chart.source}"))


def _ends(measure: Measure) -> tuple[str, str]:
    row = measure.step.expression
    assert isinstance(row, BySize), "a chart gives each measure size by size"
    return escape(to_readers(row.cases[0][1])), escape(to_readers(row.cases[-1][1]))


def _goods(kind: str, title: str, columns: Sequence[str]) -> Callable[[Shelf, Faults], str]:
    def listed(shelf: Shelf, faults: Faults) -> str:
        found = [each for name in shelf.names(kind) if (each := shelf.goods(kind, name, faults)) is not None]
        used = [column for column in columns if any(_property(each, column) for each in found)]
        heads = (title, *(escape(column) for column in used), "Source")
        rows = [(escape(each.name), *(_property(each, column) for column in used), _source(each)) for each in found]
        return _table("", heads, rows)

    return listed


def _property(goods: Goods, name: str) -> str:
    if name == "care":
        return escape(care_in_words(goods.care, goods.texts.get(name, "")))
    amount = goods.amounts.get(key_of(name))
    said = to_readers(amount[1]) if amount else goods.texts.get(name, "")
    return escape(said.replace(" ", "\N{NO-BREAK SPACE}") if amount else said)


def _source(goods: Goods) -> str:
    status = STATUS.get(goods.texts.get("status", ""), "")
    said = element("small", escape(goods.texts.get("source", "")), class_="remark")
    return f"{status} {said}".strip()


def _measures(shelf: Shelf, faults: Faults) -> str:
    rows = [(each.name, escape(f"{each.how} {each.note}".strip()), escape(each.source)) for each in takings().values()]
    return _table("", ("Measure", "How it is taken", "Source"), rows)


def _checks(shelf: Shelf, faults: Faults) -> str:
    """Every check that is made by itself, with the figures that stand in it; the shelf has no part in it."""
    rows = []
    for check in built_in_checks().values():
        given = [each for each in check.figures if isinstance(each.expression, Literal)]
        figures = [f"{each.name} {to_readers(each.expression)} ({each.source})" for each in given]
        cells = (check.name, check.says, "; ".join(figures) or "none", check.source)
        rows.append(tuple(escape(cell) for cell in cells))
    return _table("", ("Check", "It makes sure that", "Its figures", "Source"), rows)


def _memory(shelf: Shelf, faults: Faults) -> str:
    """What nobody has compared with its source yet."""
    rows, before = [], ""
    for each in from_memory(shelf):
        said = "the same" if each.source == before else each.source
        rows.append(tuple(map(escape, (each.where, each.name, each.value, said))))
        before = each.source
    return _table("", ("Where", "What", "It says", "Said of it"), rows)


def _table(caption: str, heads: Sequence[str], rows: Iterable[Row], notes: Iterable[str] = ()) -> str:
    """A table with sentences below it; nothing where it has no rows."""
    body = ["".join((f'<th scope="row">{row[0]}</th>', *(f"<td>{cell}</td>" for cell in row[1:]))) for row in rows]
    if not body:
        return ""
    columns = "".join(f'<th scope="col">{head}</th>' for head in heads)
    return lines(
        '<div class="view">',
        '<table class="rows">',
        element("caption", element("span", escape(caption), class_="title")),
        f"<thead><tr>{columns}</tr></thead>",
        "<tbody>",
        *(f"<tr>{row}</tr>" for row in body),
        "</tbody>",
        "</table>",
        *(element("p", with_code(note), class_="note") for note in notes),
        "</div>",
    )


LISTS: dict[str, Callable[[Shelf, Faults], str]] = {
    "books": _books,
    "charts": _charts,
    "cloths": _goods("fabric", "Cloth", ("usable width", "weight", "stretch", "shrinkage", "needle", "care")),
    "notions": _goods("notion", "Notion", ("width", "thickness", "length", "stretch", "care")),
    "measures": _measures,
    "checks": _checks,
    "memory": _memory,
}
