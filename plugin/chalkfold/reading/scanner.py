"""The scanner every host shares: where the fences and the ``{= … }`` values of a Markdown text stand.

It walks the tokens that markdown-it-py makes, so that lists, quotes, samples and code are seen as the page will
show them, and gives each find its place in the source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from chalkfold.diagnostics import Code, Faults, Source, Span, near
from chalkfold.reading.excerpts import excerpt_of_lines
from chalkfold.reading.nodes import Excerpt, Text

if TYPE_CHECKING:  # the front matter of a post is read without it
    from markdown_it import MarkdownIt
    from markdown_it.rules_inline import StateInline
    from markdown_it.token import Token

VALUE = "chalk_value"
OPENER = "{="
LONGEST_VALUE = 2_100
"""Characters from brace to brace: a little more than the longest formula. The bound keeps the search linear."""
DEEPEST = 18
"""Quotes and lists inside one another. Parsers drop what lies two levels deeper without a word."""
_TIGHT = re.compile(r"\{=([^\s}=][^}\n]{0,300})\}")
_SHOWN_ONLY = frozenset({"example", "faults", "shelf"})
"""Fences of a guide: near misses of these words are words of other people."""
_FENCE_LINE = re.compile(r"^[ \t>]*(?:`{3,}|~{3,})[ \t]*([a-z-]+)", re.M)


@dataclass(frozen=True, slots=True)
class Fence:
    """A fenced block of ours: its first info word, the rest of the info string, the body, and its lines."""

    name: str
    rest: str
    body: Excerpt
    span: Span
    token: Token
    first_line: int
    heading: int = 1
    """The level of the heading that it stands under; the title of the page where there is none before it."""


@dataclass(frozen=True, slots=True)
class InlineValue:
    """A ``{= … }`` in running text: the formula, and the whole with its brackets."""

    formula: Text
    span: Span
    token: Token


@dataclass
class Scan:
    fences: list[Fence] = field(default_factory=list)
    values: list[InlineValue] = field(default_factory=list)
    pictures: list[tuple[str, Span]] = field(default_factory=list)
    links: list[tuple[str, Span]] = field(default_factory=list)
    lost: bool = False
    """A block was reported that cannot be read; whatever it would have given is not missed."""


def value_rule(state: StateInline, silent: bool) -> bool:
    """The inline rule: ``{= … }`` on one line becomes one token, before anything else looks at it."""
    if not state.src.startswith(OPENER, state.pos):
        return False
    start = state.pos + len(OPENER)
    end = state.src.find("}", start, start + LONGEST_VALUE)
    formula = state.src[start:end] if end >= 0 else ""
    if not formula[:1].isspace() or "\n" in formula:
        return False
    if not silent:
        token = state.push(VALUE, "", 0)
        token.content = formula
        token.markup = state.src[state.pos : end + 1]
    state.pos = end + 1
    return True


def add_value_rule(md: MarkdownIt) -> None:
    """Teach a parser the inline rule; its text rule must stop at a brace, and does."""
    md.inline.ruler.before("escape", VALUE, value_rule)


def scan(tokens: Sequence[Token], source: Source, skipped: int, names: AbstractSet[str], faults: Faults) -> Scan:
    """Find our fences (info word in ``names``), values, links and pictures.

    ``skipped`` is the number of source lines before the text that was parsed (front matter). Blocks and
    values that would be lost are reported.
    """
    return _Scanner(source, skipped, names, faults).run(tokens)


class _Scanner:
    def __init__(self, source: Source, skipped: int, names: AbstractSet[str], faults: Faults) -> None:
        self.source, self.skipped, self.names, self.faults = source, skipped, names, faults
        self.found = Scan()
        self.cursor = 0
        self.heading = 1

    def run(self, tokens: Sequence[Token]) -> Scan:
        for token in tokens:
            if token.map:
                self.cursor = max(self.cursor, self._offset(token.map[0]))
            if token.level > DEEPEST and token.nesting == 1 and token.map and not self.found.lost:
                place = Span(self.source, *self._line_span(token.map[0]))
                hint = "take the text out of some of them"
                self.faults.add(Code.BLOCK_LOST, f"quotes or lists more than {DEEPEST} deep", place, hint)
                self.found.lost = True
            match token.type:
                case "heading_open":
                    self.heading = int(token.tag[1:])
                case "fence":
                    self._fence(token)
                case "html_block":
                    self._lost_block(token, "raw HTML", "move it out of the HTML, with an empty line before and after")
                    self._left_over(token.content, "raw HTML")
                case "code_block":
                    self._lost_block(token, "an indented block of code", "take out the indent before the fence")
                case "inline":
                    for child in _flat(token.children or ()):
                        self._inline(child)
        return self.found

    def _offset(self, line: int) -> int:
        starts = self.source.line_starts
        row = line + self.skipped
        return starts[row] if row < len(starts) else len(self.source.text)

    def _fence(self, token: Token) -> None:
        words = token.info.split()
        if not words or words[0] not in self.names:
            self._misspelt(words, token)
            return
        assert token.map is not None
        first, end = token.map
        lines = token.content.removesuffix("\n").split("\n") if token.content else []  # as the parser counts them
        opening = Span(self.source, *self._line_span(first))
        if end - first - 1 <= len(lines):
            self.faults.add(
                Code.BLOCK_UNCLOSED,
                f"this `{words[0]}` block is never closed",
                opening,
                f"write a line of nothing but {token.markup} below its last line",
            )
            self.found.lost = True
            return
        body = excerpt_of_lines(self.source, first + self.skipped + 1, lines)
        span = Span(self.source, opening.start, self._line_span(end - 1)[1])
        rest = " ".join(words[1:])
        self.found.fences.append(Fence(words[0], rest, body, span, token, first + self.skipped, self.heading))

    def _misspelt(self, words: list[str], token: Token) -> None:
        """A fence whose words are nearly those of a block would pass for a sample of code."""
        if not words or token.map is None:
            return
        bare = {each.replace("-", ""): each for each in self.names - _SHOWN_ONLY}
        said = words[0].replace("-", "").replace("_", "").casefold()
        meant = bare.get(said) or bare.get("".join(words[:2]).replace("-", "").casefold()) or near(said, bare, 0.85)
        if meant is not None:
            meant = bare.get(meant, meant)
            span = Span(self.source, *self._line_span(token.map[0]))
            hint = f"did you mean `{meant}`? Another fence of that name would need a different word"
            self.faults.add(Code.BLOCK_UNKNOWN, f"there is no block called `{' '.join(words)}`", span, hint)
            self.found.lost = True

    def _line_span(self, line: int) -> tuple[int, int]:
        """A line without its indent and quote marks."""
        start = self._offset(line)
        text = self.source.line(line + self.skipped + 1)
        lead = len(text) - len(text.lstrip(" \t>"))
        return start + lead, start + len(text)

    def _lost_block(self, token: Token, where: str, hint: str) -> None:
        if token.content.lstrip().startswith("<!--"):
            return  # commented out on purpose
        for match in _FENCE_LINE.finditer(token.content):
            if match[1] in self.names:
                span = self._next(match[0].strip(), advance=False)
                message = f"this `{match[1]}` block stands in {where} and would be lost"
                self.faults.add(Code.BLOCK_LOST, message, span, hint)
                self.found.lost = True

    def _left_over(self, text: str, where: str) -> None:
        for match in re.finditer(r"\{=\s[^}\n]*\}?", text):
            span = self._next(match[0], advance=False)
            hint = "move the value into the running text, a heading, a caption or an alt text"
            self.faults.add(Code.VALUE_LEFT, f"a value cannot be filled in inside {where}", span, hint)

    def _inline(self, token: Token) -> None:
        match token.type:
            case "chalk_value":
                span = self._next(token.markup)
                inner = len(token.content) - len(token.content.lstrip())
                start = span.start + len(OPENER)
                whole = Text(token.content, Span(self.source, start, start + len(token.content)))
                formula = whole.part(inner, len(token.content.rstrip()))
                self.found.values.append(InlineValue(formula, span, token))
            case "code_inline":
                self._next(token.content)
            case "html_inline":
                self._left_over(token.content, "raw HTML")
            case "image":
                self._target(token, "src", self.found.pictures)
            case "link_open":
                self._target(token, "href", self.found.links)
            case "text":
                self._unclosed(token.content)
                self._without_space(token.content)

    def _target(self, token: Token, name: str, found: list[tuple[str, Span]]) -> None:
        target = str(token.attrs.get(name, ""))
        span = self._next(target, advance=False)
        found.append((target, span))
        title = str(token.attrs.get("title", ""))
        if "{= " in title or "%7B=" in target:
            hint = "move the value into the running text or the alt text"
            at = self._next(OPENER + " ", advance=False)
            self.faults.add(Code.VALUE_LEFT, "a value cannot be filled in inside a link", at, hint)

    def _unclosed(self, text: str) -> None:
        """A ``{= `` that no rule took: its bracket does not close on the same line."""
        at = text.find("{= ")
        if at >= 0:
            raw = text[at:]
            span = self._next(raw, advance=False)
            if self.source.text[max(0, span.start - 1) : span.start] == "\\":
                return
            self.faults.add(
                Code.VALUE_UNCLOSED,
                "this value is never closed",
                Span(self.source, span.start, span.start + 2),
                "write ` }` where the formula ends, on the same line, or `\\{=` to print it as it stands",
            )

    def _without_space(self, text: str) -> None:
        """``{=x}`` would stand on the page as it is."""
        for match in _TIGHT.finditer(text):
            span = self._next(match[0], advance=False)
            before = self.source.text[max(0, span.start - 1) : span.start]
            if before not in ("\\", "`"):  # behind code other hosts take `{=html}` for their own
                hint = f"write `{{= {match[1].strip()} }}`, or `\\{{=` to print it as it stands"
                self.faults.add(Code.FORMULA_SYNTAX, "a value needs a space after `{=`", span, hint)

    def _next(self, raw: str, advance: bool = True) -> Span:
        """Where ``raw`` stands next in the source; the line start where the parser changed its spelling."""
        at = self.source.text.find(raw, self.cursor) if raw else -1
        if at < 0:
            return Span(self.source, self.cursor, self.cursor)
        if advance:
            self.cursor = at + len(raw)
        return Span(self.source, at, at + len(raw))


def _flat(tokens: Sequence[Token]) -> Iterator[Token]:
    """Inline tokens in reading order, those inside an alt text too."""
    for token in tokens:
        if token.type == "image":
            yield from _flat(token.children or ())
        yield token
