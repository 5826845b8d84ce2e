"""Links and pictures written as HTML, which a build leaves as they are: do they lead to a page or photo of the site?"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterator
from html import unescape
from urllib.parse import unquote

from markdown_it.token import Token

from chalkfold.diagnostics import Code, Span
from chalkfold.site.checking.look import Look
from chalkfold.site.links import find, is_local, relative
from chalkfold.site.pages import LOST

_TARGET = re.compile(r"<(?:a|img)\s(?:[^<>]*?\s)?(?:href|src)\s*=\s*(?:\"([^\"<>]*)\"|'([^'<>]*)')", re.IGNORECASE)
PAGES = (".html", ".md")


def check(look: Look) -> None:
    for target, span in _targets(look):
        if not is_local(unescape(target)) or _is_there(unescape(target), look):
            continue
        meant = find(look.source.path, unescape(target), look.ground.links)
        if meant:
            hint = f"in HTML write the way from the finished page: `{relative(meant, look.page.address)}`"
        else:
            hint = "write the way from the finished page to one that is there, such as `../photos/NAME.jpg`"
        look.found.add(Code.MISLEADS_REFERENCE, f"`{target}` leads nowhere on the finished site", span, hint)


def _targets(look: Look) -> Iterator[tuple[str, Span]]:
    for token in look.tokens:
        for part in (token, *(token.children or ())):
            if part.type in ("html_block", "html_inline"):
                for match in _TARGET.finditer(part.content):
                    target = match[1] if match[1] is not None else match[2]
                    yield target, _place(target, match[0], token, look)


def _place(target: str, whole: str, token: Token, look: Look) -> Span:
    """Where it stands; the start of the line where the text was changed on its way, as in a quote."""
    line = look.source.line_starts[(token.map[0] if token.map else 0) + look.skipped]
    at = look.source.text.find(whole, line)
    if at < 0 or not target:
        return Span(look.source, line, line)
    start = at + whole.rindex(target)
    return Span(look.source, start, start + len(target))


def _is_there(target: str, look: Look) -> bool:
    """Pages and photos are known; other files of the finished site, such as the feed, are left alone."""
    path = unquote(target).partition("#")[0].partition("?")[0]
    path = posixpath.normpath(posixpath.join(posixpath.dirname(look.page.address), path))
    if path in look.ground.addresses or path == LOST:
        return True
    return not path.endswith(PAGES) and not _is_photo(path)


def _is_photo(path: str) -> bool:
    return "photos/" in path
