"""What a block shows: plain descriptions that name steps; ``show`` and ``draw`` turn them into pages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from chalkfold.plan.steps import Line


@dataclass(frozen=True, slots=True)
class Frame:
    """What every view may carry: an anchor, a heading, a caption below, a note."""

    id: str = ""
    title: Line = ()
    caption: Line = ()
    note: Line = ()


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of cells; the first cell of a row names the row.

    Shown for the size the reader chooses. ``all_sizes`` (indexes into ``columns``) adds a second table behind a
    disclosure with one column a size. ``leads_to`` has, row by row, the frame of the drawing that the first words of
    the row lead to, if any.
    """

    frame: Frame
    columns: tuple[Line, ...]
    rows: tuple[tuple[Line, ...], ...]
    all_sizes: tuple[int, ...] = ()
    leads_to: tuple[Frame | None, ...] = ()


@dataclass(frozen=True, slots=True)
class Fact:
    """A label with a value, and a quiet remark behind it (``planned`` …)."""

    label: Line
    value: Line
    remark: Line = ()


CAUTIONS = "cautions"
"""The kind of the facts that warn."""


@dataclass(frozen=True, slots=True)
class Facts:
    """A short list of labelled values in a box; ``kind`` is a class name for the theme (finished, need, checks)."""

    frame: Frame
    facts: tuple[Fact, ...]
    kind: str
    all_sizes: bool = True


@dataclass(frozen=True, slots=True)
class Ruler:
    """Marks along a length, drawn like a tape.

    ``marks`` is the key of a series (mm from the start), ``length`` that of the whole length;
    ``width`` that of the room each mark takes, if any; ``start`` says what the tape starts from.
    """

    frame: Frame
    length: str
    marks: str
    start: Line
    end: Line = ()
    width: str | None = None
    in_the_round: bool = False


@dataclass(frozen=True, slots=True)
class Listing:
    """Rows of lengths side by side, one table row for each place: the n-th mark of each column.

    ``columns`` holds a heading and the key of a series; how many rows there are can differ by size.
    """

    frame: Frame
    columns: tuple[tuple[Line, str], ...]


@dataclass(frozen=True, slots=True)
class Mark:
    """A mark on a piece: its kind (notch, double notch, drill, button, stitched, folded, cut, placement, gap), its
    label, the side as worn if only one, and the keys of what it is drawn from. ``across`` is that of a button's
    diameter; ``whence`` says from which end of its edge a mark is measured, where the label does not.
    """

    kind: str
    label: Line
    worn: str = ""
    point: str = ""
    edge: str = ""
    end: str = ""
    across: str = ""
    whence: str = ""


@dataclass(frozen=True, slots=True)
class DrawnEdge:
    """An edge of a piece: keys of its steps. ``whole`` is empty on a fold; ``radius`` and ``cut_radius`` are
    there for a single arc, with the ``centre`` (a point) where it is drawn round one; ``sewn`` where darts or pleats
    make the edge shorter than it is ``drawn``.
    """

    name: str
    edge: str
    drawn: str
    whole: str
    allowance: str
    radius: str = ""
    cut_radius: str = ""
    centre: str = ""
    sewn: str = ""

    @property
    def on_fold(self) -> bool:
        return not self.whole


@dataclass(frozen=True, slots=True)
class Shaping:
    """A dart or a row of pleats as drawn; nothing of it is in a size in which it ``takes`` (key) nothing.

    ``said`` are the lines behind its name. ``lines`` are kinds of mark (stitched, folded …) with the keys of edges,
    ``drills`` keys of points, ``notches`` keys of a point and the edge it lies on.
    """

    name: str
    said: tuple[Line, ...]
    takes: str
    lines: tuple[tuple[str, str], ...]
    drills: tuple[str, ...] = ()
    notches: tuple[tuple[str, str], ...] = ()

    @property
    def keys(self) -> tuple[str, ...]:
        """Everything it is drawn from."""
        return (
            self.takes,
            *(key for _, key in self.lines),
            *self.drills,
            *(key for notch in self.notches for key in notch),
        )


@dataclass(frozen=True, slots=True)
class TapeCheck:
    """A distance to lay a tape on before cutting: along ``edge``, or from ``start`` to ``end`` (keys)."""

    text: Line
    edge: str = ""
    start: str = ""
    end: str = ""


@dataclass(frozen=True, slots=True)
class Hem:
    """An allowance that is turned up: what is said where its edge is not as long as the line it is sewn to, and the
    key of the difference.
    """

    edge: str
    said: Line
    ease: str


@dataclass(frozen=True, slots=True)
class TapeChecks:
    """All that may be checked before cutting; ``show`` takes what tells most in the sample size.

    ``diagonals`` by the numbers of two corners, ``widths`` half-way across four sides by the number of the side they
    start from (0 or 1), ``along`` by the number of the edge; ``across_a_fold`` is the first edge that goes on there.
    """

    diagonals: Mapping[tuple[int, int], TapeCheck]
    widths: tuple[TapeCheck, ...]
    along: Mapping[int, TapeCheck]
    across_a_fold: int | None = None


@dataclass(frozen=True, slots=True)
class Drawing:
    """A piece as drawn in every size. ``outline`` and ``cutting`` are keys of the seam line and the cutting line."""

    frame: Frame
    piece: str
    cuts: tuple[str, ...]
    layers: int
    lies: str
    outline: str
    cutting: str
    edges: tuple[DrawnEdge, ...]
    lines: tuple[tuple[str, str, str], ...]
    """Level and style lines: name, key of the edge, key of its whole length."""
    marks: tuple[Mark, ...]
    checks: TapeChecks
    grain: str
    """Key of the angle of the grain, in degrees from across."""
    hems: tuple[Hem, ...] = ()
    is_cut: bool = True
    """Not, where only its panels are."""
    shapings: tuple[Shaping, ...] = ()


@dataclass(frozen=True, slots=True)
class Choice:
    """The bar where a reader chooses size and unit. One a page."""

    frame: Frame


@dataclass(frozen=True, slots=True)
class Group:
    """Views that belong to one block, in order."""

    frame: Frame
    views: tuple[View, ...]


View = Table | Facts | Ruler | Listing | Drawing | Choice | Group
