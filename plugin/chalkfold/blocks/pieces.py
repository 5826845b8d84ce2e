"""A piece as cut: how often, in what, folded how, and the formulas of its edges.

What ``of`` means is settled here. An edge that ends on a fold goes on across it and counts whole: twice for each
fold it ends on, and in the round twice. ``total`` counts every layer of every copy cut in the main role. The fold
itself has no finished length. Cut measures are on the cutting line, as marked on the folded cloth.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from chalkfold.blocks.desk import Desk, times
from chalkfold.blocks.layers import Cut
from chalkfold.blocks.purposes import least_of
from chalkfold.diagnostics import Span
from chalkfold.formula import Apply, Expression, Name, apply, key_of, plain
from chalkfold.plan import Frame, Limit, Style

EDGES = Style.FINE
"""How lengths of edges are printed, drawn, whole or all together: finely, as in the list of seams. To the mark of the
tape two edges of 38.7 cm that are sewn together could read 38.5 and 39 cm."""


@dataclass(frozen=True, slots=True)
class Edge:
    """An edge as drawn (length on the seam line), its allowance, and how many folds it ends on."""

    drawn: Expression
    allowance: Expression
    folds: int = 0
    on_fold: bool = False
    takes: Expression | None = None
    """What darts and pleats take of it, where there are any: sewn it is shorter by that."""


@dataclass(frozen=True, slots=True)
class Outline:
    """A piece's shape in formulas: as drawn, and how often the drawing lies in the whole piece.

    ``measures`` are further steps of the shape (radii …): words before ``of`` → (formula, style).
    """

    edges: Mapping[str, Edge]
    width: Expression
    height: Expression
    area: Expression
    cut_width: Expression
    cut_height: Expression
    cut_area: Expression
    measures: Mapping[str, tuple[Expression, Style]] = field(default_factory=dict)
    radial: tuple[str, ...] = ()
    """Measures by which a round piece is marked instead of across × down."""
    opened: tuple[Expression, Expression] | None = None
    """Across and down on the cutting line with every fold opened; None for a simple shape, of which it is known."""


@dataclass(frozen=True, slots=True)
class Piece:
    name: str
    span: Span
    cuts: tuple[Cut, ...]
    outline: Outline
    carries: str = ""
    """What runs in it: ``elastic``, ``cord`` or nothing."""
    turned: bool = False
    """It is sewn inside out and turned to the right side."""
    drawn: Frame | None = None
    """Of the drawing, for a piece that has one."""

    @property
    def main(self) -> Cut:
        """The role the piece is really made in; interfacing never counts."""
        return next((cut for cut in self.cuts if cut.role.casefold() == "main"), self.cuts[0])

    @property
    def copies(self) -> int:
        """How many are cut in the main role, on however many lines of ``cut:``."""
        return self.copies_in(self.main.role)

    def copies_in(self, role: str) -> int:
        return sum(cut.copies for cut in self.cuts if key_of(cut.role) == key_of(role))

    def called(self, words: str) -> Name:
        return Name(f"{words} of {self.name}", self.span)


def lay_down(piece: Piece, desk: Desk) -> None:
    """Lay down every step that can be asked of a piece; those nobody asks for are never worked."""
    where = f"piece {piece.name}"
    outline, layers = piece.outline, piece.main.layers
    limit, _ = least_of(piece.name, desk)
    for words, expression in (
        ("width", outline.width),
        ("height", outline.height),
        ("cut width", outline.cut_width),
        ("cut height", outline.cut_height),
    ):
        desk.step(f"{words} of {piece.name}", expression, piece.span, where=where, limit=limit)
    desk.step(f"area of {piece.name}", times(outline.area, layers), piece.span, where=where)
    desk.step(f"cut area of {piece.name}", times(outline.cut_area, layers), piece.span, where=where)
    desk.step(f"count of {piece.name}", plain(piece.copies), piece.span, where=where, style=Style.COUNT)
    for words, (expression, style) in outline.measures.items():
        desk.step(f"{words} of {piece.name}", expression, piece.span, where=where, style=style, limit=Limit.POSITIVE)
    for name, edge in outline.edges.items():
        if not edge.on_fold:
            _lay_down_edge(name, edge, piece, where, desk)


def _lay_down_edge(name: str, edge: Edge, piece: Piece, where: str, desk: Desk) -> None:
    whole = min(2**edge.folds, piece.main.layers)  # in the round both sides are folds, and there are two layers
    drawn = desk.step(
        f"drawn {name} of {piece.name}",
        edge.drawn,
        piece.span,
        where=where,
        style=EDGES,
        limit=Limit.NOT_NEGATIVE,
    )
    if edge.takes is not None:
        drawn = desk.step(
            f"sewn {name} of {piece.name}",
            drawn - edge.takes,
            piece.span,
            where=where,
            style=EDGES,
            note="As drawn, without what darts and pleats take.",
        )
    desk.step(
        f"{name} of {piece.name}",
        times(edge.drawn if whole == 1 and edge.takes is None else drawn, whole),
        piece.span,
        where=where,
        style=EDGES,
        note=_across_folds(edge.folds, whole),
    )
    layers, copies = piece.main.layers, piece.copies
    desk.step(
        f"total {name} of {piece.name}",
        times(drawn, layers * copies),
        piece.span,
        where=where,
        style=EDGES,
        note=f"Layers × copies: {layers} × {copies}.",
    )


def lay_line(name: str, edge: Name, folds: tuple[Name, ...], piece: Piece, desk: Desk) -> None:
    """Lay down the lengths of a level or style line; it counts twice for each fold that it ends on."""
    where = f"piece {piece.name}"
    length = Apply("length of", (edge,), piece.span)
    drawn = desk.step(f"drawn {name} of {piece.name}", length, piece.span, where=where, style=EDGES)
    whole: Expression = drawn
    if folds:
        on_folds = [apply("min", 1, Apply("ends on", (edge, fold), piece.span)) for fold in folds]
        ends = on_folds[0] if len(on_folds) == 1 else on_folds[0] + on_folds[1]
        whole = drawn * apply("min", piece.main.layers, Apply("^", (plain(2), ends), piece.span))
    desk.step(f"{name} of {piece.name}", whole, piece.span, where=where, style=EDGES)
    total = times(drawn, piece.main.layers * piece.copies)
    desk.step(f"total {name} of {piece.name}", total, piece.span, where=where, style=EDGES)


def _across_folds(folds: int, whole: int) -> str:
    if whole == 1:
        return ""
    where = "goes on round the sides" if folds == 2 == whole else f"ends on {'a fold' if folds == 1 else 'two folds'}"
    return f"It {where} and counts whole: {whole} × drawn."
