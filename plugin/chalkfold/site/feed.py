"""The feed of a site's posts (Atom, RFC 4287): summary and drawings, every address absolute."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from html import escape

from chalkfold.draw.svg import safe
from chalkfold.site.contents import View
from chalkfold.site.ledger.corrections import Notices
from chalkfold.site.pictures import Picture
from chalkfold.trade.settings import Settings

FEED = "feed.xml"
CORRECTION = "Correction"
MOST = 20
"""So many posts, the newest, stand in the feed; common practice, no source."""


def feed(
    settings: Settings,
    posts: Sequence[View],
    pictures: Mapping[str, Sequence[Picture]],
    notices: Mapping[str, Notices],
) -> bytes:
    """The feed of posts, newest first; ``pictures`` and ``notices`` by the address of the post.

    A correction makes a post new again. A feed is as old as its newest post. The site must have an address: a feed
    without absolute addresses is none.
    """
    dated = [post for post in posts if post["iso"]]
    shown = sorted(dated, key=lambda post: _updated(post, notices), reverse=True)[:MOST]
    newest = max((_updated(post, notices) for post in shown), default="1970-01-01")
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
        *(line for post in shown for line in _entry(address, post, pictures, notices)),
        "</feed>",
    ]
    return "\n".join([*lines, ""]).encode()


def _updated(post: View, notices: Mapping[str, Notices]) -> str:
    """The day of a post, or of its latest correction."""
    notice = notices.get(str(post["url"]))
    return max(str(post["iso"]), notice.updated) if notice else str(post["iso"])


def _entry(
    address: str, post: View, pictures: Mapping[str, Sequence[Picture]], notices: Mapping[str, Notices]
) -> Iterator[str]:
    url = str(post["url"])
    link, notice = escape(f"{address}/{url}"), notices.get(url)
    yield "<entry>"
    yield f"<title>{safe(str(post['title']))}</title>"
    yield f"<id>{link}</id>"
    yield f'<link rel="alternate" type="text/html" href="{link}"/>'
    if notice:
        yield f"<published>{_time(str(post['iso']))}</published>"
    yield f"<updated>{_time(_updated(post, notices))}</updated>"
    summary = str(post["summary"])
    if summary:
        yield f"<summary>{safe(summary)}</summary>"
    corrected = f'<p><a href="{link}#corrections">{CORRECTION}</a>: {safe(notice.note)}</p>' if notice else ""
    html = corrected + "".join(_content(address, summary, pictures.get(url, ())))
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
