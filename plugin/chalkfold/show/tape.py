"""Which checks with the tape a drawing shows: those that tell most in the sample size, and the same in every size."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.geometry import checks_before_cutting as rule
from chalkfold.geometry.shapes import Outline
from chalkfold.plan import TapeCheck, TapeChecks


def most_telling(checks: TapeChecks, cutting: Outline, seam: Outline) -> Iterator[TapeCheck]:
    """At most one straight across the piece and one along an edge of it."""
    if not (cutting and seam):
        return
    corners = rule.longest_diagonal(cutting, checks.diagonals)
    side = rule.width_half_way(cutting)
    if not rule.is_strap(cutting):
        if corners is not None:
            yield checks.diagonals[corners]
    elif side is not None:
        yield checks.widths[side]
    curve = rule.telling_curve(seam, checks.along)
    along = checks.across_a_fold if curve is None else curve
    if along is not None:
        yield checks.along[along]
