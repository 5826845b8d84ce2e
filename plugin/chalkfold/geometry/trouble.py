"""What cannot be constructed, and why: the one exception of this room and its closed list of reasons."""

from __future__ import annotations

from enum import StrEnum


class Reason(StrEnum):
    """Why a point, an edge or a cutting line cannot be made."""

    NO_DIRECTION = "no-direction"
    """Two points that should give a direction are one."""
    PARALLEL = "parallel"
    """Two lines never meet."""
    RADII_DIFFER = "radii-differ"
    """The two ends of an arc are not equally far from its centre."""
    NO_RADIUS = "no-radius"
    """An arc's radius is zero or less."""
    CHORD_TOO_LONG = "chord-too-long"
    """The ends of an arc are farther apart than twice its radius."""
    NO_SIDE = "no-side"
    """The side named for a bulge lies along the chord."""
    PAST_THE_END = "past-the-end"
    """A distance along an edge is negative or longer than the edge."""
    NOT_ON_THE_EDGE = "not-on-the-edge"
    """A point that should lie on an edge, or be an end of it, does not."""
    NEVER_MEET = "never-meet"
    """Two edges, or compasses, that should meet do not."""
    SEVERAL = "several"
    """More than one point answers to a construction."""
    NO_LENGTH = "no-length"
    """An edge has no length."""
    LOOP = "loop"
    """A curve crosses itself or comes to a point."""
    LENGTH_NOT_MET = "length-not-met"
    """A curve cannot be as long as it should be."""
    STRAIGHT = "straight"
    """Three points of an arc lie on one line."""
    NO_AREA = "no-area"
    """An outline encloses nothing."""
    ALLOWANCE_NEGATIVE = "allowance-negative"
    ALLOWANCE_TOO_WIDE = "allowance-too-wide"
    """An allowance leaves nothing of an edge: a hollow tighter than it, or a short edge in an inner corner."""
    ALLOWANCES_CROSS = "allowances-cross"
    """The cutting line of one edge runs into that of another."""
    FOLD_CORNER = "fold-corner"
    """An edge leaves a fold along it or backwards, so that its allowance never reaches the fold line."""
    FOLD_NOT_STRAIGHT = "fold-not-straight"
    FOLDS_NOT_SQUARE = "folds-not-square"
    """Two folds do not meet at a right angle, or there are more than two."""
    OFF_THE_EDGE = "off-the-edge"
    """A line that parts a piece does not end on its edge."""
    TOO_DEEP = "too-deep"
    """A line inside a piece lies farther in than the piece is deep."""
    NOT_SQUARE = "not-square"
    """No place on an edge lies square to the tip of a dart."""
    LEGS_DIFFER = "legs-differ"
    """The two legs of a dart are not equally long."""
    SLASH_LEAVES = "slash-leaves"
    """A slash runs along an edge or out of the piece."""
    SLASH_ON_FOLD = "slash-on-fold"
    """A slash begins or ends on a fold."""
    OPENED_TOO_FAR = "opened-too-far"
    """A slash is opened so far that the piece turns over."""


class GeometryTrouble(Exception):
    """``message`` is a clause, ``hint`` says what to write; who calls adds the names, the place and the size.

    ``measures`` (mm) are those in the message, in its order; ``edges`` the indexes of the edges it speaks of.
    """

    def __init__(
        self,
        reason: Reason,
        message: str,
        hint: str,
        *,
        measures: tuple[float, ...] = (),
        edges: tuple[int, ...] = (),
    ) -> None:
        super().__init__(message)
        self.reason = reason
        self.message = message
        self.hint = hint
        self.measures = measures
        self.edges = edges


def in_cm(mm: float) -> str:
    """A length for a message, fine enough to show what does not agree: ``31.468 cm``."""
    return f"{mm / 10:.3f}".rstrip("0").rstrip(".") + " cm"
