"""The files of the last output that this build would write again just so: they are linked, not written.

A file counts only while it is the very one that was written: same inode, size and times, which nobody can change
and put back.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from chalkfold.site.again.records import Stat


class Output:
    """The folder of the last build; ``finished`` holds key and state of each file by its address."""

    def __init__(self, out: Path, finished: Mapping[str, tuple[str, Stat]]) -> None:
        self.out = out
        self._finished = finished
        self._taken: set[str] = set()

    def take(self, address: str, key: str) -> bool:
        """Whether the file at ``address`` was made from the same ``key``; then it will be linked."""
        known = self._finished.get(address)
        if known is None or known[0] != key or not is_inside(address) or state(self.out, address) != known[1]:
            return False
        self._taken.add(address)
        return True

    def link(self, new: Path) -> None:
        """Put every file that was taken into ``new``. Raises OSError where the disk says no."""
        for room in {address.rpartition("/")[0] for address in self._taken}:
            (new / room).mkdir(parents=True, exist_ok=True)
        for address in sorted(self._taken):
            old, target = f"{self.out}/{address}", f"{new}/{address}"
            try:
                os.link(old, target)
            except OSError:  # a disk without links
                shutil.copyfile(old, target)


def state(folder: Path, address: str) -> Stat | None:
    """Of a plain file; None where there is none."""
    with suppress(OSError):
        found = os.lstat(f"{folder}/{address}")
        return found.st_ino, found.st_size, found.st_mtime_ns, found.st_ctime_ns
    return None


def is_inside(address: str) -> bool:
    """Whether an address stays below the folder it is put into."""
    return not address.startswith("/") and ".." not in address.split("/")
