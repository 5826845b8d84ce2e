"""Which part of a piece its darts and pleats stay in, where it is parted along a line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import combinations, islice

from chalkfold.blocks.desk import Desk
from chalkfold.blocks.drafting.contour import place_of
from chalkfold.blocks.drafting.darts import Dart, TwoTips
from chalkfold.blocks.drafting.edges import Drawn, Edges
from chalkfold.blocks.drafting.parting import Parted
from chalkfold.blocks.drafting.pleats_drawn import Row
from chalkfold.blocks.drafting.taken_shapings import Item, Way, by, corners, feet
from chalkfold.blocks.drafting.trial import answers, unanswered
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, plain
from chalkfold.geometry.shapes import JOIN

Held = tuple[Item, ...]


def shapings_in(parts: Parted, lines: Sequence[Drawn], said: Span, desk: Desk) -> list[Held] | None:
    """The darts and pleats of each part, in the order of the parts; None where one lies in no part as a whole."""
    held: list[list[Item]] = [[] for _ in parts.regions]
    items = parts.contour.shapings
    there = _where_each_lies(items, parts, said, desk)
    if there is None:
        return None
    for item, within in zip(items, there, strict=True):
        if True in within:
            held[within.index(True)].append(item)
        else:
            _crossed(item, lines, parts, said, desk)
    return [tuple(found) for found in held] if all(True in within for within in there) else None


def _where_each_lies(items: Sequence[Item], parts: Parted, said: Span, desk: Desk) -> list[list[bool]] | None:
    """For every dart or row of pleats, which parts hold all of it in every size; None where that cannot be told yet."""
    outlines = [parts.outline(region) for region in parts.regions]
    spots = [_spots(item) for item in items]
    questions = [Apply("inside", (outline, spot), said) for each in spots for outline in outlines for spot in each]
    rows = answers(desk, said, *questions) if questions else []
    if any(value is None for row in rows for value in row):
        unanswered(questions, said, "draw the dart with numbers of the project", desk)
        return None
    inside = iter([all(row) for row in rows])
    return [[all(list(islice(inside, len(each)))) for _ in outlines] for each in spots]


def _spots(item: Item) -> list[Expression]:
    """Points all over a dart or row of pleats: its corners, and half-way between each two of them that a line joins."""
    if isinstance(item, Row):
        pairs = [(start, end) for _, start, end in item.lines]
    elif isinstance(item, TwoTips):
        pairs = list(combinations(corners(item), 2))
    else:
        pairs = [(leg, item.tip) for leg in item.legs]
    return [*corners(item), *(Apply("between", (*pair, plain(0.5))) for pair in pairs)]


def _crossed(item: Item, lines: Sequence[Drawn], parts: Parted, said: Span, desk: Desk) -> None:
    piece = parts.piece
    named = f"`{lines[0].name}` runs" if len(lines) == 1 else "a line of its panels runs"
    message = f"{named} through {item.name} of {piece}"
    hint = "move it, so that all of it lies in one part, in every size"
    if isinstance(item, Dart):
        hint = (
            f"let the line end at the tip of {item.name}, and the seam takes the dart up; "
            f"or close {item.name} under `spread:` first and let it open elsewhere"
        )
    desk.faults.add(Code.DRAFT, message, said, hint)


def on_edges(items: Held, edges: Edges, as_for: Mapping[str, str], desk: Desk) -> Held:
    """The darts and pleats of a part on the edges of that part, which may have one of the whole twice."""
    found = []
    for item in items:
        called: dict[str, str] = {}
        if not isinstance(item, TwoTips):
            keys = [key for key in edges.drawn if as_for.get(key, key) == item.edge]
            called[item.edge] = keys[0] if len(keys) == 1 else _where(item, keys, edges, desk)
        found.append(by(item, edges.drawn, Way(), called))
    return tuple(found)


def _where(item: Dart | Row, keys: Sequence[str], edges: Edges, desk: Desk) -> str:
    """The edge on which it stands, of several that were one."""
    foot = feet(item)[0][0]
    for key in keys:
        edge = edges.drawn[key]
        nearest = Apply("along", (edge.step, Apply("how far along", (edge.step, foot))))
        (row,) = answers(desk, place_of(edge), Apply("distance", (foot, nearest)))
        if all(isinstance(apart, float) and apart <= JOIN for apart in row):
            return key
    return keys[0]
