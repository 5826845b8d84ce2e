"""A new folder takes the place of the last good one in one move, or not at all.

Beside the output folder ``public`` stand, while a build runs, ``.public.chalkfold-new`` (the pages being
written) and ``.public.chalkfold-lock``; where the system cannot exchange two folders in one step also
``.public.chalkfold-old``. Whatever a killed build leaves is put right by the next one, under the lock.
"""

from __future__ import annotations

import ctypes
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from filelock import FileLock, Timeout

from chalkfold.diagnostics import Code, Fault, Source, Span
from chalkfold.trade.settings import SITE_FILE

MARKER = ".chalkfold-output"
MARKER_TEXT = "chalkfold wrote this folder; the next build replaces all of it.\n"

# What belongs to the writer; an output folder never lies in one of these.
KEPT = frozenset({"posts", "pages", "sizes", "books", "donors", "photos", "themes", "ledger", ".git", ".chalkfold"})


KEPT_FILES = frozenset({SITE_FILE, "fabrics.yml", "notions.yml"})


class RefusedError(Exception):
    """The output folder cannot be written; ``fault`` says why and what to do."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(fault.message)
        self.fault = fault


@dataclass(frozen=True)
class Change:
    """One build's folder: pages go into ``new``; ``swap_in`` makes them the site."""

    out: Path

    @property
    def new(self) -> Path:
        return _beside(self.out, "new")

    @property
    def old(self) -> Path:
        return _beside(self.out, "old")

    def swap_in(self) -> None:
        """Make ``new`` the site; the last one goes only after that. Raises OSError with the last one kept."""
        if not self.out.exists():
            self.new.rename(self.out)
        elif not exchange(self.new, self.out):
            self.out.rename(self.old)
            try:
                self.new.rename(self.out)
            except OSError:
                self.old.rename(self.out)
                raise
        self.clear()

    def recover(self) -> None:
        """Put back the last site where a build was killed between two renames, and drop half-made pages."""
        if (self.old / MARKER).is_file() and not self.out.exists():
            self.old.rename(self.out)
        self.clear()

    def clear(self) -> None:
        """Remove what is left beside the site; only ever folders of our own."""
        for leftover in (self.new, self.old) if self.out.exists() else (self.new,):
            if is_ours(leftover):
                shutil.rmtree(leftover, ignore_errors=True)


@contextmanager
def changing(site: Path, out: Path) -> Iterator[Change]:
    """Hold the lock on ``out`` and give a fresh folder to write into; leaving without a swap drops it.

    Raises RefusedError when ``out`` is not ours to write or another build holds it, OSError when the disk
    says no.
    """
    shown = out
    site, out = real(site), real(out)
    _guard(site, out, shown)
    out.parent.mkdir(parents=True, exist_ok=True)
    lock = FileLock(_beside(out, "lock"))
    try:
        lock.acquire(timeout=0)
    except Timeout:
        raise refused(
            Code.SITE_BUSY,
            "another build is writing this folder",
            shown,
            "wait until it has ended, then build again",
        ) from None
    change = Change(out)
    try:
        change.recover()
        change.new.mkdir()
        (change.new / MARKER).write_text(MARKER_TEXT, encoding="utf-8", newline="\n")
        yield change
    finally:
        change.recover()
        lock.release()


def is_ours(folder: Path) -> bool:
    """Say whether chalkfold may remove the folder: it carries the marker or holds nothing."""
    if folder.is_symlink() or not folder.is_dir():
        return False
    return (folder / MARKER).is_file() or not any(folder.iterdir())


def exchange(one: Path, other: Path) -> bool:
    """Let two folders change names in one step; False where this system or disk cannot."""
    rename = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None) if os.name == "posix" else None
    if rename is None:
        return False
    here, swap = -100, 2  # AT_FDCWD and RENAME_EXCHANGE of the Linux manual page rename(2)
    done: int = rename(here, os.fsencode(one), here, os.fsencode(other), swap)
    return done == 0


def refused(code: Code, message: str, path: Path, hint: str) -> RefusedError:
    """Make the refusal of a whole file or folder, which has no line to point at."""
    return RefusedError(Fault(code, message, Span(Source(path.as_posix(), ""), 0, 0), hint))


def disk_fault(path: Path, error: OSError) -> Fault:
    """Say what the disk or its permissions refused: "no space left on device", "permission denied" …"""
    why = (error.strerror or str(error) or type(error).__name__).rstrip(".").lower()
    if error.filename and (name := Path(os.fsdecode(error.filename)).name) != path.name:
        why = f"{why}: {name}"
    missing = isinstance(error, FileNotFoundError) and not path.parent.exists()
    way = f"make the folder `{path.parent.as_posix()}` first" if missing else "make room or mend the permissions"
    hint = f"{way}, then try again; what was there before is untouched"
    return refused(Code.SITE_OUTPUT, f"this cannot be written: {why}", path, hint).fault


def real(path: Path) -> Path:
    """The path with symbolic links followed; a circle of links stays as it is."""
    return Path(os.path.realpath(path))


def write_file(out: Path, made: str | bytes, read: Path) -> None:
    """Write what was made from the file ``read`` into the file ``out``, in one move.

    Raises RefusedError where ``out`` is the file it was made from, or one of the writer's own in any site,
    OSError with the old file kept when the disk says no.
    """
    shown, out = out, real(out)
    hint = "name a new file outside the site's own folders, such as --out finished.md"
    if out == real(read) or (out.exists() and out.samefile(read)):
        raise refused(Code.SITE_OUTPUT, "this is the file you write in, and its blocks would be lost", shown, hint)
    if (mine := _writers(out)) is not None:
        raise refused(Code.SITE_OUTPUT, f"this would land among your own files in {mine}/", shown, hint)
    if out.name in KEPT_FILES and (out.parent / SITE_FILE).is_file():
        raise refused(Code.SITE_OUTPUT, f"this is your own {out.name}", shown, hint)
    data = made.encode() if isinstance(made, str) else made
    if out.exists() and not out.is_file():  # a folder, which the disk refuses; a terminal, which takes it
        out.write_bytes(data)
    else:
        _replace(out, data)


def _replace(out: Path, data: bytes) -> None:
    new = _beside(out, "new")
    try:
        new.unlink(missing_ok=True)
        new.write_bytes(data)
        if out.exists():
            shutil.copymode(out, new)
        new.replace(out)
    except OSError as error:
        raise OSError(error.errno, error.strerror) from error  # without the name of a file nobody asked for
    finally:
        with suppress(OSError):
            new.unlink(missing_ok=True)


def _writers(path: Path, *sites: Path) -> str | None:
    """The writer's folder, of one of ``sites`` or any site around, that ``path`` is or lies in."""
    for above in path.parents:
        name = path.relative_to(above).parts[0]
        if name in KEPT and (above in sites or (above / SITE_FILE).is_file()):
            return name
    return None


def _beside(out: Path, what: str) -> Path:
    return out.with_name(f".{out.name}.chalkfold-{what}")


def _guard(site: Path, out: Path, shown: Path) -> None:
    if out == site:
        why = "the pages would replace the site itself"
    elif out in site.parents:
        why = "the site itself lies in this folder, and the pages would replace all of it"
    elif (mine := _writers(out, site)) is not None:
        why = f"the pages would land among your own files in {mine}/"
    elif out.exists() and not out.is_dir():
        why = "this is a file, not a folder"
    elif out.is_dir() and not is_ours(out):
        why = "this folder holds files that chalkfold did not write, and a build replaces a whole folder"
    else:
        return
    raise refused(Code.SITE_OUTPUT, why, shown, "name a new or empty folder, such as --out public")
