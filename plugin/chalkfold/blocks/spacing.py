"""``spacing``: even places along a length, in the round or flat; buttons, tassels, loops, pleats."""

from __future__ import annotations

from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk, MakeView
from chalkfold.blocks.pleats import Pleats, lay_down_pleats, read_pleats
from chalkfold.blocks.rows import Row, demand_wished_space, flat_row, flat_row_landing, round_row
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, Name, apply, key_of, parse_name
from chalkfold.plan import Fact, Facts, Frame, Group, Limit, Line, Listing, Ruler, Style, View
from chalkfold.reading import Fields, Text

WAYS = {"nearest": "round", "at most": "round up", "at least": "round down"}
"""``every:`` says how near; the number of spaces is rounded the matching way."""


@dataclass(frozen=True, slots=True)
class Wish:
    """How many, or how far apart: one of the two is given."""

    count: Name | None = None
    every: Name | None = None
    way: str = "round"


@dataclass(frozen=True, slots=True)
class Asked:
    """A spacing as read: everything is a step already. ``ends`` are the first and the last, for a flat row."""

    name: str
    place: Span
    length: Name
    parts: tuple[tuple[str, Name], ...]
    wish: Wish
    in_the_round: bool
    ends: tuple[Name, Name] | None
    width: Name | None
    land_on: Name | None
    keep_off: Name | None
    start_at: Name | None


def read(fields: Fields, desk: Desk) -> MakeView:
    """Lay down count, space and places, and show them as figures, a ruler and running distances."""
    name, frame, asked, pleats = _read(fields, desk)
    if asked is None:
        desk.nameless |= not name
        if name:
            desk.broken.add(key_of(name))
        return lambda plan: Group(frame, ())
    if pleats is not None:
        shown = lay_down_pleats(asked, pleats, desk)
        return lambda plan: Group(frame, shown)
    row = _row(asked, desk)
    view = Group(frame, tuple(_views(asked, row, desk)))
    return lambda plan: view


def _read(fields: Fields, desk: Desk) -> tuple[str, Frame, Asked | None, Pleats | None]:
    """Its name, empty where it has none, and what it asks for; nothing after a fault."""
    said = fields.required_text("name")
    name = None if said is None else parse_name(said, desk.faults)
    title = name or "spacing"
    frame = desk.frame(fields, (title[:1].upper() + title[1:],))
    of = name or "this spacing"
    along = _along(fields, of, desk)
    wish = _wish(fields, of, desk)
    in_the_round = fields.yes_no("in the round")
    ends = _ends(fields, of, desk)
    width, land_on, keep_off, start_at = (
        _length(fields.text(key), f"{key} of {of}", desk) for key in ("width", "land on", "keep off seams", "start at")
    )
    pleats = read_pleats(fields, of, desk)
    fields.finish()
    if said is None or name is None or along is None or wish is None:
        return name or "", frame, None, None
    others = (("spacing", desk.spacings), ("piece", desk.pieces), ("role", desk.roles))
    taken = any(desk.taken(what, said, names) for what, names in others)
    if taken or not _fitting(fields, in_the_round, pleats is not None, desk):
        return name, frame, None, None
    desk.spacings.append(name)
    whole, parts = along
    asked = Asked(name, said.span(), whole, parts, wish, in_the_round, ends, width, land_on, keep_off, start_at)
    return name, frame, asked, pleats


def _along(fields: Fields, name: str, desk: Desk) -> tuple[Name, tuple[tuple[str, Name], ...]] | None:
    """The whole length, and each edge it is made of."""
    if not fields.required("along"):
        return None
    parts: list[tuple[str, Name]] = []
    for number, text in enumerate(fields.texts("along"), start=1):
        expression = desk.formula(text)
        if expression is None:
            return None
        step = f"part {number} of {name}"
        limit = Limit.POSITIVE
        parts.append((text.value, desk.step(step, expression, text.span(), limit=limit, kind=Kind.LENGTH)))
    if not parts:
        return None
    total: Expression = parts[0][1]
    for _, part in parts[1:]:
        total = total + part
    return desk.step(f"length of {name}", total, fields.whole.where, style=Style.FINE, limit=Limit.POSITIVE), tuple(
        parts
    )


