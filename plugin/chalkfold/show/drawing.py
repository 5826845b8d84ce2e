"""A piece as drawn: one size at a time with its table, all sizes over each other, and what to check before cutting."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.draw.drawn import Drawn
from chalkfold.draw.folds import Folding, sketch
from chalkfold.draw.layout import laid_out
from chalkfold.draw.nest import Nested, nested
from chalkfold.draw.places import AT_FIRST
from chalkfold.draw.sheet import Sheet
from chalkfold.draw.svg import page_svg
from chalkfold.plan import Drawing, Shown
from chalkfold.show.drawing_key import Lettered, before_you_cut, key_table, lettered, rows_by_size
from chalkfold.show.drawn_size import sheet, swings
from chalkfold.show.lines import Lines
from chalkfold.show.markup import attributes, element, escape, lines
from chalkfold.show.tables import all_sizes

PARTS = {
    "on fold": "half of the piece",
    "on two folds": "a quarter of the piece",
    "pair": "one of the pair",
    "in the round": "laid flat",
}
FOLDINGS = {
    "on fold": (Folding.ON_FOLD, "fold the cloth once: 2 layers"),
    "on two folds": (Folding.ON_TWO_FOLDS, "fold the cloth twice: 4 layers"),
    "in the round": (Folding.IN_THE_ROUND, "leave the donor closed: 2 layers, both sides whole"),
}
SPOKEN_EDGES = 8
"""More edges than these are told by the table, not by the description of the drawing."""


def drawing(write: Lines, view: Drawing, level: int) -> str:
    """The drawing with the table that explains it, for the chosen size; then everything that is for all sizes."""
    piece = lettered(write, view)
    versions = _versions(piece)
    title = write.title(view.frame, len(set(versions)) > 1)
    return lines(
        f'<div class="view drawing"{attributes(id=write.anchor(view.frame))}>',
        element(f"h{level}", title, class_="figure-title"),
        '<div class="parts">',
        '<figure class="drawn">',
        write.by_size(versions, tag="div"),
        element("figcaption", " ".join(filter(None, (*_caption(piece), write.line(view.frame.caption))))),
        "</figure>",
        '<div class="beside">',
        key_table(piece),
        before_you_cut(piece, level + 1),
        element("p", write.line(view.frame.note), class_="note"),
        "</div>",
        element("div", lines(_nest(write, view), _folds(write, view)), class_="more"),
        "</div>",
        all_sizes(write, view.frame.title, "Edge", rows_by_size(piece)),
        "</div>",
    )


def part_of(view: Drawing) -> str:
    """What is drawn of the piece."""
    return PARTS.get(view.lies, "the whole piece")


def _named(view: Drawing) -> str:
    return view.piece[:1].upper() + view.piece[1:]


def _versions(piece: Lettered) -> list[str]:
    """The drawing of each size as markup; sizes that are drawn alike share one. What can stands as in the sample's."""
    write, drawn, alike = piece.write, dict[int, str](), _alike(piece.write, piece.view)
    sample = next(numbers for numbers in alike if write.sizes.sample in numbers)
    swung = swings(piece, write.sizes.sample)
    first = _sheet(piece, sample, swung)
    placing = laid_out(first, AT_FIRST).placing if first else AT_FIRST
    for numbers in alike if write.by_size.switched else [sample]:
        placed = first if numbers is sample else _sheet(piece, numbers, swung)
        if placed:
            laid = laid_out(placed, AT_FIRST if numbers is sample else placing)
            drawn |= dict.fromkeys(numbers, _drawn(piece, numbers, laid))
    return [drawn.get(number, "") for number in range(len(write.sizes.labels))]


def _alike(write: Lines, view: Drawing) -> list[tuple[int, ...]]:
    """The sizes that have the same drawing, in order of the first of each."""
    values = write.quantities.values
    keys = [view.outline, view.cutting, view.grain, *(edge.allowance for edge in view.edges)]
    keys += [each for mark in view.marks for each in (mark.point, mark.edge, mark.end, mark.across) if each]
    keys += [key for line in view.lines for key in line[1:]]
    keys += [key for shaping in view.shapings for key in shaping.keys]
    found: dict[tuple[object, ...], list[int]] = {}
    for number, row in enumerate(zip(*(values.row(key) for key in keys), strict=True)):
        found.setdefault(row, []).append(number)
    return [tuple(numbers) for numbers in found.values()]


