"""Several points at equal parts of a line or an edge: ``tuck: {divide: [A, B], into: 4}`` gives tuck 1, 2 and 3."""

from __future__ import annotations

from collections.abc import Mapping as ByName
from typing import TYPE_CHECKING

from chalkfold.blocks.drafting.given import Edges, Found, Given
from chalkfold.diagnostics import Code
from chalkfold.formula import Literal, key_of, plain
from chalkfold.reading import Entry, Fields, Mapping, Text

if TYPE_CHECKING:
    from chalkfold.blocks.desk import Desk
    from chalkfold.blocks.drafting.points import Points

MOST_PARTS = 40


def divides(entry: Entry) -> bool:
    return isinstance(entry.value, Mapping) and any(key_of(each.key.value) == "divide" for each in entry.value)


def divided_names(entry: Entry, desk: Desk) -> list[str]:
    """The names of the points between the parts; none, after a fault, where ``into`` is no count of parts."""
    assert isinstance(entry.value, Mapping)
    into = next((each.value for each in entry.value if key_of(each.key.value) == "into"), None)
    said = into.value if isinstance(into, Text) else ""
    if said.isascii() and said.isdigit() and 2 <= int(said[:9]) <= MOST_PARTS:
        return [f"{entry.key.value} {number}" for number in range(1, int(said))]
    place = entry.value.where if into is None else into.where
    message = f"`{entry.key.value}` does not say into how many parts"
    hint = f"write a whole number from 2 to {MOST_PARTS}, as in `{{divide: [A, B], into: 4}}`"
    desk.faults.add(Code.DRAFT, message, place, hint)
    return []


def divided(entry: Entry, points: Points, edges: Edges) -> ByName[str, Found]:
    """Each point by its name, counted from the first point of a line, or from ``from`` on an edge."""
    assert isinstance(entry.value, Mapping)
    fields = Fields(entry.value, points.desk.faults, f"the division `{entry.key.value}`", also=("into",))
    given = Given(fields, points, edges, entry.value.where)
    names = divided_names(entry, points.desk)
    pair = given.pair("divide") if given.is_pair("divide") else None
    edge = None if pair else given.edge("divide")
    start = None if pair or not given.has("from") else given.point("from")
    fields.finish()
    found: dict[str, Found] = {}
    for number, name in enumerate(names, 1):
        part = Literal(number / (len(names) + 1), plain(1).kind, f"{number}/{len(names) + 1}")
        if pair:
            found[name] = given.apply("between", *pair, part)
        elif given.has("from"):
            found[name] = given.apply("along from", edge, part, start)
        else:
            found[name] = given.apply("along", edge, part)
    return found
