"""Lists of steps whose numbers, as typed, leave one out or have one twice: a page counts by itself."""

from __future__ import annotations

from dataclasses import dataclass, field

from markdown_it.token import Token

from chalkfold.diagnostics import Code, Span
from chalkfold.site.checking.look import Look


@dataclass
class _List:
    level: int
    items: list[tuple[int, Token]] = field(default_factory=list)


def check(look: Look) -> None:
    """Lists under one heading may go on from one another; ``1.`` before every item is a way to write lists, too."""
    open_lists: list[_List] = []
    last: dict[int, int] = {}
    for token in look.tokens:
        match token.type:
            case "heading_open":
                last.clear()
            case "ordered_list_open":
                open_lists.append(_List(token.level))
            case "list_item_open" if open_lists and token.info and open_lists[-1].level == token.level - 1:
                open_lists[-1].items.append((int(token.info), token))
                last = {level: number for level, number in last.items() if level <= token.level}
            case "ordered_list_close":
                closed = open_lists.pop()
                _check_list(closed, last.get(closed.level), look)
                last[closed.level] = closed.items[-1][0] if closed.items else 0


def _check_list(closed: _List, last: int | None, look: Look) -> None:
    numbers = [number for number, _ in closed.items]
    if not numbers:
        return
    if numbers[0] not in (0, 1) and numbers[0] != (last or 0) + 1:
        before = f"the one above it ends with {last}" if last is not None else "there is none before it to go on from"
        hint = f"write `{(last or 0) + 1}.`; if no list is meant, write a word before the number"
        _add(look, *closed.items[0], f"this list begins with {numbers[0]}, and {before}", hint)
    if len(numbers) > 1 and len(set(numbers)) == 1:
        return
    for (before_it, _), (number, token) in zip(closed.items, closed.items[1:], strict=False):
        if number != before_it + 1:
            hint = f"write `{before_it + 1}.`, or put the missing step in; the page counts by itself"
            _add(look, number, token, f"step {number} follows step {before_it}", hint)


def _add(look: Look, number: int, token: Token, message: str, hint: str) -> None:
    assert token.map is not None
    source = look.source
    start = source.line_starts[token.map[0] + look.skipped]
    at = source.text.find(f"{number}{token.markup}", start)
    place = Span(source, start, start) if at < 0 else Span(source, at, at + len(f"{number}{token.markup}"))
    look.found.add(Code.MISLEADS_STEPS, message, place, hint)
