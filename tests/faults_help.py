"""Posts with faults, and what every fault must have."""

from __future__ import annotations

import re
from pathlib import Path

from chalkfold.diagnostics import Fault, Faults, Source, as_text
from chalkfold.post import build_post
from chalkfold.trade import Shelf


def shelf_of(folder: Path) -> Shelf:
    faults = Faults()
    shelf = Shelf.open(folder, faults)
    assert not len(faults)
    return shelf


def faults_of(text: str, shelf: Shelf | None = None) -> list[Fault]:
    return list(build_post(Source("post.md", text), shelf or Shelf()).faults)


def assert_well_told(fault: Fault) -> None:
    """A clause, a hint that says what to write, and a place within its file."""
    assert re.fullmatch(r"[^A-Z\s].*[^.\s]|[A-Z0-9][^\s]* .*[^.\s]", fault.message), fault.message
    assert re.search(r"[a-z]{3}", fault.hint)
    assert "None" not in fault.message + fault.hint
    line, column = fault.span.source.line_and_column(fault.span.start)
    assert 1 <= line <= len(fault.span.source.line_starts)
    assert 1 <= column <= len(fault.span.source.line(line)) + 1
    assert as_text(fault).startswith(f"{fault.span.source.path}:{line}:{column}: ")
