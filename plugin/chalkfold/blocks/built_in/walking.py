"""Hems that one walks in: as the project tells, or the edge called ``hem`` of a post with a ``skirt length``."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.built_in.known import first_known, is_known, is_missing, told
from chalkfold.blocks.built_in.made import Found
from chalkfold.blocks.built_in.pulled_on import stretch_of_cloth
from chalkfold.blocks.desk import Desk, zero
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Expression, Name, key_of
from chalkfold.reading import Entry, Fields, Mapping, Text

SLITS = ("slit length", "vent length")


def walking(desk: Desk) -> Iterator[Found]:
    """The hem is asked for a step, at the level where a slit begins; nothing is, where no height is known."""
    said_so = desk.project.walked_in
    for found in (_told(entry, desk) for entry in said_so) if said_so is not None else _by_name(desk):
        if found is None:
            continue
        said, place, hem, length, slit, stretch = found
        if not is_known("height", desk):
            if said_so is not None and is_missing("height", desk):
                yield Found("no height", place)
            continue
        values = {
            "hem": hem,
            "length": length,
            "slit": slit,
            "height": Name("height", place),
            "stretch": stretch_of_cloth(hem, place, desk) if stretch is None else stretch,
        }
        yield Found("room to walk", place, {"hem": said}, values)


_Hem = tuple[str, Span, Expression, Expression, Expression, Expression | None]
"""As said, where; its girth, how far it lies below the waist, how long the slit in it is, and how far it stretches: by
itself what its cloth does.
"""


def _told(entry: Entry, desk: Desk) -> _Hem | None:
    hem, place = told(entry.key, Kind.LENGTH, desk), entry.key.span()
    slit: Expression | None = zero()
    stretch: Expression | None = None
    if isinstance(entry.value, Mapping):
        fields = Fields(entry.value, desk.faults, "a hem that one walks in")
        length = told(fields.required_text("length"), Kind.LENGTH, desk)
        if fields.has("slit"):
            slit = told(fields.text("slit"), Kind.LENGTH, desk)
        if fields.has("stretch") and (stretch := told(fields.text("stretch"), Kind.PLAIN, desk)) is None:
            hem = None
        fields.finish()
    elif isinstance(entry.value, Text):
        length = told(entry.value, Kind.LENGTH, desk)
    else:
        message, hint = "this hem hangs at one length", f"write `{entry.key.value}: skirt length`"
        desk.faults.add(Code.DATA_SHAPE, message, entry.value.where, hint)
        return None
    if hem is None or length is None or slit is None:
        return None
    return entry.key.value, place, hem, length, slit, stretch


def _by_name(desk: Desk) -> Iterator[_Hem | None]:
    """Of one piece with a hem it is known that it makes the whole of it."""
    pieces = desk.pieces.values()
    with_hem = [piece for piece in pieces if any(key_of(edge) == "hem" for edge in piece.outline.edges)]
    if len(with_hem) == 1 and is_known("skirt length", desk):
        place = with_hem[0].span
        hem = Name(f"total hem of {with_hem[0].name}", place)
        slit = first_known(list(SLITS), place, desk) or zero()
        yield hem.name, place, hem, Name("skirt length", place), slit, None
