"""``facing of: front``: a facing or band traced from a piece along some of its edges, so deep.

Darts and pleats along these edges are closed first. A facing is laid on its piece right sides together, so that what is
cut one way up is the mirror image of what is traced. Both are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk, zero
from chalkfold.blocks.drafting.closed_stretch import closed_stretch, demand_clear
from chalkfold.blocks.drafting.contour import Contour, Draft, backwards, edges_of, laid, named_once, place_of
from chalkfold.blocks.drafting.copies import seen, taken_over, upright
from chalkfold.blocks.drafting.edges import Drawn
from chalkfold.blocks.drafting.flattened import flattened
from chalkfold.blocks.drafting.points import Points
from chalkfold.diagnostics import Code, Span, near
from chalkfold.formula import Apply, Name, key_of
from chalkfold.plan import Limit
from chalkfold.reading import Fields, Text

INNER = "inner edge"
"""The free edge of a facing: it lies inside the piece that it is traced from."""


def facing(fields: Fields, origin: Draft, name: str, turned_over: bool, desk: Desk) -> Contour | None:
    """The contour of a facing of ``origin``, seen in a mirror if it is ``turned_over``; None after a fault."""
    said = fields.texts("along")
    depth_said = fields.required_text("depth")
    traced = _traced(said, origin, fields, desk)
    expression = desk.formula(depth_said)
    if traced is None or depth_said is None or expression is None:
        return None
    place = depth_said.span()
    depth = desk.step(f"depth drawn of {name}", expression, place, limit=Limit.POSITIVE, kind=Kind.LENGTH)
    flat, (first, count) = flattened(origin, desk), traced
    sides = flat.outline
    stretch = [sides[number % len(sides)] for number in range(first - 1, first + count + 1)]
    closed = closed_stretch(flat, stretch, desk)
    axis = upright(place) if turned_over else None
    drawn = [seen(each, axis, desk) for each in closed]
    if closed == stretch:
        points = taken_over(flat.shaped.points, name, axis, place, desk)
    else:
        points = _ends(drawn, flat.shaped.points, name, desk)
    outline = Apply("outline", tuple(seen(each, axis, desk).step for each in sides), place)
    way_round = desk.step(f"= outline {len(desk.steps)}", outline, place)
    line = laid(Apply("inner line", (way_round, depth, *(each.step for each in drawn)), place), place, desk)
    inner = _inner(line, points, place, any(each.is_curved for each in drawn[1:-1]))
    ends = Name(points.step_name(inner.start), place), Name(points.step_name(inner.end), place)
    demand_clear(flat, drawn, depth, ends, desk)
    contour = _contour(name, drawn, inner, ends, origin.folds, points, desk)
    return replace(contour, darts_closed=closed != stretch)


def _contour(
    name: str,
    stretch: Sequence[Drawn],
    inner: Drawn,
    ends: tuple[Name, Name],
    on_folds: frozenset[str],
    points: Points,
    desk: Desk,
) -> Contour:
    """The stretch, its first and last edge cut off at the ends of the inner edge, and that."""
    (before, *beside, after), place = stretch, inner.span or stretch[0].step.span
    assert place is not None
    drawn, as_for = named_once(
        (
            *beside,
            replace(after, step=laid(Apply("up to", (after.step, ends[1]), place), place, desk), end=inner.end),
            backwards(inner, desk),
            replace(before, step=laid(Apply("on from", (before.step, ends[0]), place), place, desk), start=inner.start),
        )
    )
    edges = edges_of(name, drawn, desk)
    folds = frozenset(key for key in edges.drawn if as_for.get(key, key) in on_folds)
    return Contour(edges, points, folds, None, as_for)


def _ends(stretch: Sequence[Drawn], origin: Points, name: str, desk: Desk) -> Points:
    """The points that edges which were moved run between; where any other has come to lie cannot be told."""
    points = Points(name, desk)
    for each in stretch:
        place = place_of(each)
        for key, along in ((each.start, zero()), (each.end, Apply("length of", (each.step,), place))):
            if key and key not in points.names:
                points.names[key] = origin.names[key]
                points.lay(key, Apply("along", (each.step, along), place), place)
    return points


def _inner(line: Name, points: Points, place: Span, is_curved: bool) -> Drawn:
    keys = []
    whole = Apply("length of", (line,), place)
    for word, along in (("start", zero()), ("end", whole)):
        name = f"{word} of the {INNER}"
        keys.append(key_of(name))
        points.names[key_of(name)] = name
        points.lay(key_of(name), Apply("along", (line, along), place), place)
    return Drawn(INNER, line, keys[0], keys[1], False, False, None, place, is_curved)


def _traced(said: Sequence[Text], origin: Draft, fields: Fields, desk: Desk) -> tuple[int, int] | None:
    """The first of the edges named and how many they are; they must follow each other and leave one edge."""
    if not said:
        if fields.required("along"):
            return None
        return None
    names, piece = [key_of(each.name) for each in origin.outline], origin.piece.name
    for text in said:
        if key_of(text.value) not in names:
            likely = near(text.value, [each.name for each in origin.outline])
            hint = (
                f"did you mean `{likely}`?"
                if likely
                else f"its edges are: {', '.join(each.name for each in origin.outline)}"
            )
            desk.faults.add(Code.DRAFT, f"{piece} has no edge called `{text.value}`", text.span(), hint)
            return None
        if key_of(text.value) in origin.folds:
            message = f"`{text.value}` of {piece} lies on the fold, and nothing is faced there"
            desk.faults.add(Code.DRAFT, message, text.span(), "name edges that have a seam")
            return None
    wanted = {key_of(text.value) for text in said}
    count = len(names)
    starts = [n for n in range(count) if names[n] in wanted and names[n - 1] not in wanted]
    if len(wanted) == count or len(starts) != 1:
        follow = len(starts) > 1
        message = f"the edges of {piece} to be faced do not follow each other" if follow else f"all of {piece} is faced"
        hint = "make a facing for each stretch" if follow else f"leave one edge of {piece} out, or cut a lining"
        desk.faults.add(Code.DRAFT, message, said[0].span(), hint)
        return None
    return starts[0], len(wanted)
