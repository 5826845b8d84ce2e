"""``on fold:`` and ``donor sides:`` of a draft: where the cloth is folded, or the donor's own sides stay whole."""

from __future__ import annotations

from collections.abc import Sequence

from chalkfold.blocks.desk import Desk
from chalkfold.blocks.drafting.edges import Drawn, Edges
from chalkfold.blocks.layers import Cut
from chalkfold.blocks.shape_pieces import FOLDS_NEEDED
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import key_of
from chalkfold.reading import Fields, Text

KEYS = ("on fold", "donor sides")
NOT_SAID = {
    1: "it is not said which edge lies on the fold",
    2: "it is not said which edges lie on the folds",
}


def read_folds(fields: Fields, edges: Edges, cut: Cut, desk: Desk) -> frozenset[str] | None:
    """The keys of the edges on a fold, or that act as one; None after a fault."""
    given = {key: named_edges(fields.texts(key), edges) for key in KEYS}
    said = [text for texts in given.values() for text in texts]
    unknown = [text for text in said if edges.find(text) is None]
    if unknown:
        return None
    how = fields.node("cut")
    place = said[0].span() if said else fields.whole.where if how is None else how.where
    found = {key_of(text.value): text for text in said}
    if not _as_many(found, given, edges, cut, place, desk):
        return None
    return frozenset(found)


def touches(one: Drawn, other: Drawn) -> bool:
    """Whether two edges share an end."""
    return bool({one.start, one.end} & {other.start, other.end})


def named_edges(said: Sequence[Text], edges: Edges) -> list[Text]:
    """A list of edges; names side by side in one text are told apart by the names there are."""
    return [name for text in said for name in ([text] if key_of(text.value) in edges.names else _apart(text, edges))]


def _apart(text: Text, edges: Edges) -> list[Text]:
    words = text.value.split()
    known = edges.names.keys() | edges.broken
    found: list[Text] = []
    at, first = 0, 0
    while first < len(words):
        start = text.value.index(words[first], at)
        for last in range(len(words), first, -1):
            if key_of(" ".join(words[first:last]).rstrip(",")) in known:
                break
        else:
            return [text]
        at = start
        for word in words[first:last]:
            at = text.value.index(word, at) + len(word)
        found.append(text.part(start, start + len(text.value[start:at].rstrip(","))))
        first = last
    return found


def _as_many(
    found: dict[str, Text], given: dict[str, list[Text]], edges: Edges, cut: Cut, place: Span, desk: Desk
) -> bool:
    """Whether as many edges are named as ``cut:`` asks for, under the key it asks for."""
    key = "donor sides" if cut.lies == "in the round" else "on fold"
    wrong = given["on fold" if key == "donor sides" else "donor sides"]
    needed = FOLDS_NEEDED[cut.lies]
    asks = f"`cut: {cut.said}`".replace("on the fold", "on fold")
    if needed and wrong:
        other = "on fold" if key == "donor sides" else "donor sides"
        message = f"{asks} takes its edges from `{key}:`, not from `{other}:`"
        desk.faults.add(Code.DRAFT, message, wrong[0].span(), _hint(key, [text.value for text in wrong]))
        return False
    if len(found) == needed and edges.names.keys() <= found.keys():
        message = f"every edge of {edges.piece} lies on a fold, and between folds there is no piece"
        desk.faults.add(Code.DRAFT, message, place, "draw the edges that join the folds, too")
        return False
    if len(found) == needed:
        return True
    straight = [drawn.name for drawn in edges.drawn.values() if drawn.is_line] or ["side"]
    hint = _hint(key, straight[-needed:]) if needed else "leave it out, or write `1 on fold` under `cut:`"
    message = (
        f"{asks} needs {('no edge', '1 edge', '2 edges')[needed]} on a fold, and {len(found)} {_is(len(found))} named"
    )
    if not found:
        message = "it is not said where the donor's own sides stay whole" if key == "donor sides" else NOT_SAID[needed]
    desk.faults.add(Code.DRAFT, message, place, hint)
    return False


def _is(count: int) -> str:
    return "is" if count == 1 else "are"


def _hint(key: str, names: Sequence[str]) -> str:
    return f"write `{key}: {names[0]}`" if len(names) == 1 else f"write `{key}: [{', '.join(names)}]`"
