"""Cases written in Markdown, so that a sewist can add one without opening a Python file.

A spec file is a page of ``tests/spec/``. Each case is a ``##`` heading, a fence with what is typed, and a
fence called ``expected`` with what comes of it. Prose between them is for the reader. A fence of four or more
marks can hold fences of three.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from chalkfold.diagnostics import Fault, as_text

SPEC = Path(__file__).parent / "spec"
_HEADING = r"^## (?P<title>[^\n]+)$"
_FENCE = r"^(?P<marks>`{3,}|~{3,})(?P<info>[^\n`]*)\n(?P<body>.*?)^(?P=marks)$"
_PART = re.compile(f"{_HEADING}|{_FENCE}", re.M | re.S)


@dataclass(frozen=True)
class Case:
    """``info`` is the info string of the input's fence, ``line`` where the heading stands, ``said`` the prose below."""

    title: str
    info: str
    given: str
    expected: str
    line: int
    said: str = ""

    def __str__(self) -> str:
        return f"line {self.line}: {self.title}"


def cases(name: str, folder: Path = SPEC) -> list[Case]:
    """The cases of ``tests/spec/<name>``; a heading without both fences is an error in the page."""
    text = (folder / name).read_text(encoding="utf-8")
    found: list[Case] = []
    title, line, given, said, after = "", 0, None, "", 0
    for part in _PART.finditer(text):
        here = text.count("\n", 0, part.start()) + 1
        if part["title"]:
            assert not title, f"{name}:{line}: `{title}` has no `expected` fence"
            title, line, given, after = part["title"], here, None, part.end()
        elif part["info"].strip() == "expected":
            assert title, f"{name}:{here}: an `expected` fence without a heading"
            assert given is not None, f"{name}:{here}: an `expected` fence without an input before it"
            found.append(Case(title, given[0], given[1], part["body"], line, said))
            title = ""
        elif title:
            assert given is None, f"{name}:{here}: a second input for `{title}`"
            given, said = (part["info"].strip(), part["body"]), text[after : part.start()].strip()
    assert found, f"{name} holds no case"
    assert not title, f"{name}:{line}: `{title}` has no `expected` fence"
    return found


def told(faults: Iterable[Fault]) -> str:
    """The faults as printed, without the pictures of the source lines."""
    lines = [line for fault in faults for line in as_text(fault).split("\n") if not line.startswith("  | ")]
    return "".join(f"{line}\n" for line in lines)
