"""A seam as a row of the order of work: what is sewn, how, how often, and how long each edge is."""

from __future__ import annotations

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.sewing.seam_sentences import TURNED_UP, Option
from chalkfold.blocks.sewing.seams import Seam
from chalkfold.formula import Name
from chalkfold.plan import Limit, Line
from chalkfold.trade.seams import seam_words

PLAIN = "plain seam"


def seam_row(seam: Seam, number: int, named: bool, hem: Line, desk: Desk) -> tuple[Line, ...]:
    """The cells: In this order, How, Length."""
    label = f"{number}. {f'{seam.name}: ' if named else ''}{_what(seam)}"
    return (label,), _how(seam, hem, desk), _edges(seam, desk)


def _what(seam: Seam) -> str:
    if seam.sentence.itself:
        return f"{seam.label(0)} to itself"
    return " to ".join(seam.label(side) for side in range(len(seam.sides)))


def _how(seam: Seam, hem: Line, desk: Desk) -> Line:
    parts: list[Line] = []
    words = seam_words()
    told = [option for option in seam.sentence.options if not option.said.value.startswith("±")]
    joined = len(seam.sides) == 2 or seam.sentence.itself
    if joined and not any(each.word in words.ways or each.word in words.words for each in told):
        parts.append((PLAIN,))
    parts += [hem if option.word == TURNED_UP else _told(option, seam, desk) for option in told]
    found: Line = ()
    for part in parts:
        found = (*found, *((", ",) if found else ()), *part)
    return found


def _told(option: Option, seam: Seam, desk: Desk) -> Line:
    """A word as typed, but its amount in both units."""
    if option.word in seam_words().ways and seam.amount is not None:
        before, _, after = seam_words().ways[option.word].told.partition("{}")
        return (before, desk.shown(seam.amount), after)
    word = seam_words().words.get(option.word)
    amount = desk.formula(option.rest) if word is not None and "length" in word.takes else None
    if option.rest is None or amount is None:
        return desk.line(option.said)
    step = desk.step(f"= by {len(desk.steps)}", amount, option.rest.span(), limit=Limit.POSITIVE, kind=Kind.LENGTH)
    return (f"{option.word} ", desk.shown(step))


def _edges(seam: Seam, desk: Desk) -> Line:
    """Both lengths where they differ by what is eased, gathered, pleated or stretched."""
    often = (f"{seam.often} × ",) if seam.often > 1 else ()
    second = desk.shown(seam.second)
    way = seam.sentence.way
    if way is None:
        return (*often, second)
    both: Line = (*often, desk.shown(seam.first), " to ", second)
    ratio = desk.shown(Name(f"ratio of {seam.name}", seam.sentence.said.span()))
    return (*both, ", ", ratio, " to 1") if way.word in ("gathered", "stretched") else both
