"""Pleats along a length: how many, the cloth they need, and where to fold.

Rule: cloth = finished length + number × what one pleat takes; the number is rounded to a whole one and the width
of each corrected. Source: Dress Making (CITS), Trade Practical, National Instructional Media Institute, p. 203.
A knife pleat takes twice its depth, a box or inverted pleat four times.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import BY_SIZE, Desk, zero
from chalkfold.blocks.rows import demand_wished_space, spaces, what_takes_room
from chalkfold.formula import Apply, Expression, Name
from chalkfold.plan import Fact, Facts, Frame, Limit, Line, Listing, Style, View
from chalkfold.reading import Fields

if TYPE_CHECKING:
    from chalkfold.blocks.spacing import Asked

KINDS = ("knife", "box", "inverted")


@dataclass(frozen=True, slots=True)
class Pleats:
    kind: str
    takes: Name


def read_pleats(fields: Fields, name: str, desk: Desk) -> Pleats | None:
    """Read ``pleats: {kind: knife, takes: 6 cm}``; ``takes`` is the cloth that one pleat takes up."""
    body = fields.mapping("pleats", "{kind: knife, takes: 6 cm}")
    if body is None:
        return None
    inner = Fields(body, desk.faults, "`pleats`", otherwise=BY_SIZE)
    kind = inner.choice("kind", KINDS)
    said = inner.required_text("takes")
    inner.finish()
    takes = desk.formula(said)
    if said is None or takes is None:
        return None
    called = f"cloth for one of {name}"
    step = desk.step(called, takes, said.span(), style=Style.FINE, limit=Limit.POSITIVE, kind=Kind.LENGTH)
    return Pleats(kind or "knife", step)


def lay_down_pleats(asked: Asked, pleats: Pleats, desk: Desk) -> tuple[View, ...]:
    """Lay down count, width and cloth, and the lines to fold along on the flat cloth."""
    name, place = asked.name, asked.place
    first: Expression = zero() if asked.ends is None else asked.ends[0]
    last: Expression = zero() if asked.ends is None else asked.ends[1]
    left = Apply("-", (asked.length - first, last), what_takes_room(asked))
    none_left = f"the ends of {name} take all that the edge has, or more: {{}} is left between them"
    why = (none_left, "make the two ends together shorter than the length")
    span = desk.step(f"span of {name}", left, place, limit=Limit.POSITIVE, why=why)
    wished = spaces(asked.wish, span)
    count = desk.step(f"count of {name}", wished, place, style=Style.COUNT, limit=Limit.POSITIVE)
    space = desk.step(f"space of {name}", span / count, place, style=Style.FINE, limit=Limit.POSITIVE)
    demand_wished_space(asked, space, desk)
    cloth = desk.step(f"cloth of {name}", asked.length + count * pleats.takes, place)
    facts = (
        Fact(("How many pleats",), (desk.shown(count),)),
        Fact(("Finished width of each pleat",), (desk.shown(space),)),
        Fact(("Cloth that each takes",), (desk.shown(pleats.takes),)),
        Fact(("Finished length",), (desk.shown(asked.length),)),
        Fact(("Length of cloth, without seams",), (desk.shown(cloth),)),
    )
    columns = tuple(
        _column(label, words, first + offset, space + pleats.takes, count, asked, desk)
        for label, words, offset in _lines(pleats, space)
    )
    caption: Line = ("Measured on the flat cloth from the seam line at its first end, not from the raw edge.",)
    return (
        Facts(Frame(), facts, "spacing"),
        Listing(Frame(title=("Where to fold ", name), caption=caption), columns),
    )


def _column(
    label: str, words: str, first: Expression, step: Expression, count: Name, asked: Asked, desk: Desk
) -> tuple[Line, str]:
    series = Apply("series", (first, step, count), asked.place)
    name = desk.step(f"{words} of {asked.name}", series, asked.place, style=Style.FINE)
    desk.want(name)
    return (label,), name.key


def _lines(pleats: Pleats, space: Name) -> list[tuple[str, str, Expression]]:
    """Label, words for the step, and the place of the line of the first pleat from its start.

    Knife: the visible part comes first, then the cloth that folds under. Box: the visible part lies in the middle,
    half of the cloth it takes on either side; each fold is brought outwards, so that finished boxes touch.
    Inverted: the folds meet in the middle of the visible part. Common practice, no source.
    """
    takes = pleats.takes
    if pleats.kind == "knife":
        return [("Fold at", "folds", space), ("bring to", "meets", space + takes)]
    if pleats.kind == "box":
        return [
            ("Left fold at", "left folds", takes / 2),
            ("bring to", "left meets", zero()),
            ("Right fold at", "right folds", space + takes / 2),
            ("bring to", "right meets", space + takes),
        ]
    left = space / 2
    return [
        ("Left fold at", "left folds", left),
        ("Right fold at", "right folds", left + takes),
        ("bring both to", "meets", left + takes / 2),
    ]
