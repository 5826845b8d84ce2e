"""The markdown-it-py plugin: finds our blocks among the tokens, and puts what they show in their place."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from markdown_it import MarkdownIt
from markdown_it.renderer import RendererHTML
from markdown_it.rules_core import StateCore
from markdown_it.token import Token
from markdown_it.utils import EnvType, OptionsDict

from chalkfold import work
from chalkfold.blocks.registry import BLOCKS
from chalkfold.diagnostics import Fault, Faults, Source, as_text
from chalkfold.plan import View
from chalkfold.reading import Fence, add_value_rule
from chalkfold.show import Shower, fault_box, is_complete, numbers_of, sums, waiting_box
from chalkfold.trade import Shelf

BLOCK = "chalk_block"
VALUE = "chalk_value"

ShowFence = Callable[[Fence, str], str]
"""Shows a fence that is no block of a post (a sample of the guide), given a prefix for ids."""


class FaultsFound(Exception):
    """Raised by the plugin where nobody collects faults; its text holds every message."""

    def __init__(self, faults: Faults) -> None:
        super().__init__("\n\n".join(as_text(fault) for fault in faults))
        self.faults = faults


@dataclass(frozen=True, slots=True)
class Manner:
    """How a host wants it: with a bar to choose size and unit, what stands before every id, at the end of the
    page how its numbers come about, and ``despite`` faults whatever can be shown.
    """

    reader_chooses: bool = False
    prefix: str = ""
    sums: bool = False
    despite: bool = False


def chalkfold_plugin(
    md: MarkdownIt, *, site: str | Path | None = None, shelf: Shelf | None = None, reader_chooses: bool = False
) -> None:
    """Add the sewing blocks and ``{= … }`` to a parser.

    ``site`` is the folder with ``chalkfold.yml``, charts and books (or give an open ``shelf``). ``env["path"]`` is
    the name shown in messages. Faults go to ``env["faults"]`` (a ``Faults``), and a box with the message takes
    the block's place; without it ``FaultsFound`` is raised, so that nothing goes wrong unseen.
    """
    start = Faults()
    the_shelf = shelf or (Shelf.open(Path(site), start) if site is not None else Shelf())
    add_renderers(md)

    def rule(state: StateCore) -> None:
        source = Source(str(state.env.get("path", "post.md")), state.src)
        collected = state.env.get("faults")
        faults = collected if isinstance(collected, Faults) else Faults()
        faults.extend(start)
        weave(state.tokens, source, 0, the_shelf, Manner(reader_chooses), faults)
        if len(faults) and collected is None:
            raise FaultsFound(faults)

    md.core.ruler.push("chalkfold", rule)


def add_renderers(md: MarkdownIt) -> None:
    """Teach a parser the value rule and how the tokens that ``weave`` leaves behind are rendered."""
    add_value_rule(md)
    md.add_render_rule(BLOCK, _content)
    md.add_render_rule(VALUE, _content)


def _content(self: RendererHTML, tokens: Sequence[Token], index: int, options: OptionsDict, env: EnvType) -> str:
    return tokens[index].content


def weave(
    tokens: list[Token],
    source: Source,
    skipped: int,
    shelf: Shelf,
    manner: Manner,
    faults: Faults,
    show_fence: ShowFence | None = None,
) -> work.Worked:
    """Replace our fences and values among ``tokens`` by what they show.

    ``skipped`` source lines (front matter) come before the text of the tokens. Where the post has faults, each
    block with one is replaced by a box with its messages, and the rest is left without values, unless the host
    wants to see it despite the faults.
    """
    found = work.read(tokens, source, skipped, faults)
    worked = work.work(found, shelf, faults)
    write = Shower(worked.values, shelf.settings.printer, reader_chooses=manner.reader_chooses, prefix=manner.prefix)
    sound = not len(faults)
    told = None
    if sound and manner.sums:
        told = numbers_of(worked.values, [view for _, view in worked.views], [shown for _, shown in worked.shown])
        write.how = {key: f"{manner.prefix}sum-{number}" for number, key in enumerate(told.keys, 1)}
    for fence, view in worked.views:
        if sound:
            _replace(fence.token, f"{write.view(view, fence.heading + 1)}\n")
    for fence in worked.examples:
        if show_fence is not None:
            _replace(fence.token, f"{show_fence(fence, manner.prefix)}\n")
    if sound:
        _put_values(tokens, worked, write)
        if told is not None:
            tokens.append(Token(BLOCK, "", 0, content=sums(write, told)))
    else:
        _put_boxes(worked, faults, write if manner.despite else None)
        if manner.despite:
            _put_values(tokens, worked, write)
    return worked


def _replace(token: Token, html: str) -> None:
    token.type, token.tag, token.content, token.info = BLOCK, "", html, ""


def _put_values(tokens: Sequence[Token], worked: work.Worked, write: Shower) -> None:
    values = worked.values
    by_token = {id(value.token): shown for value, shown in worked.shown if None not in values.row(shown.key)}
    for number, token in enumerate(tokens):
        in_heading, inside = number > 0 and tokens[number - 1].type == "heading_open", False
        for child in token.children or ():
            inside = _in_a_link(child, inside)
            shown = by_token.get(id(child))
            if shown is not None:
                child.content = write.value(shown) if inside or in_heading else write.led(shown)
            elif child.type == "image":
                _put_alt(child, by_token, write, worked.values.sizes.sample)


def _in_a_link(child: Token, so_far: bool) -> bool:
    """Whether what follows a token stands in a link; raw HTML may be one."""
    if child.type in ("link_open", "html_inline"):
        return True
    return so_far and child.type != "link_close"


def _put_alt(image: Token, by_token: dict[int, Any], write: Shower, sample: int) -> None:
    """An alt text is plain: the values of the sample size stand in it."""
    for child in image.children or ():
        shown = by_token.get(id(child))
        if shown is not None:
            child.type, child.content = "text", write.plain((shown,), sample)
        elif child.type == "image":
            _put_alt(child, by_token, write, sample)


def _put_boxes(worked: work.Worked, faults: Faults, despite: Shower | None) -> None:
    """Where a block has faults of its own they stand in its place; a value without its number says so.

    ``despite`` shows what can be shown all the same.
    """
    fences = worked.scan.fences
    starts = [fence.span.start for fence in fences]
    own: dict[int, list[Fault]] = {}
    for fault in faults:
        number = bisect_right(starts, fault.span.start) - 1
        if number >= 0 and _inside(fault, fences[number]):
            own.setdefault(number, []).append(fault)
    views = {id(fence): view for fence, view in worked.views}
    for number, fence in enumerate(fences):
        box = fault_box(own[number]) if number in own else ""
        if despite is not None and fence.name in BLOCKS:
            box = "\n".join(filter(None, (box, _despite(fence, views.get(id(fence)), worked, despite, not box))))
        if box:
            _replace(fence.token, f"{box}\n")
    for value in worked.scan.values:
        value.token.content = '<span class="fault">?</span>'


def _despite(fence: Fence, view: View | None, worked: work.Worked, write: Shower, waits: bool) -> str:
    """A block of a post with faults, if it has all it needs; else that it ``waits``."""
    if view is not None and is_complete(view, worked.values):
        return write.view(view, fence.heading + 1)
    return waiting_box(fence.name) if waits else ""


def is_boxed(fault: Fault, worked: work.Worked) -> bool:
    """Whether a fault is told in the place of a block."""
    return any(_inside(fault, fence) for fence in worked.scan.fences)


def _inside(fault: Fault, fence: Fence) -> bool:
    span = fault.span
    return span.source is fence.span.source and fence.span.start <= span.start <= fence.span.end
