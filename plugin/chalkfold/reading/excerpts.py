"""Excerpts of a Markdown file: the lines of a fence as a Markdown parser hands them on."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import accumulate

from chalkfold.diagnostics import Source
from chalkfold.reading.nodes import Excerpt


def excerpt_of_lines(source: Source, first_line: int, contents: Iterable[str]) -> Excerpt:
    """Build the excerpt of a fence body.

    ``contents`` are its lines without list indent and quote marks, ``first_line`` is the number of the
    source line the first of them stands in, counted from 0. Each is the tail of its source line; one that
    is not, because the parser wrote out a tab, is given the start of that line.
    """
    lines = [line.rstrip("\r\n") for line in contents]
    last = len(source.line_starts)
    origins: list[int] = []
    for number, line in enumerate(lines, first_line):
        if number >= last:  # a fence cut short by the end of the file
            origins.append(len(source.text))
            continue
        written = source.line(number + 1)
        indent = len(written) - len(line) if written.endswith(line) else 0
        origins.append(source.line_starts[number] + indent)
    starts = accumulate((len(line) + 1 for line in lines[:-1]), initial=0)
    text = "".join(line + "\n" for line in lines)
    return Excerpt(source, text, tuple(starts), tuple(origins) or (_end(source, first_line),))


def _end(source: Source, line: int) -> int:
    return source.line_starts[line] if line < len(source.line_starts) else len(source.text)
