"""Edges that are pulled on, as the project tells: each with what it goes over, its elastic and how far it stretches."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.built_in.known import expression_of, first_known, is_known, is_missing, notions, told
from chalkfold.blocks.built_in.made import Found
from chalkfold.blocks.desk import Desk
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Expression, Name, apply, key_of, plain
from chalkfold.plan import names_in
from chalkfold.reading import Entry, Fields, Mapping, Text
from chalkfold.trade.built_in import built_in_checks

CLOSES = re.compile(r"(elastic|nothing)\b", re.I)
_WORDS = re.compile(r",| and |/", re.I)


@dataclass(frozen=True, slots=True)
class Pulled:
    """``over`` is as said; ``girth`` is None where the chart lacks one of its measures, which ``missing`` names."""

    said: str
    place: Span
    edge: Expression
    over: str
    girth: Expression | None
    missing: tuple[str, ...]
    stretch: Expression
    elastic: Expression | None
    gives: Expression | None
    slit: Expression | None

    @property
    def opened(self) -> Expression:
        """The edge with both sides of a slit in it, which the stretch of the cloth makes no longer."""
        return self.edge if self.slit is None else self.edge + 2 * self.slit / (1 + self.stretch)


def pulled_on(desk: Desk) -> Iterator[Found]:
    """Each edge must pass what it goes over; what closes with elastic must say which edge that is."""
    closes = desk.project.closes
    how = None if closes is None else CLOSES.match(closes.value)
    if closes is not None and how and desk.pieces and (_is_worn(desk) or how[1].casefold() == "elastic"):
        yield Found("not said", closes.span(), {"how": closes.value})
    for each in read_pulled(desk):
        said = each.said if each.slit is None else f"{each.said} with its slit"
        words = {"edge": said, "over": each.over, "missing": " and no ".join(f"`{one}`" for one in each.missing)}
        if each.girth is None:
            yield Found("no measure", each.place, words)
        else:
            values = {"edge": each.opened, "girth": each.girth, "stretch": each.stretch}
            stretches = "stretches" if each.stretch != plain(0) else "opens"
            yield Found(stretches, each.place, words, values, each.said)


def _is_worn(desk: Desk) -> bool:
    """Whether a post speaks of a body. A bag may close with nothing, too, and nobody pulls it on."""
    project = desk.project
    girths = any(key.endswith(" girth") for key in project.numbers)
    return project.chart is not None or girths or any(label == "Made for" for label, _ in project.facts)


def elastics(desk: Desk) -> Iterator[Found]:
    """The elastic of each such edge must stretch that far, and draw it in."""
    for each in read_pulled(desk):
        if each.elastic is None or each.girth is None:
            continue
        words = {"edge": each.said, "over": each.over}
        values = {"edge": each.edge, "girth": each.girth, "elastic": each.elastic, "stretch": each.stretch}
        yield Found("draws in", each.place, words, values, each.said)
        if each.gives is None and not desk.project.broken:
            yield Found("reaches, stretch not said", each.place, words, values, each.said)
        elif each.gives is not None:
            yield Found("reaches", each.place, words, {**values, "gives": each.gives}, each.said)


def read_pulled(desk: Desk) -> list[Pulled]:
    """What ``pulled on:`` says; faulty entries are reported and left out."""
    return [each for entry in desk.project.pulled_on or () if (each := _read(entry, desk))]


def _read(entry: Entry, desk: Desk) -> Pulled | None:
    edge = told(entry.key, Kind.LENGTH, desk)
    over: Text | None = None
    elastic = stretch = gives = slit = None
    if isinstance(entry.value, Text):
        over = entry.value
    elif isinstance(entry.value, Mapping):
        fields = Fields(entry.value, desk.faults, "an edge that is pulled on")
        over = fields.required_text("over")
        elastic, slit = (told(fields.text(key), Kind.LENGTH, desk) for key in ("elastic", "slit"))
        stretch, gives = (told(fields.text(key), Kind.PLAIN, desk) for key in ("stretch", "elastic gives"))
        fields.finish()
    else:
        message, hint = "this edge passes one thing", f"write `{entry.key.value}: hips`"
        desk.faults.add(Code.DATA_SHAPE, message, entry.value.where, hint)
    if edge is None or over is None:
        return None
    place = entry.key.span()
    girth, missing = _girth(over, desk)
    return Pulled(
        entry.key.value,
        place,
        edge,
        _said(over),
        girth,
        missing,
        stretch if stretch is not None else stretch_of_cloth(edge, place, desk),
        elastic,
        gives if gives is not None else _gives(place, desk),
        slit,
    )


def _girth(over: Text, desk: Desk) -> tuple[Expression | None, tuple[str, ...]]:
    """The largest girth of what is said, or a formula of the writer's; else the measures that are not known."""
    words = _parts_of_the_body(over)
    if not words:
        return told(over, Kind.LENGTH, desk), ()
    girths = built_in_checks()["pull-on"].words
    names = dict.fromkeys(name for word in words for name in girths[word])
    missing = tuple(name for name in names if is_missing(name, desk))
    if missing:
        return None, missing
    found: list[Expression] = [Name(name, over.span()) for name in names]
    return found[0] if len(found) == 1 else apply("max", *found, span=over.span()), ()


def _said(over: Text) -> str:
    """Before the girth; a formula of the writer's needs no word."""
    words = _parts_of_the_body(over)
    return f"the {' and the '.join(words)}, " if words else ""


def _parts_of_the_body(over: Text) -> list[str]:
    """``hips and shoulders`` word by word; none where it is a formula."""
    words = [key_of(word).removeprefix("the ") for word in _WORDS.split(over.value)]
    return words if all(word in built_in_checks()["pull-on"].words for word in words) else []


def stretch_of_cloth(edge: Expression, place: Span, desk: Desk) -> Expression:
    """That of the cloth its pieces are cut from, the least of them; nothing where no stretch is said."""
    pieces = [desk.pieces.get(name.key.rpartition(" of ")[2]) for name in _names(edge, desk)]
    roles = dict.fromkeys(piece.main.role for piece in pieces if piece is not None)
    names = [f"stretch of {role}" for role in roles]
    if not names or not all(is_known(name, desk) for name in names):
        return plain(0)
    return apply("min", *(Name(name, place) for name in names), span=place)


def _names(edge: Expression, desk: Desk) -> list[Name]:
    """Those of a formula, also where a step stands for it."""
    inner = expression_of(edge.key, desk) if isinstance(edge, Name) and edge.key.startswith("=") else edge
    return [] if inner is None else list(names_in(inner))


def _gives(place: Span, desk: Desk) -> Expression | None:
    return first_known(["elastic stretch", *notions("stretch", "elastic", desk)], place, desk)
