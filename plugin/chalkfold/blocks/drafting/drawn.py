"""From the edges of a piece to its seam line, its cutting line and everything measured on them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.pieces import Edge, Outline, Piece
from chalkfold.diagnostics import Span
from chalkfold.formula import Apply, Expression, Name, plain
from chalkfold.plan import DrawnEdge, Part, Style


@dataclass(frozen=True, slots=True)
class Side:
    """One edge in the order of the outline: its step (an edge), its allowance, and what is known of it beforehand.

    ``folds`` counts the folds that it ends on; a single arc may be measured by its radius.
    """

    name: str
    step: Name
    allowance: Expression
    folds: int
    on_fold: bool
    is_arc: bool = False
    centre: Name | None = None
    span: Span | None = None
    is_curved: bool = False
    turned: bool = False
    """Its allowance is turned up."""
    flat: Name | None = None
    """The edge before its darts and pleats were drawn in, which make it shorter by ``takes`` when it is sewn."""
    takes: Expression | None = None


def lay_outline(
    piece: str, sides: Sequence[Side], cutting_given: bool, place: Span, desk: Desk, op: str = "outline"
) -> Name:
    """Lay down ``outline of …`` (the seam line) and ``cutting line of …``; return the name of the outline.

    ``cutting_given`` says that the edges were drawn on the cutting line; the seam line then lies inside it. ``op``
    makes the outline from its edges.
    """
    where = f"piece {piece}"
    parts = _parts(sides, place)
    given = Apply(op, tuple(side.step for side in sides), place)
    first, second = f"outline of {piece}", f"cutting line of {piece}"
    if cutting_given:
        first, second = second, first
    drawn = desk.step(first, given, place, where=where, kind=Kind.OUTLINE, parts=parts)
    other = laid_inside(drawn, sides, place) if cutting_given else laid_outside(drawn, sides, place)
    desk.step(second, other, place, where=where, kind=Kind.OUTLINE, parts=parts)
    return Name(f"outline of {piece}", place)


def laid_inside(cutting: Name, sides: Sequence[Side], place: Span) -> Expression:
    """The seam line of a cutting line."""
    return Apply("seam line", (cutting, _row(sides, place), _folds(sides)), place)


def laid_outside(seam: Name, sides: Sequence[Side], place: Span) -> Expression:
    """The cutting line of a seam line."""
    turned = sum(2**number for number, side in enumerate(sides) if side.turned)
    operands = (seam, _row(sides, place), _folds(sides))
    if turned:
        return Apply("turned cutting line", (*operands, plain(turned)), place)
    return Apply("cutting line", operands, place)


def _row(sides: Sequence[Side], place: Span) -> Expression:
    return Apply("row", tuple(side.allowance for side in sides), place)


def _parts(sides: Sequence[Side], place: Span) -> tuple[Part, ...]:
    return tuple(Part(side.name, side.span or place) for side in sides)


def opened_out(line: Name, sides: Sequence[Side], lies: str, place: Span, desk: Desk) -> Name:
    """The step of the whole piece, the line itself where it is not on a fold; no writer can type its name."""
    if not lies.startswith("on "):
        return line
    opened = Apply("unfolded", (line, _folds(sides)), place)
    return desk.step(f"= opened {line.name}", opened, place, kind=Kind.OUTLINE, parts=_parts(sides, place))


def _folds(sides: Sequence[Side]) -> Expression:
    """The sides on a fold as bits of a number."""
    return plain(sum(2**number for number, side in enumerate(sides) if side.on_fold))


def measured_outline(
    piece: str, sides: Sequence[Side], cutting_given: bool, lies: str, place: Span, desk: Desk
) -> Outline:
    """The formulas of a drafted piece, all taken from its lines. In the round it lies flat and is not opened."""
    seam, cutting = Name(f"outline of {piece}", place), Name(f"cutting line of {piece}", place)
    whole, cut_whole = (opened_out(line, sides, lies, place, desk) for line in (seam, cutting))
    if lies == "on two folds":
        desk.want(whole)  # folds that are not square are told even where nobody asks for the whole piece
    measures: dict[str, tuple[Expression, Style]] = {}
    edges: dict[str, Edge] = {}
    for number, side in enumerate(sides):
        on_seam: Expression = Apply("edge of", (seam, plain(number)), place) if cutting_given else side.step
        drawn = Apply("length of", (side.flat or on_seam,), place)
        edges[side.name] = Edge(drawn, side.allowance, side.folds, side.on_fold, side.takes)
        if side.is_arc:
            cut_edge = Apply("edge of", (cutting, plain(number)), place)
            measures[f"radius of {side.name}"] = (Apply("radius of", (on_seam,), place), Style.FINE)
            measures[f"cut radius of {side.name}"] = (Apply("radius of", (cut_edge,), place), Style.FINE)

    def of(op: str, line: Expression) -> Expression:
        return Apply(op, (line,), place)

    return Outline(
        edges,
        of("outline width", whole),
        of("outline height", whole),
        of("outline area", seam),
        of("outline width", cutting),
        of("outline height", cutting),
        of("outline area", cutting),
        measures,
        opened=(of("outline width", cut_whole), of("outline height", cut_whole)),
    )


def on_seam(piece: str, sides: Sequence[Side], place: Span, desk: Desk) -> tuple[Side, ...]:
    """The sides of a piece that was drawn on its cutting line, with the edges of its seam line."""
    seam = Name(f"outline of {piece}", place)
    return tuple(
        replace(side, step=desk.hidden(Apply("edge of", (seam, plain(number)), place), place))
        for number, side in enumerate(sides)
    )


def drawn_edges(piece: Piece, sides: Sequence[Side], desk: Desk) -> tuple[DrawnEdge, ...]:
    """The edges as a drawing shows them; everything they name is wanted."""
    found = []
    for side in sides:
        desk.want(side.step)
        keys = {"drawn": "", "whole": "", "radius": "", "cut_radius": "", "centre": "", "sewn": ""}
        if not side.on_fold:
            words = {"drawn": f"drawn {side.name}", "whole": side.name}
            if side.takes is not None:
                words["sewn"] = f"sewn {side.name}"
            if side.is_arc:
                words |= {"radius": f"radius of {side.name}", "cut_radius": f"cut radius of {side.name}"}
            keys |= {key: desk.shown(piece.called(said)).key for key, said in words.items()}
        if side.centre is not None:
            keys["centre"] = desk.shown(side.centre).key
        allowance = desk.hidden(side.allowance, piece.span)
        found.append(DrawnEdge(side.name, side.step.key, allowance=allowance.key, **keys))
    return tuple(found)
