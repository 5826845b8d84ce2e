"""How a point is found, in the words of a pattern book: the keys of each construction, and what they build."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import zero
from chalkfold.blocks.drafting.given import SIDES, Found, Given
from chalkfold.diagnostics import Code
from chalkfold.formula import Literal, Name


def _moved(given: Given) -> Found:
    across = given.number("across") if given.has("across") else zero()
    down = given.number("down") if given.has("down") else zero()
    return given.apply("moved", given.point("from"), across, down)


def _polar(given: Given) -> Found:
    return given.apply("polar", given.point("from"), given.number("angle"), given.number("distance"))


def _towards(given: Given) -> Found:
    return given.apply("towards", given.point("from"), given.point("towards"), given.number("distance"))


def _through(given: Given) -> Found:
    return given.apply("towards", given.point("from"), given.point("through"), given.number("distance"))


def _beyond(given: Given) -> Found:
    start, end = given.point("from"), given.point("beyond")
    whole = given.apply("+", given.apply("distance", start, end), given.number("distance"))
    return given.apply("towards", start, end, whole)


def _as_from(given: Given) -> Found:
    return given.apply("copied", given.point("from"), given.point("as from"), given.point("to"))


def _beside(given: Given) -> tuple[Found, Found]:
    """The point `from`, and another in the direction of the line it is parallel to."""
    start = given.point("from")
    return start, given.apply("copied", start, *given.pair("parallel to"))


def _parallel(given: Given) -> Found:
    return given.apply("towards", *_beside(given), given.number("distance"))


def _parallel_to_meet(given: Given) -> Found:
    line = given.apply("carried on", *_beside(given))
    return given.chosen(given.apply("meetings", line, given.line("meets")))


def _between(given: Given) -> Found:
    return given.apply("between", *given.pair("between"), given.number("at"))


def _corner(given: Given) -> Found:
    return given.apply("corner", given.point("square down from"), given.point("square across from"))


def _meeting(given: Given) -> Found:
    if given.is_pair("where") and given.is_pair("meets"):
        return given.apply("meeting", *given.pair("where"), *given.pair("meets"))
    return given.chosen(given.apply("meetings", given.line("where"), given.line("meets")))


def _along(given: Given) -> Found:
    return given.along(given.edge("along"))


def _carried_past(given: Given) -> Found:
    return given.apply("carried past", given.edge("carry on"), given.point("past"), given.number("distance"))


def _squared(given: Given) -> tuple[Found, Found]:
    """The edge or line that `square from` names, and the place on it; a line is drawn through that place."""
    if not given.is_pair("square from"):
        edge = given.edge("square from")
        return edge, given.point("at") if given.names_point("at") else given.along(edge)
    first, second = given.pair("square from")
    along = None if given.names_point("at") else given.number("at")
    place = given.apply("towards", first, second, along) if along else given.point("at")
    return given.apply("line", place, given.apply("copied", place, first, second)), place


def _square(given: Given) -> Found:
    edge, place = _squared(given)
    found = given.apply("square from", edge, place, given.number("distance"))
    if not given.has("side") and not given.has("nearest to"):
        hint = f"add `side: {'up' if given.is_pair('square from') else 'inwards'}`, or another side"
        given.points.desk.faults.add(Code.DRAFT, "this does not say to which side", given.place, hint)
        return None
    if given.is_pair("square from") or not given.has("side") or given.has("nearest to"):
        return given.chosen(found)
    side = given.fields.choice("side", ("inwards", "outwards", *SIDES))
    if side in SIDES:
        return given.chosen(found)
    outline = Name(f"outline of {given.points.piece}", given.place)
    return None if side is None else given.apply(side, found, outline)


def _square_to_meet(given: Given) -> Found:
    line = given.apply("square line", *_squared(given))
    return given.chosen(given.apply("meetings", line, given.line("meets")))


def _foot(given: Given) -> Found:
    return given.apply("foot", given.line("square onto"), given.point("from"))


def _mirrored(given: Given) -> Found:
    point = given.point("mirror of")
    axis = given.apply("line", *given.pair("in")) if given.is_pair("in") else given.edge("in")
    return given.apply("mirrored", point, axis)


def _turned(given: Given) -> Found:
    return given.apply("turned", given.point("turned"), given.point("around"), given.number("by"))


def _two_compasses(given: Given) -> Found:
    return given.chosen(given.apply("compasses", *given.compass("compass"), *given.compass("and")))


def _compass_on(given: Given) -> Found:
    return given.chosen(given.apply("compass on", *given.compass("compass"), given.line("on")))


def _compass_level(given: Given) -> Found:
    return given.chosen(given.apply("compass on", *given.compass("compass"), _level(given)))


def _compass_plumb(given: Given) -> Found:
    found = given.apply("compass on", *given.compass("compass"), _plumb(given))
    return given.chosen(_those(given, found))


def _on_level(given: Given) -> Found:
    return given.chosen(given.apply("meetings", given.line("on"), _level(given)))


def _on_plumb(given: Given) -> Found:
    return given.chosen(_those(given, given.apply("meetings", given.line("on"), _plumb(given))))


ONE_CM = Literal(10.0, Kind.LENGTH, "1 cm")


def _level(given: Given) -> Found:
    point = given.point("level with")
    return given.apply("carried on", point, given.apply("moved", point, ONE_CM, zero()))


def _plumb(given: Given) -> Found:
    point = given.point("above" if given.has("above") else "below")
    return given.apply("carried on", point, given.apply("moved", point, zero(), ONE_CM))


def _those(given: Given, found: Found) -> Found:
    side = "above" if given.has("above") else "below"
    return given.apply(f"those {side}", found, given.point(side))


@dataclass(frozen=True, slots=True)
class Construction:
    """The keys that make it, in an example; and what reads it."""

    keys: frozenset[str]
    example: str
    build: Callable[[Given], Found]


def _row(keys: str, example: str, build: Callable[[Given], Found]) -> Construction:
    return Construction(frozenset(keys.split(", ")), example, build)


CONSTRUCTIONS = (
    _row("from, angle, distance", "from: A, angle: 30°, distance: 12 cm", _polar),
    _row("from, towards, distance", "from: A, towards: B, distance: 5 cm", _towards),
    _row("from, through, distance", "from: A, through: B, distance: 20 cm", _through),
    _row("from, beyond, distance", "from: A, beyond: B, distance: 5 cm", _beyond),
    _row("from, as from, to", "from: P, as from: A, to: B", _as_from),
    _row("from, parallel to, distance", "from: P, parallel to: [A, B], distance: 5 cm", _parallel),
    _row("from, parallel to, meets", "from: P, parallel to: [A, B], meets: [C, D]", _parallel_to_meet),
    _row("from, across", "from: A, across: 12 cm, down: 3 cm", _moved),
    _row("from, down", "from: A, down: 3 cm", _moved),
    _row("between, at", "between: [A, B], at: 1/2", _between),
    _row("square down from, square across from", "square down from: A, square across from: B", _corner),
    _row("where, meets", "where: [A, B], meets: [C, D]", _meeting),
    _row("square from, at, distance", "square from: EDGE, at: 9 cm, from: END, distance: 5 cm, side: up", _square),
    _row("square from, at, meets", "square from: [A, B], at: P, meets: [C, D]", _square_to_meet),
    _row("square onto, from", "square onto: [A, B], from: C", _foot),
    _row("along, at", "along: EDGE, at: 9 cm, from: A", _along),
    _row("carry on, past, distance", "carry on: EDGE, past: END, distance: 3 cm", _carried_past),
    _row("mirror of, in", "mirror of: P, in: [A, B]", _mirrored),
    _row("turned, around, by", "turned: P, around: Q, by: 30°", _turned),
    _row("compass, and", "compass: [A, 12 cm], and: [B, 9 cm], side: up", _two_compasses),
    _row("compass, on", "compass: [A, 12 cm], on: [C, D], side: left", _compass_on),
    _row("compass, level with", "compass: [A, 12 cm], level with: B, side: left", _compass_level),
    _row("compass, below", "compass: [A, 12 cm], below: B", _compass_plumb),
    _row("compass, above", "compass: [A, 12 cm], above: B", _compass_plumb),
    _row("on, level with", "on: [A, B], level with: C", _on_level),
    _row("on, below", "on: [A, B], below: C", _on_plumb),
    _row("on, above", "on: [A, B], above: C", _on_plumb),
)
"""The first whose keys are all there is taken."""

COMMON = (
    "from, across",
    "from, angle, distance",
    "from, towards, distance",
    "between, at",
    "square down from, square across from",
    "where, meets",
    "along, at",
)
"""What is offered where no key says which construction is meant."""


def construction(given: frozenset[str]) -> Construction | None:
    return next((each for each in CONSTRUCTIONS if each.keys <= given), None)


def ways(given: frozenset[str]) -> str:
    """What to write, for a hint: the constructions that share most with the keys there are, or the commonest."""
    most = max(len(each.keys & given) for each in CONSTRUCTIONS)
    fitting = [each for each in CONSTRUCTIONS if len(each.keys & given) == most]
    if not most:
        fitting = [each for keys in COMMON if (each := construction(frozenset(keys.split(", "))))]
    return ", ".join(f"`{{{each.example}}}`" for each in fitting)
