"""What a reader may lay a tape on before the only cut: all that may tell, of which a drawing shows one or two."""

from __future__ import annotations

from collections.abc import Sequence

from chalkfold.blocks.desk import Desk
from chalkfold.blocks.drafting.drawn import Side
from chalkfold.blocks.pieces import Piece
from chalkfold.formula import Apply, Name, plain
from chalkfold.plan import Line, Shown, TapeCheck, TapeChecks

MOST_CORNERS = 12
"""From more corners than these a diagonal is taken only to the one half-way round."""


def tape_checks(piece: Piece, sides: Sequence[Side], desk: Desk) -> TapeChecks:
    """Diagonals and widths of the cutting line, and lengths along the seam line with what they come to in all.

    No tape follows the caps of darts and pleats, so an edge that they make shorter is not among those.
    """
    tape = _Tape(piece, sides, desk)
    count = len(sides)
    half = count // 2
    taped = {n: side for n, side in enumerate(sides) if not side.on_fold and side.takes is None}
    corners = [
        (first, second)
        for first in range(count)
        for second in range(first + 1, count)
        if count <= MOST_CORNERS or second == first + half
    ]
    return TapeChecks(
        {pair: tape.diagonal(*pair) for pair in corners},
        (tape.width(0), tape.width(1)) if count == 4 else (),
        {number: tape.along(side) for number, side in taped.items()},
        next((number for number, side in taped.items() if side.folds), None),
    )


class _Tape:
    """Lays down the steps of the checks of one piece."""

    def __init__(self, piece: Piece, sides: Sequence[Side], desk: Desk) -> None:
        self.piece, self.sides, self.desk = piece, sides, desk
        self.cutting = piece.called("cutting line")

    def diagonal(self, first: int, second: int) -> TapeCheck:
        here, there = (f"{self.sides[n - 1].name} meets {self.sides[n].name}" for n in (first, second))
        said = f"On the cutting line, straight from the corner where {here} to the one where {there}: "
        return self._straight(said, self._corner(first), self._corner(second))

    def width(self, number: int) -> TapeCheck:
        """From the middle of a side to that of the side opposite."""
        here, there = self.sides[number].name, self.sides[number + 2].name
        said = f"On the cutting line, straight across the middle from {here} to {there}: "
        return self._straight(said, self._middle(number), self._middle(number + 2))

    def along(self, side: Side) -> TapeCheck:
        drawn, total = self.piece.called(f"drawn {side.name}"), self.piece.called(f"total {side.name}")
        layers = self.piece.main.layers * self.piece.copies
        said: Line = (f"Along {side.name} on the seam line, as drawn: ", self.desk.shown(drawn))
        if side.folds and layers > 1:
            said += (f". Times {layers}, for every layer, that is ", self.desk.shown(total), " in all")
        elif layers > 1:
            all_of = "both" if layers == 2 else f"all {layers}"
            said += (f"; {all_of} together ", self.desk.shown(total))
        return TapeCheck((*said, "."), edge=side.step.key)

    def _straight(self, said: str, start: Name, end: Name) -> TapeCheck:
        length = self.desk.hidden(Apply("distance", (start, end), self.piece.span), self.piece.span)
        return TapeCheck((said, Shown(length.key), "."), start=start.key, end=end.key)

    def _corner(self, number: int) -> Name:
        corner = Apply("corner of", (self.cutting, plain(number)), self.piece.span)
        return self._point(f"corner {number} of {self.piece.name}", corner)

    def _middle(self, number: int) -> Name:
        ends = self._corner(number), self._corner((number + 1) % len(self.sides))
        middle = Apply("between", (*ends, plain(0.5)), self.piece.span)
        return self._point(f"middle {number} of {self.piece.name}", middle)

    def _point(self, name: str, found: Apply) -> Name:
        point = self.desk.step(f"= {name}", found, self.piece.span)
        self.desk.want(point)
        return point
