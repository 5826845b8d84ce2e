"""A check made by itself: every piece cut from cloth by the metre fits across its usable width."""

from __future__ import annotations

from chalkfold.blocks.cloth_needed import is_folded, opened
from chalkfold.blocks.desk import Desk
from chalkfold.formula import Name, apply, key_of

NAME = "usable width"


def demand_usable_width(desk: Desk) -> None:
    """Demand it for each piece, unless the post says that the check is not needed."""
    if NAME in desk.not_needed:
        return
    cloths = {key_of(role): goods for role, (goods, _) in desk.roles.items()}
    for piece in desk.pieces.values():
        for cut in piece.cuts:
            goods = cloths.get(key_of(cut.role))
            if goods is None or goods.kind != "fabric" or goods.amount("usable width", None) is None:
                continue
            width = Name(f"usable width of {cut.role}", piece.span)
            across = desk.hidden(opened(piece)[0], piece.span)
            folded = ", opened," if is_folded(piece) else ""
            desk.demand(
                apply("<=", across, width),
                (piece.name, f"{folded} is ", desk.shown(across), " across, and the cloth only ", desk.shown(width)),
                piece.span,
                "cut it in more parts, or turn it; where it is laid across the cloth write in `checks`: "
                "`not needed: {usable width: laid across the cloth}`",
                about=f"{piece.name} in {cut.role}",
            )
