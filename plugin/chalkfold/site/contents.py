"""What the whole site needs to know once: the posts in order, the tags, the menu, the pictures.

Computed once per build, never per page, so that a page costs the same on a large site.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from chalkfold.amounts import Language
from chalkfold.diagnostics import Faults
from chalkfold.site.links import Ground, cover
from chalkfold.site.pages import FRONT, Draft, Page, files_below

View = dict[str, object]  # what a template is given


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing as PNG: where it lies on the site, and what it shows."""

    address: str
    said: str


@dataclass(frozen=True)
class Contents:
    """The lists of a site, ready for the theme: posts newest first, tags by name."""

    posts: tuple[View, ...]
    tags: tuple[View, ...]
    tagged: dict[str, tuple[View, ...]]  # address of a tag → its posts
    nav: tuple[View, ...]


def is_out(page: Page, today: date) -> bool:
    """Say whether a page is published: not held back, and not dated after ``today``."""
    return page.published and (page.date is None or page.date <= today)


def survey(shown: Sequence[Draft], held_back: Iterable[Draft], photos: frozenset[str]) -> Ground:
    """Everything a link may lead to."""
    pages = [(draft.source.path, draft.page) for draft in shown if draft.page]
    tags = {tag.address for _, page in pages for tag in page.tags}
    return Ground(
        pages={path: page.address for path, page in pages},
        lists=frozenset({FRONT, *tags}),
        photos=photos,
        waiting=frozenset(draft.source.path for draft in held_back),
        faulty=frozenset(draft.source.path for draft in shown if draft.page is None),
    )


def find_photos(site: Path, faults: Faults) -> frozenset[str]:
    """The paths of all files in ``photos/``, from the site's folder."""
    return frozenset(shown for _, shown in files_below(site, "photos", "*", faults))


def list_contents(shown: Sequence[Draft], ground: Ground, language: Language, today: date, faults: Faults) -> Contents:
    """Put the posts in order, newest first, and gather the tags and the menu."""
    pages = [(draft.source.path, draft.page) for draft in shown if draft.page]
    posts = [(path, page) for path, page in pages if page.kind == "post"]
    posts.sort(key=lambda each: (each[1].date or date.min, each[0]), reverse=True)
    names: dict[str, str] = {}
    tagged: dict[str, list[View]] = {}
    cards = []
    for path, page in posts:
        card = post_card(page, cover(path, page.cover, ground, faults), language, today)
        cards.append(card)
        for tag in page.tags:
            names.setdefault(tag.address, tag.name)
            tagged.setdefault(tag.address, []).append(card)
    by_name = sorted(names.items(), key=lambda each: (each[1].casefold(), each[0]))
    return Contents(
        posts=tuple(cards),
        tags=tuple({"name": name, "url": address} for address, name in by_name),
        tagged={address: tuple(tagged[address]) for address, _ in by_name},
        nav=tuple(
            {"title": page.title, "url": page.address} for _, page in pages if page.in_menu and page.address != FRONT
        ),
    )


def post_card(page: Page, picture: str, language: Language, today: date) -> View:
    """A post as the lists show it."""
    return {
        "title": page.title,
        "url": page.address,
        "summary": page.summary,
        "date": language.date(page.date) if page.date else "",
        "iso": page.date.isoformat() if page.date else "",
        "cover": picture,
        "unpublished": not is_out(page, today),
    }
