"""Short ways to read a body in a test."""

from __future__ import annotations

from typing import Any

from chalkfold.diagnostics import Faults, Source
from chalkfold.reading import Excerpt, Mapping, Node, Sequence, Text, load
from spec_cases import told


def read(text: str) -> tuple[Node | None, Faults]:
    faults = Faults()
    return load(Excerpt.whole(Source("post.md", text)), faults), faults


def well(text: str) -> Mapping:
    node, faults = read(text)
    assert told(faults) == ""
    assert isinstance(node, Mapping)
    return node


def plain(node: Node | None) -> Any:
    """The node as Python's own texts, dicts and lists."""
    if isinstance(node, Mapping):
        return {entry.key.value: plain(entry.value) for entry in node}
    if isinstance(node, Sequence):
        return [plain(item) for item in node]
    return node.value if node is not None else None


def texts(node: Node | None) -> list[Text]:
    if isinstance(node, Mapping):
        return [t for e in node for t in (e.key, *texts(e.value))]
    if isinstance(node, Sequence):
        return [t for item in node for t in texts(item)]
    return [node] if node is not None else []
