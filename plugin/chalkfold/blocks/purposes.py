"""What a piece is for, in the words that the built-in checks need: ``carries``, ``channel``, ``turned``, ``faces``."""

from __future__ import annotations

from dataclasses import dataclass

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk
from chalkfold.formula import Name, key_of
from chalkfold.plan import Limit
from chalkfold.reading import Fields

CARRIES = ("elastic", "cord")


@dataclass(frozen=True, slots=True)
class Purpose:
    """``channel`` is how deep the channel is between its rows, ``faces`` how long the slit is that the piece faces."""

    carries: str = ""
    turned: bool = False
    channel: Name | None = None
    faces: Name | None = None
    drawn: bool = False


def read_purpose(fields: Fields, name: str | None, desk: Desk, drawn: bool = False) -> Purpose:
    """Read the keys of a piece and keep them on the desk."""
    carries, turned = fields.choice("carries", CARRIES) or "", fields.yes_no("turned")
    of = name or "a piece"
    channel, faces = (_length(key, of, fields, desk) for key in ("channel", "faces"))
    purpose = Purpose(carries, turned, channel, faces, drawn)
    if name is not None:
        desk.purposes[key_of(name)] = purpose
    return purpose


def purpose_of(piece: str, desk: Desk) -> Purpose:
    return desk.purposes.get(key_of(piece), Purpose())


NOTHING_LEFT = (
    "folded, sewn and turned this leaves nothing: it comes out as {}",
    "cut the strip at least 2 × (1/4 in + its seam allowance) wide; with seams of 1/4 in that is 1 in",
)


def least_of(piece: str, desk: Desk) -> tuple[Limit, tuple[str, str] | None]:
    """What a measure of a piece must be at least, and why. Of a strip that is not drawn the check for turning tells."""
    purpose = purpose_of(piece, desk)
    if not purpose.turned:
        return Limit.POSITIVE, None
    return (Limit.POSITIVE, NOTHING_LEFT) if purpose.drawn else (Limit.ANY, None)


def _length(key: str, of: str, fields: Fields, desk: Desk) -> Name | None:
    text = fields.text(key)
    expression = desk.formula(text)
    if text is None or expression is None:
        return None
    step = desk.step(f"{key} of {of}", expression, text.span(), limit=Limit.POSITIVE, kind=Kind.LENGTH)
    desk.want(step)
    return step
