"""``chalkfold begin``: a whole worked post, held back until it is finished, to be changed into one's own."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path

from slugify import slugify

from chalkfold.diagnostics import Code, near
from chalkfold.site.build import no_site
from chalkfold.site.swap import refused
from chalkfold.trade.settings import SITE_FILE

WORKED_POSTS = Path(__file__).parent / "worked_posts"
USUAL = "circle-skirt"
LONGEST_NAME = 80
"""Letters of a file name; some disks take no more than 143 bytes."""
_DEVICES = frozenset({"con", "prn", "aux", "nul", *(f"{each}{n}" for each in ("com", "lpt") for n in range(1, 10))})
"""Names that Windows keeps for devices; no file can be called so there, whatever its ending."""
HELD_BACK = "published: no  # take this line out when the post is finished, and put its day above\n"
_BOOKS = re.compile(r"^books: \[([^\]]*)\]", re.M)
_UNSEEN = ("Cc", "Cs", "Zl", "Zp")
"""Classes of Unicode that no title holds: controls, halves of characters, ends of lines."""


class NotBegunError(ValueError):
    """What was asked for cannot be begun: a title that no post can have, or a worked post that does not exist."""


@dataclass(frozen=True, slots=True)
class WorkedPost:
    """A post that ships: its name, its text, what it makes and the books it uses."""

    name: str
    text: str
    title: str
    books: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Begun:
    """The post that was written, and the worked post it is like."""

    path: Path
    like: WorkedPost


@cache
def worked_posts() -> tuple[WorkedPost, ...]:
    """All that ship, by name."""
    return tuple(_read(file) for file in sorted(WORKED_POSTS.glob("*.md")))


def _read(file: Path) -> WorkedPost:
    text = file.read_text("utf-8")
    title = text.split("\n", 2)[1].removeprefix("title: ")
    books = _BOOKS.search(text)
    return WorkedPost(file.stem, text, title, tuple(books[1].split(", ")) if books else ())


def worked_post(name: str) -> WorkedPost:
    """The worked post of that name, or else the one that uses the fewest books and the book ``name`` among them.

    Raises NotBegunError.
    """
    by_name = {each.name: each for each in worked_posts()}
    found = by_name.get(slugify(name))
    if found:
        return found
    book = " ".join(name.casefold().replace("-", " ").split())
    using = [each for each in worked_posts() if book in each.books]
    if using:
        return min(using, key=lambda each: len(each.books))
    close = near(name, [*by_name, *(book for each in worked_posts() for book in each.books)])
    meant = f"did you mean `{close}`? " if close else ""
    raise NotBegunError(f"no worked post is called `{name}`; {meant}`chalkfold begin --list` shows all of them")


def begin(title: str, site: Path, today: date, like: str = USUAL) -> Begun:
    """Write a copy of a worked post into ``posts/`` of the site, called ``title`` and held back.

    Raises NotBegunError, RefusedError where there is no site or a post of that name already, OSError when the
    disk says no. Nothing is ever overwritten.
    """
    worked = worked_post(like)
    if not (site / SITE_FILE).is_file():
        raise no_site(site)
    title = _spaced(title)
    if "{=" in title:
        raise NotBegunError("no value is filled in in a title; leave `{= … }` out")
    path = site / "posts" / f"{_name(title, site)}.md"
    _, _, rest = worked.text.split("\n", 2)
    text = f"---\ntitle: {_quoted(title)}\ndate: {today.isoformat()}\n{HELD_BACK}{rest}"
    path.parent.mkdir(exist_ok=True)
    with path.open("x", encoding="utf-8", newline="\n") as file:
        try:
            file.write(text)
            file.flush()
        except OSError:
            with suppress(OSError):
                path.unlink()
            raise
    return Begun(path, worked)


def _spaced(title: str) -> str:
    """The title in one line, each gap in it one space."""
    return " ".join("".join(" " if unicodedata.category(c) in _UNSEEN else c for c in title).split())


def _name(title: str, site: Path) -> str:
    """The name of its file, which the site makes its address of. Raises NotBegunError, RefusedError."""
    name = slugify(title, max_length=LONGEST_NAME, word_boundary=True)
    if not name:
        raise NotBegunError(
            'this title holds neither letter nor figure; write one such as "An apron from a tablecloth"'
        )
    name = f"{name}-post" if name in _DEVICES else name
    for file in sorted((site / "posts").rglob("*.md")):
        if slugify(file.stem) == name:
            hint = "give the new post another title; you can change it in the file"
            raise refused(Code.SITE_OUTPUT, "a post of that name is here already, and stays as it is", file, hint)
    return name


def _quoted(title: str) -> str:
    """The title as front matter takes it, whatever signs it holds."""
    return json.dumps(title, ensure_ascii=False)


def as_lines() -> Iterator[str]:
    """The worked posts for the terminal: the name of each, what it makes and the books it uses."""
    wide = max(len(each.name) for each in worked_posts())
    for each in worked_posts():
        usual = " (the usual one)" if each.name == USUAL else ""
        yield f"{each.name:<{wide}}  {each.title}{usual}"
        yield f"{'':<{wide}}    books: {', '.join(each.books)}"
