"""The posts and pages of a site: which files, what their front matter says, and each address."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from slugify import slugify

from chalkfold.diagnostics import Code, Faults, Source, Span
from chalkfold.reading import Fields, Text, leads_out, read_text, split_front_matter

KINDS = {"posts": "post", "pages": "page"}  # folder → template
FRONT = "index.html"
LOST = "404.html"
FEED = "feed.xml"


@dataclass(frozen=True, slots=True)
class Tag:
    name: str
    address: str


@dataclass(frozen=True, slots=True)
class Page:
    """What front matter says of a post or page; ``address`` is its path within the finished site."""

    kind: str
    address: str
    title: str
    date: date | None
    tags: tuple[Tag, ...]
    summary: str
    cover: Text | None
    published: bool
    in_menu: bool = False
    patterns: Span | None = None  # where the post asks for its pattern as files to download


@dataclass(frozen=True, slots=True)
class Draft:
    """A Markdown file of the site; ``page`` is None where its front matter has a fault."""

    source: Source
    page: Page | None
    place: Span  # what gives the page its address


def _unknown(_: Source) -> Draft | None:
    return None


def find_drafts(site: Path, faults: Faults, known: Callable[[Source], Draft | None] = _unknown) -> list[Draft]:
    """Read every ``*.md`` below ``posts/`` and ``pages/``, in the order of their paths.

    ``known`` may say what a text is without reading it again.
    """
    return [
        known(source) or read_draft(source, kind, faults)
        for folder, kind in KINDS.items()
        for path, shown in files_below(site, folder, "*.md", faults)
        if (source := read_text(path, shown, faults))
    ]


def files_below(site: Path, folder: str, pattern: str, faults: Faults) -> Iterator[tuple[Path, str]]:
    """The files in a folder of the site and their paths from the site; hidden ones are left out.

    A symbolic link that leads out of the site, or to itself, is a fault, and its file is left out too.
    """
    top = site / folder
    start = len(top.as_posix())
    for path in (top, *sorted(top.rglob(pattern))):
        shown = folder + path.as_posix()[start:]
        if path.is_symlink() and leads_out(site, path, shown, faults):
            if path is top:
                return
        elif path is not top and "/." not in shown and not path.is_dir():
            yield path, shown


def read_draft(source: Source, kind: str, faults: Faults) -> Draft:
    """Read the front matter of a post or page."""
    front, _ = split_front_matter(source, faults)
    top = Span(source, 0, 0)
    if front is None:
        if not source.text.startswith("---"):
            hint = "begin the file with `---`, a line `title: …` and another `---`"
            faults.add(Code.FILE_FRONT_MATTER, "no front matter", top, hint)
        return Draft(source, None, top)
    fields = Fields(front, faults, "front matter")
    title, address = fields.required_text("title"), fields.text("address")
    dated = fields.date("date") if kind == "page" or fields.required("date") else None
    summary, cover = fields.text("summary"), fields.text("cover")
    tags = tuple(_tags(fields.texts("tags"), faults))
    published = fields.yes_no("published", default=True)
    in_menu = kind == "page" and fields.yes_no("menu", default=True)
    patterns = _span_if_yes(fields, "patterns") if kind == "post" else None
    fields.finish(others=True)  # the rest is for another generator that reads the same file
    last = _last_part(source, address, top, faults)
    place = address.span() if address else top
    if title is None or last is None or (kind == "post" and dated is None):
        return Draft(source, None, place)
    full = f"posts/{last}.html" if kind == "post" else f"{last}.html"
    about = summary.value if summary else ""
    return Draft(source, Page(kind, full, title.value, dated, tags, about, cover, published, in_menu, patterns), place)


def check_addresses(drafts: Iterable[Draft], faults: Faults) -> None:
    """Report two pages that want one address, or one that wants the address of the lost-page notice."""
    taken: dict[str, Draft] = {}
    for draft in drafts:
        if draft.page is None:
            continue
        address = draft.page.address
        hint = "give it another line `address: …` in its front matter"
        first = taken.setdefault(address, draft)
        if first is not draft:
            other = (("the other stands here", first.place),)
            message = f"two pages would stand at {address}"
            faults.add(Code.FILE_SAME_ADDRESS, message, draft.place, hint, related=other)
        elif address == LOST:
            message = f"{LOST} is the page for addresses that do not exist, which the theme makes"
            faults.add(Code.FILE_SAME_ADDRESS, message, draft.place, hint)


def _last_part(source: Source, address: Text | None, top: Span, faults: Faults) -> str | None:
    """The address's last part, without ``.html``: as written, or made from the file's name."""
    written = address.value if address else Path(source.path).stem
    last = slugify(written)
    if address and last != written:
        hint = f"write `address: {last or 'half-circle-skirt'}`"
        message = f"`{written}` cannot be an address: small letters, figures and hyphens only"
        faults.add(Code.DATA_SHAPE, message, address.span(), hint)
        return None
    if not last:
        message = "the file's name gives no address, for it holds neither letter nor figure"
        faults.add(Code.DATA_MISSING_KEY, message, top, "write `address: half-circle-skirt`")
        return None
    return last


def _span_if_yes(fields: Fields, key: str) -> Span | None:
    """Where a field says yes."""
    asked = fields.yes_no(key)
    text = fields.text(key) if asked else None
    return text.span() if text else None


def _tags(texts: Iterable[Text], faults: Faults) -> Iterator[Tag]:
    seen: set[str] = set()
    for text in texts:
        last = slugify(text.value)
        if not last:
            message = f"`{text.value}` cannot be a tag, for it holds neither letter nor figure"
            faults.add(Code.DATA_SHAPE, message, text.span(), "write a word, as in `tags: [bedding]`")
        elif last not in seen:
            seen.add(last)
            yield Tag(text.value, f"tags/{last}.html")
