"""Where a link or a picture of a post leads, checked against what the site will hold.

A target is looked for from the post's own folder, then from the site's folder; ``/photos/hem.jpg`` always
means the site's folder. A link to ``other.md`` becomes the address of that page.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from html import escape, unescape
from urllib.parse import quote, unquote, urlsplit

from chalkfold.diagnostics import Code, Faults, Span, near
from chalkfold.reading import Text

_ATTRIBUTE = re.compile(r' (href|src)="([^"]*)"')


@dataclass(frozen=True)
class Ground:
    """Everything a link on this site can reach, by its path in the writer's folder or its address."""

    pages: dict[str, str]  # posts/half circle.md → posts/half-circle.html
    lists: frozenset[str]  # index.html, tags/bedding.html
    photos: frozenset[str]  # photos/hem.jpg
    waiting: frozenset[str]  # posts that are not published yet
    faulty: frozenset[str]  # posts whose front matter has a fault, so that they have no address yet

    @cached_property
    def links(self) -> dict[str, str]:
        whole = {each: each for each in (*self.pages.values(), *self.lists, *self.photos)}
        return {**whole, **self.pages}

    @cached_property
    def addresses(self) -> frozenset[str]:
        """The pages and photos of the finished site."""
        return frozenset(self.pages.values()) | self.lists | self.photos

    @cached_property
    def pictures(self) -> dict[str, str]:
        return {each: each for each in self.photos}


Target = tuple[str, Span]


def follow(
    page: str, links: Iterable[Target], pictures: Iterable[Target], ground: Ground, faults: Faults
) -> dict[str, str]:
    """Return for each local target, as written in the post at path ``page``, the address it leads to."""
    found: dict[str, str] = {}
    for targets, known, what in ((links, ground.links, "page"), (pictures, ground.pictures, "picture")):
        for target, span in targets:
            if not is_local(target):
                continue
            address = find(page, target, known)
            if address is None:
                _report(page, target, span, known, what, ground, faults)
            else:
                found[unquote(target)] = address
    return found


def is_local(target: str) -> bool:
    """Say whether a target lies on this site and is more than a place on the same page."""
    try:
        parts = urlsplit(target)
    except ValueError:  # such as http://[
        return True
    return not parts.scheme and not parts.netloc and bool(parts.path)


def find(page: str, target: str, known: dict[str, str]) -> str | None:
    """Return the address of ``target`` seen from the post at path ``page``, with its ``#part`` kept."""
    path, mark, part = unquote(target).partition("#")
    for candidate in _candidates(page, path):
        if candidate in known:
            return quote(known[candidate]) + mark + quote(part)
    return None


def cover(page: str, name: Text | None, ground: Ground, faults: Faults) -> str:
    """Return the address of a post's cover: a picture in ``photos/`` by its name, or the way to it."""
    if name is None:
        return ""
    found = find(page, f"/photos/{name.value}", ground.pictures) or find(page, name.value, ground.pictures)
    if found is None:
        _report(page, name.value, name.span(), ground.pictures, "picture", ground, faults)
    return found or ""


def relative(address: str, seen_from: str) -> str:
    """Write ``address`` as seen from the page at ``seen_from``, so that it works in any folder.

    >>> relative("photos/hem.jpg", "posts/skirt.html")
    '../photos/hem.jpg'
    """
    path, mark, part = address.partition("#")
    return posixpath.relpath(path, posixpath.dirname(seen_from) or ".") + mark + part


def rewrite(html: str, found: dict[str, str], seen_from: str) -> str:
    """Point every ``href`` and ``src`` that names a known target at its address."""
    if not found:
        return html

    def pointed(match: re.Match[str]) -> str:
        address = found.get(unquote(unescape(match[2])))
        return match[0] if address is None else f' {match[1]}="{escape(relative(address, seen_from))}"'

    return _ATTRIBUTE.sub(pointed, html)


def _candidates(page: str, path: str) -> list[str]:
    """Paths within the site that ``path`` may mean; none when it leads out of the site."""
    starts = [""] if path.startswith("/") else [posixpath.dirname(page), ""]
    normal = (posixpath.normpath(posixpath.join(start, path.lstrip("/") or ".")) for start in starts)
    inside = (each for each in normal if each != ".." and not each.startswith("../"))
    return ["index.html" if each == "." else each for each in inside]


def _report(
    page: str, target: str, span: Span, known: dict[str, str], what: str, ground: Ground, faults: Faults
) -> None:
    path = unquote(target).partition("#")[0]
    candidates = _candidates(page, path)
    if not candidates:
        hint = f"keep the {what} in the site's folder and write the way from this post to it"
        faults.add(Code.FILE_OUTSIDE, f"{path} leads out of the site's folder", span, hint)
        return
    if not ground.faulty.isdisjoint(candidates):
        return  # one fault, one message: the post reports its own
    if not ground.waiting.isdisjoint(candidates):
        hint = "take the link out until that post is published, or build with --unpublished"
        faults.add(Code.SITE_LINK, f"{path} is not published yet", span, hint)
        return
    close = _near(path, posixpath.dirname(candidates[0]), known)
    if close:
        hint = f"did you mean {posixpath.relpath(close, posixpath.dirname(page) or '.')}?"
    elif what == "picture":
        hint = "put the picture into photos/ and write ../photos/NAME.jpg"
    else:
        hint = "write the way to a post or page that is there, such as other-post.md"
    faults.add(Code.SITE_LINK, f"there is no {what} {path}", span, hint)


def _near(path: str, folder: str, known: Iterable[str]) -> str | None:
    """The known path whose last part is spelled most alike; in ``folder`` before elsewhere."""
    in_folder_last = sorted(known, key=lambda each: (posixpath.dirname(each) == folder, each))
    names = {_name(each): each for each in in_folder_last}
    close = near(_name(path), names)
    return None if close is None else names[close]


def _name(path: str) -> str:
    return posixpath.splitext(posixpath.basename(path))[0]
