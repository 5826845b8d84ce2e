"""``panels:`` of a draft: the piece parted along its style lines, each part a piece of its own.

How often a panel is cut follows from the whole piece (our own reckoning): what lies off the fold of a piece cut on the
fold is needed once for each half, as a pair.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import BY_SIZE, Desk
from chalkfold.blocks.drafting.contour import Contour, Draft, edges_of, is_taken, named_once
from chalkfold.blocks.drafting.copies import taken_over
from chalkfold.blocks.drafting.flattened import flattened
from chalkfold.blocks.drafting.like import merged
from chalkfold.blocks.drafting.parted_shapings import Held, on_edges, shapings_in
from chalkfold.blocks.drafting.parting import Parted, find_line, parted
from chalkfold.blocks.drafting.what_is_left import lines_left, marks_left
from chalkfold.blocks.layers import Cut, read_cuts
from chalkfold.blocks.pieces import Piece
from chalkfold.diagnostics import Code
from chalkfold.formula import Literal, Name, apply, key_of, parse_name
from chalkfold.plan import Drawing, Fact, Facts, Frame, View
from chalkfold.reading import Entry, Fields, Mapping, Text

ALONG = "along"
MOST_SEAMS = 12
WALKED = Literal(0.5, Kind.LENGTH, "0.5 mm")
"""How far two seams of panels may differ: nothing a needle shows."""
Make = Callable[[Fields, Contour, str, Text, tuple[Cut, ...]], Drawing | None]
"""Makes a piece of a contour, with what is written of it; returns its drawing."""


def read_panels(fields: Fields, draft: Draft, make: Make, desk: Desk) -> tuple[View, ...]:
    """The drawings of the panels, and the walk along the seams between them; nothing after a fault."""
    body = fields.mapping("panels", "{side panel: {side: towards side}}")
    if body is None:
        return ()
    wanted = [entry for entry in body if key_of(entry.key.value) != ALONG]
    draft = flattened(draft, desk)
    parts = _parts(body, draft, desk)
    if parts is None:
        desk.broken.update(key_of(entry.key.value) for entry in wanted)
        return ()
    views: list[View] = []
    names: dict[int, str] = {}
    for entry in wanted:
        found = _panel(entry, parts, names, draft, make, desk)
        if found is None:
            desk.broken.add(key_of(entry.key.value))
        else:
            views.append(found)
    if len(views) == len(wanted) and _all_named(parts.parted, names, body, desk):
        views.append(_walked(parts.parted, names, desk))
    return tuple(views)


def panel_keys(fields: Fields) -> frozenset[str]:
    """The keys of the panels that a draft names."""
    body = fields.whole.get("panels")
    entries = body.entries if isinstance(body, Mapping) else ()
    return frozenset(key_of(entry.key.value) for entry in entries) - {ALONG}


@dataclass(frozen=True, slots=True)
class _Parts:
    """A piece in parts, with the darts and pleats that each holds."""

    parted: Parted
    held: list[Held]


def _parts(body: Mapping, draft: Draft, desk: Desk) -> _Parts | None:
    """The piece parted along the lines that are meant."""
    piece, lines = draft.piece, draft.lines
    if draft.shaped.on_cutting_line or piece.main.lies == "in the round":
        how = "drawn on its cutting line" if draft.shaped.on_cutting_line else "cut in the round, with two layers"
        hint = "draw it flat, on its seam line: panels get allowances of their own"
        desk.faults.add(Code.DRAFT, f"{piece.name} is {how}, and cannot be parted", body.where, hint)
        return None
    said = Fields(body, desk.faults, "`panels`").texts(ALONG)
    along = [find_line(text, lines, piece.name, desk) for text in said] or list(lines.values())
    if None in along:
        return None
    if len(along) > MOST_SEAMS:
        message = f"{piece.name} is parted along {len(along)} lines"
        desk.faults.add(Code.DRAFT, message, body.where, f"part it along at most {MOST_SEAMS} lines")
        return None
    if not said and len(lines) != 1:
        named = ", ".join(line.name for line in lines.values())
        message = f"it is not said along which lines {piece.name} is parted"
        hint = (
            f"write `along: [{named}]` under `panels:`"
            if lines
            else "draw one: `lines: {panel line: from A; line to B}`"
        )
        desk.faults.add(Code.DRAFT, message, body.where, hint)
        return None
    drawn = edges_of(piece.name, draft.outline, desk)
    parts = parted(replace(draft.shaped.contour, edges=drawn), body.where, desk)
    places = [text.span() for text in said] or [line.span or body.where for line in lines.values()]
    parted_all = [parts.part(line, place) for line, place in zip(along, places, strict=True) if line]
    if not all(parted_all):
        return None
    held = shapings_in(parts, [line for line in along if line], body.where, desk)
    return None if held is None else _Parts(parts, held)


def _panel(entry: Entry, parts: _Parts, names: dict[int, str], draft: Draft, make: Make, desk: Desk) -> Drawing | None:
    if parse_name(entry.key, desk.faults) is None or is_taken(entry.key, desk):
        return None
    name = entry.key.value
    if not isinstance(entry.value, Mapping):
        hint = f"write `{name}: {{side: towards side}}`, and `cut:` or `allowances:` where it has its own"
        desk.faults.add(Code.DRAFT, f"it is not said where the panel `{name}` lies", entry.value.where, hint)
        return None
    own = Fields(entry.value, desk.faults, f"the panel `{name}`", otherwise=BY_SIZE)
    said = own.required_text("side")
    number = None if said is None else parts.parted.meant(said, [line.name for line in draft.lines.values()])
    if said is None or number is None:
        own.also(*(each.key.value for each in entry.value))
        own.finish()
        return None
    if number in names:
        message = f"`{names[number]}` and `{name}` are the same part of {draft.piece.name}"
        desk.faults.add(Code.DRAFT, message, said.span(), "name another side for one of them")
        return None
    names[number] = name
    contour = _contour(parts, number, name, draft, desk)
    fields = Fields(_body(entry.value, contour, draft), desk.faults, f"the panel `{name}`", otherwise=BY_SIZE)
    fields.also("side")
    cuts = _cuts(fields, contour, draft, desk)
    return make(fields, contour, name, entry.key, cuts) if cuts else None


def _contour(of: _Parts, number: int, name: str, draft: Draft, desk: Desk) -> Contour:
    parts = of.parted
    points = taken_over(draft.shaped.points, name, None, draft.piece.span, desk)
    drawn, as_for = named_once(parts.regions[number])
    edges = edges_of(name, drawn, desk)
    outline = parts.outline(parts.regions[number])
    others = {key: line for key, line in draft.lines.items() if key not in edges.drawn}
    return Contour(
        edges,
        points,
        draft.folds & edges.drawn.keys(),
        lines_left(others, outline, points, desk),
        {**draft.shaped.contour.as_for, **as_for},
        marks_left(draft.marks, (*draft.outline, *draft.lines.values()), outline, edges, desk),
        shapings=on_edges(of.held[number], edges, as_for, desk),
    )


def _body(own: Mapping, contour: Contour, draft: Draft) -> Mapping:
    """What is written of a panel, and what it takes from the whole: the grain, and allowances of edges that it has."""
    grain = draft.body.get("grain")
    allowances = draft.body.get("allowances")
    taken = [] if grain is None else [_entry("grain", draft)]
    if isinstance(allowances, Mapping):
        known = {"all", *contour.edges.drawn, *contour.as_for.values()} - (contour.folds or frozenset())
        kept = tuple(entry for entry in allowances if key_of(entry.key.value) in known)
        taken.append(replace(_entry("allowances", draft), value=Mapping(kept, allowances.where)))
    elif allowances is not None:
        taken.append(_entry("allowances", draft))
    return merged(own, Mapping(tuple(taken), own.where))


def _entry(key: str, draft: Draft) -> Entry:
    return next(entry for entry in draft.body if key_of(entry.key.value) == key)


def due(cut: Cut, folds: int) -> Cut:
    """How often a panel that lies on so many folds is cut, where the whole piece is cut as ``cut`` says."""
    if cut.lies == "on fold":
        return cut if folds else replace(cut, lies="pair")
    if cut.lies == "on two folds" and folds < 2:
        return Cut(2 * cut.count, "on fold" if folds else "pair", cut.role)
    return cut


def _cuts(fields: Fields, contour: Contour, draft: Draft, desk: Desk) -> tuple[Cut, ...]:
    """As written, if that goes with the whole piece; else what follows from it."""
    whole, folds = draft.piece.main, len(contour.folds or ())
    if not fields.has("cut"):
        return tuple(due(cut, folds) for cut in draft.piece.cuts)
    said = fields.texts("cut")
    cuts = read_cuts(said, desk)
    needed = due(whole, folds)
    if fields.has("on fold"):
        return cuts
    for text, cut in zip(said, cuts, strict=False):
        if cut.lies != needed.lies or cut.count % needed.count:
            ways = f"{needed.count} {needed.lies} in {cut.role}".replace("  ", " ")
            lies = "lies on the fold" if folds else "lies off the fold, so that each half of the piece needs one"
            reason = lies if whole.layers > 1 else f"is a part of a piece cut `{whole.said}`"
            message = f"{contour.edges.piece} {reason}, and `{text.value}` does not give that"
            desk.faults.add(Code.DRAFT, message, text.span(), f"write `{ways}`, or leave `cut:` out")
            return ()
    return cuts


def _all_named(parts: Parted, names: dict[int, str], body: Mapping, desk: Desk) -> bool:
    left = [region for number, region in enumerate(parts.regions) if number not in names]
    for region in left:
        edges = ", ".join(f"`{each.name}`" for each in region)
        alone = [each.name for each in region if sum(each.name in {e.name for e in r} for r in parts.regions) == 1]
        hint = (
            f"add a panel with `side: towards {alone[0]}`"
            if alone
            else "add a panel with `side: between LINE and LINE`"
        )
        message = f"a part of {parts.piece} is in no panel: the one with {edges}"
        desk.faults.add(Code.DRAFT, message, body.where, hint)
    return not left


def _walked(parts: Parted, names: dict[int, str], desk: Desk) -> Facts:
    """Every new seam measured on both its panels; they must be equal."""
    facts = []
    outer = {each.name for each in parts.contour.edges.drawn.values()}
    edges = {name: {each.name for each in parts.regions[number]} for number, name in names.items()}
    seams = dict.fromkeys(each.name for number in names for each in parts.regions[number] if each.name not in outer)
    for seam in seams:
        beside = [name for name, of in edges.items() if seam in of]
        pieces = [desk.pieces[key_of(name)] for name in beside]
        if len(pieces) != 2 or any(key_of(seam) in desk.patterns[key_of(name)].folds for name in beside):
            continue
        one, other = (_sewn(seam, piece, desk) for piece in pieces)
        shown = desk.shown(one), desk.shown(other)
        apart = apply("max", one - other, other - one)
        desk.demand(
            apply("<=", apart, WALKED),
            (f"{seam} is ", shown[0], f" long on {beside[0]} and ", shown[1], f" on {beside[1]}"),
            pieces[0].span,
            "shape both panels alike along the seam between them",
            apart=apart,
        )
        facts.append(Fact((f"{seam}, {beside[0]} to {beside[1]}",), (shown[0], " = ", shown[1])))
    return Facts(Frame("", ("The seams between the panels, walked",)), tuple(facts), "checks")


def _sewn(seam: str, piece: Piece, desk: Desk) -> Name:
    """The length of a seam on one panel, with its darts and pleats closed."""
    sewn = piece.called(f"sewn {seam}")
    return sewn if sewn.key in desk.steps else piece.called(f"drawn {seam}")
