"""Page records: for each post and page what it read, and what was made of it. All stand in one file of the store.

The first line of ``.chalkfold/pages.json`` is a hash of the rest; a file that says anything else is as good as none.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from chalkfold.diagnostics import Source, Span
from chalkfold.reading import Text
from chalkfold.site.pages import Draft, Page, Tag
from chalkfold.site.store import Store

FILE = "pages.json"
VERSION = 1

Told = tuple[str, int, int]
"""Where a link leads, as written, and where it stands."""
Stat = tuple[int, int, int, int]
"""Of a file: inode, bytes, and the two times of its last change."""


@dataclass(frozen=True)
class Beside:
    """What goes with a post: ``view`` for the template, drawings for the feed, and files by address and kept name.

    ``cover`` is a hash of the drawing that the cover was made from, if it was made from one.
    """

    stamp: str
    view: dict[str, Any]
    drawings: tuple[tuple[str, str], ...] = ()
    files: tuple[tuple[str, str], ...] = ()
    cover: str = ""


@dataclass(frozen=True)
class Record:
    """One page as it was made: it can be used again while all it read is the same.

    ``text`` is a hash of its source; ``asked`` holds kind, name and digest of every definition that it looked up on
    the shelf; ``found`` where its links led. ``front`` is what its front matter says, ``body`` the name of its body
    in the store.
    """

    text: str
    stamp: str
    asked: tuple[tuple[str, str, str], ...]
    links: tuple[Told, ...]
    pictures: tuple[Told, ...]
    found: dict[str, str]
    front: dict[str, Any] | None
    body: str
    beside: Beside | None = None


@dataclass
class Index:
    """All records by path of the source, and by address the key and state of each file of the last output."""

    records: dict[str, Record] = field(default_factory=dict)
    finished: dict[str, tuple[str, Stat]] = field(default_factory=dict)

    @classmethod
    def load(cls, store: Store) -> Index:
        """What the last build left; nothing where it left nothing that can be trusted."""
        with suppress(OSError, ValueError, TypeError, KeyError, AttributeError):
            data = unsealed(store.read_file(FILE))
            return cls(
                {path: _record(each) for path, each in data["records"].items()},
                {address: (key, tuple(stat)) for address, (key, stat) in data["finished"].items()},
            )
        return cls()

    def save(self, store: Store) -> None:
        """Write the file in one move; a disk that is full only costs time at the next build."""
        data = {
            "records": {path: _data(each) for path, each in sorted(self.records.items())},
            "finished": dict(sorted(self.finished.items())),
        }
        store.write(FILE, sealed(data))
        store.drop_bodies({each.body for each in self.records.values()})


def sealed(data: object) -> bytes:
    """Plain data as a file whose first line is a hash of the rest."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":")).encode("utf-8", "replace")
    return _seal(text).encode() + b"\n" + text


def unsealed(file: bytes) -> Any:
    """What was sealed. Raises ValueError where the file is not as it was written."""
    seal, _, text = file.partition(b"\n")
    if seal.decode() != _seal(text):
        raise ValueError("the seal is broken")
    return json.loads(text)


def _seal(text: bytes) -> str:
    return f"{VERSION} {hashlib.sha256(text).hexdigest()}"


def _data(record: Record) -> dict[str, Any]:
    return {**vars(record), "beside": None if record.beside is None else vars(record.beside)}


def _record(data: dict[str, Any]) -> Record:
    beside = data.pop("beside")
    return Record(**_tuples(data), beside=None if beside is None else Beside(**_tuples(beside)))


def _tuples(data: dict[str, Any]) -> dict[str, Any]:
    return {key: tuple(map(tuple, value)) if isinstance(value, list) else value for key, value in data.items()}


def front_data(page: Page, place: Span) -> dict[str, Any] | None:
    """Front matter as plain data; None where it cannot be told so (a cover whose name is folded or escaped)."""
    cover, patterns = page.cover, page.patterns
    if cover is not None and cover.offsets is not None:
        return None
    return {
        **{name: getattr(page, name) for name in ("kind", "address", "title", "summary", "published", "in_menu")},
        "date": page.date.isoformat() if page.date else "",
        "tags": [(tag.name, tag.address) for tag in page.tags],
        "cover": None if cover is None else (cover.value, cover.where.start, cover.where.end),
        "patterns": None if patterns is None else (patterns.start, patterns.end),
        "place": (place.start, place.end),
    }


def draft_of(source: Source, front: Mapping[str, Any]) -> Draft:
    """The draft that ``front_data`` was made from."""
    data = dict(front)
    start, end = data.pop("place")
    cover, patterns = data.pop("cover"), data.pop("patterns")
    page = Page(
        **{
            **data,
            "date": date.fromisoformat(data["date"]) if data["date"] else None,
            "tags": tuple(Tag(name, address) for name, address in data["tags"]),
            "cover": None if cover is None else Text(cover[0], Span(source, cover[1], cover[2])),
            "patterns": None if patterns is None else Span(source, *patterns),
        }
    )
    return Draft(source, page, Span(source, start, end))
