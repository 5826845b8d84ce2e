"""What is costly to make is kept from build to build: plain files named by a hash of all that went into them.

They lie in ``.chalkfold/`` in the site's folder, which can be deleted at any time. A name is
``HASH-OF-INPUTS.HASH-OF-CONTENT.ending``; a file whose content has another hash is dropped and made again.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable, Iterable
from contextlib import suppress
from functools import lru_cache
from pathlib import Path

FOLDER = ".chalkfold"
IGNORE = "*\n"
"""The folder is nothing to keep under version control, and says so itself."""

INPUTS, CONTENT = 40, 24
"""Hexadecimal digits of the two hashes in a name."""

ROOMS = ("amounts", "draw", "geometry", "paper", "raster.py", "show", "site")
"""What decides, besides the inputs, what a picture looks like: code, and the data it reads."""


class Store:
    """Files by what they are made from. ``made`` counts what had to be made. No fault of the disk stops a build."""

    def __init__(self, site: Path) -> None:
        self.folder = site / FOLDER
        self.made = 0

    def get(self, inputs: Iterable[str], ending: str, make: Callable[[], bytes]) -> bytes:
        """What ``make`` makes of ``inputs``, from the folder if it was made before."""
        key = hashlib.sha256("\0".join((program(), *inputs)).encode("utf-8", "replace")).hexdigest()[:INPUTS]
        for path in self._candidates(key, ending):
            with suppress(OSError):
                data = path.read_bytes()
                if path.name == self._name(key, data, ending):
                    return data
            _drop(path)
        data = make()
        self.made += 1
        self._keep(self._name(key, data, ending), data)
        return data

    def _candidates(self, key: str, ending: str) -> list[Path]:
        try:
            return sorted(self.folder.glob(f"{key}.*.{ending}"))
        except OSError:
            return []

    def _name(self, key: str, data: bytes, ending: str) -> str:
        return f"{key}.{hashlib.sha256(data).hexdigest()[:CONTENT]}.{ending}"

    def _keep(self, name: str, data: bytes) -> None:
        """Write a file in one move, so that no other build meets half of it."""
        with suppress(OSError):
            self.folder.mkdir(exist_ok=True)
            ignore = self.folder / ".gitignore"
            if not ignore.exists():
                ignore.write_text(IGNORE, encoding="utf-8")
            new = self.folder / f".new-{os.getpid()}-{name}"
            try:
                new.write_bytes(data)
                new.replace(self.folder / name)
            finally:
                new.unlink(missing_ok=True)


def _drop(path: Path) -> None:
    """Remove what does not belong under this name; a folder is left to the writer."""
    with suppress(OSError):
        path.unlink()


@lru_cache(maxsize=1)
def program() -> str:
    """A hash of the part of the program that draws: a new version makes its own files."""
    return drawn_by(Path(__file__).parents[1])


def drawn_by(root: Path) -> str:
    """The hash for the program whose rooms lie in ``root``."""
    whole = hashlib.sha256()
    for room in ROOMS:
        files = [root / room, *sorted((root / room).rglob("*"))]
        for file in (file for file in files if file.suffix in (".py", ".yml")):
            whole.update(file.read_bytes())
    return whole.hexdigest()
