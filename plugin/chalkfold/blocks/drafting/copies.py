"""A piece copied as drawn: as it is, mirrored, or opened out at a fold. Points and edges are those of the other piece,
seen in a line where need be, so that they follow it in every size.
"""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from chalkfold.blocks.desk import Desk, zero
from chalkfold.blocks.drafting.contour import (
    OTHER,
    Contour,
    Draft,
    backwards,
    edges_of,
    laid,
    line_ends,
    named_once,
    place_of,
)
from chalkfold.blocks.drafting.edges import Drawn, Edges
from chalkfold.blocks.drafting.flattened import flattened
from chalkfold.blocks.drafting.like import MIRRORED, Like
from chalkfold.blocks.drafting.points import Points
from chalkfold.blocks.drafting.taken_shapings import Item, Way, by
from chalkfold.blocks.drafting.trial import answers, unanswered
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, Name, key_of, length
from chalkfold.geometry.shapes import JOIN
from chalkfold.plan import Mark

WORN = {"left": "right", "right": "left"}


def copied(like: Like, origin: Draft, name: str, desk: Desk) -> Contour | None:
    """The contour of the copy; None after a fault."""
    origin = flattened(origin, desk)
    if like.how == "opened out":
        return _opened_out(like, origin, name, desk)
    mirrored = like.how == MIRRORED
    axis = upright(like.said.span()) if mirrored else None
    points = taken_over(origin.shaped.points, name, axis, like.said.span(), desk)
    drawn = tuple(seen(each, axis, desk) for each in origin.outline)
    edges = edges_of(name, drawn, desk)
    lines = {key: seen(line, axis, desk) for key, line in origin.lines.items()}

    named = {**edges.drawn, **lines}
    marks = tuple(_mark(mark, origin, named, axis, desk) for mark in origin.marks)
    if mirrored:
        marks = tuple(replace(mark, worn=WORN.get(mark.worn, "")) for mark in marks)
    way = Way(partial(_mirrored, axis, desk), mirrored)
    shapings = tuple(by(item, edges.drawn, way) for item in origin.shaped.contour.shapings)
    return Contour(edges, points, origin.folds, lines, origin.shaped.contour.as_for, marks, shapings=shapings)


def _mirrored(axis: Axis | None, desk: Desk, point: Name) -> Name:
    """A point seen in a line."""
    if axis is None:
        return point
    return desk.step(f"= point {len(desk.steps)}", Apply("mirrored point", (point, *axis), point.span), _span(point))


def _span(name: Name) -> Span:
    assert name.span is not None
    return name.span


Axis = tuple[Expression, Expression]


def upright(place: Span) -> Axis:
    """The line straight down through the first point of a piece."""
    return Apply("point", (zero(), zero()), place), Apply("point", (zero(), length(100)), place)


def taken_over(
    origin: Points, name: str, axis: Axis | None, place: Span, desk: Desk, kept: frozenset[str] | None = None
) -> Points:
    """The points of a piece as those of another; seen in ``axis`` they are called ``other …``, where ``kept`` holds
    the keys of those that lie on it and so are not there twice.
    """
    points = Points(name, desk)
    for key, said in origin.names.items():
        if key in origin.broken:
            points.broken.add(key)
            continue
        step = Name(origin.step_name(key), place)
        points.names[key] = said
        points.lay(key, step if axis is None or kept is not None else Apply("mirrored point", (step, *axis)), place)
        if axis is not None and kept is not None and key not in kept:
            other = f"{OTHER} {said}"
            points.names[key_of(other)] = other
            points.lay(key_of(other), Apply("mirrored point", (step, *axis), place), place)
    return points


def seen(drawn: Drawn, axis: Axis | None, desk: Desk) -> Drawn:
    """An edge seen in a line; it still runs from start to end."""
    if axis is None:
        return drawn
    place = place_of(drawn)
    step = laid(Apply("mirrored edge", (drawn.step, *axis), place), place, desk)
    centre = drawn.centre
    if centre is not None:
        centre = desk.step(f"= point {len(desk.steps)}", Apply("mirrored point", (centre, *axis), place), place)
    return replace(drawn, step=step, centre=centre)


