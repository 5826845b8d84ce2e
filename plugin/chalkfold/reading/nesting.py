"""Builds nodes from the parser's events, and refuses what YAML allows but a writer cannot mean.

The events are taken as ``Any``: the two parsers of PyYAML give alike ones, and their stubs leave the marks
optional, which they never are here.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from typing import Any

from yaml import events

from chalkfold.diagnostics import Code, Faults, Span
from chalkfold.reading.nodes import Entry, Excerpt, Mapping, Node, Sequence, Text
from chalkfold.reading.scalars import offsets
from chalkfold.reading.slips import (
    DEEPEST,
    LONGEST_SHOWN,
    NO_KEY,
    NO_KEY_HINT,
    Slip,
    line_end,
    needs_quotes,
    quoted,
    starts_with,
    too_deep,
    value_in_braces,
)


class _Open:
    """A mapping or sequence whose end has not come yet; ``key`` is the key that waits for its value."""

    __slots__ = ("bare", "entries", "flow", "is_mapping", "items", "key", "keys", "start")

    def __init__(self, is_mapping: bool, flow: bool, start: int) -> None:
        self.is_mapping, self.flow, self.start = is_mapping, flow, start
        self.key: Text | None = None
        self.bare = False  # whether the last key had no value
        self.keys: dict[str, Text] = {}
        self.entries: list[Entry] = []
        self.items: list[Node] = []


class Nesting:
    """Takes one event after the other; ``root`` is the finished node, None while there is none."""

    def __init__(self, excerpt: Excerpt, text: str, faults: Faults) -> None:
        self.root: Node | None = None
        self.stretches: list[tuple[int, int]] = []
        self._excerpt, self._text, self._faults = excerpt, text, faults
        self._open: list[_Open] = []
        self._in_step = excerpt.origins[0] if len(excerpt.origins) == 1 else None
        self.steps: dict[type, Callable[[Any], None]] = {
            events.ScalarEvent: self._scalar,
            events.MappingStartEvent: self._start,
            events.SequenceStartEvent: self._start,
            events.MappingEndEvent: self._end,
            events.SequenceEndEvent: self._end,
            events.AliasEvent: self._alias,
            events.DocumentStartEvent: self._document,
            events.DocumentEndEvent: self._document,
        }

    @property
    def in_flow(self) -> bool:
        return bool(self._open) and self._open[-1].flow

    def fault(self, code: Code, message: str, start: int, end: int, hint: str, *related: tuple[str, Span]) -> None:
        last = len(self._text)
        where = self._excerpt.span(min(start, last), min(end, last))
        self._faults.add(code, message, where, hint, related=related)

    def _at(self, index: int) -> int:
        return self._excerpt.offset(index) if self._in_step is None else self._in_step + index

    def _span(self, start: int, end: int) -> Span:
        if self._in_step is None:
            return self._excerpt.span(start, end)
        return Span(self._excerpt.source, self._in_step + start, self._in_step + end)

    def _scalar(self, event: Any) -> None:
        start, end, style, value = event.start_mark.index, event.end_mark.index, event.style, event.value
        self.stretches.append((start, end))
        if event.anchor is not None or event.tag is not None:
            self._refuse_sign(start)
        if not style and self._in_step is not None and self._text[start:end] == value:
            # by far the most common: short for what _as_text does
            node = Text(value, Span(self._excerpt.source, self._in_step + start, self._in_step + end))
        else:
            node = self._as_text(value, start, end, style or "")
        self._put(node, start, start == end)

    def _as_text(self, value: str, start: int, end: int, style: str) -> Text:
        text = self._text
        if style == ">":
            raise needs_quotes(text, start, self.in_flow, starts_with(">"))
        if not style and text[start:end] == value:
            return Text(value, self._span(start, end))
        if style and style in "'\"" and value and text[start + 1 : end - 1] == value:
            return Text(value, self._span(start + 1, end - 1))
        at = self._at
        places = tuple(at(each) for each in offsets(text, start, end, style, value))
        if style == "|":
            end = start + len(text[start:end].rstrip())  # the parser counts the blank lines below
        return Text(value, self._span(start, end), places)

    def _put(self, node: Node, start: int, nothing: bool = False) -> None:
        """Hand a finished node to what holds it; ``nothing`` says that no character of it was written."""
        if not self._open:
            self.root = node
            return
        top = self._open[-1]
        key = top.key
        if not top.is_mapping:
            top.items.append(node)
        elif key is None:
            assert isinstance(node, Text)  # _start lets no other node be a key
            top.key = node
            if nothing:
                self.fault(Code.DATA_SYNTAX, NO_KEY, start, start + 1, NO_KEY_HINT)
        else:
            if nothing and top.flow:
                self._no_value(top, key)
            else:
                self._once(top, key)
            top.bare = nothing
            top.entries.append(Entry(key, node))
            top.key = None

    def _once(self, top: _Open, key: Text) -> None:
        folded = key.value.casefold()
        if not folded.isascii():
            folded = unicodedata.normalize("NFKC", folded)
        first = top.keys.setdefault(folded, key)
        if first is not key:
            hint = "keep one of the two"
            if first.value != key.value:
                hint += "; capital letters make no difference"
            message, related = f"`{key.value}` is given twice", (("the first is here", first.where),)
            self._faults.add(Code.DATA_TWICE, message, key.where, hint, related=related)

    def _no_value(self, top: _Open, key: Text) -> None:
        """``{across: 3,5 cm}`` reads as two keys, the second of them ``5 cm`` with nothing in it."""
        if top.bare:
            return  # the key before has no value either, and its fault tells of both
        name, last = key.value, top.entries[-1] if top.entries else None
        source, at = key.where.source.text, key.where.start
        glued = re.fullmatch(r"([^:]+):(\S.*)", name)
        if glued:
            hint = f"write a space after the colon: `{glued[1]}: {glued[2]}`"
        elif source.startswith(":", key.where.end):
            hint = f"write the value after the colon: `{name}: …`"
        elif last and isinstance(last.value, Text) and re.match(r"\d", name) and source[at - 1] == ",":
            value = last.value.value
            point = f"a decimal point, `{last.key.value}: {value}.{name}`, or "
            hint = f"write {point}quotes around text with a comma: {quoted(f'{value},{name}')}"
        elif last and isinstance(last.value, Text):
            tail = re.match(r"[^:}\n]*", source[at : at + LONGEST_SHOWN])
            rest = tail[0] if tail else name
            if source.startswith(":", at + len(rest)):
                rest = rest.rpartition(",")[0]
            hint = f"put quotes around text with a comma: {quoted(f'{last.value.value}, {rest or name}')}"
        else:
            hint = f"write `{name}: value`"
        self._faults.add(Code.DATA_FLOW_KEY, f"`{name}` has no value", key.where, hint)

    def _start(self, event: Any) -> None:
        start = event.start_mark.index
        is_mapping = type(event) is events.MappingStartEvent
        top = self._open[-1] if self._open else None
        if event.anchor is not None or event.tag is not None:
            self._refuse_sign(start)
        elif event.flow_style and is_mapping:
            self._check_braces(start)
        if len(self._open) >= DEEPEST:
            raise too_deep(start)
        if top and top.is_mapping and top.key is None:
            hint = "write a word before the colon; put quotes around text that starts with a bracket"
            raise Slip(Code.DATA_SYNTAX, "a bracket where a key should stand", start, start + 1, hint)
        self._open.append(_Open(is_mapping, bool(event.flow_style), start))

    def _check_braces(self, start: int) -> None:
        text = self._text
        if text.startswith("{=", start):
            raise value_in_braces(text, start, self.in_flow)
        if text[start : start + 1] != "{":
            end = min(line_end(text, start), *(i for c in ",]" if (i := text.find(c, start)) >= 0), len(text))
            hint = f"put quotes around the text: {quoted(text[start:end])}"
            raise Slip(Code.DATA_COLON, "a colon in plain text", start, end, hint, (start, end))

    def _end(self, event: Any) -> None:
        done = self._open.pop()
        start, end = done.start, event.end_mark.index
        if done.flow:
            where = self._span(start, end)
        else:
            children: list[Node] = done.items or [entry.value for entry in done.entries]
            first = self._at(start)
            where = Span(self._excerpt.source, first, max(first, children[-1].where.end))
        node = Mapping(tuple(done.entries), where) if done.is_mapping else Sequence(tuple(done.items), where)
        self._put(node, start)

    def _alias(self, event: Any) -> None:
        start, end = event.start_mark.index, event.end_mark.index
        self._refuse_sign(start)
        self._put(Text(self._text[start:end], self._span(start, end)), start)

    def _refuse_sign(self, start: int) -> None:
        """An anchor, alias or tag: the writer means text, or should write the thing again."""
        sign = self._text[start]
        what = {"&": "an anchor", "*": "an alias"}.get(sign, "a tag")
        end = line_end(self._text, start)
        word = re.match(r"\S[^\s,\]}]*", self._text[start:end])
        stop = start + (word.end() if word else 1)
        hint = f"put quotes around text: {quoted(self._text[start : stop if self.in_flow else end])}"
        message = f"`{self._text[start:stop]}` is {what} of YAML, which has no place here"
        self.fault(Code.DATA_ANCHOR, message, start, stop, hint)

    def _document(self, event: Any) -> None:
        if event.explicit:
            start = event.start_mark.index
            start, end = self._text.find(self._text[start : start + 3], start), start + 3
            hint = "take the line out"
            message = f"a `{self._text[start:end]}` line has no place in here"
            raise Slip(Code.DATA_SYNTAX, message, start, end, hint, (start, end))
