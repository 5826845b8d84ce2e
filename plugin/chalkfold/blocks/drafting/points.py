"""The points of a draft: each constructed from others, in the words of a pattern book."""

from __future__ import annotations

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import BY_SIZE, Desk, zero
from chalkfold.blocks.drafting.constructions import construction, ways
from chalkfold.blocks.drafting.dividing import divided, divided_names, divides
from chalkfold.blocks.drafting.given import Edges, Given
from chalkfold.blocks.drafting.named_parts import NamedParts
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, Name, key_of, parse_name
from chalkfold.reading import Entry, Fields, Mapping, Text

HERE = "here"


class Points(NamedParts):
    """The points of one piece by key. Every name is known before the first construction is read,
    so that the order in which they are written does not matter.
    """

    what = "point"

    def lay(self, key: str, construction: Expression, span: Span) -> None:
        where = f"piece {self.piece}"
        self.desk.step(self.step_name(key), construction, span, where=where, kind=Kind.POINT)

    def lost(self, key: str) -> None:
        """A point was faulty and is reported; what is measured from it is not missed then."""
        self.broken.add(key)
        self.desk.broken.add(f"point {key} of {key_of(self.piece)}")


def read_points(body: Mapping | None, piece: str, desk: Desk, edges: Edges) -> Points:
    """Read ``points:``; faulty ones are reported and remembered as broken."""
    points = Points(piece, desk)
    add_points(body, points, edges)
    return points


def add_points(body: Mapping | None, points: Points, edges: Edges) -> None:
    """Read ``points:`` beside the points that there are already: the corners of a simple shape."""
    entries = [entry for entry in body or () if _named(entry, points)]
    for entry in entries:
        built = (
            divided(entry, points, edges) if divides(entry) else {entry.key.value: _construction(entry, points, edges)}
        )
        for name, found in built.items():
            key = key_of(name)
            if found is None:
                points.lost(key)
            else:
                points.lay(key, found, entry.key.span())
                points.desk.want(Name(points.step_name(key)))  # also where nothing is drawn with it yet


def _named(entry: Entry, points: Points) -> bool:
    """Note the name, or the names of points that divide a line; False where it cannot be one or is taken."""
    if parse_name(entry.key, points.desk.faults) is None:
        points.lost(key_of(entry.key.value))
        return False
    names = divided_names(entry, points.desk) if divides(entry) else [entry.key.value]
    for name in names:
        if key_of(name) in points.names:
            hint = "give each point a name of its own"
            message = f"there is already a point called `{name}`"
            points.desk.faults.add(Code.BLOCK_TWICE, message, entry.key.span(), hint)
            points.lost(key_of(name))
            return False
        points.names[key_of(name)] = name
    return bool(names)


def _construction(entry: Entry, points: Points, edges: Edges) -> Expression | None:
    value, desk = entry.value, points.desk
    if isinstance(value, Text) and key_of(value.value) == HERE:
        return Apply("point", (zero(), zero()), value.span())
    given = frozenset(key_of(each.key.value) for each in value) if isinstance(value, Mapping) else frozenset()
    found = construction(given)
    if found is None or not isinstance(value, Mapping):
        place = entry.key.span() if isinstance(value, Mapping) else value.where
        hint = f"write `here` or one of {ways(given)}"
        desk.faults.add(Code.DRAFT, f"point `{entry.key.value}` is not constructed", place, hint)
        return None
    fields = Fields(value, desk.faults, f"the point `{entry.key.value}`", otherwise=BY_SIZE)
    built = found.build(Given(fields, points, edges, value.where))
    fields.finish()
    return built
