"""One drawing of one piece in one size, before anything has a place on the page.

All places are in millimetres of cloth, x across to the right, y down; directions need no unit length. What has a
``letter`` is shown by it alone on narrow screens, where the table beside the drawing explains it; an empty letter
shows nothing there.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import count

from chalkfold.draw.lines import LineType
from chalkfold.draw.words import Words
from chalkfold.geometry.shapes import Edge, Point


@dataclass(frozen=True, slots=True)
class Stroke:
    """A drawn line; to name it, add a :class:`Callout` on it."""

    line: LineType
    edge: Edge


@dataclass(frozen=True, slots=True)
class Dimension:
    """A straight distance, dimensioned on the side of ``outward``."""

    start: Point
    end: Point
    outward: Point
    text: Words
    letter: str = ""


@dataclass(frozen=True, slots=True)
class Radius:
    """The radius of an arc, from its centre to a point on it. A centre far off the piece is only pointed at."""

    centre: Point
    on_arc: Point
    text: Words
    letter: str = ""


@dataclass(frozen=True, slots=True)
class Callout:
    """Horizontal lines of text on a leader from a place on a line; ``others`` are places on it that serve as well, each
    with its direction, the better first."""

    at: Point
    outward: Point
    lines: tuple[Words, ...]
    letter: str = ""
    others: tuple[tuple[Point, Point], ...] = ()


@dataclass(frozen=True, slots=True)
class Notch:
    """One or two short ticks across the cutting line."""

    at: Point
    outward: Point
    double: bool = False
    lines: tuple[Words, ...] = ()
    letter: str = ""


@dataclass(frozen=True, slots=True)
class Drill:
    """A place to mark inside the piece."""

    at: Point
    lines: tuple[Words, ...] = ()
    letter: str = ""


@dataclass(frozen=True, slots=True)
class Button:
    """A button, drawn as large as it is: ``diameter`` in mm."""

    at: Point
    diameter: float
    lines: tuple[Words, ...] = ()
    letter: str = ""


@dataclass(frozen=True, slots=True)
class Gap:
    """A part of an edge left open, and the direction out of the piece at its middle."""

    edge: Edge
    outward: Point
    lines: tuple[Words, ...] = ()
    letter: str = ""


@dataclass(frozen=True, slots=True)
class OnFold:
    """The bracket that says which edge lies on the fold; ``inward`` points into the piece."""

    start: Point
    end: Point
    inward: Point
    text: Words
    letter: str = ""


@dataclass(frozen=True, slots=True)
class Grain:
    """``direction`` in degrees from across towards down: 90 is along a selvedge that runs down the page."""

    direction: float
    text: Words = ("grain",)
    letter: str = ""


@dataclass(frozen=True, slots=True)
class NameBlock:
    """The piece's name, and what is cut of it."""

    name: str
    lines: tuple[Words, ...] = ()


@dataclass(frozen=True, slots=True)
class Check:
    """A distance to lay the tape along before cutting; ``edge`` may be an arc."""

    edge: Edge
    lines: tuple[Words, ...]
    letter: str = ""


@dataclass(frozen=True, slots=True)
class Spot:
    """A named point, such as the centre to hold the tape at. One as far off as a centre that is only pointed at is not
    shown; the table beside the drawing names it."""

    at: Point
    lines: tuple[Words, ...] = ()
    letter: str = ""


Item = Dimension | Radius | Callout | Notch | Drill | Button | Gap | OnFold | Grain | Check | Spot


@dataclass(frozen=True, slots=True)
class Sheet:
    """The whole drawing: ``cloth`` is the closed outline of what is cut, for the faint wash."""

    cloth: Edge
    strokes: tuple[Stroke, ...]
    items: tuple[Item, ...] = ()
    name: NameBlock | None = field(default=None)


def letters() -> Iterator[str]:
    """A, B … Z, A2, B2 …: I and O are left out, they look like figures."""
    capitals = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    for turn in count(1):
        for capital in capitals:
            yield capital if turn == 1 else f"{capital}{turn}"
