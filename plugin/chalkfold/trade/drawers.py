"""Where the records of a shelf lie: a drawer of files, one record each, or a list of many records in one file.

Both say for each name a ``digest``: a hash of all that the name gives today, text and place. What a page looked up
is the same as long as its digest is. A file is read once, so digest and record never come from two versions of it.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Generic, TypeVar

from chalkfold.diagnostics import Code, Faults, Source, Span
from chalkfold.formula import key_of
from chalkfold.reading import Mapping
from chalkfold.trade.files import mapping_of, read_inside
from chalkfold.trade.records import Goods

Thing = TypeVar("Thing")
Read = Callable[[str, Mapping, Faults], Thing]

EXAMPLE = "title: …"
NOTHING = ""
"""The digest of a name that leads nowhere."""


@dataclass(frozen=True, slots=True)
class File:
    """A data file; one of the site's own must lie in its folder ``root``. ``twin`` is shown for another of its name."""

    path: Path
    shown: str
    root: Path | None
    twin: str = ""


def hashed(*parts: str) -> str:
    """A hash of several texts, each with its length."""
    whole = hashlib.sha256()
    for part in parts:
        data = part.encode("utf-8", "replace")
        whole.update(b"%d:" % len(data) + data)
    return whole.hexdigest()


def _messages(faults: Faults) -> Iterator[str]:
    for fault in faults:
        yield f"{fault.code} {fault.span.place} {fault.message} {fault.hint}"


def _source(file: File, faults: Faults) -> Source | None:
    if file.path.suffix == ".yaml":
        place = Span(Source(file.shown, ""), 0, 0)
        faults.add(Code.FILE_MISSING, "this file's name ends in .yaml", place, f"call it {file.path.stem}.yml")
        return None
    return read_inside(file.path, file.shown, faults, file.root)


class Drawer(Generic[Thing]):
    """Records of one kind, one a file; each file is read once, and its faults go to every post that uses it."""

    def __init__(self, files: dict[str, File], read: Read[Thing]) -> None:
        self.files = files
        self._read = read
        self._texts: dict[str, tuple[Source | None, Faults]] = {}
        self._done: dict[str, tuple[Thing | None, Faults]] = {}

    def names(self, *, own: bool = False) -> list[str]:
        """Of all records, or of the site's own."""
        return sorted(file.path.stem for file in self.files.values() if file.root is not None or not own)

    def get(self, name: str, faults: Faults) -> Thing | None:
        key = key_of(name)
        if key not in self.files:
            return None
        if key not in self._done:
            self._done[key] = self._open(key)
        thing, own = self._done[key]
        faults.extend(own)
        return thing

    def digest(self, name: str) -> str:
        """A hash of the file that ``name`` leads to; ``NOTHING`` where there is none."""
        key = key_of(name)
        if key not in self.files:
            return NOTHING
        source, faults = self._text(key)
        return hashed(self.files[key].shown, "" if source is None else source.text, *_messages(faults))

    def _text(self, key: str) -> tuple[Source | None, Faults]:
        if key not in self._texts:
            faults, file = Faults(), self.files[key]
            if file.twin:
                first, second = (Span(Source(shown, ""), 0, 0) for shown in (file.twin, file.shown))
                message = f"two files are called `{key_of(file.path.stem)}`, capital letters and spaces aside"
                hint = "give one of the two another name"
                faults.add(Code.FILE_SAME_ADDRESS, message, second, hint, related=(("the other is this one", first),))
            self._texts[key] = _source(file, faults), faults
        return self._texts[key]

    def _open(self, key: str) -> tuple[Thing | None, Faults]:
        source, found = self._text(key)
        faults = Faults()
        faults.extend(found)
        body = None if source is None else mapping_of(source, EXAMPLE, faults)
        return (None if body is None else self._read(self.files[key].path.stem, body, faults)), faults


class GoodsList:
    """Cloths or notions: those of all ``files``, a later one's before an earlier one's of the same name.

    ``whole`` is False where a file could not be read: a name that is missing may stand there.
    """

    def __init__(self, kind: str, files: list[File]) -> None:
        self.goods: dict[str, Goods] = {}
        self.faults = Faults()
        self.whole = True
        self._digests: dict[str, str] = {}
        for file in files:
            if file.path.is_file() or file.path.is_symlink():
                self._add(kind, file)

    def digest(self, name: str) -> str:
        """A hash of the lines that ``name`` leads to; a fault anywhere in the list is told to all who look into it."""
        return hashed(self._digests.get(key_of(name), NOTHING), str(self.whole), *_messages(self.faults))

    def _add(self, kind: str, file: File) -> None:
        from chalkfold.trade.goods import read_goods_file

        source = _source(file, self.faults)
        body = None if source is None else mapping_of(source, EXAMPLE, self.faults)
        if source is None or body is None:
            self.whole = False
            return
        self.goods |= read_goods_file(kind, body, self.faults, own=file.root is not None)
        starts = [entry.key.where.start for entry in body]
        for entry, start, end in zip(body, starts, [*starts[1:], len(source.text)], strict=True):
            self._digests[key_of(entry.key.value)] = hashed(file.shown, source.text[start:end])
