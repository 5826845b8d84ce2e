"""A writer's slip in YAML: what it is called, where it stands, and what to write instead.

A slip names a stretch to blank out, so that reading can go on to the next one.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from chalkfold.diagnostics import Code

DEEPEST = 20
LONGEST_SHOWN = 40
NO_KEY = "a colon without a key before it"
NO_KEY_HINT = "write `key: value`, or put quotes around text that starts with a colon"
STARTS = {
    "%": "takes for a directive",
    "@": "keeps for itself",
    "`": "keeps for itself",
    "*": "takes for an alias",
    "&": "takes for an anchor",
    "!": "takes for a tag",
    ">": "takes for a folded text",
    "|": "takes for a block of lines",
    "?": "takes for a key of its long form",
    "-": "takes for a list",
    ",": "takes for the end of a value",
    "]": "takes for the end of a list",
    "}": "takes for the end of a mapping",
}


@dataclass
class Slip(Exception):
    """A fault at ``start`` to ``end`` of the body. ``mend`` is the stretch to blank before reading on.

    ``sure`` is False where the slip is only where reading stopped; then an earlier slip may be the cause.
    """

    code: Code
    message: str
    start: int
    end: int
    hint: str
    mend: tuple[int, int] | None = None
    sure: bool = True


def line_end(text: str, at: int) -> int:
    end = text.find("\n", at)
    return len(text) if end < 0 else end


def quoted(text: str) -> str:
    """The text as a writer would put it in quotes, shortened for a hint."""
    text = text.strip()
    shown = text if len(text) <= LONGEST_SHOWN else text[: LONGEST_SHOWN - 1].rstrip() + "…"
    return f'"{shown}"' if '"' not in shown and "\\" not in shown else "'" + shown.replace("'", "''") + "'"


def needs_quotes(text: str, start: int, in_flow: bool, what: str) -> Slip:
    """The value at ``start`` means something to YAML that the writer did not mean."""
    end = value_end(text, start, in_flow)
    value = text[start:end].rstrip()
    hint = f"put quotes around the whole value: {quoted(value)}"
    if value in (">", ">-", ">+"):
        hint = f"write the text behind the colon without the `{value}`; it may go on in the lines below, indented"
    return Slip(Code.DATA_QUOTE, what, start, start + max(1, len(value)), hint, (start, end))


def starts_with(sign: str) -> str:
    """The message for a value that begins with a sign of YAML's own."""
    return f"a value starts with `{sign}`, which YAML {STARTS[sign]}"


def too_deep(start: int) -> Slip:
    hint = "write it flatter: give a part a name of its own and use the name here"
    return Slip(Code.DATA_DEEP, f"nested deeper than {DEEPEST} levels", start, start + 1, hint)


def value_in_braces(text: str, start: int, in_flow: bool) -> Slip:
    """A ``{= … }`` where YAML takes the brace for the start of a mapping."""
    what = "a value starts with `{=`, which YAML takes for a mapping"
    if not text.startswith("{=", start):
        what = "a `{=` inside brackets, which YAML takes for a mapping"
    return needs_quotes(text, start, in_flow, what)


def value_end(text: str, start: int, in_flow: bool) -> int:
    end = line_end(text, start)
    if not in_flow:
        return end
    inside = re.compile(r"(?:\{=[^}\n]*\}|[^,\]}\n])*").match(text, start)
    return max(start + 1, inside.end()) if inside else end
