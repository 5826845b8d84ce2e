"""How the cloth is folded before a piece is cut: a small sketch of the folds and how many layers lie there."""

from __future__ import annotations

from enum import Enum

from chalkfold.draw.drawn import Drawn, Layer
from chalkfold.draw.labels import Board, Label, place
from chalkfold.draw.lines import LineType
from chalkfold.draw.marks import ink
from chalkfold.draw.paths import Extent, lines_through
from chalkfold.draw.room import Room
from chalkfold.draw.words import LABEL, Block
from chalkfold.geometry.points import between
from chalkfold.geometry.shapes import Edge, Point

WIDTH = 320.0
SHIFT = 7.0
"""Units each layer below the top one peeps out."""


class Folding(Enum):
    """How a piece is cut; the value is the number of layers that lie over each other."""

    ON_FOLD = 2
    ON_TWO_FOLDS = 4
    IN_THE_ROUND = -2

    @property
    def layers(self) -> int:
        return abs(self.value)


def sketch(folding: Folding) -> Drawn:
    """The folded cloth seen from above at a slant, its layers peeping out where it is open."""
    room, base = Room(), Layer()
    top = _top()
    left, right = top[0], top[1]
    fold_right = folding is Folding.IN_THE_ROUND
    for layer in range(folding.layers - 1, 0, -1):
        ink(room, base, LineType.LAYER, lines_through(_peeping(top, layer * SHIFT, folding)))
    ink(room, base, LineType.LAYER, _open(top, folding))
    folds = [(top[3], left)]
    folds += [(left, right)] if folding is Folding.ON_TWO_FOLDS else []
    folds += [(right, top[2])] if fold_right else []
    for one, other in folds:
        ink(room, base, LineType.FOLD, lines_through((one, other)))
    by = (folding.layers - 1) * SHIFT
    full = Board(room, Layer("labels"), Extent(-10, 0, WIDTH - 10, 200))
    for one, other in folds:
        _say(full, one, other, top, "fold")
    if folding is not Folding.IN_THE_ROUND:
        middle = between((right[0] + by, right[1]), (top[2][0] + by, top[2][1] + by), 0.5)
        place(full, Label(middle, (1.0, 0.0), Block.of((("open",), ("edges",)), LABEL), nearest=6.0, led=20.0))
    _write_layers(full, top, folding)
    extent = _shown(room.extent)
    return Drawn(extent, lines_through([*top, top[0]]), base, full.layer, Layer("letters"))


def _top() -> tuple[Point, Point, Point, Point]:
    """The top layer: far left, far right, near right, near left."""
    return (88.0, 30.0), (246.0, 30.0), (206.0, 130.0), (48.0, 130.0)


def _peeping(top: tuple[Point, Point, Point, Point], by: float, folding: Folding) -> list[Point]:
    """The open edges of a layer below: down the near side, and up the right one where that is open."""
    _, far_right, near_right, near_left = top
    near = [(near_left[0], near_left[1] + by), (near_right[0], near_right[1] + by)]
    if folding is Folding.IN_THE_ROUND:
        return [near_left, near[0], near[1], near_right]
    corner = (near_right[0] + by, near_right[1] + by)
    up = (far_right[0] + by, far_right[1] + (0.0 if folding is Folding.ON_TWO_FOLDS else by))
    return [near_left, near[0], corner, up, far_right]


def _open(top: tuple[Point, Point, Point, Point], folding: Folding) -> Edge:
    """The edges of the top layer that are no folds."""
    far_left, far_right, near_right, near_left = top
    far, right = (*far_left, *far_right), (*far_right, *near_right)
    near = (*near_right, *near_left)
    return {
        Folding.ON_FOLD: (far, right, near),
        Folding.ON_TWO_FOLDS: (right, near),
        Folding.IN_THE_ROUND: (far, near),
    }[folding]


def _say(board: Board, one: Point, other: Point, top: tuple[Point, ...], text: str) -> None:
    middle = between(one, other, 0.5)
    heart = (sum(x for x, _ in top) / 4, sum(y for _, y in top) / 4)
    away = (middle[0] - heart[0], middle[1] - heart[1])
    place(board, Label(middle, away, Block.of(((text,),), LABEL), nearest=6.0, led=20.0))


def _write_layers(board: Board, top: tuple[Point, ...], folding: Folding) -> None:
    heart = (sum(x for x, _ in top) / 4, sum(y for _, y in top) / 4)
    board.write(Block.of(((f"{folding.layers} layers",),), LABEL), heart)


def _shown(extent: Extent) -> Extent:
    slack = max(6.0, (WIDTH - extent.width) / 2)
    return Extent(extent.left - slack, extent.top - 6, extent.right + slack, extent.bottom + 6)
