"""Text files of a site, read with care: UTF-8, of a bounded size, inside the site."""

from __future__ import annotations

import errno
import re
import stat
from dataclasses import dataclass
from pathlib import Path

from chalkfold.diagnostics import Code, Faults, Source, Span

LARGEST = 2_000_000
"""Bytes a text file may have."""

_CIRCLE = ("this is a link that leads back to itself", "take the link away and put the file itself there")
_SAVE = "save the file as UTF-8"
_FIRST, *_REST = (re.compile(each, re.M) for each in (r"^<{7} .*$", r"^={7}$", r"^>{7} "))
"""The lines between which version control leaves two versions of some others."""
_OTHER = {b"\xff\xfe": "UTF-16", b"\xfe\xff": "UTF-16"}


def read_text(path: Path, shown: str, faults: Faults) -> Source | None:
    """Read a file as UTF-8; ``shown`` is the name faults print.

    A byte order mark is dropped and every line ending becomes a line feed, so a file gives the same places
    and the same page whichever system wrote it. Returns None after a fault: no such file, not a plain
    file, larger than ``LARGEST`` bytes, not UTF-8, or two versions in one.
    """
    refused = _Refused(shown, faults)
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            refused(Code.FILE_MISSING, "not a file", "name a file, not a folder")
            return None
        with path.open("rb") as file:
            data = file.read(LARGEST + 1)
    except FileNotFoundError:
        refused(Code.FILE_MISSING, "no such file", "check the name and the folder")
        return None
    except (OSError, ValueError) as error:
        if getattr(error, "errno", None) == errno.ELOOP:
            refused(Code.FILE_MISSING, *_CIRCLE)
            return None
        hint = "check that the file may be read and is not open elsewhere"
        refused(Code.FILE_MISSING, "the file cannot be read", hint)
        return None
    if len(data) > LARGEST:
        message = f"a file of more than {LARGEST // 1_000_000} MB"
        refused(Code.FILE_TOO_LONG, message, "split it, or check that it is a text")
        return None
    return _decoded(data, shown, faults)


@dataclass(frozen=True)
class _Refused:
    """Reports a fault of a file as a whole, at its first character."""

    shown: str
    faults: Faults

    def __call__(self, code: Code, message: str, hint: str) -> None:
        self.faults.add(code, message, Span(Source(self.shown, ""), 0, 0), hint)


def _decoded(data: bytes, shown: str, faults: Faults) -> Source | None:
    other = _OTHER.get(data[:2])
    if other:
        _Refused(shown, faults)(Code.FILE_NOT_TEXT, f"the file is saved as {other}", _SAVE)
        return None
    data = data.removeprefix(b"\xef\xbb\xbf")
    bad = data.find(b"\0")
    try:
        if bad < 0:
            return _settled(Source(shown, _lines(data.decode("utf-8"))), faults)
    except UnicodeDecodeError as error:
        bad = error.start
    start = len(_lines(data[:bad].decode("utf-8", "replace")))
    text = _lines(data.decode("utf-8", "replace"))
    message = f"a byte that is not UTF-8 text (hex {data[bad]:02X})"
    hint = f"{_SAVE}; a picture or other file does not belong here"
    faults.add(Code.FILE_NOT_TEXT, message, Span(Source(shown, text), start, start + 1), hint)
    return None


def _settled(source: Source, faults: Faults) -> Source | None:
    found = after = _FIRST.search(source.text)
    for line in _REST:
        after = after and line.search(source.text, after.end())
    if found is None or after is None:
        return source
    hint = "keep the lines of one of the two, and take out those that begin with `<<<<<<<`, `=======` and `>>>>>>>`"
    message = "from here on two versions of the file stand in it, as version control left them"
    faults.add(Code.FILE_TWO_VERSIONS, message, Span(source, *found.span()), hint)
    return None


def _lines(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")


def with_line_feeds(source: Source) -> Source:
    """The source as a file would be read: every line ends in a line feed, as a Markdown parser counts them."""
    return Source(source.path, _lines(source.text)) if "\r" in source.text else source


def inside(root: Path, path: Path) -> bool:
    """Say whether ``path`` lies in the folder ``root`` once ``..`` and symbolic links are followed."""
    try:
        return path.resolve().is_relative_to(root.resolve())
    except (OSError, RuntimeError, ValueError):  # a circle of links, a NUL in the name
        return False


def leads_out(root: Path, path: Path, shown: str, faults: Faults) -> bool:
    """Say whether ``path`` is, or lies behind, a link out of the folder ``root`` or in a circle; then a fault."""
    refused = _Refused(shown, faults)
    if _in_a_circle(path):
        refused(Code.FILE_MISSING, *_CIRCLE)
        return True
    if not inside(root, path):
        this = "this is" if path.is_symlink() else "this lies behind"
        hint = "put the files themselves into the site's folder"
        refused(Code.FILE_OUTSIDE, f"{this} a link that leads out of the site", hint)
        return True
    return False


def _in_a_circle(path: Path) -> bool:
    try:
        path.stat()
    except OSError as error:
        return error.errno == errno.ELOOP
    return False
