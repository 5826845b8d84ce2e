"""A piece of a simple shape: which shape, and which of its edges lie on a fold. Shared by cut lists and drafts."""

from __future__ import annotations

from chalkfold.blocks.allowances import read_allowances, turned_up
from chalkfold.blocks.desk import BY_SIZE, Desk, zero
from chalkfold.blocks.layers import FOLDED, Cut
from chalkfold.blocks.pieces import Outline
from chalkfold.blocks.shapes import EDGES, SHAPES
from chalkfold.diagnostics import Code, Span, near
from chalkfold.formula import Expression
from chalkfold.reading import Fields, Mapping

FOLDS_NEEDED = {name: {"on fold": 1, "on two folds": 2, "in the round": 2}.get(name, 0) for name in FOLDED}
EXAMPLES = {
    "rectangle": "{across: 5 cm, down: 90 cm}",
    "circle": "{radius: 20 cm}",
    "flounce": "{inner radius: 12 cm, depth: 20 cm, fraction: 3/4}",
}

Shaped = tuple[str, Outline, dict[str, Expression], frozenset[str]]
"""The shape's name, its formulas, an allowance for each edge, and the edges on a fold."""


def read_shaped(fields: Fields, name: str | None, cuts: tuple[Cut, ...], desk: Desk) -> Shaped | None:
    """Read the shape, its folds and allowances; everything is read even where something is faulty."""
    shape, body = _shape(fields, desk)
    if name is None or shape is None:
        fields.also("allowances", "on fold", "donor sides")
        return None
    folds = _folds(fields, shape, cuts[0], desk) if cuts else None
    allowances = read_allowances(fields, EDGES[shape], name, folds or frozenset(), desk)
    fields.also("allowances", "on fold", "donor sides")
    if body is None:
        return None
    inner = Fields(body, desk.faults, f"a {shape}", otherwise=BY_SIZE)
    layers = cuts[0].layers if cuts else 1
    without: dict[str, Expression] = dict.fromkeys(EDGES[shape], zero())
    outline = SHAPES[shape](inner, name, layers, allowances or without, folds or frozenset(), desk)
    if shape == "flounce" and (turned := turned_up(fields, EDGES[shape], {})):
        message = f"`{min(turned)}` of a flounce is turned up, and its ends would no longer run straight out"
        desk.faults.add(Code.PIECE, message, fields.whole.where, "draw it in a `draft` with `points:` and `outline:`")
        return None
    if outline is None or not cuts or allowances is None or folds is None:
        return None
    return shape, outline, allowances, folds


def _shape(fields: Fields, desk: Desk) -> tuple[str | None, Mapping | None]:
    """The one shape of a piece, and its body; either is None after a fault."""
    shapes = [shape for shape in SHAPES if fields.has(shape)]
    bodies = [fields.mapping(shape, EXAMPLES[shape]) for shape in shapes]
    if len(shapes) == 1:
        return shapes[0], bodies[0]
    listed = ", ".join(f"`{shape}:`" for shape in SHAPES)
    hint = f"give it just one of {listed}, as in `rectangle: {EXAMPLES['rectangle']}`"
    if shapes:
        message = f"this piece has {len(shapes)} shapes"
        desk.faults.add(Code.PIECE, message, fields.whole.where, hint)
    else:
        fields.missing(*SHAPES, code=Code.PIECE, message="this piece has no shape", hint=hint)
    return None, None


def _folds(fields: Fields, shape: str, cut: Cut, desk: Desk) -> frozenset[str] | None:
    """The edges that lie on a fold, or act as one because the donor's own sides stay whole."""
    key = "donor sides" if cut.lies == "in the round" else "on fold"
    other = fields.text("on fold" if key == "donor sides" else "donor sides")
    said = fields.text(key)
    needed = FOLDS_NEEDED[cut.lies]
    if shape != "rectangle":
        return _folds_of_round(fields, shape, cut, desk)
    if other is not None and needed:
        wrong = "on fold" if key == "donor sides" else "donor sides"
        message = f"`cut: {cut.said}` takes its edges from `{key}:`, not from `{wrong}:`"
        desk.faults.add(Code.PIECE, message, other.span(), f"write `{key}: {other.value}`")
        return None
    if other is not None:
        said, key = other, "donor sides"
    words = [] if said is None else said.value.replace(",", " ").casefold().split()
    edges = EDGES[shape]
    strangers = [word for word in words if word not in edges]
    how = fields.node("cut")
    place = said.span() if said is not None else how.where if how is not None else fields.whole.where
    if strangers:
        likely = near(strangers[0], edges)
        hint = f"did you mean `{likely}`?" if likely else f"the edges are {', '.join(edges)}"
        desk.faults.add(Code.PIECE, f"a rectangle has no edge `{strangers[0]}`", place, hint)
        return None
    if len(set(words)) != needed:
        _wrong_number(key, cut, said is None, place, desk)
        return None
    if cut.lies == "on two folds" and set(words) in ({"left", "right"}, {"top", "bottom"}):
        desk.faults.add(
            Code.PIECE,
            "two folds meet at a corner, and these edges lie opposite each other",
            place,
            f"write `{key}: left top`; for a tube write `1 in the round` and `donor sides: {' '.join(words)}`",
        )
        return None
    return frozenset(words)


def _wrong_number(key: str, cut: Cut, nothing_said: bool, place: Span, desk: Desk) -> None:
    """Report that not as many edges are named as the way of cutting needs."""
    needed, round_ = FOLDS_NEEDED[cut.lies], key == "donor sides"
    message = f"`cut: {cut.said}` needs {needed or 'no'} edge{'s' if needed != 1 else ''} under `{key}:`"
    if nothing_said and round_:
        message = "it is not said where the donor's own sides stay whole"
    elif nothing_said:
        message = f"it is not said which edge{'s lie' if needed == 2 else ' lies'} on the fold"
    two = "left right" if round_ else "left top"
    hint = {0: f"leave `{key}:` out", 1: "write `on fold: left`", 2: f"write `{key}: {two}`"}[needed]
    desk.faults.add(Code.PIECE, message, place, hint)


def _folds_of_round(fields: Fields, shape: str, cut: Cut, desk: Desk) -> frozenset[str] | None:
    """A circle says by ``cut:`` alone how it is folded."""
    said = next((text for key in ("on fold", "donor sides") if (text := fields.text(key))), None)
    if said is not None or (shape == "circle" and cut.lies == "in the round"):
        desk.faults.add(
            Code.PIECE,
            f"a {shape} has no sides that could lie on a fold" if said else "a circle has no sides that stay whole",
            fields.whole.where if said is None else said.span(),
            "leave this out: `cut: 1 on fold in main` says it" if said else "write `1 in main` or `1 on fold in main`",
        )
        return None
    return frozenset()
