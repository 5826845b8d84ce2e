"""The shelf: everything a post may use besides its own text, found by name, the site's own first."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Generic, TypeVar

from chalkfold.diagnostics import Code, Faults, Source, Span
from chalkfold.formula import key_of
from chalkfold.reading import Mapping
from chalkfold.trade.books import read_book
from chalkfold.trade.charts import read_chart
from chalkfold.trade.files import read_mapping
from chalkfold.trade.goods import read_donor, read_goods_file
from chalkfold.trade.records import Book, Chart, Goods
from chalkfold.trade.settings import Settings, read_settings

SHIPPED = Path(__file__).parent
Thing = TypeVar("Thing")
Read = Callable[[str, Mapping, str, Faults], Thing]


@dataclass(frozen=True, slots=True)
class _File:
    """A data file; one of the site's own must lie in its folder ``root``. ``twin`` is shown for another of its name."""

    path: Path
    shown: str
    root: Path | None
    twin: str = ""


class _Drawer(Generic[Thing]):
    """Records of one kind, one a file; each file is read once, and its faults go to every post that uses it."""

    def __init__(self, files: dict[str, _File], read: Read[Thing]) -> None:
        self.files = files
        self._read = read
        self._done: dict[str, tuple[Thing | None, Faults]] = {}

    def names(self, *, own: bool = False) -> list[str]:
        """Of all records, or of the site's own."""
        return sorted(file.path.stem for file in self.files.values() if file.root is not None or not own)

    def get(self, name: str, faults: Faults) -> Thing | None:
        key = key_of(name)
        if key not in self.files:
            return None
        if key not in self._done:
            self._done[key] = self._open(self.files[key])
        thing, own = self._done[key]
        faults.extend(own)
        return thing

    def _open(self, file: _File) -> tuple[Thing | None, Faults]:
        faults = Faults()
        if file.twin:
            first, second = (Span(Source(shown, ""), 0, 0) for shown in (file.twin, file.shown))
            message = f"two files are called `{key_of(file.path.stem)}`, capital letters and spaces aside"
            hint = "give one of the two another name"
            faults.add(Code.FILE_SAME_ADDRESS, message, second, hint, related=(("the other is this one", first),))
        found = _mapping(file, faults)
        if found is None:
            return None, faults
        body, digest = found
        return self._read(file.path.stem, body, digest, faults), faults


class Shelf:
    """Charts, books, donors, cloths and notions by name. Read once a build and shared by all its posts."""

    def __init__(self, settings: Settings | None = None, folder: Path | None = None, shipped: Path = SHIPPED) -> None:
        self.settings = settings or Settings()
        self.folder = folder
        self._charts = _Drawer(_files("charts", "sizes", folder, shipped), read_chart)
        self._books = _Drawer(_files("books", "books", folder, shipped), read_book)
        self._donors = _Drawer(_files("donors", "donors", folder, shipped), read_donor)
        self._lists: dict[str, tuple[dict[str, Goods], Faults]] = {}
        self._unread: set[str] = set()
        self._shipped = shipped

    @classmethod
    def open(cls, folder: Path, faults: Faults) -> Shelf:
        """Open the shelf of the site in ``folder``; faults of the site file are reported at once."""
        return cls(read_settings(folder, faults), folder)

    def chart(self, name: str, faults: Faults) -> Chart | None:
        return self._charts.get(name, faults)

    def book(self, name: str, faults: Faults) -> Book | None:
        return self._books.get(name, faults)

    def goods(self, kind: str, name: str, faults: Faults) -> Goods | None:
        """A ``donor``, ``fabric`` or ``notion``."""
        if kind == "donor":
            return self._donors.get(name, faults)
        listed, own = self._list(kind)
        faults.extend(own)
        return listed.get(key_of(name))

    def is_whole(self, kind: str) -> bool:
        """False for fabrics or notions whose file could not be read: a name that is missing may stand there."""
        return kind not in self._unread

    def names(self, kind: str, *, own: bool = False) -> list[str]:
        """The names of all charts, books, donors, fabrics or notions, or of the site's own, for hints."""
        match kind:
            case "chart":
                return self._charts.names(own=own)
            case "book":
                return self._books.names(own=own)
            case "donor":
                return self._donors.names(own=own)
        return sorted(goods.name for goods in self._list(kind)[0].values() if goods.own or not own)

    def offers(self, kind: str) -> str:
        """For a hint: the site's own by name, and that others ship; ``none yet`` where there is neither."""
        own = self.names(kind, own=True)
        ship = ["those that ship with the tool"] if len(own) < len(self.names(kind)) else []
        return ", ".join(own + ship) or "none yet"

    def _list(self, kind: str) -> tuple[dict[str, Goods], Faults]:
        if kind not in self._lists:
            faults = Faults()
            goods: dict[str, Goods] = {}
            name = f"{kind}s.yml"
            files = [_File(self._shipped / name, f"chalkfold/{name}", None)]
            if self.folder is not None:
                usual, other = self.folder / name, self.folder / f"{kind}s.yaml"
                own = other if other.is_file() and not usual.is_file() else usual
                files.append(_File(own, own.name, self.folder))
            for file in files:
                if file.path.is_file() or file.path.is_symlink():
                    found = _mapping(file, faults)
                    if found is None:
                        self._unread.add(kind)
                    else:
                        goods.update(read_goods_file(kind, *found, faults, own=file.root is not None))
            self._lists[kind] = (goods, faults)
        return self._lists[kind]


def _files(shipped_room: str, site_room: str, folder: Path | None, shipped: Path) -> dict[str, _File]:
    found: dict[str, _File] = {}
    places: list[tuple[Path, str, Path | None]] = [(shipped / shipped_room, f"chalkfold/{shipped_room}", None)]
    if folder is not None:
        places.append((folder / site_room, site_room, folder))
    for room, shown, root in places:
        here: dict[str, _File] = {}
        for path in sorted([*room.glob("*.yml"), *room.glob("*.yaml")]) if room.is_dir() else ():
            key, name = key_of(path.stem), f"{shown}/{path.name}"
            here[key] = _File(path, name, root, here[key].shown if key in here else "")
        found |= here
    return found


def _mapping(file: _File, faults: Faults) -> tuple[Mapping, str] | None:
    if file.path.suffix == ".yaml":
        place = Span(Source(file.shown, ""), 0, 0)
        faults.add(Code.FILE_MISSING, "this file's name ends in .yaml", place, f"call it {file.path.stem}.yml")
        return None
    found = read_mapping(file.path, file.shown, "title: …", faults, file.root)
    if found is None:
        return None
    source, body = found
    return body, hashlib.sha256(source.text.encode()).hexdigest()