def _drawn(piece: Lettered, numbers: tuple[int, ...], drawn: Drawn) -> str:
    """The drawing for some sizes that are drawn alike, as markup."""
    return page_svg(drawn, piece.write.new_id(), _title(piece, numbers), _description(piece, numbers[0]))


def _title(piece: Lettered, numbers: tuple[int, ...]) -> str:
    return ", ".join(filter(None, (_named(piece.view), part_of(piece.view), _sized(piece, numbers))))


def _sheet(piece: Lettered, numbers: tuple[int, ...], swung: tuple[float, ...]) -> Sheet | None:
    shown = " · ".join(filter(None, (_sized(piece, numbers), part_of(piece.view))))
    return sheet(piece, numbers[0], shown, swung)


def _sized(piece: Lettered, numbers: tuple[int, ...]) -> str:
    sizes = piece.write.sizes
    if len(numbers) == len(sizes.labels):
        return "every size" if sizes.many else ""
    return f"size{'s' if len(numbers) > 1 else ''} {piece.write.by_size.names(numbers)}"


def sample_drawing(write: Lines, view: Drawing) -> tuple[str, Drawn | None]:
    """The drawing for the sample size, as the page has it, and what it is called; for pictures of it."""
    piece, sample = lettered(write, view), write.sizes.sample
    numbers = next(each for each in _alike(write, view) if sample in each)
    found = _sheet(piece, numbers, swings(piece, sample))
    return _title(piece, numbers), laid_out(found) if found else None


def _description(piece: Lettered, size: int) -> str:
    """The main measures in words."""
    said = [f"Cut {', '.join(piece.view.cuts)}."]
    for edge in piece.view.edges[:SPOKEN_EDGES]:
        if edge.on_fold:
            said.append(f"{edge.name}: {piece.on_fold[1]}.")
            continue
        drawn, whole, radius = (
            piece.write.spoken((Shown(key),), size) if key else "" for key in (edge.drawn, edge.whole, edge.cut_radius)
        )
        length = f"{drawn} drawn, {whole} whole" if drawn != whole else drawn
        said.append(f"{edge.name}: {length}{', cut radius ' if radius else ''}{radius}.")
    if len(piece.view.edges) > SPOKEN_EDGES:
        said.append("The table has the other edges.")
    return " ".join(said)


def _caption(piece: Lettered) -> Iterator[str]:
    """What the lines mean and how much of the piece is shown; said of what is there."""
    view, row = piece.view, piece.write.quantities.values.row
    if any(any(row(edge.allowance)) for edge in view.edges):
        yield "The solid line is the cutting line, the dashed one the seam line."
    else:
        yield "The solid line is the cutting line and the seam line: there is no allowance."
    if any(check.start for check in piece.tape):
        yield "The dotted line is a check with the tape."
    if piece.in_the_round:
        yield "The piece is drawn lying flat, with its two layers and both sides whole."
    else:
        part = part_of(view)
        yield f"{part[:1].upper()}{part[1:]} is drawn."


def _nest(write: Lines, view: Drawing) -> str:
    """The cutting lines of all sizes over each other; nothing where they are all one."""
    groups: dict[object, list[int]] = {}
    for number, outline in enumerate(write.quantities.values.row(view.cutting)):
        if outline:
            groups.setdefault(outline, []).append(number)
    if len(groups) < 2:
        return ""
    sizes = [
        Nested(write.by_size.names(numbers), tuple(segment for edge in outline for segment in edge), tuple(numbers))
        for outline, numbers in groups.items()
        if isinstance(outline, tuple)
    ]
    title = f"{_named(view)}, all sizes over each other"
    labels = ", ".join(write.sizes.labels)
    svg = page_svg(nested(sizes, write.sizes.sample), write.new_id(), title, f"The cutting lines of {labels}.", "nest")
    chosen = "The chosen size" if write.by_size.switched else f"Size {write.sizes.labels[write.sizes.sample]}"
    caption = f"The cutting lines of all sizes, drawn from the same point. {escape(chosen)} is the heavy one."
    return lines('<figure class="nested">', svg, element("figcaption", caption), "</figure>")


def _folds(write: Lines, view: Drawing) -> str:
    """How the cloth is folded, where it is."""
    if view.lies not in FOLDINGS:
        return ""
    folding, said = FOLDINGS[view.lies]
    name = _named(view)
    svg = page_svg(sketch(folding), write.new_id(), f"{name}, the folded cloth", f"{said.capitalize()}.", "folds")
    return lines(
        '<figure class="folded">', svg, element("figcaption", f"For the {escape(view.piece)}, {said}."), "</figure>"
    )
