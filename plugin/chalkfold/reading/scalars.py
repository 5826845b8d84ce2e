"""Where each character of a scalar came from, found by reading the scalar's source once more."""

from __future__ import annotations

import re
from collections.abc import Iterator

_FOLD = r"[ ]*\r?\n[ \r\n]*"
_PLAIN = re.compile(rf"(?P<fold>{_FOLD})|(?P<char>.)", re.S)
_SINGLE = re.compile(rf"(?P<fold>{_FOLD})|(?P<char>'')|(?P<plain>.)", re.S)
_DOUBLE = re.compile(
    rf"(?P<fold>{_FOLD})|(?P<join>\\\r?\n[ \r\n]*)"
    r"|(?P<escape>\\(?:x[0-9a-fA-F]{2}|u[0-9a-fA-F]{4}|U[0-9a-fA-F]{8}|.))|(?P<plain>.)",
    re.S,
)
_ESCAPES = {
    "0": "\0",
    "a": "\a",
    "b": "\b",
    "t": "\t",
    "n": "\n",
    "v": "\v",
    "f": "\f",
    "r": "\r",
    "e": "\x1b",
    "N": "\x85",
    "_": "\xa0",
    "L": "\u2028",
    "P": "\u2029",
}


def offsets(text: str, start: int, end: int, style: str, value: str) -> list[int]:
    """For every character of ``value`` the offset in ``text`` it was written at.

    ``style`` is ``'``, ``"``, ``|`` or, for plain text, empty. An escape counts from its backslash, the
    space a folded line end leaves from where the line's text ends. Should the two ever disagree, every
    character is given the start of the scalar: a coarse place, never a wrong one.
    """
    walk = _literal(text, start, end, value) if style == "|" else _flowing(text, start, end, style)
    pairs = list(walk)
    if "".join(char for char, _ in pairs) == value:
        return [at for _, at in pairs]
    return [start] * len(value)


def _flowing(text: str, start: int, end: int, style: str) -> Iterator[tuple[str, int]]:
    pattern = {"'": _SINGLE, '"': _DOUBLE}.get(style, _PLAIN)
    inner = (start + 1, end - 1) if style else (start, end)
    for match in pattern.finditer(text, *inner):
        written, at = match.group(), match.start()
        if match.lastgroup in ("fold", "join"):
            ends = [at + i for i, char in enumerate(written) if char == "\n"]
            yield from (("\n", each) for each in ends[1:])
            if match.lastgroup == "fold" and len(ends) == 1:
                yield " ", at
        elif match.lastgroup == "escape":
            yield _unescaped(written[1:]), at
        else:
            yield written[0], at


def _unescaped(code: str) -> str:
    return chr(int(code[1:], 16)) if len(code) > 1 else _ESCAPES.get(code, code)


def _literal(text: str, start: int, end: int, value: str) -> Iterator[tuple[str, int]]:
    """A literal block: each line of the value is the tail of a source line below the ``|``."""
    at = text.find("\n", start, end) + 1
    for number, line in enumerate(value.split("\n")):
        if number:
            yield "\n", max(start, min(at - 1, end - 1))
        stop = text.find("\n", at, end)
        stop = end if stop < 0 else stop
        written = text[at:stop].rstrip("\r")
        first = at + len(written) - len(line)
        yield from ((char, first + i) for i, char in enumerate(line))
        at = stop + 1
