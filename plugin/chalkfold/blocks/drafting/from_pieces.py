"""A draft that is made from another piece: copied as drawn (``like:``) or traced from it (``facing of:``)."""

from __future__ import annotations

from dataclasses import replace

from chalkfold.blocks.desk import BY_SIZE, Desk
from chalkfold.blocks.drafting.contour import Contour, Draft
from chalkfold.blocks.drafting.copies import copied
from chalkfold.blocks.drafting.facing import facing
from chalkfold.blocks.drafting.like import OPENED, OWN, SHAPE, Like, merged, seen_in_a_mirror
from chalkfold.blocks.drafting.own_parts import with_own
from chalkfold.blocks.layers import Cut, read_cuts
from chalkfold.blocks.shapes import EDGES
from chalkfold.diagnostics import Code
from chalkfold.formula import key_of
from chalkfold.reading import Fields, Text

FACING = "facing of"
ONE_WAY_UP = ("", "right side up")
"""Ways of cutting by which a piece shows the side of the cloth that its drawing does."""
OPEN = {"on two folds": "on fold", "on fold": ""}


def is_from_piece(fields: Fields, name: str, desk: Desk) -> bool:
    """Whether a piece is made from the shape of another, and not from what was written of it."""
    like = desk.likes.get(key_of(name))
    return (like is not None and bool(like.how)) or fields.has(FACING)


def filled_in(fields: Fields, name: Text | None, desk: Desk) -> Fields:
    """A draft that is like a panel, with what is written of the panel (of others ``like.settle`` fills it in)."""
    like = None if name is None else desk.likes.get(key_of(name.value))
    origin = None if like is None or not like.panel else desk.patterns.get(like.piece)
    if like is None or origin is None:
        return fields
    dropped = OWN | SHAPE | {"side"} | ({"cut"} if like.how == OPENED else frozenset())
    whole = merged(fields.whole, origin.body, dropped)
    return Fields(whole, desk.faults, fields.what, also=("piece",), otherwise=BY_SIZE)


def cuts_of(fields: Fields, name: Text | None, desk: Desk) -> tuple[Cut, ...]:
    """How a piece is cut: as written; a copy as what it is like, and opened out with a fold less.

    Nothing where the piece it is made from had a fault: that is told already.
    """
    like = None if name is None else desk.likes.get(key_of(name.value))
    origin = None if like is None else desk.patterns.get(like.piece)
    if like is not None and not _is_sound(like, desk):
        fields.also("cut", "along", "depth")
        return ()
    if origin is not None and like is not None and like.how and not fields.has("cut"):
        fields.also("cut")
        cuts = origin.piece.cuts
        return tuple(replace(cut, lies=OPEN.get(cut.lies, cut.lies)) for cut in cuts) if like.how == OPENED else cuts
    return read_cuts(fields.texts("cut"), desk) if fields.required("cut") else ()


def _is_sound(like: Like, desk: Desk) -> bool:
    return like.given or ((like.behind or like.piece) in desk.patterns and like.piece in desk.patterns)


def from_piece(fields: Fields, name: str, said: Text, cut: Cut, desk: Desk) -> Contour | None:
    """The contour of such a piece, with the points and lines that are written for it; None after a fault."""
    like = desk.likes.get(key_of(name))
    traced = fields.text(FACING)
    drawn = [key for key in ("outline", *EDGES) if fields.has(key)]
    if drawn:
        message = f"{name} is made from another piece as drawn, and has `{drawn[0]}:` of its own as well"
        hint = "change the outline in a plain copy, `like: back`, and make this piece from that"
        desk.faults.add(Code.DRAFT, message, said.span(), hint)
        return None
    contour = None
    if traced is not None and (found := _traced(traced, desk)):
        piece, mirrored = found
        contour = facing(fields, piece, name, mirrored is not (cut.lies in ONE_WAY_UP), desk)
    elif traced is None and like is not None and (origin := _origin(like.said, like.piece, desk)):
        bare = replace(origin, marks=()) if fields.has("marks") else origin  # its own take their place
        contour = copied(like, bare, name, desk)
    fields.also("along", "depth")
    if contour is None:
        return None
    return with_own(contour, fields)


def _traced(said: Text, desk: Desk) -> tuple[Draft, bool] | None:
    """The piece that a facing is traced from, and whether it is its mirror image that is faced."""
    plain = None if key_of(said.value) in desk.patterns else seen_in_a_mirror(said)
    origin = _origin(said if plain is None else plain, key_of((plain or said).value), desk)
    return None if origin is None else (origin, plain is not None)


def _origin(said: Text, key: str, desk: Desk) -> Draft | None:
    """The piece that is copied or traced, as drawn; silently None where it had a fault."""
    origin = desk.patterns.get(key)
    if origin is None:
        if key not in desk.broken and not any(like.piece == key and not like.given for like in desk.likes.values()):
            message = f"`{said.value}` names a piece of the cut list, which is not drawn"
            desk.faults.add(Code.DRAFT, message, said.span(), "give that piece a `draft` block of its own")
        return None
    if origin.shaped.on_cutting_line:
        message = f"{origin.piece.name} is drawn on its cutting line, and no piece can be made from it as drawn"
        desk.faults.add(Code.DRAFT, message, said.span(), "draw its seam line, and give it its allowances")
        return None
    return origin
