"""One post from text to page, to a filled-in copy, or to the explanation of one number."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from markdown_it import MarkdownIt
from markdown_it.token import Token
from mdit_py_plugins.anchors import anchors_plugin
from slugify import slugify

from chalkfold import work
from chalkfold.diagnostics import Code, Faults, Source, Span, near
from chalkfold.formula import Name, key_of
from chalkfold.guide import Guide
from chalkfold.markdown import BLOCK, Manner, add_renderers, weave
from chalkfold.plan import Found, Shown, Values
from chalkfold.plan import Manner as Printed
from chalkfold.plan import explain as explain_value
from chalkfold.reading import Mapping, Node, Text, split_front_matter, with_line_feeds
from chalkfold.reading import Sequence as Items
from chalkfold.show import Shower
from chalkfold.trade import Shelf


@dataclass
class Built:
    """A post as a page's body. ``html`` is complete only where there are no faults; ``worked`` is what it shows."""

    front: Mapping | None
    html: str
    faults: Faults
    pictures: tuple[tuple[str, Span], ...]
    links: tuple[tuple[str, Span], ...]
    worked: work.Worked


@lru_cache(maxsize=1)
def parser() -> MarkdownIt:
    """The parser of our own pages: CommonMark with tables, struck-out text and anchors at headings."""
    md = MarkdownIt("commonmark", {"html": True}).enable(["table", "strikethrough"])
    anchors_plugin(md, max_level=3, slug_func=slugify)
    add_renderers(md)
    return md


def build_post(
    source: Source,
    shelf: Shelf,
    *,
    reader_chooses: bool = True,
    prefix: str = "",
    depth: int = 0,
    despite: bool = False,
) -> Built:
    """Build one post. Never raises for what a writer typed; every fault is in the result.

    ``depth`` counts the examples of a guide that this one is inside of. With ``despite``, what can be shown in spite of
    faults is, and before each part of the text a comment tells its line, so that faults can be put there.
    """
    faults = Faults()
    source = with_line_feeds(source)
    front, start = split_front_matter(source, faults)
    _no_values(front, faults)
    skipped = source.text.count("\n", 0, start)
    tokens = parser().parse(source.text[start:])

    def sample(inner: Source, name: str) -> Built:
        return build_post(inner, shelf, reader_chooses=False, prefix=name, depth=depth + 1)

    _below_the_title(tokens)
    guide = Guide(shelf, faults, sample, depth)
    manner = Manner(reader_chooses, prefix, sums=reader_chooses, despite=despite)
    worked = weave(tokens, source, skipped, shelf, manner, faults, guide.show)
    if despite:
        tokens = list(_with_lines(tokens, skipped))
    html: str = parser().renderer.render(tokens, parser().options, {})
    found = worked.scan
    return Built(front, html, faults, tuple(found.pictures), tuple(found.links), worked)


LINE = "<!--line {}-->\n"
"""Stands before a part of a text that is shown despite its faults: the line it begins at."""


def _with_lines(tokens: list[Token], skipped: int) -> Iterator[Token]:
    for token in tokens:
        if token.level == 0 and token.nesting >= 0 and token.map:
            yield Token(BLOCK, "", 0, content=LINE.format(skipped + token.map[0] + 1))
        yield token


@dataclass
class Looked:
    """A post worked out with all faults that building it would tell, and not shown: ``html`` stays empty.

    ``tokens`` stand below ``skipped`` lines of front matter, as the parser left them.
    """

    source: Source
    tokens: list[Token]
    skipped: int
    faults: Faults
    worked: work.Worked
    html: str = ""


def look_at(source: Source, shelf: Shelf, depth: int = 0) -> Looked:
    """Read and work a post out like ``build_post``, its examples too, without drawing or writing anything."""
    faults = Faults()
    source = with_line_feeds(source)
    front, start = split_front_matter(source, faults)
    _no_values(front, faults)
    skipped = source.text.count("\n", 0, start)
    tokens = parser().parse(source.text[start:])
    found = work.read(tokens, source, skipped, faults)
    worked = work.work(found, shelf, faults)
    guide = Guide(shelf, faults, lambda inner, _: look_at(inner, shelf, depth + 1), depth, shows_list=False)
    for fence in worked.examples:
        guide.show(fence, "")
    return Looked(source, tokens, skipped, faults, worked)


def _below_the_title(tokens: list[Token]) -> None:
    """The title of our pages is their only heading of the first level: headings of a post with one go down by one."""
    headings = [token for token in tokens if token.type in ("heading_open", "heading_close")]
    if any(token.tag == "h1" for token in headings):
        for token in headings:
            token.tag = f"h{min(int(token.tag[1:]) + 1, 6)}"


