"""One way to read a data file of a site: text, then a mapping, or a fault."""

from __future__ import annotations

from pathlib import Path

from chalkfold.diagnostics import Code, Faults, Source, Span
from chalkfold.reading import Excerpt, Mapping, leads_out, load, read_text


def read_mapping(
    path: Path, shown: str, example: str, faults: Faults, root: Path | None = None
) -> tuple[Source, Mapping] | None:
    """Read a file whose body is a mapping; ``example`` is a line that such a file could hold.

    With ``root``, a link that leads out of that folder is a fault, and what it leads to is never read.
    """
    source = read_inside(path, shown, faults, root)
    body = None if source is None else mapping_of(source, example, faults)
    return None if source is None or body is None else (source, body)


def read_inside(path: Path, shown: str, faults: Faults, root: Path | None) -> Source | None:
    """Read a file's text, unless it is a link that leads out of the folder ``root``."""
    if root is not None and leads_out(root, path, shown, faults):
        return None
    return read_text(path, shown, faults)


def mapping_of(source: Source, example: str, faults: Faults) -> Mapping | None:
    """The mapping that a file's text holds; ``example`` is a line that it could hold."""
    own = Faults()
    body = load(Excerpt.whole(source), own)
    faults.extend(own)
    if isinstance(body, Mapping):
        return body
    if not len(own):
        found = "is empty" if body is None else "holds no keys"
        place = Span(source, 0, 0) if body is None else body.where
        faults.add(Code.DATA_SHAPE, f"this file {found}", place, f"write one key a line, as in `{example}`")
    return None
