"""YAML that types nothing: every key and value stays text and keeps its place.

One pass over the parser's events builds the nodes, so the depth of the writing costs no recursion. A body
with a slip is blanked out there and read again, so that the next slip is found in the same go.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

import yaml
from yaml import events

from chalkfold.diagnostics import Code, Faults
from chalkfold.reading.explain import Stop, explain
from chalkfold.reading.nesting import Nesting
from chalkfold.reading.nodes import Excerpt, Node
from chalkfold.reading.slips import Slip, line_end, quoted

LONGEST_BODY = 200_000
MOST_ROUNDS = 20
Loader: type[yaml.CBaseLoader] | type[yaml.BaseLoader] = getattr(yaml, "CBaseLoader", yaml.BaseLoader)

_UNSEEN = re.compile(
    "[^\n\r\t\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]|\r(?!\n)"
)
_NOT_BLANK = re.compile(r"[^\s]")


def load(excerpt: Excerpt, faults: Faults) -> Node | None:
    """Read a body as texts, mappings and sequences.

    Returns None when the body is empty (blank or remarks only), which is no fault here, and when it has
    any fault: what is read past a slip cannot be trusted. Never raises; a body longer than
    ``LONGEST_BODY`` characters or nested deeper than ``slips.DEEPEST`` is refused.
    """
    if len(excerpt.text) > LONGEST_BODY:
        message = f"more than {LONGEST_BODY:,} characters in one body"
        faults.add(Code.FILE_TOO_LONG, message, excerpt.span(0, 1), "split it into several")
        return None
    found = Faults()
    text = _cleaned(excerpt, found)
    node: Node | None = None
    for _ in range(MOST_ROUNDS):
        nesting = Nesting(excerpt, text, found)
        try:
            node = _read(nesting, text)
            _swallowed(nesting, text, len(text))
            break
        except Slip as slip:
            text = _noted(slip, slip.start, nesting, text, found)
        except yaml.MarkedYAMLError as error:
            stop = Stop.of(error, text, nesting.in_flow)
            text = _noted(explain(stop), stop.at, nesting, text, found)
        if not text:
            break
    faults.extend(found)
    return None if len(found) else node


def _read(nesting: Nesting, text: str) -> Node | None:
    loader = Loader(text)
    steps = nesting.steps
    try:
        event = loader.get_event()
        while event is not None and type(event) is not events.StreamEndEvent:
            if step := steps.get(type(event)):
                step(event)
            event = loader.get_event()
    finally:
        loader.dispose()
    return nesting.root


def _cleaned(excerpt: Excerpt, found: Faults) -> str:
    """Report tabs and characters nobody can see, once a line, and put spaces in their place."""
    text = excerpt.text
    if "\t" in text:
        hint = "write spaces instead: two for each step inwards"
        for at in _first_of_each_line(text, (m.start() for m in re.finditer("\t", text))):
            found.add(Code.DATA_TAB, "a tab", excerpt.span(at, at + 1), hint)
        text = text.replace("\t", " ")
    if _UNSEEN.search(text):
        for at in _first_of_each_line(text, (m.start() for m in _UNSEEN.finditer(text))):
            message = f"a character that cannot be seen (U+{ord(text[at]):04X})"
            hint = "delete it; type the words again if they were pasted"
            found.add(Code.DATA_SYNTAX, message, excerpt.span(at, at + 1), hint)
        text = _UNSEEN.sub(" ", text)
    return text


def _first_of_each_line(text: str, places: Iterable[int]) -> Iterator[int]:
    end = -1
    for at in places:
        if at >= end:
            yield at
            end = line_end(text, at + 1)


def _noted(slip: Slip, until: int, nesting: Nesting, text: str, found: Faults) -> str:
    """Report the slip and return the text to read next; empty when there is no going on.

    A remark that swallowed part of a line often is why reading stopped: then only that is reported.
    """
    before = len(found)
    hashes = _swallowed(nesting, text, until)
    if hashes:
        return "".join("x" if at in hashes else char for at, char in enumerate(text))
    if not slip.sure and before:
        return ""
    nesting.fault(slip.code, slip.message, slip.start, slip.end, slip.hint)
    if not slip.mend or slip.mend[0] >= slip.mend[1]:
        return ""
    start, end = slip.mend
    filler = "x" if _NOT_BLANK.search(text, text.rfind("\n", 0, start) + 1, start) else " "
    return text[:start] + filler * (end - start) + text[end:]


def _swallowed(nesting: Nesting, text: str, until: int) -> set[int]:
    """Report every remark that has neither two spaces nor nothing but blanks before its ``#``."""
    hashes: set[int] = set()
    for at in _remarks(nesting.stretches, text, until):
        before = text[text.rfind("\n", 0, at) + 1 : at]
        if before.strip() and not before.endswith("  "):
            hashes.add(at)
            stop = line_end(text, at)
            words = quoted(f"{re.split(r': |- ', before.strip())[-1]} {text[at:stop]}")
            hint = f"put quotes around the text: {words}; write two spaces before `#` for a remark"
            nesting.fault(Code.DATA_HASH, "a `#` would swallow the rest of the line", at, stop, hint)
    return hashes


def _remarks(stretches: list[tuple[int, int]], text: str, until: int) -> Iterator[int]:
    """Where remarks begin: each ``#`` outside the scalars, whose places stand in ``stretches``.

    Where reading stopped the last scalar may be unknown; then no ``#`` behind a quote counts.
    """
    scalars = iter((*stretches, (until, until)))
    start, end = next(scalars)
    clear = 0
    at = text.find("#", 0, until)
    while at >= 0:
        while end <= at:
            clear = max(clear, end)
            start, end = next(scalars)
        if start <= at:
            at = text.find("#", end, until)
            continue
        opened = any(text.find(sign, clear, at) >= 0 for sign in "'\"")
        if not opened and (at == 0 or text[at - 1] in " \n,[]{}"):
            yield at
            clear = line_end(text, at)
            at = text.find("#", clear, until)
        else:
            clear = clear if opened else at
            at = text.find("#", at + 1, until)