def _wish(fields: Fields, name: str, desk: Desk) -> Wish | None:
    count, every = fields.text("count"), fields.text("every")
    both = fields.has("count") and fields.has("every")
    message, hint = "a spacing needs either `every:` or `count:`", "write `every: nearest 4 cm` or `count: 7`"
    if both and count is not None:
        desk.faults.add(Code.SPACING, f"{message}, not both", count.span(), hint)
    elif not fields.has("count") and not fields.has("every"):
        fields.missing("count", "every", code=Code.SPACING, message=message, hint=hint)
    if both or (count is None and every is None):
        return None
    if count is not None:
        expression = desk.formula(count)
        if expression is None:
            return None
        wished = f"wished count of {name}"
        step = desk.step(wished, expression, count.span(), limit=Limit.POSITIVE, kind=Kind.PLAIN)
        whole = apply("=", step, apply("round", step))
        line: Line = (f"the count of {name} is not a whole number: ", desk.shown(step))
        desk.demand(whole, line, count.span(), "write a whole number, or round it: `round(…)`", about=name)
        return Wish(count=step)
    assert every is not None
    return _every(every, name, desk)


def _every(text: Text, name: str, desk: Desk) -> Wish | None:
    said = text.value.casefold()
    way = next((each for each in WAYS if said.startswith(f"{each} ")), None)
    if way is None:
        wished = text.value if text.value[:1].isdigit() else "4 cm"
        desk.faults.add(
            Code.SPACING,
            "`every:` does not say how near to keep to it",
            text.span(),
            f"write `every: nearest {wished}`, `at most {wished}` or `at least {wished}`",
        )
        return None
    start = len(way) + len(text.value[len(way) :]) - len(text.value[len(way) :].lstrip())
    expression = desk.formula(text.part(start, len(text.value)))
    if expression is None:
        return None
    step = desk.step(f"wished space of {name}", expression, text.span(start), limit=Limit.POSITIVE, kind=Kind.LENGTH)
    return Wish(every=step, way=WAYS[way])


def _ends(fields: Fields, name: str, desk: Desk) -> tuple[Name, Name] | None:
    """``ends: 2 cm``, or two where they differ: ``ends: [1.5 cm, 10 cm]``."""
    texts = fields.texts("ends")
    if not texts:
        return None
    if len(texts) > 2:
        desk.faults.add(Code.SPACING, "a row has two ends", texts[2].span(), "write `ends: [1.5 cm, 10 cm]`")
        return None
    labels = ("first end", "last end") if len(texts) == 2 else ("each end",)
    found = [_length(text, f"{label} of {name}", desk) for text, label in zip(texts, labels, strict=True)]
    first, last = found[0], found[-1]
    return None if first is None or last is None else (first, last)


def _length(text: Text | None, name: str, desk: Desk) -> Name | None:
    expression = desk.formula(text)
    if text is None or expression is None:
        return None
    return desk.step(name, expression, text.span(), limit=Limit.NOT_NEGATIVE, kind=Kind.LENGTH)


NOT_TOGETHER = {
    "in the round": {
        "ends": "a closed edge has no ends: write `start at: 2 cm` to move the first mark, or `in the round: no`"
    },
    "flat": {"start at": "for a flat row write where the first and the last mark lie: `ends: [3 cm, 0]`"},
    "pleats": {
        "width": "the room a pleat takes is the space between two; leave `width:` out",
        "land on": "write `ends:` to move the pleats",
        "keep off seams": "write `ends:` to move the pleats",
        "start at": "write `ends:` to move the pleats",
    },
}


def _fitting(fields: Fields, in_the_round: bool, pleats: bool, desk: Desk) -> bool:
    """Refuse keys that make no sense together."""
    sort = "in the round" if in_the_round else "flat"
    refused = NOT_TOGETHER[sort] | (NOT_TOGETHER["pleats"] if pleats else {})
    clean = True
    for entry in fields.whole:
        key = entry.key.value.casefold()
        hint = refused.get(key)
        if hint is not None:
            kind = "pleats" if pleats and key in NOT_TOGETHER["pleats"] else f"a row {sort}"
            kind = kind.replace("a row flat", "a flat row")
            desk.faults.add(Code.SPACING, f"`{entry.key.value}` does not go with {kind}", entry.key.span(), hint)
            clean = False
    return clean