def _no_values(node: Node | None, faults: Faults) -> None:
    """Front matter belongs to the host; a value in it would reach the page as it stands."""
    for text in _texts(node):
        at = text.value.find("{= ")
        if at >= 0:
            faults.add(
                Code.VALUE_LEFT,
                "a value cannot be filled in inside front matter",
                text.span(at, at + 2),
                "move it into the text, where `{= … }` is filled in",
            )


def _texts(node: Node | None) -> Iterator[Text]:
    match node:
        case Text():
            yield node
        case Mapping():
            for entry in node:
                yield from _texts(entry.value)
        case Items():
            for item in node:
                yield from _texts(item)


def work_post(source: Source, shelf: Shelf, faults: Faults, also: Iterable[Name] = ()) -> work.Worked:
    """Work a post out without a page, and with it the numbers named in ``also``."""
    source = with_line_feeds(source)
    _, start = split_front_matter(source, faults)
    tokens = parser().parse(source.text[start:])
    found = work.read(tokens, source, source.text.count("\n", 0, start), faults)
    return work.work(found, shelf, faults, also)


def convert(source: Source, shelf: Shelf) -> tuple[str, Faults]:
    """Return the Markdown with its blocks and values filled in, for any other generator.

    Blocks become HTML without blank or indented lines, values plain text in both units; sizes are shown by tables.
    """
    faults = Faults()
    source = with_line_feeds(source)
    worked = work_post(source, shelf, faults)
    if len(faults):
        return "", faults
    parts, at = [], 0
    for start, end, text in placed(worked, shelf):
        parts += [source.text[at:start], text]
        at = end
    return "".join([*parts, source.text[at:]]), faults


def placed(worked: work.Worked, shelf: Shelf) -> list[tuple[int, int, str]]:
    """What stands where: start and end in the source, and the text that takes its place, in order.

    A host that keeps its own parser splices these in; nothing overlaps.
    """
    write = Shower(worked.values, shelf.settings.printer, reader_chooses=False)
    sample = worked.values.sizes.sample
    places = [(fence.span, _indented(write.view(view, fence.heading + 1), fence.span)) for fence, view in worked.views]
    places += [(value.span, write.plain((shown,), sample)) for value, shown in worked.shown]
    return sorted((span.start, span.end, text) for span, text in places)


def _indented(html: str, span: Span) -> str:
    """Markup that takes the place of a fence: every line gets the list indent or quote mark of the first."""
    line, column = span.source.line_and_column(span.start)
    lead = span.source.line(line)[: column - 1]
    continued = "".join(char if char in "> \t" else " " for char in lead)
    return f"\n{continued}".join(html.splitlines())


class NoSuchNumber(Exception):
    """The post has no number of that name; ``hint`` names the nearest."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.hint = hint


def explain(source: Source, shelf: Shelf, name: str, size: str | None = None) -> list[str]:
    """Return the lines that say how a number was found, in one size or the sample size.

    Raises NoSuchNumber for a name or size that the post does not have, and FaultsFound never: a post with
    faults explains what can be worked out.
    """
    worked = work_post(source, shelf, Faults(), [Name(name)])
    values = worked.values
    key, index = key_of(name), _size(values, size)
    if key not in values.steps:
        likely = near(name, [step.name for step in values.steps.values() if not step.name.startswith("=")])
        raise NoSuchNumber(
            f"the post has no number called `{name}`",
            f"did you mean `{likely}`?" if likely else "look for its name in the post",
        )
    write = Shower(values, shelf.settings.printer, reader_chooses=False)
    fine = Printed()

    def print_value(step: str, i: int) -> str:
        return write.plain((Shown(step, fine if step not in values.steps else None),), i)

    return [line for found in explain_value(values, key, index, print_value) for line in _lines(found)]


def _size(values: Values, size: str | None) -> int:
    if size is None:
        return values.sizes.sample
    keys = [key_of(label) for label in values.sizes.labels]
    if key_of(size) not in keys:
        raise NoSuchNumber(f"the post has no size `{size}`", f"its sizes are {', '.join(values.sizes.labels)}")
    return keys.index(key_of(size))


def _lines(found: Found) -> Iterator[str]:
    yield f"{found.name} = {found.result}"
    if found.formula != found.result:
        yield f"  {found.formula}"
    if found.put_in:
        yield f"  = {found.put_in}"
    where = [found.origin, *(f"source: {found.source}" for _ in range(bool(found.source)))]
    yield f"  from {'; '.join(where)}"
    if found.note:
        yield f"  {found.note}"
