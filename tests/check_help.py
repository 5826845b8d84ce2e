"""A small site around the body of one post, and what `chalkfold check` tells of it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from chalkfold.site.check import check_site
from site_help import post, write
from spec_cases import told

TODAY = date(2026, 6, 1)
PICTURE = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><path d="M0 0h10v10z"/></svg>\n'
AROUND = {
    "posts/apron.md": post("Apron", "## The pocket\n\nIt is deep."),
    "photos/skirt.svg": PICTURE,
    "notions.yml": "firm elastic 25 mm:\n  what: elastic\n  width: 25 mm\n",
}


def told_of(folder: Path, body: str, **more: str) -> str:
    """What is told, as in a terminal but without the pictures of the source lines."""
    site = write(folder, {**AROUND, "posts/case.md": post("Case", body, **more)})
    return told(check_site(site, today=TODAY).found)
