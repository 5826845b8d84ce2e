"""The formulas of an even row: n marks, the space between two, and where each lies.

A flat row of n marks has n - 1 spaces, one in the round has n. Along a length positions are what counts, so they are
made from the exact space and never from a rounded one. Source: plane arithmetic; the fence-post rule.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from chalkfold.blocks.desk import Desk, zero
from chalkfold.diagnostics import Span
from chalkfold.formula import Apply, Expression, Name, apply
from chalkfold.plan import Limit, Style

if TYPE_CHECKING:
    from chalkfold.blocks.spacing import Asked, Wish


@dataclass(frozen=True, slots=True)
class Row:
    """``starts`` are where each part of the length begins; ``seams`` those that count as seams, if any."""

    count: Name
    space: Name
    places: Name
    starts: tuple[Expression, ...]
    seams: Name | None


def round_row(asked: Asked, desk: Desk) -> Row:
    """Marks round a closed edge: the count divides it evenly, and the first may be moved along."""
    whole = asked.length
    count = _count(asked, spaces(asked.wish, whole), desk)
    space = _space(asked, whole / count, desk)
    starts, seams = _seams(asked, desk)
    first = _first_in_the_round(asked, space, seams)
    return _placed(asked, first, space, count, starts, seams, desk)


def _first_in_the_round(asked: Asked, space: Name, seams: Name | None) -> Expression:
    if asked.land_on is not None:
        return _rest(asked.land_on, space)
    if asked.start_at is not None:
        return _rest(asked.start_at, space)
    if asked.keep_off is not None and seams is not None:
        return Apply("clear shift", (space, seams), asked.place)
    return zero()


def _rest(length: Expression, space: Expression) -> Expression:
    """What is left of a length after whole spaces."""
    return length - apply("round down", length / space) * space


def flat_row(asked: Asked, desk: Desk) -> Row:
    """Marks from end to end. A single one lies in the middle."""
    first, span = _room(asked, desk)
    count = _count(asked, asked.wish.count or spaces(asked.wish, span) + 1, desk)
    space = _space(asked, span / apply("max", 1, count - 1), desk)
    start = first if asked.wish.count is None else apply("if", apply("=", count, 1), first + span / 2, first)
    starts, seams = _seams(asked, desk)
    return _placed(asked, start, space, count, starts, seams, desk)


def flat_row_landing(asked: Asked, desk: Desk) -> Row:
    """A flat row of which one mark must land on a given place: the first end and that place are kept,
    the spaces between them made equal, and the same space carried on as far as the last end allows.
    """
    assert asked.land_on is not None
    first, span = _room(asked, desk)
    ahead = desk.step(f"first part of {asked.name}", asked.land_on - first, asked.place)
    desk.demand(
        apply("and", apply(">", ahead, zero()), apply("<=", ahead, span)),
        (asked.name, " should land on ", desk.shown(asked.land_on), ", which lies outside the row"),
        asked.land_on.span or asked.place,
        "give `land on:` a place after the first mark and before the end, measured from the start of the length",
        about=asked.name,
    )
    wish = asked.wish
    if wish.count is None:
        before: Expression = spaces(wish, ahead)
        space = _space(asked, ahead / before, desk)
        count = _count(asked, before + apply("round down", (span - ahead) / space) + 1, desk)
    else:
        before = apply("max", 1, apply("round up", ahead * (wish.count - 1) / apply("max", span, ahead)))
        count = _count(asked, wish.count, desk)
        space = _space(asked, ahead / before, desk)
    starts, seams = _seams(asked, desk)
    start = first if wish.count is None else apply("if", apply("=", count, 1), asked.land_on, first)
    return _placed(asked, start, space, count, starts, seams, desk)


def _room(asked: Asked, desk: Desk) -> tuple[Expression, Name]:
    """Where the first mark lies, and what is left from it to the last."""
    first, last = _first_and_last(asked)
    place = what_takes_room(asked)
    too_much, message, hint = no_room(asked)
    left = Apply("-", (last, first), place)
    span = desk.step(f"span of {asked.name}", left, asked.place, limit=Limit.NOT_NEGATIVE, why=(too_much, hint))
    wished = asked.wish.count
    needed = apply(">", span, zero())
    if wished is not None:  # a single mark needs no length to stand on
        needed = apply("or", apply("=", wished, 1), needed)
    desk.demand(needed, (message,), place, hint, about=asked.name)
    return first, span


def what_takes_room(asked: Asked) -> Span:
    """The field to blame where a row has no room."""
    blamed = asked.ends[0] if asked.ends else asked.width
    return (blamed.span if blamed else None) or asked.place


def no_room(asked: Asked) -> tuple[str, str, str]:
    """What is wrong where less than nothing is left for a row, and where nothing is, and what to write."""
    name = asked.name
    if asked.ends is None:
        hint = "write a smaller `width:`, or `count: 1`"
        return f"one of {name} takes more than the edge has: {{}} is left", f"one of {name} takes the whole edge", hint
    who = f"the ends of {name}" if asked.width is None else f"the ends of {name} and one of them"
    hint = "make the two ends together shorter than the length"
    return f"{who} take more than the edge has: {{}} is left between them", f"{who} leave no room between them", hint


def _first_and_last(asked: Asked) -> tuple[Expression, Expression]:
    """Where the first and the last mark lie; ends are measured to the edge of things that take up room."""
    first: Expression = zero() if asked.ends is None else asked.ends[0]
    last: Expression = asked.length if asked.ends is None else asked.length - asked.ends[1]
    if asked.width is None:
        return first, last
    return first + asked.width / 2, last - asked.width / 2


def spaces(wish: Wish, length: Expression) -> Expression:
    if wish.every is None:
        assert wish.count is not None
        return wish.count
    return apply("max", 1, apply(wish.way, length / wish.every))


def demand_wished_space(asked: Asked, space: Name, desk: Desk) -> None:
    """``at least`` cannot be kept where the length is shorter than one space."""
    wish = asked.wish
    if wish.every is None or wish.way != "round down":
        return
    desk.demand(
        apply(">=", space, wish.every),
        (f"{asked.name} should be at least ", desk.shown(wish.every), " apart, and come only ", desk.shown(space)),
        wish.every.span or asked.place,
        "ask for a smaller space, or for `count: 1`",
        about=asked.name,
    )


def _count(asked: Asked, count: Expression, desk: Desk) -> Name:
    return desk.step(f"count of {asked.name}", count, asked.place, style=Style.COUNT, limit=Limit.POSITIVE)


def _space(asked: Asked, space: Expression, desk: Desk) -> Name:
    return desk.step(f"space of {asked.name}", space, asked.place, style=Style.FINE)


def _seams(asked: Asked, desk: Desk) -> tuple[tuple[Expression, ...], Name | None]:
    starts: list[Expression] = [zero()]
    for _, part in asked.parts[:-1]:
        starts.append(part if len(starts) == 1 else starts[-1] + part)
    seams = starts if asked.in_the_round else starts[1:]
    if asked.keep_off is None or not seams:
        return tuple(starts), None
    return tuple(starts), desk.step(f"seams of {asked.name}", apply("row", *seams), asked.place)


def _placed(
    asked: Asked,
    first: Expression,
    space: Name,
    count: Name,
    starts: tuple[Expression, ...],
    seams: Name | None,
    desk: Desk,
) -> Row:
    series = Apply("series", (first, space, count), asked.place)
    places = desk.step(f"places of {asked.name}", series, asked.place, style=Style.FINE)
    return Row(count, space, places, starts, seams)
