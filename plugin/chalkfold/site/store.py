"""What is costly to make is kept from build to build: plain files named by a hash of all that went into them.

They lie in ``.chalkfold/`` in the site's folder, which can be deleted at any time. A name is
``HASH-OF-INPUTS.HASH-OF-CONTENT.ending``; a file whose content has another hash is dropped and made again. Bodies of
pages lie there too, as ``body.HASH-OF-CONTENT.html``; their inputs stand in the page records (``again/records.py``).
"""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Callable, Container, Iterable
from contextlib import suppress
from functools import lru_cache
from pathlib import Path
from threading import get_ident
from time import time

FOLDER = ".chalkfold"
IGNORE = "*\n"
"""The folder is nothing to keep under version control, and says so itself."""

INPUTS, CONTENT = 40, 24
"""Hexadecimal digits of the two hashes in a name."""

BODY = "body"
A_DAY = 86_400
"""Seconds for which a body is left alone that no record names: another build may be at work with it."""

_NAME = re.compile(r"(\w+)\.([0-9a-f]+)\.(\w+)")

ROOMS = ("draw", "paper", "show", "site")
"""What decides, besides the inputs, what a picture looks like."""


class Store:
    """Files by what they are made from. ``made`` counts what had to be made. No fault of the disk stops a build.

    One that is not ``used`` keeps nothing and finds nothing.
    """

    def __init__(self, site: Path, *, used: bool = True) -> None:
        self.folder = site / FOLDER
        self.made = 0
        self._used = used
        self._names: dict[str, str] = {}

    def get(self, inputs: Iterable[str], ending: str, make: Callable[[], bytes]) -> bytes:
        """What ``make`` makes of ``inputs``, from the folder if it was made before."""
        key = hashlib.sha256("\0".join((program(), *inputs)).encode("utf-8", "replace")).hexdigest()[:INPUTS]
        for path in self._candidates(key, ending):
            data = self.read(path.name)
            if data is not None:
                return data
        data = make()
        self.made += 1
        self._keep(key, data, ending)
        return data

    def put(self, data: bytes) -> str:
        """Keep the body of a page and return its name."""
        return self._keep(BODY, data, "html")

    @staticmethod
    def body_name(data: bytes) -> str:
        """The name under which a body is kept."""
        return f"{BODY}.{_content(data)}.html"

    def read(self, name: str) -> bytes | None:
        """What is kept under a name, if it is what it says."""
        told = _NAME.fullmatch(name)
        if told is None or not self._used:
            return None
        path = self.folder / name
        with suppress(OSError):
            data = path.read_bytes()
            if _content(data) == told[2]:
                self._names[told[2]] = name
                return data
        _drop(path)
        return None

    def name_of(self, data: bytes) -> str:
        """The name under which something lies here that was made or found since this store was opened; or empty."""
        return self._names.get(_content(data), "")

    def read_file(self, name: str) -> bytes:
        """A file that has its own seal; nothing where it cannot be read."""
        with suppress(OSError):
            return (self.folder / name).read_bytes() if self._used else b""
        return b""

    def drop_bodies(self, but: Container[str]) -> None:
        """Remove the bodies of pages that nothing leads to any more."""
        with suppress(OSError):
            for entry in os.scandir(self.folder) if self._used else ():
                if entry.name.startswith(f"{BODY}.") and entry.name not in but:
                    with suppress(OSError):
                        if entry.stat().st_mtime < time() - A_DAY:
                            Path(entry.path).unlink()

    def write(self, name: str, data: bytes) -> None:
        """Write a file in one move, so that no other build meets half of it."""
        if not self._used:
            return
        with suppress(OSError):
            self.folder.mkdir(exist_ok=True)
            ignore = self.folder / ".gitignore"
            if not ignore.exists():
                ignore.write_text(IGNORE, encoding="utf-8")
            new = self.folder / f".new-{os.getpid()}-{get_ident()}-{name}"
            try:
                new.write_bytes(data)
                new.replace(self.folder / name)
            finally:
                new.unlink(missing_ok=True)

    def _keep(self, key: str, data: bytes, ending: str) -> str:
        content = _content(data)
        name = self._names[content] = f"{key}.{content}.{ending}"
        self.write(name, data)
        return name

    def _candidates(self, key: str, ending: str) -> list[Path]:
        try:
            return sorted(self.folder.glob(f"{key}.*.{ending}")) if self._used else []
        except OSError:
            return []


def _content(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()[:CONTENT]


def _drop(path: Path) -> None:
    """Remove what does not belong under this name; a folder is left to the writer."""
    with suppress(OSError):
        path.unlink()


@lru_cache(maxsize=1)
def program() -> str:
    """A hash of the part of the program that draws: a new version makes its own files."""
    root = Path(__file__).parents[1]
    whole = hashlib.sha256()
    for file in (file for room in ROOMS for file in sorted((root / room).rglob("*.py"))):
        whole.update(file.read_bytes())
    return whole.hexdigest()
