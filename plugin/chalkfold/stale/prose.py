"""The prose of a post's Markdown with the place of every character; code, values and addresses are masked."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from html import unescape

from markdown_it.helpers import parseLinkDestination, parseLinkTitle
from markdown_it.token import Token

from chalkfold.diagnostics import Source, Span
from chalkfold.reading import Text

MASK = "\ufffc"
"""Stands for whatever is no prose: a value, code, a tag, an address."""
_ENTITY = re.compile(r"&(?:#[0-9]{1,7}|#[xX][0-9a-fA-F]{1,6}|[A-Za-z][A-Za-z0-9]{1,31});")
_TAG = re.compile(r"<!--|</?[A-Za-z][^<>]*+>")
_NO_PROSE = ("<script", "<style", "<pre", "<svg", "<textarea")


@dataclass(frozen=True, slots=True)
class Prose:
    """A paragraph, heading, list item or cell; ``comments`` are the HTML comments in it, with their places."""

    text: Text
    comments: tuple[Text, ...] = ()


def prose_of(tokens: Sequence[Token], source: Source, skipped: int) -> Iterator[Prose]:
    """Every text of a page in order; ``skipped`` lines of front matter come before the tokens' own.

    A comment that stands by itself goes with the text below it.
    """
    lines, waiting = _Lines(source, skipped), list[Text]()
    for token in tokens:
        if token.map is None or token.type not in ("inline", "html_block"):
            continue
        found = _Aligned(source, token.content, lines.places(token))
        if token.type == "inline":
            found.walk(token.children or ())
        else:
            found.markup()
        if not found.chars or not "".join(found.chars).strip(f"{MASK} \n"):
            waiting += found.comments
            continue
        yield Prose(found.text(), (*waiting, *found.comments))
        waiting = []


class _Lines:
    """Where the lines of a token's content stand in the source, without quote marks and indents."""

    def __init__(self, source: Source, skipped: int) -> None:
        self.source, self.skipped = source, skipped
        self.line, self.column = -1, 0

    def places(self, token: Token) -> list[int]:
        """For each character of the content, and its end, the offset in the source."""
        assert token.map is not None
        places: list[int] = []
        for number, line in enumerate(token.content.split("\n"), token.map[0] + self.skipped):
            start = self._start(number, line)
            places += range(start, start + len(line) + 1)
        last = len(self.source.text)
        return [min(each, last) for each in places]

    def _start(self, number: int, line: str) -> int:
        """Cells of a table share a line: each is looked for behind the one before."""
        if number >= len(self.source.line_starts):
            return len(self.source.text)
        if number != self.line:
            self.line, self.column = number, 0
        written = self.source.line(number + 1)
        at = written.find(line, self.column)
        self.column = len(written) if at < 0 else at + len(line)
        return self.source.line_starts[number] + (at if at >= 0 else len(written) - len(written.lstrip()))


@dataclass
class _Aligned:
    """Walks the tokens of a text along its source ``raw``; the cursor only ever goes forward."""

    source: Source
    raw: str
    places: list[int]
    cursor: int = 0
    chars: list[str] = field(default_factory=list)
    offsets: list[int] = field(default_factory=list)
    comments: list[Text] = field(default_factory=list)
    is_address: bool = False

    def text(self) -> Text:
        start, end = self.offsets[0], self.offsets[-1] + 1
        return Text("".join(self.chars), Span(self.source, start, max(start, end)), tuple(self.offsets))

    def walk(self, children: Sequence[Token]) -> None:
        for child in children:
            self._child(child)

    def markup(self) -> None:
        """Raw HTML: what stands between its tags."""
        if self.raw.lstrip().casefold().startswith(_NO_PROSE):
            return
        while match := _TAG.search(self.raw, self.cursor):
            self._write(self.raw[self.cursor : match.start()])
            closed = self.raw.find("-->", match.end()) if match[0] == "<!--" else match.end() - 3
            self._html(self.raw[match.start() : closed + 3 if closed >= 0 else len(self.raw)])
        self._write(self.raw[self.cursor :])

    def _child(self, child: Token) -> None:
        match child.type:
            case "text":
                self._write(MASK if self.is_address else child.content)
            case "softbreak" | "hardbreak":
                self._past("\n")
                self._put(" ", max(0, self.cursor - 1))
                while self.raw.startswith((" ", "\t"), self.cursor):
                    self.cursor += 1
            case "code_inline":
                self._past(child.markup)
                self._past(child.markup)
                self._put(MASK, self.cursor - 1)
            case "html_inline":
                self._html(child.content)
            case "image":
                self._past("![")
                self.walk(child.children or ())
                self._past_target()
            case "link_open":
                self.is_address = child.info == "auto"
            case "link_close":
                self._past_target()
                self.is_address = False
            case _:
                self._past(child.markup)
                if child.nesting == 0:
                    self._put(MASK, self.cursor - 1)

    def _html(self, tag: str) -> None:
        self._past(tag)
        at = self.cursor - len(tag)
        self._put(MASK, at)
        if tag.startswith("<!--") and at >= 0:
            offsets = tuple(self.places[at : self.cursor])
            self.comments.append(Text(tag, Span(self.source, offsets[0], offsets[-1] + 1), offsets))

    def _past(self, written: str) -> None:
        """Past the next place of ``written``; where it stands nowhere the rest has no place, and takes no time."""
        at = self.raw.find(written, self.cursor)
        self.cursor = at + len(written) if at >= 0 else len(self.raw)

    def _past_target(self) -> None:
        """Past the bracket that closes a link or picture, and where it leads."""
        if self.is_address:
            self._past(">")
            return
        self._past("]")
        raw, at, end = self.raw, self.cursor, len(self.raw)
        if raw.startswith("[", at):
            self._past("]")
        elif raw.startswith("(", at):
            target = parseLinkDestination(raw, _past_space(raw, at + 1), end)
            after = _past_space(raw, target.pos if target.ok else at + 1)
            title = parseLinkTitle(raw, after, end)
            self.cursor = title.pos if title.ok else after
            self._past(")")

    def _write(self, content: str) -> None:
        if self.raw.startswith(content, self.cursor):
            self.chars += content
            self.offsets += self.places[self.cursor : self.cursor + len(content)]
            self.cursor += len(content)
            return
        for char in content:
            self._write_one(char)

    def _write_one(self, char: str) -> None:
        """One character that may be written as an escape or an entity, behind marks that are not shown."""
        raw, at = self.raw, self.cursor
        while at < len(raw):
            entity = _ENTITY.match(raw, at) if raw[at] == "&" else None
            if entity and char in unescape(entity[0]):
                self._put(char, at)
                self.cursor = entity.end()
                return
            if raw[at] == char:
                self._put(char, at)
                self.cursor = at + (2 if char == "\\" == raw[at + 1 : at + 2] else 1)
                return
            at += 1
        self.cursor = at
        self._put(char, at)

    def _put(self, char: str, at: int) -> None:
        self.chars.append(char)
        self.offsets.append(self.places[min(max(at, 0), len(self.places) - 1)])


def _past_space(raw: str, at: int) -> int:
    while at < len(raw) and raw[at].isspace():
        at += 1
    return at
