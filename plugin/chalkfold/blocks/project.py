"""``project``: for whom the post is, from what, and which numbers it uses. The first block of a post."""

from __future__ import annotations

from dataclasses import dataclass, field

from chalkfold.amounts import print_minutes, read_minutes
from chalkfold.blocks.desk import Desk, MakeView
from chalkfold.blocks.not_found import not_found
from chalkfold.blocks.roles import read_roles
from chalkfold.blocks.safety.cautions import read_cautions
from chalkfold.blocks.safety.children import read_child
from chalkfold.blocks.safety.children_shown import child_box
from chalkfold.blocks.safety.washing import care_of_all
from chalkfold.blocks.sizing import read_sizes
from chalkfold.diagnostics import Code, Faults, Span
from chalkfold.formula import key_of
from chalkfold.plan import Choice, Fact, Facts, Frame, Group, Line, Origin, Plan, Sizes, Step, View, names_in
from chalkfold.reading import Fields, Mapping, Text
from chalkfold.trade import Book, Chart, Goods, Shelf
from chalkfold.trade.book_uses import each_once, find_book, split_use, told_apart
from chalkfold.trade.numbers import read_numbers


@dataclass(frozen=True, slots=True)
class Project:
    """What the ``project`` block says; a post without one has no sizes and no numbers."""

    sizes: Sizes = field(default_factory=Sizes)
    chart: Chart | None = None
    books: tuple[tuple[Book, Span], ...] = ()
    roles: dict[str, tuple[Goods, str | None]] = field(default_factory=dict)
    numbers: dict[str, Step] = field(default_factory=dict)
    finished: Mapping | None = None
    facts: tuple[tuple[str, str], ...] = ()
    closes: Text | None = None
    """Where nothing is said of what is pulled on."""
    pulled_on: Mapping | None = None
    walked_in: Mapping | None = None
    broken: frozenset[str] = frozenset()
    """Keys of numbers and roles that were faulty and are reported already."""
    incomplete: bool = False
    """A book or the size chart was not found, or names could not be read: those that seem nowhere may stand there."""


def read_project(fields: Fields, shelf: Shelf, faults: Faults) -> Project:
    """Read everything of a ``project`` block but ``finished``, caption and note, which need the desk."""
    chart, sizes = read_sizes(fields, shelf, faults)
    listed = fields.texts("books")
    books = _books(listed, shelf, faults)
    broken: set[str] = set()
    roles = read_roles(fields, shelf, faults, broken)
    said = fields.mapping("numbers")
    numbers = {} if said is None else read_numbers(said, Origin(), faults, broken)
    given, measures = {*numbers, *broken}, set() if chart is None else {*chart.measures, *chart.broken}
    return Project(
        sizes,
        chart,
        tuple(told_apart(each_once(books, faults), given, measures)),
        roles,
        numbers,
        fields.mapping("finished"),
        tuple(_facts(fields, faults)),
        None if fields.has("pulled on") else fields.text("closes with"),
        fields.mapping("pulled on", "{total waist of skirt: hips}"),
        fields.mapping("walked in", "{total hem of skirt: {length: skirt length}}"),
        frozenset(broken),
        (chart is None and not sizes.sure) or len(books) < len(fields.items("books")) or _lost(fields),
    )


def _lost(fields: Fields) -> bool:
    """Whether names were to stand where nothing could be read."""
    return any(fields.has(key) and fields.mapping(key) is None for key in ("cut from", "notions", "numbers"))


def _books(said: list[Text], shelf: Shelf, faults: Faults) -> list[tuple[Book, Span]]:
    books = []
    for before, text in zip([None, *said], said, strict=False):
        name, purpose = split_use(text, shelf)
        book = find_book(name, purpose, shelf, faults)
        if book is not None:
            books.append((book, text.span()))
        elif before is not None and key_of(name.value).startswith("for "):
            hint = f"write `{before.value} {name.value}`, without the comma"
            faults.add(Code.PLAN_NOT_FOUND, f"there is no book called `{name.value}`", name.span(), hint)
        elif purpose is None or shelf.book(name.value, Faults()) is None:
            not_found("book", name, shelf, faults)
    return books


def _facts(fields: Fields, faults: Faults) -> list[tuple[str, str]]:
    facts = []
    for key, label in (("made for", "Made for"), ("closes with", "Closes with")):
        said = fields.text(key)
        if said is not None:
            facts.append((label, said.value))
    for entry in fields.mapping("time") or ():
        minutes = read_minutes(entry.value, faults) if isinstance(entry.value, Text) else None
        if minutes is not None:
            facts.append((f"Time, {entry.key.value}", print_minutes(minutes)))
    return facts


def show_project(fields: Fields, desk: Desk) -> MakeView:
    """The bar for size and unit, and what readers ask for first: the finished measures."""
    frame = desk.frame(fields)
    desk.child = read_child(fields, desk)
    desk.cautions = read_cautions(fields, desk)
    fields.finish(stray="; a number of your own stands below `numbers:`, indented by two spaces")
    finished = [_finished(entry.key, entry.value, desk) for entry in desk.project.finished or ()]
    facts = tuple(Fact((label,), (text,)) for label, text in desk.project.facts)
    roles = tuple(Fact((role,), (_goods(goods, size),)) for role, (goods, size) in desk.project.roles.items())
    care = care_of_all(desk.project.roles)

    def view(plan: Plan) -> View:
        shown: list[View] = [Choice(Frame())]
        if finished:
            rows = tuple(Fact(label, value, _remark(names, desk)) for label, value, names in finished if value)
            shown.append(Facts(Frame(title=("Finished",)), rows, "finished"))
        if facts or roles:
            shown.append(Facts(Frame(title=("This project",)), facts + roles, "project", all_sizes=False))
        if care is not None:
            shown.append(care)
        if desk.child is not None:
            shown.append(child_box(desk.child, desk))
        return Group(frame, tuple(shown))

    return view


def _goods(goods: Goods, size: str | None) -> str:
    return f"{goods.title}, {size}" if size else goods.title


def _finished(label: Text, value: object, desk: Desk) -> tuple[Line, Line, tuple[str, ...]]:
    if not isinstance(value, Text):
        desk.faults.add(
            Code.DATA_SHAPE, f"`{label.value}` needs one formula", label.span(), f"write `{label.value}: skirt length`"
        )
        return (), (), ()
    expression = desk.formula(value)
    if expression is None:
        return (), (), ()
    names = tuple(name.key for name in names_in(expression))
    return desk.line(label), (desk.value(expression, value.span()),), names


def _remark(names: tuple[str, ...], desk: Desk) -> Line:
    """A measure taken from the pattern (with ``of``) needs no remark; one that only repeats a number is planned."""
    measured = any(" of " in name and name in desk.steps for name in names)
    return () if measured else ("planned",)
