"""The feed of a site's posts (Atom, RFC 4287): summary and drawings, every address absolute."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from html import escape

from chalkfold.draw.svg import safe
from chalkfold.site.contents import View
from chalkfold.site.pictures import Picture
from chalkfold.trade.settings import Settings

FEED = "feed.xml"
MOST = 20
"""So many posts, the newest, stand in the feed; common practice, no source."""


def feed(settings: Settings, posts: Sequence[View], pictures: Mapping[str, Sequence[Picture]]) -> bytes:
    """The feed of posts, newest first; ``pictures`` by the address of the post. A feed is as old as its newest post.

    The site must have an address: a feed without absolute addresses is none.
    """
    shown = [post for post in posts if post["iso"]][:MOST]
    newest = max((str(post["iso"]) for post in shown), default="1970-01-01")
    address = settings.address
    lines = [
        '<?xml version="1.0" encoding="utf-8"?>',
        f'<feed xmlns="http://www.w3.org/2005/Atom" xml:lang="{escape(settings.language.tag)}">',
        f"<title>{safe(settings.title)}</title>",
        f"<id>{escape(address)}/</id>",
        f'<link rel="self" type="application/atom+xml" href="{escape(address)}/{FEED}"/>',
        f'<link rel="alternate" type="text/html" href="{escape(address)}/"/>',
        f"<updated>{_time(newest)}</updated>",
        f"<author><name>{safe(settings.title)}</name></author>",
        *(line for post in shown for line in _entry(address, post, pictures.get(str(post["url"]), ()))),
        "</feed>",
    ]
    return "\n".join([*lines, ""]).encode()


def _entry(address: str, post: View, pictures: Sequence[Picture]) -> Iterator[str]:
    link = escape(f"{address}/{post['url']}")
    yield "<entry>"
    yield f"<title>{safe(str(post['title']))}</title>"
    yield f"<id>{link}</id>"
    yield f'<link rel="alternate" type="text/html" href="{link}"/>'
    yield f"<updated>{_time(str(post['iso']))}</updated>"
    summary = str(post["summary"])
    if summary:
        yield f"<summary>{safe(summary)}</summary>"
    html = "".join(_content(address, summary, pictures))
    if html:
        yield f'<content type="html">{escape(html)}</content>'
    yield "</entry>"


def _content(address: str, summary: str, pictures: Sequence[Picture]) -> Iterator[str]:
    if summary:
        yield f"<p>{safe(summary)}</p>"
    for picture in pictures:
        said = safe(picture.said)
        image = f'<img src="{escape(address)}/{escape(picture.address)}" alt="{said}">'
        yield f"<figure>{image}<figcaption>{said}</figcaption></figure>"


def _time(day: str) -> str:
    return f"{day}T00:00:00Z"
