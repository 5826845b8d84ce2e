"""Links to a place on a page, ``skirt.md#the-waist``, that is not there."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from html import unescape
from urllib.parse import unquote, urlsplit

from chalkfold.diagnostics import Code, Faults, near
from chalkfold.site.checking.look import Seen
from chalkfold.site.links import Ground, find, is_local

_ID = re.compile(r'\sid="([^"]+)"')
TOP = "top"


def check(pages: Sequence[Seen], ground: Ground, html_of: Callable[[str], str], found: Faults) -> None:
    """``html_of`` shows the page of a path: only those are shown that such a link leads to."""
    by_address = {page.address: page for page in pages}
    ids: dict[str, frozenset[str]] = {}
    for page in pages:
        for target, span in page.links:
            part = unquote(target.partition("#")[2])
            led = _leads_to(page, target, ground, by_address)
            if not part or led is None or not led.sound:
                continue
            if led.path not in ids:
                ids[led.path] = frozenset(unescape(each) for each in _ID.findall(html_of(led.path)))
            if part not in ids[led.path] and part != TOP:
                where = "on this page" if led is page else f"on {led.path}"
                close = near(part, ids[led.path])
                hint = f"did you mean `#{close}`?" if close else "write the words of the heading, small, with hyphens"
                found.add(Code.MISLEADS_REFERENCE, f"there is no place `#{part}` {where}", span, hint)


def _leads_to(page: Seen, target: str, ground: Ground, by_address: Mapping[str, Seen]) -> Seen | None:
    if target.startswith("#"):
        return page
    if not is_local(target) or urlsplit(target).query:
        return None
    address = find(page.path, target, ground.links)
    return None if address is None else by_address.get(unquote(address.partition("#")[0]))
