"""Links to a place on a page, ``skirt.md#the-waist``, that is not there."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from html import unescape
from urllib.parse import unquote, urlsplit

from chalkfold.diagnostics import Code, near
from chalkfold.site.checking.look import Look
from chalkfold.site.links import Ground, find, is_local

_ID = re.compile(r'\sid="([^"]+)"')
TOP = "top"


def check(looks: Iterable[Look], ground: Ground, html_of: Callable[[Look], str]) -> None:
    """``html_of`` shows a page: only those are shown that such a link leads to."""
    by_path = {look.source.path: look for look in looks}
    by_address = {look.page.address: look for look in by_path.values()}
    ids: dict[str, frozenset[str]] = {}
    for look in by_path.values():
        for target, span in look.worked.scan.links:
            part = _part(target)
            led = _leads_to(look, target, ground, by_path, by_address)
            if not part or led is None or not led.sound:
                continue
            path = led.source.path
            if path not in ids:
                ids[path] = frozenset(unescape(each) for each in _ID.findall(html_of(led)))
            if part not in ids[path] and part != TOP:
                where = "on this page" if led is look else f"on {path}"
                close = near(part, ids[path])
                hint = f"did you mean `#{close}`?" if close else "write the words of the heading, small, with hyphens"
                look.found.add(Code.CHECK_REFERENCE, f"there is no place `#{part}` {where}", span, hint)


def _part(target: str) -> str:
    return unquote(target.partition("#")[2])


def _leads_to(
    look: Look, target: str, ground: Ground, by_path: dict[str, Look], by_address: dict[str, Look]
) -> Look | None:
    if target.startswith("#"):
        return look
    if not is_local(target) or urlsplit(target).query:
        return None
    address = find(look.source.path, target, ground.links)
    return None if address is None else by_address.get(unquote(address.partition("#")[0]))
