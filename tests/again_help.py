"""A small site that was built, and what a build makes again once something has changed."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from chalkfold.site.build import build_site
from site_help import APRON_WITH_NUMBERS, build, page, post, told, tree

BOOK = "title: Ease\nnumbers:\n  ease: {is: 4 cm, note: to move in, source: common practice}\n"
USES_BOOK = "```project\nsizes: none\nbooks: [{}]\n```\n\nLeave {{= {} }}."
CLOTHS = "canvas:\n  usable width: 140 cm\ndrill:\n  usable width: 150 cm\n"
FILES = {
    "posts/apron.md": APRON_WITH_NUMBERS,
    "posts/top.md": post("Top", USES_BOOK.format("house ease", "ease"), tags="[jersey]"),
    "posts/bag.md": post("Bag", "```project\nsizes: none\ncut from:\n  main: {fabric: canvas}\n```\n\nText."),
    "pages/about.md": page("About us", "[The top](../posts/top.md)"),
    "books/house ease.yml": BOOK,
    "fabrics.yml": CLOTHS,
}


def made(site: Path) -> list[str]:
    """What a build makes again, once it equals a build from nothing."""
    report = build(site)
    assert told(report.faults) == []
    clean = site.parent / "clean"
    build_site(site, clean, today=date(2026, 6, 1), cached=False)
    assert tree(site / "public") == tree(clean)
    return list(report.made)


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")
