"""A contour with its folds and allowances: a piece that can be cut."""

from __future__ import annotations

from chalkfold.blocks.allowances import read_allowances, turned_up
from chalkfold.blocks.desk import Desk
from chalkfold.blocks.drafting.contour import Contour, Shaped, folds_fit, is_own
from chalkfold.blocks.drafting.drawn import Side, lay_outline, measured_outline, on_seam
from chalkfold.blocks.drafting.flat_piece import FlatPiece
from chalkfold.blocks.drafting.fold_edges import KEYS, read_folds, touches
from chalkfold.blocks.drafting.shaped_before import own_shaping
from chalkfold.blocks.drafting.shaping import read_shaping
from chalkfold.blocks.layers import Cut
from chalkfold.diagnostics import Code
from chalkfold.formula import Expression
from chalkfold.reading import Fields, Text

OUTLINE_IS = ("seam line", "cutting line")


def enclosed(fields: Fields, contour: Contour, name: str, cut: Cut, said: Text, desk: Desk) -> Shaped | None:
    """A contour with its folds and allowances: the seam line, the cutting line and all measured on them."""
    edges, folds = contour.edges, contour.folds
    if folds is None or any(is_own(fields.whole.get(key), fields) for key in KEYS):
        folds = read_folds(fields, edges, cut, desk)
    elif not folds_fit(contour, cut, (fields.node("cut") or said).where, desk):
        folds = None
    names = tuple(drawn.name for drawn in edges.drawn.values()) if contour.sound else tuple(edges.names.values())
    allowances = read_allowances(fields, names, name, folds or frozenset(), desk, contour.as_for, contour.gone)
    fields.also(*KEYS)
    given = fields.choice("outline is", OUTLINE_IS)
    on_cutting_line, turned = given == "cutting line", turned_up(fields, names, contour.as_for)
    if folds is None:
        return None
    flat = FlatPiece(name, said.span(), edges, contour.points, folds, desk, contour.darts_closed)
    shaping = read_shaping(own_shaping(fields, contour, desk), flat, on_cutting_line, contour.shapings)
    if not contour.sound or allowances is None or shaping is None or (given is None and fields.has("outline is")):
        return None
    if on_cutting_line and turned:
        _cannot_be_turned(fields, name, desk)
        return None
    sides = shaping.sides(_sides(contour, folds, allowances, turned))
    place = said.span()
    lay_outline(name, sides, on_cutting_line, place, desk, shaping.op)
    outline = measured_outline(name, sides, on_cutting_line, cut.lies, place, desk)
    seam = on_seam(name, sides, place, desk) if on_cutting_line else sides
    return Shaped(outline, seam, edges, contour.points, contour, on_cutting_line, shaping)


def _sides(
    contour: Contour, folds: frozenset[str], allowances: dict[str, Expression], turned: frozenset[str]
) -> tuple[Side, ...]:
    drawn = contour.edges.drawn
    on_folds = [drawn[key] for key in drawn if key in folds]
    return tuple(
        Side(
            each.name,
            each.step,
            allowances[each.name],
            sum(touches(each, fold) for fold in on_folds if fold is not each),
            each in on_folds,
            each.is_arc,
            each.centre,
            each.span,
            each.is_curved,
            key in turned,
        )
        for key, each in drawn.items()
    )


def _cannot_be_turned(fields: Fields, name: str, desk: Desk) -> None:
    node = fields.node("allowances")
    assert node is not None
    message = f"{name} is drawn on its cutting line, which shows already how an allowance turned up is cut"
    desk.faults.add(Code.DRAFT, message, node.where, "leave `turned up` out, or draw the seam line")


def on_seam_line(fields: Fields, desk: Desk) -> bool:
    """Whether a simple shape is drawn as it must be: its measures are the finished ones."""
    said = fields.text("outline is")
    if said is None or fields.choice("outline is", OUTLINE_IS) != "cutting line":
        return True
    hint = (
        "leave this out and take the allowances off, as in `rectangle: {across: 30 cm - 2 cm, down: 38 cm - 2 cm}`; "
        "or draw it with `points:` and `outline:`"
    )
    desk.faults.add(Code.DRAFT, "a simple shape is given by its finished measures", said.span(), hint)
    return False
