"""Front matter: the mapping between two ``---`` lines at the very start of a Markdown file."""

from __future__ import annotations

import re

from chalkfold.diagnostics import Code, Faults, Source, Span
from chalkfold.reading.nodes import Excerpt, Mapping
from chalkfold.reading.yaml_text import load

_OPENING = re.compile(r"\ufeff?---[ \t]*\r?\n")
_CLOSING = re.compile(r"^---[ \t]*\r?(?:\n|\Z)", re.M)


def split_front_matter(source: Source, faults: Faults) -> tuple[Mapping | None, int]:
    """Return the front matter and the offset at which the body begins.

    The mapping is None where a file has no front matter or a faulty one; an empty one is an empty mapping.
    Its keys are the host's, so none is refused here. Where the closing line is missing, the body is taken
    to begin at the start of the file.
    """
    opening = _OPENING.match(source.text)
    if not opening:
        return None, 1 if source.text.startswith("\ufeff") else 0
    closing = _CLOSING.search(source.text, opening.end())
    if not closing:
        start = opening.end() - len(opening.group().lstrip("\ufeff"))
        hint = "write a line of three hyphens, `---`, below the last key"
        message = "front matter is opened and never closed"
        faults.add(Code.FILE_FRONT_MATTER, message, Span(source, start, start + 3), hint)
        return None, 0
    return _mapping(Excerpt.whole(source, opening.end(), closing.start()), faults), closing.end()


def _mapping(excerpt: Excerpt, faults: Faults) -> Mapping | None:
    found = Faults()
    node = load(excerpt, found)
    faults.extend(found)
    if isinstance(node, Mapping) or len(found):
        return node if isinstance(node, Mapping) else None
    if node is None:
        return Mapping((), excerpt.span(0, 0))
    hint = "write `key: value`, one to a line, as in `title: Apron from a tablecloth`"
    faults.add(Code.FILE_FRONT_MATTER, "front matter without keys", node.where, hint)
    return None
