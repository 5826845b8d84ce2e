"""``materials``: what to buy or find, by size, rounded up to how it is sold."""

from __future__ import annotations

import re
from dataclasses import dataclass

from chalkfold.amounts import AmountTrouble, scan
from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.cloth_needed import cloth_needed
from chalkfold.blocks.desk import BY_SIZE, Desk, MakeView
from chalkfold.blocks.sewing.thread import SEAMS, from_seams
from chalkfold.diagnostics import Code, Span, near
from chalkfold.formula import Literal, Name, apply, key_of
from chalkfold.plan import Fact, Facts, Limit, Line, Style
from chalkfold.reading import Fields, Mapping, Text

WAYS = ("length", "area", "count", "each", "from")
_FROM = re.compile(r"pieces cut in (\S.*)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Pack:
    """How something is sold: ``8 m skeins``, ``10 cm``, ``5 buttons``."""

    amount: Literal
    noun: str
    text: str


@dataclass(frozen=True, slots=True)
class Item:
    """An item being read; ``called`` names its steps."""

    fields: Fields
    called: str
    place: Span
    pack: Pack | None


def read(fields: Fields, desk: Desk) -> MakeView:
    """Read every item; each says in one way how much of it is needed."""
    frame = desk.frame(fields, ("You need",))
    facts: list[Fact] = []
    for number, item in enumerate(fields.items("items"), start=1):
        if isinstance(item, Mapping):
            fact = _item(Fields(item, desk.faults, "an item", otherwise=BY_SIZE), number, desk)
            facts += [fact] if fact else []
        else:
            desk.faults.add(
                Code.DATA_SHAPE,
                "an item needs its name and how much",
                item.where,
                "write `- item: elastic` and below it `length: …`",
            )
    fields.required("items")
    fields.finish()
    view = Facts(frame, tuple(facts), "need")
    return lambda plan: view


def _item(fields: Fields, number: int, desk: Desk) -> Fact | None:
    said = fields.required_text("item")
    label = desk.line(said)
    note = desk.line(fields.text("note"))
    place = fields.whole.where if said is None else said.span()
    item = Item(fields, f"item {number}", place, _pack(fields.text("sold in"), desk))
    amount = _amount(item, desk)
    fields.finish()
    return None if said is None or amount is None else Fact(label, amount, note)


def _amount(item: Item, desk: Desk) -> Line | None:
    given = [way for way in WAYS if item.fields.has(way)]
    match given:
        case ["length"]:
            return _length(item, desk)
        case ["area"]:
            return _area(item, desk)
        case ["count"]:
            return _count(item, desk)
        case ["count", "each"]:
            return _each(item, desk)
        case ["from"]:
            return _from(item, desk)
    hint = (
        "write one of `length:`, `area:`, `count:`, `each:` with `count:`, `from: pieces cut in interfacing` "
        "or `from: seams`"
    )
    if given == ["each"]:
        message, hint = "`each:` does not say how many", "write the number too, as in `count: 6`"
        item.fields.missing("count", code=Code.MATERIALS, message=message, hint=hint)
    elif not given:
        item.fields.missing(*WAYS, code=Code.MATERIALS, message="this item does not say how much", hint=hint)
    else:
        ways = " and ".join(f"`{way}:`" for way in given)
        desk.faults.add(Code.MATERIALS, f"this item says how much in {len(given)} ways: {ways}", item.place, hint)
    return None


def _number(item: Item, key: str, kind: Kind, style: Style, desk: Desk) -> Name | None:
    text = item.fields.text(key)
    expression = desk.formula(text)
    if text is None or expression is None:
        return None
    return desk.step(
        f"{key} of {item.called}", expression, text.span(), style=style, limit=Limit.NOT_NEGATIVE, kind=kind
    )


def _length(item: Item, desk: Desk) -> Line | None:
    length = _number(item, "length", Kind.LENGTH, Style.TO_BUY, desk)
    if length is None:
        return None
    return (desk.shown(length),) if item.pack is None else _packs(length, item, Kind.LENGTH, desk)


def _area(item: Item, desk: Desk) -> Line | None:
    area = _number(item, "area", Kind.AREA, Style.TO_BUY, desk)
    if area is not None and item.pack is not None:
        _wrong_pack(item, f"what is needed is an area, and it is not sold in `{item.pack.text}`", desk)
        return None
    return None if area is None else (desk.shown(area),)


def _count(item: Item, desk: Desk) -> Line | None:
    count = _whole(item, desk)
    if count is None:
        return None
    return (desk.shown(count),) if item.pack is None else _packs(count, item, Kind.PLAIN, desk)


def _whole(item: Item, desk: Desk) -> Name | None:
    """The count, rounded up: nobody buys or cuts half a button."""
    count = _number(item, "count", Kind.PLAIN, Style.COUNT, desk)
    if count is None:
        return None
    return desk.step(f"number of {item.called}", apply("round up", count), item.place, style=Style.COUNT)


def _packs(need: Name, item: Item, kind: Kind, desk: Desk) -> Line | None:
    """Whole packs: the need divided by what one holds, rounded up."""
    pack = item.pack
    assert pack is not None
    if pack.amount.kind is not kind:
        sort = "a length" if kind is Kind.LENGTH else "a number"
        _wrong_pack(item, f"what is needed is {sort}, and it is not sold in `{pack.text}`", desk)
        return None
    packs = desk.step(f"packs of {item.called}", apply("round up", need / pack.amount), item.place, style=Style.COUNT)
    return _sold(packs, need, pack, item, desk)


def _sold(packs: Name, need: Name, pack: Pack, item: Item, desk: Desk) -> Line:
    size = desk.step(f"pack of {item.called}", pack.amount, item.place, style=Style.TO_BUY)
    if not pack.noun:  # sold by measure: 10 cm, 1/8 yd
        bought = desk.step(f"bought of {item.called}", packs * size, item.place)
        return (desk.shown(bought),)
    if pack.amount.kind is Kind.PLAIN:
        return (f"packs of {pack.text}: ", desk.shown(packs), ", for ", desk.shown(need))
    return (f"{pack.noun} of ", desk.shown(size), ": ", desk.shown(packs))


def _each(item: Item, desk: Desk) -> Line | None:
    """Whole lengths: 13 lengths of 60 cm from a skein of 8 m, not 13.3."""
    each = _number(item, "each", Kind.LENGTH, Style.USUAL, desk)
    count = _whole(item, desk)
    if each is None or count is None:
        return None
    pack = item.pack
    if pack is None:
        total = desk.step(f"length of {item.called}", each * count, item.place, style=Style.TO_BUY)
        return (desk.shown(count), " × ", desk.shown(each), ", ", desk.shown(total), " in all")
    if pack.amount.kind is not Kind.LENGTH:
        _wrong_pack(item, f"lengths are not cut from `{pack.text}`", desk)
        return None
    if not pack.noun:  # sold by measure, cut from the roll in one piece
        total = desk.step(f"length of {item.called}", each * count, item.place, style=Style.TO_BUY)
        bought = _packs(total, item, Kind.LENGTH, desk)
        return None if bought is None else (*bought, ", for ", desk.shown(count), " × ", desk.shown(each))
    a_pack = desk.step(
        f"lengths from a pack of {item.called}", apply("round down", pack.amount / each), item.place, style=Style.COUNT
    )
    desk.demand(
        apply(">=", a_pack, 1),
        ("one length of ", desk.shown(each), f" is longer than `{pack.text}`"),
        pack.amount.span or item.place,
        "buy it in longer packs, or cut shorter lengths",
    )
    packs = desk.step(
        f"packs of {item.called}", apply("round up", count / apply("max", 1, a_pack)), item.place, style=Style.COUNT
    )
    return (*_sold(packs, count, pack, item, desk), ", for ", desk.shown(count), " × ", desk.shown(each))


HOW_SOLD = "write how it is sold, as in `sold in: 8 m skeins` or `sold in: 5 buttons`"


def _wrong_pack(item: Item, message: str, desk: Desk, hint: str = HOW_SOLD) -> None:
    text = item.fields.text("sold in")
    desk.faults.add(Code.MATERIALS, message, item.place if text is None else text.span(), hint)


def _from(item: Item, desk: Desk) -> Line | None:
    text = item.fields.text("from")
    if text is None:
        return None
    if SEAMS.match(text.value):
        return _from_seams(item, text, desk)
    match = _FROM.fullmatch(" ".join(text.value.split()))
    if match is None:
        message = "`from:` takes the pieces cut in a role, or the seams"
        hint = "write `from: pieces cut in interfacing` or `from: seams`"
        desk.faults.add(Code.MATERIALS, message, text.span(), hint)
        return None
    role = key_of(match[1])
    pieces = [piece for piece in desk.pieces.values() if any(key_of(cut.role) == role for cut in piece.cuts)]
    if not pieces and desk.pieces_lost:
        return None
    if not pieces:
        roles = {cut.role for piece in desk.pieces.values() for cut in piece.cuts}
        likely = near(match[1], roles)
        listed = ", ".join(sorted(roles)) or "none yet"
        hint = f"did you mean `{likely}`?" if likely else f"pieces are cut in: {listed}"
        desk.faults.add(Code.MATERIALS, f"no piece is cut in `{match[1]}`", text.span(), hint)
        return None
    cloth = cloth_needed(pieces, match[1], item.called, text.span(), item.pack is None, desk)
    if item.pack is None:
        return cloth.line
    if cloth.length is None:
        message = f"how wide `{match[1]}` is, is not known, so only an area can be told, not so many `{item.pack.text}`"
        _wrong_pack(item, message, desk, f"leave `sold in:` out, or give the cloth of `{match[1]}` a `usable width:`")
        return None
    packs = _packs(cloth.length, item, Kind.LENGTH, desk)
    return None if packs is None else (*packs, *([","] if item.pack.noun else []), *cloth.remark)


def _from_seams(item: Item, text: Text, desk: Desk) -> Line | None:
    length = from_seams(text, item.called, desk)
    if length is None or item.pack is None:
        return None if length is None else (desk.shown(length),)
    packs = _packs(length, item, Kind.LENGTH, desk)
    return None if packs is None else (*packs, ", for ", desk.shown(length))


def _pack(text: Text | None, desk: Desk) -> Pack | None:
    if text is None:
        return None
    hint = "write an amount and what it is called, as in `8 m skeins`, `10 cm` or `5 buttons`"
    try:
        amount = scan(text.value, 0)
    except AmountTrouble as trouble:
        desk.faults.add(trouble.code, trouble.message, text.span(trouble.start, trouble.end), trouble.hint)
        return None
    if amount is None or amount.kind not in (Kind.LENGTH, Kind.PLAIN) or amount.value <= 0:
        desk.faults.add(Code.MATERIALS, f"`{text.value}` does not say how it is sold", text.span(), hint)
        return None
    noun = text.value[amount.end :].strip()
    if amount.kind is Kind.PLAIN and not noun:
        desk.faults.add(Code.MATERIALS, f"`{text.value}` does not say of what", text.span(), hint)
        return None
    return Pack(Literal(amount.value, amount.kind, amount.text, text.span(0, amount.end)), noun, text.value)
