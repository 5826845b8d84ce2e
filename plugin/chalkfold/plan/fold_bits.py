"""Which edges lie on a fold, as the bits of a number: bit i says it of edge i."""

from __future__ import annotations


def which(folds: float) -> tuple[int, ...]:
    """The indexes of the edges that lie on a fold."""
    bits = int(folds)
    return tuple(index for index in range(bits.bit_length()) if bits >> index & 1)
