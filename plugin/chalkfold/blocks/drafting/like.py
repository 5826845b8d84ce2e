"""``like: back``: a draft that begins as a copy of another piece.

A plain copy is made of what was written: the mappings of both are laid into one before the draft is read, and every
part keeps its place. ``opened out`` and ``mirrored`` copy the piece as drawn (``copies.py``); of what was written only
what does not hang on its shape is taken over.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from chalkfold.blocks.desk import BY_SIZE, Desk
from chalkfold.diagnostics import Code, near
from chalkfold.formula import key_of
from chalkfold.reading import Entry, Fence, Fields, Mapping, Node, Text
from chalkfold.reading import Sequence as Items

OWN = frozenset({"piece", "id", "caption", "note", "panels", "cut whole", "like"})
"""Keys that are never taken over."""
SHAPE = frozenset(
    {"points", "outline", "outline is", "rectangle", "circle", "flounce", "lines", "marks", "cut away"}
    | {"darts", "pleats", "spread", "trued"}
    | {"facing of", "along", "depth", "on fold", "donor sides"}
)
"""Keys that a copy of a piece as drawn does not read again."""
MOST_BEHIND = 40
"""Pieces made from one another in a row; more is no workroom."""
AS_IT_IS, OPENED, MIRRORED = "as it is", "opened out", "mirrored"
_LIKE = re.compile(r"(?P<piece>.+?)(?:\s+(?:(?P<mirrored>mirrored)|opened\s+out(?:\s+at\s+(?P<fold>.+))?))?", re.I)


@dataclass(frozen=True, slots=True)
class Like:
    """What a piece is like: the piece drawn before, and how; an empty ``how`` for a copy of what was written.

    ``behind`` is the key of the piece named, where that is itself drawn like ``piece``; ``given`` says that the piece
    stands in the cut list, ``panel`` that it is a part of another.
    """

    piece: str
    said: Text
    how: str = ""
    fold: Text | None = None
    behind: str = ""
    given: bool = False
    panel: bool = False


def seen_in_a_mirror(said: Text) -> Text | None:
    """The piece in `right front mirrored`; None where nothing is mirrored."""
    match = _LIKE.fullmatch(said.value)
    return said.part(0, match.end("piece")) if match is not None and match["mirrored"] else None


@dataclass
class _Post:
    """The drafts of a post by the key of their piece, and everything else that a draft may be like."""

    drafts: dict[str, tuple[Fence, Fields]]
    panels: dict[str, str]
    """Key of a panel → key of the draft it is cut from."""
    given: dict[str, Mapping]
    """Pieces of the cut list."""
    names: dict[str, str]
    whole: bool
    """Every body could be read, so that a piece that is not here is nowhere."""


def settle(fences: Sequence[Fence], bodies: dict[int, Fields | None], desk: Desk) -> list[Fence]:
    """The fences, each draft after those it is made from; in ``bodies`` copies are filled in.

    The body of a draft that is like no piece there is, or like itself, becomes None.
    """
    post = _post(fences, bodies)
    order: list[Fence] = []
    path: list[str] = []
    done: set[str] = set()

    def visit(key: str) -> None:
        if key in done or key not in post.drafts:
            return
        path.append(key)
        fence, fields = post.drafts[key]
        for said, source in _sources(fields, post):
            source = post.panels.get(source, source)
            if source in path:
                _circle([*path[path.index(source) :], source], said, post, desk)
                bodies[id(fence)] = None
            elif len(path) >= MOST_BEHIND:
                message = f"more than {MOST_BEHIND} pieces are made from one another here, each from the next"
                desk.faults.add(Code.DRAFT, message, said.span(), "make some of them from the first one directly")
                bodies[id(fence)] = None
            else:
                visit(source)
        path.pop()
        if key not in done:
            done.add(key)
            order.append(fence)
            if bodies[id(fence)] is not None:
                bodies[id(fence)] = _filled_in(key, fields, post, desk)
                if (filled := bodies[id(fence)]) is not None:
                    post.drafts[key] = fence, filled

    for key in tuple(post.drafts):
        visit(key)
    placed = {id(fence) for fence in order}
    return [*order, *(fence for fence in fences if id(fence) not in placed)]


def _post(fences: Sequence[Fence], bodies: dict[int, Fields | None]) -> _Post:
    post = _Post({}, {}, {}, {}, True)
    for fence in fences:
        fields = bodies[id(fence)]
        if fields is None:
            post.whole = False
        elif fence.name == "draft" and isinstance(name := fields.whole.get("piece"), Text):
            key = key_of(name.value)
            post.drafts.setdefault(key, (fence, fields))
            post.names.setdefault(key, name.value)
            panels = fields.whole.get("panels")
            for entry in panels if isinstance(panels, Mapping) else ():
                if key_of(entry.key.value) != "along":
                    post.panels.setdefault(key_of(entry.key.value), key)
                    post.names.setdefault(key_of(entry.key.value), entry.key.value)
        elif fence.name == "draft":
            post.whole = False
        elif fence.name == "cut-list":
            _given(fields, post)
    return post


def _given(fields: Fields, post: _Post) -> None:
    pieces = fields.whole.get("pieces")
    for item in pieces if isinstance(pieces, Items) else ():
        if isinstance(item, Mapping) and isinstance(name := item.get("piece"), Text):
            post.given.setdefault(key_of(name.value), item)
            post.names.setdefault(key_of(name.value), name.value)


def _sources(fields: Fields, post: _Post) -> list[tuple[Text, str]]:
    """The texts that name a piece this one is made from, and the key of each piece."""
    like, traced = (fields.whole.get(key) for key in ("like", "facing of"))
    found = [(like, _found(like, post)[0])] if isinstance(like, Text) else []
    return [*found, (traced, _found(traced, post)[0])] if isinstance(traced, Text) else found


def _found(said: Text, post: _Post) -> tuple[str, str, Text | None]:
    """The key of the piece a text names, how it is taken, and the fold named."""
    if key_of(said.value) in post.names:
        return key_of(said.value), "", None
    match = _LIKE.fullmatch(said.value)
    if match is None or match.end("piece") == len(said.value):
        return key_of(said.value), "", None
    fold = None if match["fold"] is None else said.part(match.start("fold"), match.end("fold"))
    return key_of(match["piece"]), MIRRORED if match["mirrored"] else OPENED, fold


def _circle(path: list[str], said: Text, post: _Post, desk: Desk) -> None:
    shown = " → ".join(post.names[key] for key in path)
    message = f"these pieces are each made from the next, in a circle: {shown}"
    desk.faults.add(Code.DRAFT, message, said.span(), "draw one of them with `points:` and `outline:` of its own")


def _filled_in(key: str, fields: Fields, post: _Post, desk: Desk) -> Fields | None:
    """A draft with what it takes over, after a fault where there is nothing to take it from."""
    for said, source in _sources(fields, post):
        if source not in post.names:
            if post.whole:
                _unknown(said, source, key, post, desk)
            return None
    said_like = fields.whole.get("like")
    if not isinstance(said_like, Text):
        return fields
    source, how, fold = _found(said_like, post)
    if source in post.panels:
        desk.likes[key] = Like(source, said_like, how or AS_IT_IS, fold, panel=True)
        return fields
    origin = post.drafts[source][1].whole if source in post.drafts else post.given[source]
    before = desk.likes.get(source)
    if how:
        desk.likes[key] = Like(source, said_like, how, fold, given=source not in post.drafts)
        dropped = OWN | SHAPE | ({"cut"} if how == OPENED else frozenset())
    elif before is not None and before.how:  # a copy of one that is itself mirrored: mirrored the same way
        desk.likes[key] = Like(before.piece, said_like, before.how, before.fold, source)
        dropped = OWN
    else:
        desk.likes[key] = Like(source, said_like, given=source not in post.drafts)
        dropped = OWN
    return Fields(merged(fields.whole, origin, dropped), desk.faults, fields.what, otherwise=BY_SIZE)


def _unknown(said: Text, source: str, own: str, post: _Post, desk: Desk) -> None:
    others = [name for key, name in post.names.items() if key != own]
    likely = near(source, [f"{name}{way}" for name in others for way in ("", f" {MIRRORED}", f" {OPENED}")])
    listed = ", ".join(others) or "none but this"
    hint = f"did you mean `{likely}`?" if likely else f"the pieces of this post are: {listed}"
    desk.faults.add(Code.DRAFT, f"there is no piece called `{source}`", said.span(0, len(source)), hint)


def merged(own: Mapping, origin: Mapping, dropped: frozenset[str] = frozenset()) -> Mapping:
    """Two bodies in one: mappings merge, lists and texts replace, ``none`` removes, ``cut away`` adds up.

    A new entry of a mapping follows the one written before it, so that an outline stays in order.
    """
    entries: dict[str, Entry] = {
        key_of(entry.key.value): entry for entry in origin if key_of(entry.key.value) not in dropped
    }
    for entry in own:
        key = key_of(entry.key.value)
        before = entries.get(key)
        if _is_none(entry.value) and key == "marks" and key in dropped:  # those of the piece as drawn go, too
            entries[key] = Entry(entry.key, Items((), entry.value.where))
        elif _is_none(entry.value) and key != "allowances":
            entries.pop(key, None)
        elif before is not None and isinstance(before.value, Mapping) and isinstance(entry.value, Mapping):
            entries[key] = Entry(entry.key, _together(entry.value, before.value))
        elif before is not None and key == "cut away":
            entries[key] = Entry(entry.key, Items((*_items(before.value), *_items(entry.value)), entry.value.where))
        else:
            entries[key] = entry
    return Mapping(tuple(entries.values()), own.where)


def _together(own: Mapping, origin: Mapping) -> Mapping:
    entries = list(origin)
    place = len(entries)
    for entry in own:
        key = key_of(entry.key.value)
        at = next((n for n, each in enumerate(entries) if key_of(each.key.value) == key), None)
        if _is_none(entry.value):
            if at is not None:
                entries.pop(at)
                place = at
        elif at is None:
            entries.insert(place, entry)
            place += 1
        else:
            entries[at] = entry
            place = at + 1
    return Mapping(tuple(entries), own.where)


def _items(node: Node) -> tuple[Node, ...]:
    return node.items if isinstance(node, Items) else (node,)


def _is_none(node: Node) -> bool:
    return isinstance(node, Text) and node.value.casefold() == "none"
