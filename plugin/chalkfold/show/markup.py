"""The small change of markup: escaping, attributes, wrapping."""

from __future__ import annotations

import re
from functools import lru_cache
from html import escape as _escape

_ODD = re.compile(r"[ \t]*[\x00-\x08\x0a-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]\s*")


@lru_cache(maxsize=2**12)
def escape(text: str) -> str:
    """Text for an element or an attribute, on one line: a host may read what we print as Markdown."""
    return _escape(_ODD.sub(" ", text))


def attributes(**given: str) -> str:
    """Attributes with a space before each; empty ones are left out, ``_`` stands for ``-``."""
    return "".join(f' {name.rstrip("_").replace("_", "-")}="{escape(value)}"' for name, value in given.items() if value)


def element(tag: str, inner: str, **given: str) -> str:
    """An element round markup; nothing where there is nothing inside."""
    return f"<{tag}{attributes(**given)}>{inner}</{tag}>" if inner else ""


def lines(*parts: str) -> str:
    """The parts that are there, each on its own line."""
    return "\n".join(part for part in parts if part)