def _opened_out(like: Like, origin: Draft, name: str, desk: Desk) -> Contour | None:
    fold = _fold(like, origin, desk)
    if fold is None:
        return None
    place = like.said.span()
    ends = frozenset({fold.start, fold.end})
    axis = (_point(origin, fold.start, place), _point(origin, fold.end, place))
    points = taken_over(origin.shaped.points, name, axis, place, desk, ends)
    outline = list(origin.outline)
    at = outline.index(fold)
    half = outline[at + 1 :] + outline[:at]
    back = {each.name: backwards(_image(each, axis, ends, desk), desk) for each in half}
    whole = _closed(half, back, desk)
    drawn, as_for = named_once(tuple(whole))
    lines = _both_lines(origin, axis, ends, desk)
    if lines is None:
        return None
    edges = edges_of(name, drawn, desk)
    others = [key_of(side.name) for side in origin.shaped.sides if side.on_fold and side.name != fold.name]
    folds = frozenset(key for key in edges.drawn if key in others or as_for.get(key) in others)

    marks = _both_marks(origin, {**edges.drawn, **lines}, axis, like, desk)
    shapings = _both_shapings(origin, edges, fold, back, axis, desk)
    as_for = {**origin.shaped.contour.as_for, **as_for}
    return Contour(edges, points, folds, lines, as_for, marks, shapings=shapings)


def _both_shapings(
    origin: Draft, edges: Edges, fold: Drawn, back: dict[str, Drawn], axis: Axis, desk: Desk
) -> tuple[Item, ...]:
    """Each dart and row of pleats on both halves; ``back`` holds the edges of the other half."""
    this, other = Way(folds=(fold.name,)), Way(partial(_mirrored, axis, desk), True, True, (fold.name,), f"{OTHER} ")
    keys = {each.step.key: key for key, each in edges.drawn.items()}
    called = {key_of(name): keys.get(each.step.key, key_of(name)) for name, each in back.items()}
    items = origin.shaped.contour.shapings
    return tuple(each for item in items for each in (by(item, edges.drawn, this), by(item, edges.drawn, other, called)))


def _fold(like: Like, origin: Draft, desk: Desk) -> Drawn | None:
    drawn = [each for key, each in origin.shaped.edges.drawn.items() if key in origin.folds]
    if like.fold is None and len(drawn) == 1:
        return drawn[0]
    names = [f"`{like.said.value.split(' opened')[0]} opened out at {each.name}`" for each in drawn]
    if not drawn or origin.piece.main.lies == "in the round":
        message, hint = f"{origin.piece.name} lies on no fold", "copy it as it is, or write `mirrored`"
    elif like.fold is None:
        message, hint = f"{origin.piece.name} lies on two folds", f"say at which, as in {names[0]}"
    else:
        found = next((each for each in drawn if key_of(each.name) == key_of(like.fold.value)), None)
        if found is not None:
            return found
        message, hint = f"`{like.fold.value}` is no fold of {origin.piece.name}", f"write {' or '.join(names)}"
    place = like.said.span() if like.fold is None else like.fold.span()
    desk.faults.add(Code.DRAFT, message, place, hint)
    return None


def _point(origin: Draft, key: str, place: Span) -> Name:
    return Name(origin.shaped.points.step_name(key), place)


def _image(drawn: Drawn, axis: Axis, ends: frozenset[str], desk: Desk) -> Drawn:
    """An edge on the other side of the fold, running on from the one on this side."""
    start, end = (key if key in ends or not key else key_of(f"{OTHER} {key}") for key in (drawn.start, drawn.end))
    return replace(seen(drawn, axis, desk), start=start, end=end)


