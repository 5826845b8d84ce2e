"""Darts and pleats of one piece on another that is made from it: on the same edges, mirrored where it is."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.drafting.darts import Dart, TwoTips
from chalkfold.blocks.drafting.edges import Drawn
from chalkfold.blocks.drafting.flat_piece import SAID, FlatPiece, Towards
from chalkfold.blocks.drafting.pleat_lines import Fold
from chalkfold.blocks.drafting.pleats_drawn import Row
from chalkfold.formula import Apply, Name
from chalkfold.plan import Line

Item = Dart | TwoTips | Row
"""What a piece is shaped with."""
See = Callable[[Name], Name]
"""Where a point comes to lie."""
IN_A_MIRROR = {SAID["left"]: SAID["right"], SAID["right"]: SAID["left"]}
NOT_CALLED: Mapping[str, str] = {}


def _as_it_is(point: Name) -> Name:
    return point


@dataclass(frozen=True, slots=True)
class Way:
    """How darts and pleats come to another piece.

    ``mirrored``: left is right; ``turned``: their edge runs the other way; ``folds``: the names of edges that lay on a
    fold and are no edges any longer.
    """

    see: See = _as_it_is
    mirrored: bool = False
    turned: bool = False
    folds: tuple[str, ...] = ()
    before: str = ""
    """Stands before their names."""

    def pair(self, pair: tuple[Name, Name]) -> tuple[Name, Name]:
        """Two points in the order of the edge."""
        first, last = map(self.see, pair)
        return (last, first) if self.turned else (first, last)

    def towards(self, towards: Towards) -> Towards:
        last = towards.other.last if self.turned else towards.last
        return Towards(last, self.said(towards.said))

    def said(self, words: str) -> str:
        if any(words == f"towards the {fold}" for fold in self.folds):
            return "towards the middle"
        return IN_A_MIRROR.get(words, words) if self.mirrored else words


def by(item: Item, drawn: Mapping[str, Drawn], way: Way, called: Mapping[str, str] = NOT_CALLED) -> Item:
    """A dart or row of pleats as it lies on another piece; ``called``: what its edge is called there (both keys)."""
    name = way.before + item.name
    if isinstance(item, TwoTips):
        return replace(item, name=name, tips=way.pair(item.tips), sides=way.pair(item.sides))
    on = drawn[called.get(item.edge, item.edge)]
    if isinstance(item, Dart):
        legs, tip, pressed = way.pair(item.legs), way.see(item.tip), way.towards(item.pressed)
        return replace(item, name=name, drawn=on, legs=legs, tip=tip, pressed=pressed, reach=None, after=0)
    folds = tuple(
        Fold(way.pair(fold.edge), way.pair(fold.inside), way.towards(fold.under))
        for fold in (reversed(item.folds) if way.turned else item.folds)
    )
    lines = tuple((kind, way.see(start), way.see(end)) for kind, start, end in item.lines)
    return replace(
        item, name=name, drawn=on, folds=folds, lines=lines, said=tuple(_said(line, way) for line in item.said)
    )


def _said(line: Line, way: Way) -> Line:
    """``folded to the left`` seen in a mirror."""
    if len(line) == 1 and isinstance(line[0], str) and line[0].startswith("folded "):
        return ("folded " + way.said(line[0].removeprefix("folded ")),)
    return line


def feet(item: Dart | Row) -> tuple[tuple[Name, Name], ...]:
    """Where what is folded away begins and ends on the edge, pair by pair in its order."""
    return (item.legs,) if isinstance(item, Dart) else tuple(fold.edge for fold in item.folds)


def on_piece(item: Item, piece: FlatPiece) -> Item:
    """With what a writer may name of it, ``takes of waist dart of whole back``, and its reach along its edge."""
    where, span = f"piece {piece.name}", piece.place

    def amount(words: str, is_now: Name) -> Name:
        name = f"{words} of {item.name} of {piece.name}"
        return piece.desk.step(name, is_now, span, where=where, kind=Kind.LENGTH)

    takes = amount("takes", item.takes)
    if isinstance(item, TwoTips):
        return replace(item, takes=takes)
    ends = feet(item)[0][0], feet(item)[-1][-1]
    first, last = (
        piece.step(f"{words} of {item.name}", Apply("how far along", (item.drawn.step, foot), span), span, Kind.LENGTH)
        for words, foot in zip(("begin", "end"), ends, strict=True)
    )
    if isinstance(item, Row):
        return replace(item, takes=takes, reach=(first, last))
    return replace(item, takes=takes, reach=(first, last), length=amount("length", item.length))


def corners(item: Item) -> tuple[Name, ...]:
    """The points that it lies between."""
    if isinstance(item, TwoTips):
        return (*item.tips, *item.sides)
    if isinstance(item, Dart):
        return (*item.legs, item.tip)
    return tuple(point for _, *ends in item.lines for point in ends)
