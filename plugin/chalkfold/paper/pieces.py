"""The pieces of a post as they are printed: which sizes, with or without allowances, what each says of itself."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from chalkfold.draw.lines import LineType
from chalkfold.draw.sheet import Button, Callout, Dimension, Drill, Item, Notch, Sheet, Stroke
from chalkfold.draw.words import Both
from chalkfold.plan import CAUTIONS, Drawing, Facts, Group, Product, View
from chalkfold.show.drawing import part_of
from chalkfold.show.drawing_key import lettered
from chalkfold.show.drawn_size import sheet, swings
from chalkfold.show.lines import Lines

NO_ALLOWANCES = "seam lines, no allowances"
ON_SEAM_LINE = ", seam line"
"""What the page's drawing says behind the name of a curve."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece to print: one sheet, or one for every size that is drawn differently, the smallest first.

    ``labels`` are the sizes of each sheet, ``numbers`` their places in the post's list of sizes.
    """

    name: str
    cuts: tuple[str, ...]
    sheets: tuple[Sheet, ...]
    labels: tuple[str, ...] = ("",)
    numbers: tuple[tuple[int, ...], ...] = ((0,),)

    @property
    def is_nest(self) -> bool:
        return len(self.sheets) > 1


def drawings(views: Sequence[View]) -> Iterator[Drawing]:
    """Every drawing among the views of a post, in order."""
    for view in views:
        if isinstance(view, Drawing):
            yield view
        elif isinstance(view, Group):
            yield from drawings(view.views)


def cautions(write: Lines, views: Sequence[View]) -> Iterator[tuple[str, str]]:
    """What the page of a post warns of: about what, and the words, for its sample size."""
    for view in views:
        if isinstance(view, Facts) and view.kind == CAUTIONS:
            sample = write.sizes.sample
            yield from ((write.plain(fact.label, sample), write.plain(fact.value, sample)) for fact in view.facts)
        elif isinstance(view, Group):
            yield from cautions(write, view.views)


def pieces_of(write: Lines, views: Sequence[View], sizes: Sequence[int], allowances: bool = True) -> list[Piece]:
    """The drafted pieces of a post in some of its sizes; several sizes lie over each other."""
    return [piece for view in drawings(views) if view.is_cut and (piece := _piece(write, view, sizes, allowances))]


def _piece(write: Lines, view: Drawing, sizes: Sequence[int], allowances: bool) -> Piece | None:
    named = f"size{'s' if len(sizes) > 1 else ''} {write.by_size.names(sizes)}" if write.sizes.many else ""
    said = " · ".join(filter(None, (named, part_of(view), "" if allowances else NO_ALLOWANCES)))
    letters, groups = lettered(write, view), dict[object, tuple[Sheet, list[int]]]()
    swung = swings(letters, write.sizes.sample)
    for size in sizes:
        found = sheet(letters, size, said, swung, allowances)
        if found is not None:
            found = found if allowances else _on_seam_line(found)
            groups.setdefault((found.cloth, found.strokes), (found, []))[1].append(size)
    if not groups:
        return None
    rows = list(groups.values())
    return Piece(
        view.piece,
        view.cuts,
        tuple(_without_lengths(each) if len(rows) > 1 else each for each, _ in rows),
        tuple(write.by_size.names(numbers) for _, numbers in rows),
        tuple(tuple(numbers) for _, numbers in rows),
    )


def _on_seam_line(given: Sheet) -> Sheet:
    """The outline as what it is: the line to sew on."""
    strokes = (
        Stroke(LineType.SEAM, stroke.edge) if stroke.line is LineType.CUTTING else stroke for stroke in given.strokes
    )
    return replace(given, strokes=tuple(strokes))


def _without_lengths(given: Sheet) -> Sheet:
    """Where sizes lie over each other the lengths of one would mislead: edges and lines tell their names only."""
    return replace(given, items=tuple(_named_only(item) for item in given.items))


def _named_only(item: Item) -> Item:
    if isinstance(item, Dimension):
        return replace(item, text=(str(item.text[0]).strip(),))
    if isinstance(item, Callout) and item.lines:
        return replace(item, lines=((str(item.lines[0][0]).removesuffix(ON_SEAM_LINE),),))
    if isinstance(item, Drill):  # a dart tells at its tip how much it takes
        return replace(item, lines=tuple(line for line in item.lines if not any(isinstance(p, Both) for p in line)))
    return item


def digest_of(pieces: Sequence[Piece]) -> str:
    """A short sign of every number that is drawn, to a hundredth of a millimetre: a mended sheet has another."""
    said = [
        (piece.name, piece.cuts, label, _rounded(each.cloth), [(s.line.value, _rounded(s.edge)) for s in each.strokes])
        for piece in pieces
        for each, label in zip(piece.sheets, piece.labels, strict=True)
    ]
    items = (item for piece in pieces for each in piece.sheets for item in each.items)
    places = [_rounded((item.at,)) for item in items if isinstance(item, Notch | Drill | Button)]
    whole = hashlib.sha256(repr((said, places)).encode()).hexdigest()
    return f"{whole[:4]} {whole[4:8]}"


def _rounded(edge: Sequence[Sequence[float]]) -> list[list[float]]:
    return [[round(number, 2) + 0.0 for number in segment] for segment in edge]


def others(write: Lines, views: Sequence[View], size: int) -> list[str]:
    """Pieces of the cut list that are not drafted, with what to mark for each: ``band 107 × 12.5 cm``."""
    steps, drawn = write.quantities.values.steps, {view.piece.casefold() for view in drawings(views)}
    found = []
    for step in steps.values():
        start, _, name = step.name.partition("cut width of ")
        key, tall = f"cut width of {name}", f"cut height of {name}"
        if not start and name.casefold() not in drawn and key in steps and tall in steps:
            found.append(f"{name} {write.plain((Product((key, tall)),), size)}")
    return found
