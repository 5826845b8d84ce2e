"""The kinds a value can be of."""

from enum import StrEnum


class Kind(StrEnum):
    """Checked before anything is computed. ZERO is the literal ``0``, which fits any number kind."""

    PLAIN = "plain number"
    LENGTH = "length"
    AREA = "area"
    ANGLE = "angle"
    WEIGHT = "weight of cloth"
    ZERO = "zero"
    TRUTH = "yes or no"
    SERIES = "row of lengths"
    POINT = "point"
    POINTS = "row of points"
    EDGE = "edge"
    OUTLINE = "outline"
