"""``facing of: front``: a facing or band traced from a piece along some of its edges, so deep."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.contour import Contour, Draft, backwards, edges_of, laid, named_once
from chalkfold.blocks.copies import taken_over
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.edges import Drawn
from chalkfold.blocks.points import Points
from chalkfold.diagnostics import Code, Span, near
from chalkfold.formula import Apply, Literal, Name, key_of, plain
from chalkfold.plan import Limit
from chalkfold.reading import Fields, Text

INNER = "inner edge"
"""The free edge of a facing: it lies inside the piece that it is traced from."""


def outline_to_trace(origin: Draft, desk: Desk) -> Name:
    """The outline that a facing is traced from, its edges those of ``origin.outline`` in order."""
    edges = tuple(each.step for each in origin.outline)
    return desk.step(f"= outline {len(desk.steps)}", Apply("outline", edges, origin.piece.span), origin.piece.span)


def facing(fields: Fields, origin: Draft, name: str, desk: Desk) -> Contour | None:
    """The contour of a facing of ``origin``; None after a fault."""
    said = fields.texts("along")
    depth_said = fields.required_text("depth")
    traced = _traced(said, origin, fields, desk)
    expression = desk.formula(depth_said)
    if traced is None or depth_said is None or expression is None:
        return None
    place = depth_said.span()
    depth = desk.step(f"depth drawn of {name}", expression, place, limit=Limit.POSITIVE, kind=Kind.LENGTH)
    first, count = traced
    points = taken_over(origin.shaped.points, name, None, place, desk)
    outline, sides = outline_to_trace(origin, desk), origin.outline
    line = laid(Apply("inner line", (outline, plain(first), plain(count), depth), place), place, desk)
    is_curved = any(sides[(first + step) % len(sides)].is_curved for step in range(count))
    inner = _inner(line, points, place, is_curved)
    before, after = sides[first - 1], sides[(first + count) % len(sides)]
    ends = [Name(points.step_name(key), place) for key in (inner.start, inner.end)]
    drawn, as_for = named_once(
        (
            *(sides[(first + step) % len(sides)] for step in range(count)),
            replace(after, step=laid(Apply("up to", (after.step, ends[1]), place), place, desk), end=inner.end),
            backwards(inner, desk),
            replace(before, step=laid(Apply("on from", (before.step, ends[0]), place), place, desk), start=inner.start),
        )
    )
    edges = edges_of(name, drawn, desk)
    folds = frozenset(key for key in edges.drawn if as_for.get(key, key) in origin.folds)
    return Contour(edges, points, folds, None, as_for)


def _inner(line: Name, points: Points, place: Span, is_curved: bool) -> Drawn:
    keys = []
    whole = Apply("length of", (line,), place)
    nothing = Literal(0.0, Kind.LENGTH, "0 cm")
    for word, along in (("start", nothing), ("end", whole)):
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
