"""Halves and quarters of a girth: how often the pieces that draw one are there, all together."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from math import isclose

from chalkfold.blocks.built_in.known import expression_of
from chalkfold.blocks.built_in.made import Found
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.pieces import Piece
from chalkfold.formula import Apply, Expression, Literal, Name, key_of, parts_of, to_text
from chalkfold.plan import names_in

TIMES = {1: "once", 2: "twice", 3: "3 times"}
_ACROSS = {"moved": 1, "point": 0}
"""Constructions of a point → which of their operands runs across."""


@dataclass
class _Quartered:
    """The pieces that draw a quarter of something across."""

    of: str
    pieces: dict[str, Piece] = field(default_factory=dict)

    @property
    def layers(self) -> int:
        return sum(piece.main.layers * piece.copies for piece in self.pieces.values())

    @property
    def is_one_side(self) -> bool:
        """Whether it is a front or a back alone, of which the other may stand elsewhere."""
        words = {word for key in self.pieces for word in key_of(key).split()}
        return ("front" in words) != ("back" in words)


def quarters(desk: Desk) -> Iterator[Found]:
    """A quarter has to be there four times; fewer go only part of the way round."""
    if desk.broken or desk.nameless:  # the rest of the way round may be drawn on what is faulty
        return
    found: dict[str, _Quartered] = {}
    for key, formulas in _across(desk).items():
        piece = desk.pieces[key]
        for whole in _quartered(formulas, desk):
            said = to_text(whole)
            found.setdefault(key_of(said), _Quartered(said)).pieces.setdefault(piece.name, piece)
    told: set[str] = set()
    for each in found.values():
        names = " and ".join(each.pieces)
        if each.layers < 4 and names not in told and not each.is_one_side:
            told.add(names)
            first = next(iter(each.pieces.values()))
            yield Found("part of the way", first.span, {"of": each.of, "pieces": names, "times": TIMES[each.layers]})


def _across(desk: Desk) -> dict[str, list[Expression]]:
    """The formulas that run across each piece as drawn, by its key."""
    found: dict[str, list[Expression]] = {}
    for key, step in desk.steps.items():
        words, _, piece = key.rpartition(" of ")
        if piece not in desk.pieces:
            continue
        construction = step.expression
        if words == "across drawn":
            found.setdefault(piece, []).append(construction)
        elif words.startswith("point ") and isinstance(construction, Apply) and construction.op in _ACROSS:
            found.setdefault(piece, []).append(construction.args[_ACROSS[construction.op]])
    return found


def _quartered(formulas: list[Expression], desk: Desk) -> Iterator[Expression]:
    """What a quarter is taken of in formulas, through the numbers that they name, where that is a girth of the body."""
    waiting, seen = list(formulas), set[str]()
    while waiting:
        node = waiting.pop()
        whole = _whole(node)
        if whole is not None and _is_girth(whole, desk):
            yield whole
        if _is_multiple(node):
            continue  # two quarters are a half
        if isinstance(node, Name) and node.key not in seen:
            seen.add(node.key)
            inner = None if " of " in node.key else expression_of(node.key, desk)
            waiting += [] if inner is None else [inner]
        waiting += parts_of(node)


def _whole(node: Expression) -> Expression | None:
    """``x`` of ``1/4 of x``, ``1/4 * x`` and ``x / 4``."""
    if not isinstance(node, Apply) or len(node.args) != 2:
        return None
    first, second = node.args
    if node.op in ("of", "*") and isinstance(first, Literal) and isclose(first.value, 0.25):
        return second
    return first if node.op == "/" and isinstance(second, Literal) and isclose(second.value, 4) else None


def _is_multiple(node: Expression) -> bool:
    """Whether it is ``2 * x`` or more, and so draws no quarter of what a quarter ``x`` is taken of."""
    return (
        isinstance(node, Apply)
        and node.op == "*"
        and any(isinstance(arg, Literal) and arg.value >= 2 for arg in node.args)
    )


def _is_girth(expression: Expression, desk: Desk) -> bool:
    """Whether it is a girth of the chart, the largest of some, or a number that is."""
    waiting, seen = [name.key for name in names_in(expression)], set[str]()
    chart = desk.project.chart
    while waiting:
        key = waiting.pop()
        if key.endswith(" girth") and (chart is None or key in chart.measures):
            return True
        inner = None if key in seen or " of " in key else expression_of(key, desk)
        seen.add(key)
        waiting += [] if inner is None else [name.key for name in names_in(inner)]
    return False
