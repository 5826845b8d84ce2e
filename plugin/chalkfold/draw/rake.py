"""Labels of nested sizes in one row or column beside the piece, in order, where their leaders would cross else."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

from chalkfold.draw.labels import BETWEEN_LEADERS, Board, Label, Standing, put
from chalkfold.draw.paths import Extent
from chalkfold.draw.room import apart, strip
from chalkfold.geometry.shapes import Point

OFF = (16.0, 28.0, 44.0, 64.0, 90.0)
"""Units from the piece to the row that are tried, the nearest first."""

BETWEEN = (BETWEEN_LEADERS, 1.0)
"""Units two leaders keep from each other if they can, and at least."""

APART = 7.0
"""Units between the labels of a row."""


def rake(board: Board, labels: Sequence[Label], piece: Extent) -> bool:
    """Write the labels in the nearest row or column whose leaders do not cross; whether there is one."""
    for between, off, given in itertools.product(BETWEEN, OFF, (labels, labels[::-1])):
        for row in _rows(given, piece, off, board.wanted.width):
            if _is_free(board, given, row, between):
                for label, standing in zip(given, row, strict=True):
                    put(board, label, label.block, standing)
                return True
    return False


def _rows(labels: Sequence[Label], piece: Extent, off: float, most: float) -> Iterator[list[Standing]]:
    """The labels one after the other right of the piece, left of it, below and above; no wider than ``most`` in all."""
    blocks = [each.block for each in labels]
    widest = max(each.width for each in blocks) + 4
    downs = _spread([each.height for each in blocks], sum(each.at[1] for each in labels) / len(labels))
    if piece.width + off + widest <= most:
        for side, edge in ((1, piece.right + off), (-1, piece.left - off)):
            yield [_beside(each, (edge, y), (side, 0)) for each, y in zip(labels, downs, strict=True)]
    acrosses = _spread([each.width for each in blocks], sum(each.at[0] for each in labels) / len(labels))
    left, right = acrosses[0] - blocks[0].width / 2, acrosses[-1] + blocks[-1].width / 2
    half, middle = most / 2, (piece.left + piece.right) / 2
    shift = max(0.0, middle - half - left) - max(0.0, right - middle - half)
    if right - left <= most:
        for side, edge in ((1, piece.bottom + off), (-1, piece.top - off)):
            yield [_beside(each, (x + shift, edge), (0, side)) for each, x in zip(labels, acrosses, strict=True)]


def _beside(label: Label, end: Point, way: Point) -> Standing:
    """The text beyond the end of its leader."""
    x, y = (way[0] * (4 + label.block.width / 2), way[1] * (4 + label.block.height / 2))
    return Standing(label.at, end, (end[0] + x, end[1] + y), "middle", True)


def _spread(lengths: list[float], middle: float) -> list[float]:
    """The middles of texts that stand one after the other, all of them round a place."""
    ends = list(itertools.accumulate(length + APART for length in lengths))
    start = middle - (ends[-1] - APART) / 2
    return [start + end - APART - length / 2 for end, length in zip(ends, lengths, strict=True)]


def _is_free(board: Board, labels: Sequence[Label], row: list[Standing], between: float) -> bool:
    """Whether the texts lie on nothing, and the leaders cross no text and no other leader."""
    blocks = [each.block for each in labels]
    leaders = [strip(each.start, each.end, between) for each in row]
    return (
        all(board.fits(block, each.centre) for block, each in zip(blocks, row, strict=True))
        and all(board.room.clear(leader) for leader in leaders)
        and all(apart(one, other) for one, other in itertools.combinations(leaders, 2))
    )
