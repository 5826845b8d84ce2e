"""The finder of typed measures on a post of a test: what it tells, as short pairs."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

from chalkfold.diagnostics import Code, Fault, as_text
from chalkfold.site.check import Checked, check_site
from site_help import post, write

TODAY = date(2026, 6, 1)
TYPED = (Code.MISLEADS_TYPED, Code.MISLEADS_NOWHERE)
NOWHERE = "nowhere"
GOODS = {
    "notions.yml": "firm elastic 25 mm:\n  what: elastic\n  width: 25 mm\n",
    "fabrics.yml": "sheeting:\n  usable width: 150 cm\n",
}


def checked(folder: Path, files: dict[str, str]) -> Checked:
    return check_site(write(folder, files), today=TODAY)


def typed_in(folder: Path, body: str, **more: str) -> list[tuple[int, str, str]]:
    """Each measure told for a post with this body: line of the body, as quoted, and its name or ``nowhere``."""
    text = post("Case", body, **more)
    found = checked(folder, {"posts/case.md": text, **GOODS}).found
    others = [as_text(each) for each in found if not each.code.startswith("misleads.") and each.code != Code.SITE_LINK]
    assert others == []
    before = text.index(body)
    skipped = text.count("\n", 0, before)
    return [(_line(each) - skipped, *said_and_traced(each)) for each in found if each.code in TYPED]


def _line(fault: Fault) -> int:
    return fault.span.source.line_and_column(fault.span.start)[0]


def said_and_traced(fault: Fault) -> tuple[str, str]:
    said = re.match(r"`(.*?)` is typed by hand", fault.message)
    assert said, fault.message
    name = re.search(r"\{= (.*?) \}", fault.hint)
    traced = fault.code is Code.MISLEADS_TYPED
    assert bool(name) or not traced, fault.hint
    return said[1], name[1] if traced and name else NOWHERE
