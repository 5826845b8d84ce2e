"""The samples of a guide: a fence ``example`` shows a source and what comes of it, side by side.

The body is a small post of its own. ``example fault`` shows the message that the tool gives; an example that does
not do what it says is a fault, so a guide cannot go stale. ``faults`` lists every fault there is, ``shelf`` what books,
charts, cloths and notions there are.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from chalkfold.diagnostics import Code, Faults, Source
from chalkfold.diagnostics.catalogue import catalogue
from chalkfold.guide_shelf import show_shelf, with_code
from chalkfold.reading import Fence
from chalkfold.show import fault_box
from chalkfold.show.markup import escape
from chalkfold.trade import Shelf

DEEPEST = 3
"""Examples inside one another."""


@dataclass
class Guide:
    """Shows the samples of one page; ``build`` builds a small post, with a prefix for its ids."""

    shelf: Shelf
    faults: Faults
    build: Callable[[Source, str], Any]
    depth: int = 0
    count: int = 0
    listed: bool = False
    shows_list: bool = True
    """Whether the list of faults is written out; it has no fault of its own."""

    def show(self, fence: Fence, prefix: str) -> str:
        """A sample as HTML."""
        if fence.name == "faults":
            return self._fault_list_once(fence)
        if fence.name == "shelf":
            return show_shelf(fence, self.shelf, self.faults)
        if self.depth >= DEEPEST:
            hint = "take it out of the examples around it"
            self.faults.add(Code.EXAMPLE, "an example too deep inside other examples", fence.span, hint)
            return ""
        self.count += 1
        text = fence.body.text
        wants_fault = fence.rest == "fault"
        inner = Source("post.md" if wants_fault else fence.span.source.path, self._lined_up(fence, wants_fault))
        built = self.build(inner, f"{prefix}e{self.count}-")
        if wants_fault != bool(len(built.faults)):
            self._not_as_said(fence, wants_fault, built.faults)
        result = fault_box(built.faults) if len(built.faults) else built.html
        return _side_by_side(text, result)

    def _lined_up(self, fence: Fence, wants_fault: bool) -> str:
        """The body, moved down to the lines it has in the file, so that places in messages are true."""
        return fence.body.text if wants_fault else "\n" * (fence.first_line + 1) + fence.body.text

    def _not_as_said(self, fence: Fence, wants_fault: bool, found: Faults) -> None:
        if wants_fault:
            hint = "write ` ```example ` without `fault`, or put the fault back"
            self.faults.add(Code.EXAMPLE, "this example should show a fault, and has none", fence.span, hint)
        else:
            self.faults.extend(found)

    def _fault_list_once(self, fence: Fence) -> str:
        if self.listed or self.depth:
            where = "there twice" if self.listed else "inside an example"
            hint = "keep one, outside of examples"
            self.faults.add(Code.EXAMPLE, f"the list of faults stands {where}", fence.span, hint)
            return ""
        self.listed = True
        return self._fault_list() if self.shows_list else ""

    def _fault_list(self) -> str:
        parts = []
        for entry in catalogue():
            parts.append(f'<h3 id="{escape(entry.code.replace(".", "-"))}"><code>{escape(entry.code)}</code></h3>')
            parts.append(f"<p>{with_code(entry.meaning)}</p>")
            if entry.post:
                built = self.build(Source("post.md", entry.post), f"f-{entry.code}-")
                parts.append(_side_by_side(entry.post, fault_box(built.faults)))
        return "\n".join(parts)


def _side_by_side(text: str, result: str) -> str:
    shown = "&#10;".join(escape_line(line) for line in text.rstrip("\n").split("\n"))
    source = f'<div class="source"><pre tabindex="0" aria-label="What you write"><code>{shown}</code></pre></div>'
    return f'<div class="example">\n{source}\n<div class="result">\n{result}\n</div>\n</div>'


def escape_line(line: str) -> str:
    """A line of a sample; its indent stays."""
    return escape(line).replace("  ", " &#32;") if line.startswith("  ") else escape(line)