def _row(asked: Asked, desk: Desk) -> Row:
    """Choose the formulas, lay the row down, and demand that it fits."""
    if asked.in_the_round:
        row = round_row(asked, desk)
    elif asked.land_on is not None:
        row = flat_row_landing(asked, desk)
    else:
        row = flat_row(asked, desk)
    demand_wished_space(asked, row.space, desk)
    if asked.width is not None:
        desk.demand(
            apply("or", apply("=", row.count, 1), apply(">=", row.space, asked.width)),
            (asked.name, " overlap: they are ", desk.shown(asked.width), " wide and ", desk.shown(row.space), " apart"),
            asked.width.span or asked.place,
            "ask for fewer, or wider apart",
            about=asked.name,
        )
    if asked.keep_off is not None and row.seams is None:
        desk.faults.add(
            Code.SPACING,
            f"{asked.name} has no seam to keep off: it lies flat on one edge",
            asked.keep_off.span or asked.place,
            "list the edges, as in `along: [hem of back, hem of front]`; to keep off its ends write `ends: 2 cm`",
        )
    elif asked.keep_off is not None and row.seams is not None:
        around: Expression = asked.length if asked.in_the_round else asked.length - asked.length
        clear = Apply("clearance", (row.places, row.seams, around), asked.place)
        centre = desk.step(f"distance from seams of {asked.name}", clear, asked.place)
        kept = centre if asked.width is None else desk.hidden(centre - asked.width / 2, asked.place)
        off = desk.shown(asked.keep_off)
        desk.demand(
            apply(">=", kept, asked.keep_off),
            (f"a mark of {asked.name} lies ", desk.shown(kept), " from a seam, and should keep ", off, " off"),
            asked.keep_off.span or asked.place,
            "change the count, the ends or the start, or ask for less room at the seams",
            about=asked.name,
        )
    return row


def _views(asked: Asked, row: Row, desk: Desk) -> list[View]:
    desk.want(asked.length, row.places)
    facts = [
        Fact(("How many",), (desk.shown(row.count),)),
        Fact(("Space, from one to the next",), (desk.shown(row.space),)),
        Fact(("Along",), (desk.shown(asked.length),)),
    ]
    if asked.width is not None:
        gap = desk.step(f"gap of {asked.name}", row.space - asked.width, asked.place, style=Style.FINE)
        facts.insert(2, Fact(("Gap between two",), (desk.shown(gap),)))
    start: Line = ("from the first seam",) if asked.in_the_round else ("from the first end",)
    width = None if asked.width is None else asked.width.key
    ruler = Ruler(
        Frame(caption=("Measure every mark ", *start, ", not from the mark before.")),
        asked.length.key,
        row.places.key,
        start,
        width=width,
        in_the_round=asked.in_the_round,
    )
    return [Facts(Frame(), tuple(facts), "spacing"), ruler, *_per_piece(asked, row, desk)]


def _per_piece(asked: Asked, row: Row, desk: Desk) -> list[View]:
    """Running distances on each edge, where there is more than one."""
    if len(asked.parts) < 2:
        return []
    columns: list[tuple[Line, str]] = []
    for number, ((label, part), start) in enumerate(zip(asked.parts, row.starts, strict=True), start=1):
        last = number == len(asked.parts) and not asked.in_the_round
        end = start + part + (part if last else part * 0)  # the last mark of a flat row lies at the very end
        inside = Apply("positions between", (row.places, start, end), asked.place)
        places = desk.step(f"places on part {number} of {asked.name}", inside, asked.place, style=Style.FINE)
        desk.want(places)
        columns.append(((label,), places.key))
    caption: Line = ("On each piece, from the end where the row comes onto it.",)
    return [Listing(Frame(title=(asked.name, ", piece by piece"), caption=caption), tuple(columns))]
