"""Faults put among the parts of a page, each before the part that it is about."""

from __future__ import annotations

import re
from collections.abc import Iterable

from chalkfold.diagnostics import Fault
from chalkfold.post import LINE
from chalkfold.show import fault_box

_LINE = re.compile(re.escape(LINE).replace(r"\{\}", r"(\d+)"))


def put_boxes(html: str, path: str, faults: Iterable[Fault]) -> str:
    """The page with a box before each part that has faults, and without the comments that told its lines.

    What is wrong above the text, or in another file, stands on top.
    """
    first, *rest = _LINE.split(html)
    lines, parts = [0, *map(int, rest[::2])], [first, *rest[1::2]]
    boxes: dict[int, list[Fault]] = {}
    for fault in faults:
        line = fault.span.source.line_and_column(fault.span.start)[0] if fault.span.source.path == path else 0
        boxes.setdefault(max(at for at, begin in enumerate(lines) if begin <= line), []).append(fault)
    return "".join(f"{fault_box(boxes[at])}\n{part}" if at in boxes else part for at, part in enumerate(parts))
