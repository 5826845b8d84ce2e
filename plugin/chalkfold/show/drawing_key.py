"""The letters of a drawing, and the table that explains them: it tells all that the drawing tells.

Letters are hidden but where the style sheet shows them, in the drawing and here alike: on narrow screens.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from chalkfold.draw.sheet import letters
from chalkfold.geometry.shapes import Outline
from chalkfold.plan import Drawing, DrawnEdge, Hem, Line, Mark, Product, Shown, TapeCheck, Value
from chalkfold.show.lines import Lines
from chalkfold.show.markup import element, escape, lines
from chalkfold.show.tape import most_telling

GRAINS = {90.0: "down the drawing", 0.0: "across the drawing", 45.0: "on the bias, at 45°"}
LIES_FLAT = "its ends are the mirror image of the edges beside it"
SHOWN = 0.5
"""The least difference (mm) between the edge of a hem and the line it is sewn to that is told."""
KINDS = {
    "stitched": "stitched line",
    "folded": "folded line",
    "cut": "cut along it",
    "placement": "placement line",
}
"""What the label of a mark does not say of it."""


@dataclass(frozen=True, slots=True)
class Lettered:
    """A drawing and the letter of each of its edges, radii, lines, marks, darts and checks, the same in every size.

    An edge has no second letter for the check along it. ``folded``: some edges go on across
    a fold, so that they are longer in the whole piece. ``tape`` are the checks that are shown.
    """

    write: Lines
    view: Drawing
    edges: tuple[str, ...]
    radii: tuple[str, ...]
    lines: tuple[str, ...]
    marks: tuple[str, ...]
    tape: tuple[TapeCheck, ...]
    checks: tuple[str, ...]
    grain: str
    folded: bool
    shapings: tuple[str, ...]

    @property
    def in_the_round(self) -> bool:
        return self.view.lies == "in the round"

    @property
    def on_fold(self) -> tuple[str, str]:
        """What is said of an edge without a seam: in the table, and at its bracket."""
        if self.in_the_round:
            return "the donor’s own side, left whole", "left whole"
        return "on the fold, no allowance", "place on the fold"


def lettered(write: Lines, view: Drawing) -> Lettered:
    """Give letters to all that a drawing names."""
    new, row = letters(), write.quantities.values.row
    edges = tuple(next(new) for _ in view.edges)
    of_edge = dict(zip((edge.edge for edge in view.edges), edges, strict=True))
    radii = tuple(next(new) if edge.centre else "" for edge in view.edges)
    named, marks = tuple(next(new) for _ in view.lines), tuple(next(new) for _ in view.marks)
    shapings = tuple(next(new) if shaping.lines else "" for shaping in view.shapings)
    sample = write.sizes.sample
    tape = tuple(most_telling(view.checks, *(_outline(row(key)[sample]) for key in (view.cutting, view.outline))))
    checks = tuple(of_edge.get(check.edge) or next(new) for check in tape)
    sewn = [edge for edge in view.edges if not edge.on_fold]
    longer = any(row(edge.sewn or edge.drawn) != row(edge.whole) for edge in sewn)
    return Lettered(write, view, edges, radii, named, marks, tape, checks, next(new), longer, shapings)


def _outline(value: Value | None) -> Outline:
    return value if isinstance(value, tuple) else ()


def key_table(piece: Lettered) -> str:
    """Edges with what they measure, then everything else that has a letter."""
    columns = ("Edge", *(("Drawn", "Whole") if piece.folded else ("Length",)), "Allowance")
    heads = "".join(f'<th scope="col">{each}</th>' for each in columns)
    rest = len(columns) - 1
    edges = zip(piece.view.edges, piece.edges, strict=True)
    return lines(
        '<table class="key">',
        f'<thead><tr><td class="letter" hidden></td>{heads}</tr></thead>',
        "<tbody>",
        *(_edge(piece, edge, letter, rest) for edge, letter in edges),
        "</tbody>",
        "<tbody>",
        *(_row(letter, said, cell, rest) for letter, said, cell in _others(piece)),
        "</tbody>",
        "</table>",
    )


def _edge(piece: Lettered, edge: DrawnEdge, letter: str, rest: int) -> str:
    if edge.on_fold:
        return _row(letter, escape(edge.name), piece.on_fold[0], rest)
    measures = (("Drawn", edge.drawn), ("Whole", edge.whole)) if piece.folded else (("Length", edge.drawn),)
    cells = (*measures, ("Allowance", edge.allowance))
    sewn = element("small", f"{_amount(piece, edge.sewn)} sewn", class_="remark") if edge.sewn else ""
    amounts = ((said, f"{_amount(piece, key)} {sewn if key == edge.drawn else ''}".rstrip()) for said, key in cells)
    inner = "".join(f'<td data-label="{said}">{amount}</td>' for said, amount in amounts)
    return f'<tr>{_letter(letter)}<th scope="row">{escape(edge.name)}</th>{inner}</tr>'


def _amount(piece: Lettered, key: str) -> str:
    """An amount, or ``none`` where it is nothing in every size."""
    if not any(piece.write.quantities.values.row(key)):
        return "none"
    return piece.write.value(Shown(key))


def _others(piece: Lettered) -> Iterator[tuple[str, str, str]]:
    """Letter, name and what is to be said of it, the last two as markup."""
    write, view = piece.write, piece.view
    for edge, letter in zip(view.edges, piece.radii, strict=True):
        if edge.cut_radius:
            whence = "from the centre to" if edge.centre else "on"
            said = f"{write.value(Shown(edge.cut_radius))} {whence} the cutting line"
            yield letter, f"{escape(edge.name)}, radius", said
    for (name, _, whole), letter in zip(view.lines, piece.lines, strict=True):
        yield letter, escape(name), f"{write.value(Shown(whole))} whole"
    for mark, letter in zip(view.marks, piece.marks, strict=True):
        said = element("small", escape(", ".join((*_on_edge(piece, mark), *remarks(mark)))), class_="remark")
        yield letter, f"{write.line(mark.label)} {said}".rstrip(), ""
    for shaping, letter in zip(view.shapings, piece.shapings, strict=True):
        yield letter, escape(shaping.name), ", ".join(write.line(line) for line in shaping.said)
    for check, letter in zip(piece.tape, piece.checks, strict=True):
        if check.start and (amount := first_amount(check.text)):
            yield letter, "check", f"{write.value(amount)} straight, on the cutting line"
    yield piece.grain, "grain", _grain(piece)
    for hem in view.hems:
        yield "", escape(f"{hem.edge}, turned up"), write.line(hem.said) if _is_eased(piece, hem) else LIES_FLAT


def _is_eased(piece: Lettered, hem: Hem) -> bool:
    """Whether a tape shows a difference in any size."""
    return any(isinstance(ease, float) and ease > SHOWN for ease in piece.write.quantities.values.row(hem.ease))


def first_amount(line: Line) -> Shown | None:
    """The first value in a line."""
    return next((part for part in line if isinstance(part, Shown)), None)


def remarks(mark: Mark) -> list[str]:
    """What a drawing says of a mark beside its label: its kind and its side."""
    return [each for each in (KINDS.get(mark.kind, ""), f"{mark.worn} as worn only" if mark.worn else "") if each]


def _on_edge(piece: Lettered, mark: Mark) -> list[str]:
    """The edge of a mark, which a drawing shows, and from which end of it the mark is measured."""
    on = [f"on {edge.name}" for edge in piece.view.edges if edge.edge == mark.edge]
    return [*on, *([mark.whence] if mark.whence else [])]


def _grain(piece: Lettered) -> str:
    """Which way the grain runs, as markup."""
    angles = set(piece.write.quantities.values.row(piece.view.grain))
    angle = next(iter(angles)) if len(angles) == 1 else None
    if isinstance(angle, float) and angle in GRAINS:
        return GRAINS[angle]
    return f"at {piece.write.value(Shown(piece.view.grain))} from across towards down"


def _row(letter: str, said: str, cell: str, rest: int) -> str:
    if not cell:
        return f'<tr>{_letter(letter)}<th scope="row" colspan="{rest + 1}">{said}</th></tr>'
    return f'<tr>{_letter(letter)}<th scope="row">{said}</th><td colspan="{rest}">{cell}</td></tr>'


def _letter(letter: str) -> str:
    return f'<td class="letter" hidden>{letter}</td>'


def rows_by_size(piece: Lettered) -> list[tuple[Line, str, Line]]:
    """The measures that differ by size, for the table of all sizes."""
    found: list[tuple[Line, str, Line]] = []
    for edge in piece.view.edges:
        others = (("radius to the cutting line", edge.cut_radius), ("allowance", edge.allowance))
        found += [((edge.name,), said, (Shown(key),)) for said, key in (*_lengths(piece, edge), *others) if key]
    found += [((name,), "whole", (Shown(whole),)) for name, _, whole in piece.view.lines]
    found += [((_said(piece, mark),), "", line) for mark in piece.view.marks if (line := from_first_value(mark.label))]
    lines = [(each.name, from_first_value(line)) for each in piece.view.shapings for line in each.said]
    found += [((name,), "", line) for name, line in lines if line]
    found += [(("check",), "", (amount,)) for check in piece.tape if (amount := _straight(check.text, check.start))]
    found += [((hem.edge,), "ease", (Shown(hem.ease),)) for hem in piece.view.hems if _is_eased(piece, hem)]
    return [row for row in found if piece.write.varies(row[2])]


def _lengths(piece: Lettered, edge: DrawnEdge) -> tuple[tuple[str, str], ...]:
    """The lengths of an edge, with what tells them apart: one where it is whole as it is drawn."""
    row = piece.write.quantities.values.row
    if not piece.folded or row(edge.drawn) == row(edge.whole):
        return (("", edge.drawn), ("sewn", edge.sewn))
    return (("drawn", edge.drawn), ("sewn", edge.sewn), ("whole", edge.whole))


def _said(piece: Lettered, mark: Mark) -> str:
    """Which mark it is, without what it measures: ``notch on side, from where it meets waist``."""
    return f"{mark.kind} {', '.join(_on_edge(piece, mark))}".rstrip()


def from_first_value(line: Line) -> Line:
    """A line without the words before its first value; nothing of one without."""
    start = next((n for n, part in enumerate(line) if isinstance(part, Shown | Product)), len(line))
    return line[start:]


def _straight(text: Line, start: str) -> Shown | None:
    return first_amount(text) if start else None


def before_you_cut(piece: Lettered, level: int) -> str:
    """The box of tape checks; nothing where a piece has none."""
    if not piece.tape:
        return ""
    named = piece.write.new_id()
    checks = zip(piece.tape, piece.checks, strict=True)
    return lines(
        f'<section class="box checks" aria-labelledby="{named}">',
        element(f"h{level}", "Before you cut", class_="title", id=named),
        "<p>Lay your tape on the drawn piece.</p>",
        "<ul>",
        *(f'<li><b class="letter" hidden>{letter}</b> {piece.write.line(check.text)}</li>' for check, letter in checks),
        "</ul>",
        "</section>",
    )
