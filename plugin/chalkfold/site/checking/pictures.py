"""Pictures without a text, and links whose target is defined nowhere."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from markdown_it.token import Token

from chalkfold.diagnostics import Code, Span
from chalkfold.site.checking.look import Look

_BARE_IMAGE = re.compile(r"<img\b(?![^<>]*\salt\s*=)[^<>]*+>", re.IGNORECASE)
_REFERENCE = re.compile(r"\[([^\[\]\n]{1,200})\]\[([^\[\]\n]{0,200})\]")
HINT = "say in a few words what the reader would see: `![A skirt, seen from the back](…)`"


def check(look: Look) -> None:
    images = (image for token in look.tokens for image in _images(token.children or ()))
    for image, (_, span) in zip(images, look.worked.scan.pictures, strict=False):
        if not (image.content or "").strip():
            _add(look, span, HINT)
    for token in look.tokens:
        for part in (token, *(token.children or ())):
            if part.type in ("html_block", "html_inline"):
                _html(part.content, token, look)
    _references(look)


def _images(tokens: Sequence[Token]) -> Iterator[Token]:
    """In the order in which the scanner meets them."""
    for token in tokens:
        if token.type == "image":
            yield from _images(token.children or ())
            yield token


def _html(content: str, token: Token, look: Look) -> None:
    first = token.map[0] + look.skipped if token.map else 0
    for match in _BARE_IMAGE.finditer(content):
        at = look.source.text.find(match[0].split("\n")[0], look.source.line_starts[first])
        start = max(at, look.source.line_starts[first])
        _add(look, Span(look.source, start, start + 4), 'write `alt="…"` into it, saying what the reader would see')


def _add(look: Look, span: Span, hint: str) -> None:
    look.found.add(Code.MISLEADS_PICTURE, "this picture has no text", span, hint)


def _references(look: Look) -> None:
    for prose in look.prose:
        for match in _REFERENCE.finditer(prose.text.value):
            span = prose.text.span(*match.span())
            if look.source.text[max(0, span.start - 1)] == "\\":  # it is meant to stand so
                continue
            label = match[2] or match[1]
            hint = f"add a line `[{label}]: other-post.md` below the text, or write `[{match[1]}](other-post.md)`"
            look.found.add(Code.MISLEADS_REFERENCE, f"nothing says where `[{label}]` leads", span, hint)
