"""What a drawing shows, in one size: its lines, its measures ready to print, and which way is out of the piece."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from chalkfold.draw.words import Both, Words
from chalkfold.geometry import edges, outlines
from chalkfold.geometry.points import distance, left_of
from chalkfold.geometry.shapes import Edge, Outline, Point
from chalkfold.plan import Line, Shown
from chalkfold.show.drawing_key import Lettered, first_amount


class Measured:
    """The values of a drawing in one size. Lengths in mm."""

    def __init__(self, piece: Lettered, size: int) -> None:
        self.piece, self.view, self.size = piece, piece.view, size
        self.seam: Outline = self.value(self.view.outline) or ()
        self.cutting: Outline = self.value(self.view.cutting) or ()
        self.clockwise = bool(self.seam) and outlines.area(self.seam) > 0
        self.allowances = {edge.edge: self.value(edge.allowance) or 0.0 for edge in self.view.edges}

    def leave_out_allowances(self) -> None:
        self.cutting, self.allowances = self.seam, {}

    def value(self, key: str) -> Any:
        return self.piece.write.quantities.values.row(key)[self.size]

    def both(self, part: Shown | str) -> Both:
        """A value ready to print in both units."""
        shown = Shown(part) if isinstance(part, str) else part
        amount = self.piece.write.quantities.row(shown)[self.size]
        return Both(amount.metric, amount.inch, bool(amount.parts) and amount.parts[0].inch_first)

    def words(self, line: Line) -> Words:
        return tuple(
            part if isinstance(part, str) else self.both(part) for part in line if isinstance(part, str | Shown)
        )

    def outward(self, edge: Edge, along: float) -> Point:
        """The direction out of the piece from a place on an edge of it."""
        x, y = left_of(edges.tangent_at(edge, along))
        return (x, y) if self.clockwise else (-x, -y)

    def straight_checks(self) -> Iterator[tuple[Point, Point, Shown, str]]:
        """The checks from point to point; those along an edge are told by its name and letter."""
        for check, letter in zip(self.piece.tape, self.piece.checks, strict=True):
            start, end = self.value(check.start), self.value(check.end)
            amount = first_amount(check.text)
            if start and end and amount is not None and distance(start, end) > 1.0:
                yield start, end, amount, letter
