"""``made for: children …``, ``garment:`` and ``cords:`` of a project: who wears it, and what hangs on it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import BySize, Literal, Name, key_of
from chalkfold.plan import Limit, Style
from chalkfold.reading import Fields, Node, Text
from chalkfold.reading import Mapping as Body
from chalkfold.trade.children import UNDER_THREE, Ages, child_rules, is_child, months_of
from chalkfold.trade.words import goods_named, words_in

EXAMPLE = "- {cord: waist tie, where: waist, free end: 10 cm}"
NONE = "none"


@dataclass(frozen=True, slots=True)
class Cord:
    """A cord, belt or strap. ``lengths`` are steps by what is measured; ``truths`` what is said to be so or not."""

    name: str
    place: Span
    zone: str
    where: str
    kind: str
    channel: str
    lengths: Mapping[str, Name]
    truths: Mapping[str, bool]
    said: frozenset[str]
    """What is said of it, also where that was faulty and is reported already."""


@dataclass(frozen=True, slots=True)
class ForChild:
    """A garment for a child. ``group`` is what sort of garment it is, as far as it is said."""

    groups: tuple[Ages, ...]
    months: tuple[int, int] | None
    garment: str
    group: str
    cords: tuple[Cord, ...]
    said_none: bool
    lost: bool
    """A cord was faulty, so that there may seem to be none."""
    bought: tuple[tuple[str, Span], ...]
    """Roles of goods that are cords."""
    small_parts: tuple[str, ...]
    """What the post or its goods name that can come off; for under-threes only."""


def read_child(fields: Fields, desk: Desk) -> ForChild | None:
    """Read who wears it and its cords; None where it is not for a child."""
    chart, rules = desk.project.chart, child_rules()
    said = fields.text("made for")
    garment = fields.choice("garment", [word for words in rules.garments.values() for word in words]) or ""
    nodes = fields.items("cords")
    if not (said and is_child(said.value)) and not (chart and is_child(chart.made_for)):
        if nodes:
            hint = "write who wears it, as in `made for: children 3 to 8 years`, or take `cords:` out"
            message = "`cords:` is for children's clothing, and nothing says that this is for a child"
            desk.faults.add(Code.CHILDREN, message, nodes[0].where, hint)
        return None
    months = months_of(said.value) if said else None
    heights = _heights(desk)
    before = len(desk.faults)
    said_none = any(isinstance(node, Text) and key_of(node.value) == NONE for node in nodes)
    cords = () if said_none else tuple(_cords(nodes, desk))
    return ForChild(
        rules.counted(months, heights),
        months,
        garment,
        rules.garment(garment),
        cords,
        said_none,
        len(desk.faults) > before,
        tuple(_bought(fields, desk)),
        _small_parts(fields, desk) if _may_be_under_three(months, heights) else (),
    )


def _heights(desk: Desk) -> list[float]:
    """Body heights of the post's sizes in cm, where its chart has them."""
    project = desk.project
    measure = project.chart.measures.get("height") if project.chart else None
    cases = measure.step.expression.cases if measure and isinstance(measure.step.expression, BySize) else ()
    return [each.value / 10 for label, each in cases if label in project.sizes.labels and isinstance(each, Literal)]


def _may_be_under_three(months: tuple[int, int] | None, heights: list[float]) -> bool:
    if months is not None:
        return months[0] < UNDER_THREE
    return not heights or min(heights) <= 98  # a child of three is about 98 cm: common practice, no source


def _cords(nodes: list[Node], desk: Desk) -> Iterator[Cord]:
    names: list[str] = []
    for node in nodes:
        if not isinstance(node, Body):
            hint = f"write `{EXAMPLE}`, or `cords: none`"
            desk.faults.add(Code.DATA_SHAPE, "a cord needs its name and where it lies", node.where, hint)
            continue
        cord = _cord(Fields(node, desk.faults, "a cord"), names, desk)
        if cord is not None:
            yield cord


def _cord(fields: Fields, names: list[str], desk: Desk) -> Cord | None:
    rules = child_rules()
    said = fields.required_text("cord")
    where = fields.choice("where", rules.zones) if fields.required("where") else None
    kind = fields.choice("kind", rules.kinds) or "drawstring"
    channel = fields.text("in")
    truths = {
        name: said_so == "yes"
        for name, asked in rules.measures.items()
        if not asked.is_length and (said_so := fields.choice(name, ("yes", "no")))
    }
    texts = {name: text for name, asked in rules.measures.items() if asked.is_length and (text := fields.text(name))}
    known = frozenset(name for name in rules.measures if fields.has(name))
    fields.finish()
    if said is None or desk.taken("cord", said, names) or where is None:
        return None
    names.append(said.value)
    lengths = {}
    for name, text in texts.items():
        expression = desk.formula(text)
        if expression is not None:
            called, keeps = f"{name} of {said.value}", Limit.NOT_NEGATIVE
            lengths[name] = desk.step(called, expression, text.span(), style=Style.FINE, limit=keeps, kind=Kind.LENGTH)
    desk.want(*lengths.values())
    in_piece = key_of(channel.value) if channel else ""
    return Cord(said.value, said.span(), rules.zones[where], where, kind, in_piece, lengths, truths, known)


def _bought(fields: Fields, desk: Desk) -> Iterator[tuple[str, Span]]:
    listed = fields.mapping("notions")
    for role, (goods, _) in desk.project.roles.items():
        place = next((entry.key.span() for entry in listed or () if entry.key.value == role), None)
        if place is not None and goods_named(goods, child_rules().cords):
            yield role, place


def _small_parts(fields: Fields, desk: Desk) -> tuple[str, ...]:
    named = child_rules().small_parts
    in_text = words_in(fields.whole.where.source.text, named)
    return in_text or tuple(role for role, (goods, _) in desk.project.roles.items() if goods_named(goods, named))
