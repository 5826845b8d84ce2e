"""The kinds of line of a drawing and how heavy and how broken each is.

Weights follow the practice of technical drawing (ISO 128: one heavy and one fine weight, dashes by meaning); the
cutting line continuous and the seam line dashed are common practice on paper patterns, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class LineType(Enum):
    """What a line means; the value is its name in the page's style sheet."""

    CUTTING = "cut"
    SEAM = "seam"
    FOLD = "fold"
    GRAIN = "grain"
    STITCHED = "stitched"
    PLACEMENT = "placement"
    STYLE = "style"
    FOLDED = "folded"
    CHECK = "check"
    CENTRE = "centre"
    MARK = "mark"
    DIMENSION = "dim"
    EXTENSION = "ext"
    LAYER = "layer"


@dataclass(frozen=True, slots=True)
class Pen:
    """``weight`` and ``dashes`` (drawn, left out, drawn …) in drawing units; ``faint`` lines only lead the eye."""

    weight: float
    dashes: tuple[float, ...] = ()
    faint: bool = False


PENS = {
    LineType.CUTTING: Pen(2),
    LineType.SEAM: Pen(1.3, (7, 4)),
    LineType.FOLD: Pen(1.6, (16, 4, 3, 4)),
    LineType.GRAIN: Pen(1),
    LineType.STITCHED: Pen(1.2, (4, 3)),
    LineType.PLACEMENT: Pen(1, (9, 3)),
    LineType.STYLE: Pen(1),
    LineType.FOLDED: Pen(1, (12, 3, 3, 3, 3, 3)),
    LineType.CHECK: Pen(1.1, (1.5, 3.5)),
    LineType.CENTRE: Pen(1, (14, 4, 3, 4)),
    LineType.MARK: Pen(1.6),
    LineType.DIMENSION: Pen(0.9),
    LineType.EXTENSION: Pen(0.9, faint=True),
    LineType.LAYER: Pen(1.2),
}

NESTED: tuple[tuple[float, ...], ...] = (
    (1, 3),
    (4, 2),
    (10, 3, 2, 3),
    (2, 2),
    (12, 4),
    (6, 2, 1, 2, 1, 2),
    (3, 4),
    (10, 2, 4, 2),
)
"""Patterns for nested sizes: none is continuous like a cutting line, none the seam line's or the fold's."""
