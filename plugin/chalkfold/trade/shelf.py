"""The shelf: everything a post may use besides its own text, found by name, the site's own first."""

from __future__ import annotations

from pathlib import Path

from chalkfold.diagnostics import Faults
from chalkfold.formula import key_of
from chalkfold.reading import Mapping
from chalkfold.trade.drawers import Drawer, File, GoodsList, hashed
from chalkfold.trade.records import Book, Chart, Goods
from chalkfold.trade.settings import Settings, read_settings

SHIPPED = Path(__file__).parent
LISTED = "names of every "
"""Before a kind: what is asked of the shelf is what there is of it."""


class Shelf:
    """Charts, books, donors, cloths and notions by name. Read once a build and shared by all its posts.

    ``asked`` gathers what was looked up, kind and name, also what was not found: all that a page can owe to the shelf.
    """

    def __init__(self, settings: Settings | None = None, folder: Path | None = None, shipped: Path = SHIPPED) -> None:
        self.settings = settings or Settings()
        self.folder = folder
        self.asked: set[tuple[str, str]] = set()
        self._charts = Drawer(_files("charts", "sizes", folder, shipped), _chart)
        self._books = Drawer(_files("books", "books", folder, shipped), _book)
        self._donors = Drawer(_files("donors", "donors", folder, shipped), _donor)
        self._lists: dict[str, GoodsList] = {}
        self._shipped = shipped

    @classmethod
    def open(cls, folder: Path, faults: Faults) -> Shelf:
        """Open the shelf of the site in ``folder``; faults of the site file are reported at once."""
        return cls(read_settings(folder, faults), folder)

    def chart(self, name: str, faults: Faults) -> Chart | None:
        self.asked.add(("chart", key_of(name)))
        return self._charts.get(name, faults)

    def book(self, name: str, faults: Faults) -> Book | None:
        self.asked.add(("book", key_of(name)))
        return self._books.get(name, faults)

    def goods(self, kind: str, name: str, faults: Faults) -> Goods | None:
        """A ``donor``, ``fabric`` or ``notion``."""
        self.asked.add((kind, key_of(name)))
        if kind == "donor":
            return self._donors.get(name, faults)
        listed = self._list(kind)
        faults.extend(listed.faults)
        return listed.goods.get(key_of(name))

    def is_whole(self, kind: str) -> bool:
        """False for fabrics or notions whose file could not be read: a name that is missing may stand there."""
        return kind not in ("fabric", "notion") or self._list(kind).whole

    def names(self, kind: str, *, own: bool = False) -> list[str]:
        """The names of all charts, books, donors, fabrics or notions, or of the site's own, for hints."""
        self.asked.add((LISTED + kind, ""))
        return self._names(kind, own)

    def offers(self, kind: str) -> str:
        """For a hint: the site's own by name, and that others ship; ``none yet`` where there is neither."""
        own = self.names(kind, own=True)
        ship = ["those that ship with the tool"] if len(own) < len(self.names(kind)) else []
        return ", ".join(own + ship) or "none yet"

    def digest(self, kind: str, name: str) -> str:
        """A hash of what the shelf answers when it is asked for ``name``, and of what that tells of faults."""
        if kind.startswith(LISTED):
            kind = kind.removeprefix(LISTED)
            return hashed(*self._names(kind, False), "", *self._names(kind, True))
        drawer = self._drawer(kind)
        return self._list(kind).digest(name) if drawer is None else drawer.digest(name)

    def _names(self, kind: str, own: bool) -> list[str]:
        drawer = self._drawer(kind)
        if drawer is not None:
            return drawer.names(own=own)
        return sorted(goods.name for goods in self._list(kind).goods.values() if goods.own or not own)

    def _drawer(self, kind: str) -> Drawer[Chart] | Drawer[Book] | Drawer[Goods] | None:
        match kind:
            case "chart":
                return self._charts
            case "book":
                return self._books
            case "donor":
                return self._donors
        return None

    def _list(self, kind: str) -> GoodsList:
        if kind not in self._lists:
            name = f"{kind}s.yml"
            files = [File(self._shipped / name, f"chalkfold/{name}", None)]
            if self.folder is not None:
                usual, other = self.folder / name, self.folder / f"{kind}s.yaml"
                own = other if other.is_file() and not usual.is_file() else usual
                files.append(File(own, own.name, self.folder))
            self._lists[kind] = GoodsList(kind, files)
        return self._lists[kind]


# What reads a record is loaded with the first of its kind: a build that makes nothing again reads none.


def _chart(name: str, body: Mapping, faults: Faults) -> Chart:
    from chalkfold.trade.charts import read_chart

    return read_chart(name, body, faults)


def _book(name: str, body: Mapping, faults: Faults) -> Book:
    from chalkfold.trade.books import read_book

    return read_book(name, body, faults)


def _donor(name: str, body: Mapping, faults: Faults) -> Goods:
    from chalkfold.trade.goods import read_donor

    return read_donor(name, body, faults)


def _files(shipped_room: str, site_room: str, folder: Path | None, shipped: Path) -> dict[str, File]:
    found: dict[str, File] = {}
    places: list[tuple[Path, str, Path | None]] = [(shipped / shipped_room, f"chalkfold/{shipped_room}", None)]
    if folder is not None:
        places.append((folder / site_room, site_room, folder))
    for room, shown, root in places:
        here: dict[str, File] = {}
        for path in sorted([*room.glob("*.yml"), *room.glob("*.yaml")]) if room.is_dir() else ():
            key, name = key_of(path.stem), f"{shown}/{path.name}"
            here[key] = File(path, name, root, here[key].shown if key in here else "")
        found |= here
    return found