def _closed(half: list[Drawn], back: dict[str, Drawn], desk: Desk) -> list[Drawn]:
    """From fold to fold, then back on the other side; what ends on the fold goes on across it as one edge."""
    if len(half) == 1:
        return [_joined(half[0], back[half[0].name], half[0], desk)]
    first, last = half[0], half[-1]
    return [
        _joined(back[first.name], first, first, desk),
        *half[1:-1],
        _joined(last, back[last.name], last, desk),
        *(back[each.name] for each in reversed(half[1:-1])),
    ]


def _joined(a: Drawn, b: Drawn, like: Drawn, desk: Desk) -> Drawn:
    step = laid(Apply("join", (a.step, b.step), place_of(like)), place_of(like), desk)
    return replace(like, step=step, start=a.start, end=b.end, is_line=False)


def _both_lines(origin: Draft, axis: Axis, ends: frozenset[str], desk: Desk) -> dict[str, Drawn] | None:
    """Every line on both sides; one that ends on the fold goes on across it. None where that cannot be told yet."""
    lines: list[Drawn] = []
    for line in origin.lines.values():
        place = line.span or origin.piece.span
        image = _image(line, axis, ends, desk)
        both = line_ends(line, origin.shaped.points)
        questions = [Apply("distance", (end, Apply("mirrored point", (end, *axis)))) for end in both]
        there = answers(desk, place, *questions)
        if any(value is None for row in there for value in row):
            unanswered(questions, place, "draw the line with numbers of the project", desk)
            return None
        on_fold = [all(isinstance(value, float) and value < 2 * JOIN for value in row) for row in there]
        if on_fold[0] and not on_fold[1]:
            lines.append(_joined(backwards(image, desk), line, line, desk))
        elif on_fold[1] and not on_fold[0]:
            lines.append(_joined(line, backwards(image, desk), line, desk))
        else:
            lines += [line, image]
    drawn, _ = named_once(tuple(lines))
    return {key_of(each.name): each for each in drawn}


def _both_marks(origin: Draft, named: dict[str, Drawn], axis: Axis, like: Like, desk: Desk) -> tuple[Mark, ...]:
    """Each mark on both halves."""
    found: list[Mark] = []
    for mark in origin.marks:
        if mark.worn:
            message = f"it cannot be told which half is the {mark.worn} one, where a {mark.kind} is {mark.worn} as worn"
            hint = "write `marks:` of its own for this piece, each with the edge or point it belongs to"
            desk.faults.add(Code.DRAFT, message, like.said.span(), hint)
        else:
            found += [_mark(mark, origin, named, None, desk), _mark(mark, origin, named, axis, desk, f"{OTHER} ")]
    return tuple(found)


def _mark(mark: Mark, origin: Draft, named: dict[str, Drawn], axis: Axis | None, desk: Desk, prefix: str = "") -> Mark:
    """A mark seen in a line, on the edge of the copy that is called as its own, with ``prefix`` if there is one."""
    point, end = (_seen_point(key, axis, origin.piece.span, desk) for key in (mark.point, mark.end))
    of = (*origin.outline, *origin.lines.values())
    name = next((key_of(each.name) for each in of if each.step.key == mark.edge), "")
    drawn = named.get(f"{prefix}{name}") or named.get(name)
    edge = mark.edge if drawn is None else drawn.step.key
    if drawn is None and edge and axis is not None:  # a line of its own
        place = origin.piece.span
        edge = laid(Apply("mirrored edge", (_name(edge, place, desk), *axis), place), place, desk).key
    desk.want(*(_name(key, origin.piece.span, desk) for key in (point, end, edge) if key))
    return replace(mark, point=point, end=end, edge=edge)


def _seen_point(key: str, axis: Axis | None, place: Span, desk: Desk) -> str:
    if not key or axis is None:
        return key
    return desk.step(f"= point {len(desk.steps)}", Apply("mirrored point", (_name(key, place, desk), *axis)), place).key


def _name(key: str, place: Span, desk: Desk) -> Name:
    return Name(desk.steps[key].name, place)
