"""One sentence of an edge or a line: ``line to P``, ``arc to P around C``, ``arc to P bowed 2 cm left``."""

from __future__ import annotations

import re
from collections.abc import Callable

from chalkfold.blocks.drafting.curved import Around, Curves, is_curve
from chalkfold.blocks.drafting.named_parts import NamedParts
from chalkfold.blocks.drafting.points import Points
from chalkfold.diagnostics import Code
from chalkfold.formula import Apply, Expression, Name
from chalkfold.reading import Text

SIDES = ("left", "right", "up", "down")
HOW = (
    "write `line to P`, `arc to P around C`, `arc to P with radius 30 cm bulging left`, `arc to P bowed 2 cm left` or "
    "`curve to P leaving down arriving across`; join several with `;`"
)
_LINE = re.compile(r"line\s+to\s+(?P<to>.+)", re.I)
_BULGING = re.compile(r"arc\s+to\s+(?P<to>.+?)\s+with\s+radius\s+(?P<by>.+?)\s+bulging\s+(?P<side>\S+)", re.I)
_BOWED = re.compile(r"arc\s+to\s+(?P<to>.+?)\s+bowed\s+(?P<by>.+?)\s+(?P<side>\S+)", re.I)
_ROUND = re.compile(r"arc\s+to\s+(?P<to>.+?)\s+around\s+(?P<by>.+?)(?P<long>\s+the\s+long\s+way)?", re.I)
_THROUGH = re.compile(r"arc\s+to\s+(?P<to>.+?)\s+through\s+(?P<by>.+)", re.I)

Read = tuple[Expression, Text, Name | None]
"""The edge a sentence draws, the point where it ends, and the centre of an arc round one."""
Ends = tuple[Name, Name]


def has_radius(said: Text) -> bool:
    """Is it one arc in every size? One that is bowed is a straight line where its bow is nothing."""
    return said.value[:3].casefold() == "arc" and _BOWED.fullmatch(said.value) is None


def is_bent(said: Text) -> bool:
    """Is it a curve or a bowed arc?"""
    return is_curve(said) or _BOWED.fullmatch(said.value) is not None


def read_sentence(said: Text, here: Text, edges: NamedParts, points: Points, around: Around) -> Read | None:
    """Read a sentence that begins at the point ``here``; None after a fault."""
    if is_curve(said):
        curve = Curves(edges, points).read(said, here, around)
        return None if curve is None else (*curve, None)
    start = points.find(here)
    for pattern, build in _PATTERNS:
        match = pattern.fullmatch(said.value)
        if match is not None:
            to = said.part(*match.span("to"))
            end = points.find(to)
            drawn = None if start is None or end is None else build(said, match, (start, end), points)
            return None if drawn is None else (drawn[0], to, drawn[1])
    points.desk.faults.add(Code.DRAFT, f"`{said.value}` draws nothing", said.span(), HOW)
    return None


Built = tuple[Expression, Name | None] | None
Build = Callable[[Text, re.Match[str], Ends, Points], Built]


def _straight(said: Text, match: re.Match[str], ends: Ends, points: Points) -> Built:
    return Apply("line", ends, said.span()), None


def _around(said: Text, match: re.Match[str], ends: Ends, points: Points) -> Built:
    centre = points.find(said.part(*match.span("by")))
    op = "long arc around" if match["long"] else "arc around"
    return None if centre is None else (Apply(op, (*ends, centre), said.span()), centre)


def _through(said: Text, match: re.Match[str], ends: Ends, points: Points) -> Built:
    by = points.find(said.part(*match.span("by")))
    return None if by is None else (Apply("arc through", (*ends, by), said.span()), None)


def _aside(how: str, verb: str) -> Build:
    def build(said: Text, match: re.Match[str], ends: Ends, points: Points) -> Built:
        amount, side = points.desk.formula(said.part(*match.span("by"))), match["side"].casefold()
        if side not in SIDES:
            message, hint = f"an arc cannot {verb} `{side}`", f"write one of {', '.join(SIDES)}"
            points.desk.faults.add(Code.DRAFT, message, said.span(*match.span("side")), hint)
            return None
        return None if amount is None else (Apply(f"arc {how} {side}", (*ends, amount), said.span()), None)

    return build


_PATTERNS: tuple[tuple[re.Pattern[str], Build], ...] = (
    (_LINE, _straight),
    (_BULGING, _aside("bulging", "bulge")),
    (_BOWED, _aside("bowed", "be bowed")),
    (_ROUND, _around),
    (_THROUGH, _through),
)
