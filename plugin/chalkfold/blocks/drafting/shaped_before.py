"""Darts, pleats and slashes that a plain copy takes over as text, read on the whole before a part is cut away."""

from __future__ import annotations

from dataclasses import replace

from chalkfold.blocks.desk import BY_SIZE, Desk
from chalkfold.blocks.drafting.contour import Contour, is_own
from chalkfold.blocks.drafting.flat_piece import FlatPiece
from chalkfold.blocks.drafting.flattened import with_shaping
from chalkfold.blocks.drafting.shaping import KEYS as SHAPING
from chalkfold.blocks.drafting.shaping import read_shaping
from chalkfold.blocks.drafting.trued import TRUED
from chalkfold.reading import Entry, Fields, Mapping, Node, Text


def with_shapings(contour: Contour, fields: Fields, desk: Desk) -> Contour | None:
    """With the darts, pleats and slashes that another piece had, read on the whole of it; None after a fault."""
    taken = {key: entries for key in SHAPING if (entries := _entries(fields.node(key), fields, own=False))}
    if not taken:
        return contour
    name, place = f"{contour.edges.piece} before it is cut", fields.whole.where
    flat = FlatPiece(name, place, contour.edges, contour.points, contour.folds or frozenset(), desk)
    shaping = read_shaping(_fields(taken, fields, desk, "spread" in taken), flat, False, contour.shapings)
    return None if shaping is None else replace(with_shaping(contour, shaping, desk), shaping_taken=True)


def _entries(node: Node | None, fields: Fields, own: bool) -> Mapping | None:
    """Of what shapes a piece the entries that are its own, or those of another; None for nothing."""
    if not isinstance(node, Mapping):
        return None
    entries = tuple(entry for entry in node if is_own(entry.key, fields) is own)
    return Mapping(entries, node.where) if entries else None


def own_shaping(fields: Fields, contour: Contour, desk: Desk) -> Fields:
    """What shapes a piece, without that of another piece where it has been read already."""
    if not contour.shaping_taken:
        return fields
    fields.also(*SHAPING)
    own = {key: body for key in SHAPING if (body := _entries(fields.node(key), fields, own=True))}
    return _fields(own, fields, desk, _entries(fields.node("spread"), fields, own=False) is None)


def _fields(bodies: dict[str, Mapping], fields: Fields, desk: Desk, with_trued: bool) -> Fields:
    """``with_trued``: what is written of edges to be trued goes with the slashes."""
    found: dict[str, Node] = {**bodies}
    if with_trued and (trued := fields.node(TRUED)) is not None:
        found[TRUED] = trued
    entries = tuple(Entry(Text(key, node.where), node) for key, node in found.items())
    return Fields(Mapping(entries, fields.whole.where), desk.faults, fields.what, otherwise=BY_SIZE)
