"""``allowances:`` of a piece: what is added at each edge for seams and hems."""

from __future__ import annotations

import re
from collections.abc import Mapping as Table

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import BY_SIZE, Desk, zero
from chalkfold.diagnostics import Code
from chalkfold.formula import Expression, key_of
from chalkfold.plan import Limit
from chalkfold.reading import Fields, Mapping, Node, Text

_TURNED = re.compile(r"(?P<width>.+?)\s+turned\s+(?:up|down|under|in)", re.I)


def turned_up(fields: Fields, edges: tuple[str, ...], as_for: Table[str, str]) -> frozenset[str]:
    """The keys of the edges whose allowance is turned up, as in ``hem: 4 cm turned up``."""
    node = fields.node("allowances")
    if not isinstance(node, Mapping):
        return frozenset()
    said = {key: node.get(key) or node.get(as_for.get(key, key)) for key in map(key_of, edges)}
    return frozenset(key for key, text in said.items() if _is_turned(text))


def _is_turned(said: object) -> bool:
    return isinstance(said, Text) and _TURNED.fullmatch(said.value) is not None


def read_allowances(
    fields: Fields,
    edges: tuple[str, ...],
    name: str,
    folds: frozenset[str],
    desk: Desk,
    as_for: Table[str, str] | None = None,
    gone: frozenset[str] = frozenset(),
) -> dict[str, Expression] | None:
    """``allowances: {all: 1 cm, top: 2 cm}`` or ``none``: one formula for each of ``edges``; ``folds`` holds keys.

    ``as_for`` gives for an edge that may go unnamed another whose allowance it then takes (both keys);
    ``gone`` holds edges that may be named though they are there no more.
    """
    as_for = as_for or {}
    node = fields.node("allowances")
    if isinstance(node, Text) and node.value.casefold() == "none":
        return dict.fromkeys(edges, zero())
    if not isinstance(node, Mapping):
        _no_mapping(node, fields, desk)
        return None
    given = Fields(node, desk.faults, "`allowances`", gone, BY_SIZE)
    said = {edge: _said(given, edge, as_for) for edge in edges}
    open_edges = [edge for edge, text in said.items() if text is None and key_of(edge) not in folds | _keys(node)]
    if open_edges and not given.has("all"):
        listed = ", ".join(f"`{edge}`" for edge in open_edges)
        message = f"it is not said how much to add at {listed}"
        hint = f"write `all: 1 cm` for every edge not named, or `{open_edges[0]}: 0` where nothing is added"
        given.missing(*edges, "all", code=Code.PIECE, message=message, hint=hint)
    usual = _allowance(
        _not_turned(given.text("all"), [edge for edge in edges if key_of(edge) not in folds], desk),
        f"allowance of {name}",
        desk,
    )
    own = {edge: _allowance(text, f"allowance at {edge} of {name}", desk) for edge, text in said.items() if text}
    given.finish()
    _none_on_folds(node, folds, desk)
    return {edge: zero() if key_of(edge) in folds else own.get(edge, usual) or zero() for edge in edges}


def _none_on_folds(node: Mapping, folds: frozenset[str], desk: Desk) -> None:
    for entry in [each for each in node if key_of(each.key.value) in folds]:
        edge = entry.key.value
        message = f"`{edge}` lies on the fold and takes no allowance"
        desk.faults.add(Code.PIECE, message, entry.key.span(), f"leave `{edge}` out of `allowances:`")


def _no_mapping(node: Node | None, fields: Fields, desk: Desk) -> None:
    hint = "write `allowances: {all: 1 cm}`, or `allowances: none` where nothing is added"
    if node is None and not fields.has("allowances"):
        message = "it is not said how much to add for seams and hems"
        fields.missing("allowances", code=Code.PIECE, message=message, hint=hint)
    elif isinstance(node, Text):
        hint = f"write `allowances: {{all: {node.value}}}`" if node.value[:1].isdigit() else hint
        desk.faults.add(Code.PIECE, "it is not said on which edges this is added", node.where, hint)
    elif node is not None:
        desk.faults.add(Code.PIECE, "allowances are named by edge, and this is a list", node.where, hint)


def _said(given: Fields, edge: str, as_for: Table[str, str]) -> Text | None:
    other = as_for.get(key_of(edge))
    return given.text(edge) if other is None or given.has(edge) else given.text(other)


def _keys(node: Mapping) -> frozenset[str]:
    return frozenset(key_of(entry.key.value) for entry in node)


def _not_turned(text: Text | None, edges: list[str], desk: Desk) -> Text | None:
    """The allowance of all edges; they cannot all be turned up."""
    if text is None or (found := _TURNED.fullmatch(text.value)) is None:
        return text
    message = "an allowance is turned up at an edge, and this stands for every edge"
    desk.faults.add(Code.PIECE, message, text.span(), f"write `{edges[-1]}: {text.value}` for the edge that is")
    return text.part(0, found.end("width"))


def _allowance(text: Text | None, name: str, desk: Desk) -> Expression | None:
    if text is not None and (found := _TURNED.fullmatch(text.value)):
        text = text.part(0, found.end("width"))
    expression = desk.formula(text)
    if text is None or expression is None:
        return None
    return desk.step(name, expression, text.span(), limit=Limit.NOT_NEGATIVE, kind=Kind.LENGTH)
