"""A seam as a row of the order of work: what is sewn, how, how long each edge is, how much there is to sew."""

from __future__ import annotations

from chalkfold.blocks.desk import Desk
from chalkfold.blocks.seam_stitching import TURNED_UP
from chalkfold.blocks.seams import Seam
from chalkfold.formula import Name
from chalkfold.plan import Line
from chalkfold.trade.seams import seam_words

PLAIN = "plain seam"


def seam_row(seam: Seam, number: int, named: bool, hem: Line, desk: Desk) -> tuple[Line, ...]:
    """The cells: In this order, How, Edges, To sew."""
    label = f"{number}. {f'{seam.name}: ' if named else ''}{_what(seam)}"
    often = (f"{seam.often} × ",) if seam.often > 1 else ()
    return (label,), _how(seam, hem, desk), _edges(seam, desk), (*often, desk.shown(seam.second))


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
    for option in told:
        parts.append(hem if option.word == TURNED_UP else desk.line(option.said))
    found: Line = ()
    for part in parts:
        found = (*found, *((", ",) if found else ()), *part)
    return found


def _edges(seam: Seam, desk: Desk) -> Line:
    """Both lengths where they differ by what is eased, gathered, pleated or stretched."""
    second = desk.shown(seam.second)
    way = seam.sentence.way
    if way is None:
        return (second,)
    ratio = desk.shown(Name(f"ratio of {seam.name}", seam.sentence.said.span()))
    both: Line = (desk.shown(seam.first), " to ", second)
    return (*both, ", ", ratio, " to 1") if way.word in ("gathered", "stretched") else both
