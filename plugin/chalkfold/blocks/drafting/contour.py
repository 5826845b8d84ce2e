"""The contour of a piece before its allowances: named edges in order, points, folds and lines."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from chalkfold.blocks.desk import Desk, zero
from chalkfold.blocks.drafting.drawn import Side
from chalkfold.blocks.drafting.edges import Drawn, Edges
from chalkfold.blocks.drafting.points import Points
from chalkfold.blocks.drafting.shaping import Shaping
from chalkfold.blocks.drafting.taken_shapings import Item
from chalkfold.blocks.layers import Cut
from chalkfold.blocks.pieces import Outline, Piece
from chalkfold.blocks.shape_pieces import FOLDS_NEEDED
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Apply, Expression, Name, key_of
from chalkfold.plan import Mark
from chalkfold.reading import Fields, Node, Text
from chalkfold.reading import Mapping as Body

OTHER = "other"
"""Stands before the name of an edge or point that a piece has twice: `side`, `other side`."""


@dataclass(frozen=True, slots=True)
class Contour:
    """``folds`` holds keys of edges; None where ``on fold:`` has still to say. ``lines`` None: still to be read.

    ``as_for``: the key of an edge that has no allowance of its own → that of the edge whose allowance it takes.
    ``marks`` are those taken over from another piece.
    """

    edges: Edges
    points: Points
    folds: frozenset[str] | None = None
    lines: dict[str, Drawn] | None = None
    as_for: Mapping[str, str] = field(default_factory=dict)
    marks: tuple[Mark, ...] = ()
    marks_taken: bool = False
    """What is written of marks belongs to another piece, and ``marks`` are what is left of them."""
    gone: frozenset[str] = frozenset()
    """Keys of edges that were cut away, for which another piece had an allowance."""
    sound: bool = True
    """Every edge could be read, and they close."""
    shapings: tuple[Item, ...] = ()
    """Darts and pleats taken over from another piece."""
    darts_closed: bool = False
    """It was traced from a piece with its darts closed."""
    shaping_taken: bool = False
    """What is written of shaping belongs to another piece, and ``shapings`` are what is left of it."""


@dataclass(frozen=True, slots=True)
class Shaped:
    """A piece's outline as read, by whichever way it was given."""

    outline: Outline
    sides: tuple[Side, ...]
    edges: Edges
    points: Points
    contour: Contour
    on_cutting_line: bool = False
    shaping: Shaping | None = None

    @property
    def is_shaped(self) -> bool:
        """Whether darts, pleats or slashes have made it other than it was drawn."""
        return self.shaping is not None and self.shaping.flat is not None


@dataclass(frozen=True, slots=True)
class Draft:
    """A piece that was read without a fault, for pieces made from it. ``body`` is what was written of it."""

    piece: Piece
    shaped: Shaped
    body: Body
    lines: dict[str, Drawn]
    marks: tuple[Mark, ...] = ()

    @property
    def outline(self) -> tuple[Drawn, ...]:
        """Its edges in order, as they were drawn."""
        return tuple(self.shaped.edges.drawn[key_of(side.name)] for side in self.shaped.sides)

    @property
    def folds(self) -> frozenset[str]:
        return frozenset(key_of(side.name) for side in self.shaped.sides if side.on_fold)


def is_own(node: Node | None, fields: Fields) -> bool:
    """Whether something stands in the draft itself, and is not taken over from another."""
    own = fields.whole.where
    return node is not None and node.where.source is own.source and own.start <= node.where.start < own.end


def is_taken(said: Text, desk: Desk) -> bool:
    """Report the name of a piece that another, or a role, has already."""
    pieces = (*desk.pieces.values(), *(draft.piece for draft in desk.patterns.values()))
    names = [piece.name for piece in pieces]
    return desk.taken("piece", said, names) or desk.taken("role", said, desk.roles, f"{said.value} piece")


def named_once(drawn: tuple[Drawn, ...]) -> tuple[tuple[Drawn, ...], dict[str, str]]:
    """Edges of which none is called as one before it, and for those called ``other …`` whose allowance they take."""
    found: dict[str, Drawn] = {}
    as_for: dict[str, str] = {}
    for each in drawn:
        name = each.name
        while key_of(name) in found:
            name = f"{OTHER} {name}"
        if name != each.name:
            as_for[key_of(name)] = key_of(each.name)
        found[key_of(name)] = replace(each, name=name)
    return tuple(found.values()), as_for


def place_of(drawn: Drawn) -> Span:
    """Where an edge is drawn."""
    place = drawn.span or drawn.step.span
    assert place is not None
    return place


def laid(edge: Expression, place: Span, desk: Desk) -> Name:
    """An edge as a step that no writer can name."""
    return desk.step(f"= edge {len(desk.steps)}", edge, place)


def backwards(drawn: Drawn, desk: Desk) -> Drawn:
    step = laid(Apply("backwards", (drawn.step,), place_of(drawn)), place_of(drawn), desk)
    return replace(drawn, step=step, start=drawn.end, end=drawn.start)


def titled(name: str) -> str:
    """The name of a piece as a title."""
    return name[:1].upper() + name[1:]


def line_ends(line: Drawn, points: Points) -> tuple[Expression, Expression]:
    """The points where a line starts and ends; those of a parallel line have no names."""
    place = place_of(line)
    if line.start:
        return Name(points.step_name(line.start), place), Name(points.step_name(line.end), place)
    return Apply("along", (line.step, zero()), place), Apply(
        "along", (line.step, Apply("length of", (line.step,))), place
    )


def ended(line: Drawn, points: Points) -> Drawn:
    """A line whose ends have names: ``start of …`` and ``end of …``, where the writer gave none."""
    if line.start:
        return line
    names = tuple(f"{word} of {line.name}" for word in ("start", "end"))
    for name, point in zip(names, line_ends(line, points), strict=True):
        points.names.setdefault(key_of(name), name)
        points.lay(key_of(name), point, place_of(line))
    return replace(line, start=key_of(names[0]), end=key_of(names[1]))


def edges_of(piece: str, drawn: tuple[Drawn, ...], desk: Desk) -> Edges:
    keyed = {key_of(each.name): each for each in drawn}
    return Edges(piece, desk, {key: each.name for key, each in keyed.items()}, drawn=keyed)


def folds_fit(contour: Contour, cut: Cut, place: Span, desk: Desk) -> bool:
    """Whether as many edges lie on folds as the way of cutting needs."""
    folds = contour.folds or frozenset()
    if len(folds) == FOLDS_NEEDED[cut.lies]:
        return True
    named = " and ".join(f"`{contour.edges.names[key]}`" for key in contour.edges.drawn if key in folds)
    piece = contour.edges.piece
    lies = "lies" if len(folds) == 1 else "lie"
    found = f"{named} of {piece} {lies} on a fold" if folds else f"{piece} lies on no fold"
    said = f"{cut.count} {cut.lies} in {cut.role}".replace("  ", " ")
    ways = {0: "", 1: " on fold", 2: " on two folds"}[len(folds)]
    hint = f"write `cut: {cut.count}{ways} in {cut.role}`"
    if not folds:
        hint += f" or `cut: {cut.count} pair in {cut.role}`"
    desk.faults.add(Code.DRAFT, f"{found}, and it is cut `{said}`", place, hint)
    return False
