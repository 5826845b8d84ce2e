"""The points of a draft: each constructed from others, in the words of a pattern book."""

from __future__ import annotations

from collections.abc import Callable

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk, zero
from chalkfold.blocks.named_parts import NamedParts
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, Name, key_of, parse_name
from chalkfold.reading import Entry, Fields, Mapping, Text

HERE = "here"
WAYS = (
    "`{from: A, across: 12 cm, down: 3 cm}`, `{from: A, angle: 30°, distance: 12 cm}`, "
    "`{from: A, towards: B, distance: 5 cm}`, `{between: [A, B], at: 1/2}`, "
    "`{square down from: A, square across from: B}`, `{where: [A, B], meets: [C, D]}`, "
    "`{along: EDGE, at: 9 cm, from: A}`"
)


class Points(NamedParts):
    """The points of one piece by key. Every name is known before the first construction is read,
    so that the order in which they are written does not matter.
    """

    what = "point"

    def lay(self, key: str, construction: Expression, span: Span) -> None:
        where = f"piece {self.piece}"
        self.desk.step(self.step_name(key), construction, span, where=where, kind=Kind.POINT)


Edges = Callable[[Text], Name | None]
"""Finds an edge of the piece by its name."""


def read_points(body: Mapping | None, piece: str, desk: Desk, edges: Edges, known: Points | None = None) -> Points:
    """Read ``points:``; faulty ones are reported and remembered as broken. They join those ``known`` already."""
    points = known or Points(piece, desk)
    entries: list[tuple[str, Entry]] = []
    for entry in body or ():
        name = parse_name(entry.key, desk.faults)
        key = key_of(entry.key.value)
        if name is None or key in points.names:
            if name is not None:
                _twice(entry.key, desk)
            points.broken.add(key)
            continue
        points.names[key] = name
        entries.append((key, entry))
    for key, entry in entries:
        construction = _construction(entry, points, edges)
        if construction is None:
            points.broken.add(key)
        else:
            points.lay(key, construction, entry.key.span())
            desk.want(Name(points.step_name(key)))  # also where nothing is drawn with it yet
    return points


def _twice(name: Text, desk: Desk) -> None:
    hint = "give each point a name of its own"
    desk.faults.add(Code.BLOCK_TWICE, f"there is already a point called `{name.value}`", name.span(), hint)


def _construction(entry: Entry, points: Points, edges: Edges) -> Expression | None:
    value, desk = entry.value, points.desk
    if isinstance(value, Text) and key_of(value.value) == HERE:
        return Apply("point", (zero(), zero()), value.span())
    if not isinstance(value, Mapping):
        desk.faults.add(
            Code.DRAFT, f"point `{entry.key.value}` is not constructed", value.where, f"write `here` or one of {WAYS}"
        )
        return None
    fields = Fields(value, desk.faults, f"the point `{entry.key.value}`")
    given = frozenset(key_of(each.key.value) for each in value)
    build = next((build for keys, build in CONSTRUCTIONS if keys <= given), None)
    if build is None:
        desk.faults.add(
            Code.DRAFT,
            f"point `{entry.key.value}` is not constructed",
            entry.key.span(),
            f"write `here` or one of {WAYS}",
        )
        return None
    found = build(fields, points, edges, value.where)
    fields.finish()
    return found


Build = Callable[[Fields, Points, Edges, Span], Expression | None]


def _apply(op: str, place: Span, *args: Expression | None) -> Expression | None:
    known = [arg for arg in args if arg is not None]
    return Apply(op, tuple(known), place) if len(known) == len(args) else None


def _point(fields: Fields, key: str, points: Points) -> Name | None:
    said = fields.text(key)
    return None if said is None else points.find(said)


def _number(fields: Fields, key: str, points: Points) -> Expression | None:
    return points.desk.formula(fields.text(key))


def _pair(fields: Fields, key: str, points: Points) -> tuple[Name | None, Name | None]:
    said = fields.texts(key)
    if len(said) != 2:
        place = fields.whole.where if not said else said[-1].span()
        points.desk.faults.add(Code.DRAFT, f"`{key}` takes two points", place, f"write `{key}: [A, B]`")
        return None, None
    return points.find(said[0]), points.find(said[1])


def _polar(fields: Fields, points: Points, edges: Edges, place: Span) -> Expression | None:
    start, angle, distance = (
        _point(fields, "from", points),
        _number(fields, "angle", points),
        _number(fields, "distance", points),
    )
    return _apply("polar", place, start, angle, distance)


def _towards(fields: Fields, points: Points, edges: Edges, place: Span) -> Expression | None:
    start, end, distance = (
        _point(fields, "from", points),
        _point(fields, "towards", points),
        _number(fields, "distance", points),
    )
    return _apply("towards", place, start, end, distance)


def _moved(fields: Fields, points: Points, edges: Edges, place: Span) -> Expression | None:
    start = _point(fields, "from", points)
    across = _number(fields, "across", points) if fields.node("across") is not None else zero()
    down = _number(fields, "down", points) if fields.node("down") is not None else zero()
    return _apply("moved", place, start, across, down)


def _between(fields: Fields, points: Points, edges: Edges, place: Span) -> Expression | None:
    first, second = _pair(fields, "between", points)
    return _apply("between", place, first, second, _number(fields, "at", points))


def _corner(fields: Fields, points: Points, edges: Edges, place: Span) -> Expression | None:
    above, beside = _point(fields, "square down from", points), _point(fields, "square across from", points)
    return _apply("corner", place, above, beside)


def _meeting(fields: Fields, points: Points, edges: Edges, place: Span) -> Expression | None:
    return _apply("meeting", place, *_pair(fields, "where", points), *_pair(fields, "meets", points))


def _along(fields: Fields, points: Points, edges: Edges, place: Span) -> Expression | None:
    """``at`` is a length from the end named, or from where the edge begins."""
    said, start = fields.text("along"), fields.text("from")
    edge = None if said is None else edges(said)
    distance = _number(fields, "at", points)
    if start is None:
        return _apply("along", place, edge, distance)
    return _apply("along from", place, edge, distance, points.find(start))


CONSTRUCTIONS: tuple[tuple[frozenset[str], Build], ...] = (
    (frozenset({"from", "angle", "distance"}), _polar),
    (frozenset({"from", "towards", "distance"}), _towards),
    (frozenset({"from", "across"}), _moved),
    (frozenset({"from", "down"}), _moved),
    (frozenset({"between", "at"}), _between),
    (frozenset({"square down from", "square across from"}), _corner),
    (frozenset({"where", "meets"}), _meeting),
    (frozenset({"along", "at"}), _along),
)
"""The keys that make a construction, and what reads it; the first that fits is taken."""
