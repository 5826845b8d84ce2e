"""``allowances:`` of a piece: what is added at each edge for seams and hems."""

from __future__ import annotations

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import BY_SIZE, Desk, zero
from chalkfold.diagnostics import Code
from chalkfold.formula import Expression, key_of
from chalkfold.plan import Limit
from chalkfold.reading import Fields, Mapping, Text


def read_allowances(
    fields: Fields, edges: tuple[str, ...], name: str, folds: frozenset[str], desk: Desk
) -> dict[str, Expression] | None:
    """``allowances: {all: 1 cm, top: 2 cm}`` or ``none``: one formula for each of ``edges``; ``folds`` holds keys."""
    node = fields.node("allowances")
    if isinstance(node, Text) and node.value.casefold() == "none":
        return dict.fromkeys(edges, zero())
    hint = "write `allowances: {all: 1 cm}`, or `allowances: none` where nothing is added"
    if node is None and not fields.has("allowances"):
        message = "it is not said how much to add for seams and hems"
        fields.missing("allowances", code=Code.PIECE, message=message, hint=hint)
    elif isinstance(node, Text):
        hint = f"write `allowances: {{all: {node.value}}}`" if node.value[:1].isdigit() else hint
        desk.faults.add(Code.PIECE, "it is not said on which edges this is added", node.where, hint)
    elif node is not None and not isinstance(node, Mapping):
        desk.faults.add(Code.PIECE, "allowances are named by edge, and this is a list", node.where, hint)
    if not isinstance(node, Mapping):
        return None
    given = Fields(node, desk.faults, "`allowances`", otherwise=BY_SIZE)
    open_edges = [edge for edge in edges if key_of(edge) not in folds and not given.has(edge)]
    if open_edges and not given.has("all"):
        listed = ", ".join(f"`{edge}`" for edge in open_edges)
        message = f"it is not said how much to add at {listed}"
        hint = f"write `all: 1 cm` for every edge not named, or `{open_edges[0]}: 0` where nothing is added"
        given.missing(*edges, "all", code=Code.PIECE, message=message, hint=hint)
    usual = _allowance(given.text("all"), f"allowance of {name}", desk)
    own = {
        edge: _allowance(text, f"allowance at {edge} of {name}", desk) for edge in edges if (text := given.text(edge))
    }
    given.finish()
    for edge in [each for each in own if key_of(each) in folds]:
        desk.faults.add(
            Code.PIECE,
            f"`{edge}` lies on the fold and takes no allowance",
            next(entry.key.span() for entry in node if key_of(entry.key.value) == key_of(edge)),
            f"leave `{edge}` out of `allowances:`",
        )
    return {edge: zero() if key_of(edge) in folds else own.get(edge, usual) or zero() for edge in edges}


def _allowance(text: Text | None, name: str, desk: Desk) -> Expression | None:
    expression = desk.formula(text)
    if text is None or expression is None:
        return None
    return desk.step(name, expression, text.span(), limit=Limit.NOT_NEGATIVE, kind=Kind.LENGTH)
