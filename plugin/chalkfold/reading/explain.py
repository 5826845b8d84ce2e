"""Why the parser stopped: the text around the place says which slip it was.

The parser says that it stopped, where, and what it was doing; none of its words reach the reader. Each rule
looks at the stop and names its slip or passes; the first that knows it has the say.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property

import yaml

from chalkfold.diagnostics import Code
from chalkfold.reading.slips import (
    LONGEST_SHOWN,
    NO_KEY,
    NO_KEY_HINT,
    STARTS,
    Slip,
    line_end,
    needs_quotes,
    quoted,
    starts_with,
    too_deep,
    value_end,
    value_in_braces,
)


@dataclass(frozen=True)
class Stop:
    """Where the parser gave up: at ``at``, inside something that began at ``since``."""

    text: str
    at: int
    since: int
    doing: str
    problem: str
    in_flow: bool

    @staticmethod
    def of(error: yaml.MarkedYAMLError, text: str, in_flow: bool) -> Stop:
        at = error.problem_mark.index if error.problem_mark else 0
        since = error.context_mark.index if error.context_mark else at
        at, since = min(at, len(text)), min(since, len(text))
        return Stop(text, at, since, error.context or "", error.problem or "", in_flow)

    @cached_property
    def line_start(self) -> int:
        return self.text.rfind("\n", 0, self.at) + 1

    @cached_property
    def line_end(self) -> int:
        return line_end(self.text, self.at)

    @cached_property
    def before(self) -> str:
        """The line up to the place, without blanks at its end."""
        return self.text[self.line_start : self.at].rstrip()

    def value_start(self) -> int:
        """Where the value that holds the place begins: after the last ``: ``, ``- ``, comma or bracket."""
        cut = r"[,\[{]\s*|:\s+" if self.in_flow else r"^\s*(?:-\s+)*(?:[^:\n]*?:\s+)?"
        ends = [m.end() for m in re.finditer(cut, self.text[self.line_start : self.at])]
        return self.line_start + (ends[-1] if ends else 0)


def explain(stop: Stop) -> Slip:
    """Name the slip that made the parser stop."""
    found = (slip for rule in RULES if (slip := rule(stop)))
    return next(found, None) or _unreadable(stop)


def _unreadable(stop: Stop) -> Slip:
    return Slip(
        Code.DATA_SYNTAX,
        "this line cannot be read",
        stop.at,
        max(stop.at, stop.line_end),
        "write `key: value`, one to a line, and put quotes around text that holds punctuation",
        sure=False,
    )


def _deep(stop: Stop) -> Slip | None:
    """The parser has a limit of its own, and may come to it before the nodes come to ours."""
    return too_deep(stop.at) if "flow level" in stop.doing else None


def _braces(stop: Stop) -> Slip | None:
    """``{= x } wide`` unquoted, or a ``{=`` anywhere inside brackets."""
    at = stop.text.rfind("{=", stop.line_start, min(stop.at + 2, stop.line_end))
    if at < 0 or "quoted" in stop.doing:
        return None
    here = Stop(stop.text, at, at, "", "", stop.in_flow)
    start = here.value_start()
    return value_in_braces(stop.text, start, stop.in_flow) if stop.in_flow or start == at else None


def _directive(stop: Stop) -> Slip | None:
    if "directive" not in stop.doing and stop.text[stop.line_start : stop.line_start + 1] != "%":
        return None
    return needs_quotes(stop.text, stop.line_start, False, starts_with("%"))


def _colon(stop: Stop) -> Slip | None:
    if "mapping values" not in stop.problem:
        return None
    start = stop.value_start()
    whole = (start, stop.line_end)
    if re.search(r":\s", stop.before) or stop.before.endswith(":"):
        value = stop.text[start : stop.line_end]
        hint = f"put quotes around the text: {quoted(value)}"
        return Slip(Code.DATA_COLON, "a colon in plain text", stop.at, stop.at + 1, hint, whole)
    return _out_of_line(stop)


def _out_of_line(stop: Stop) -> Slip:
    """A key that YAML joins to the line above, which is less indented or has no colon."""
    first = stop.line_start + len(stop.before) - len(stop.before.lstrip())
    above = stop.text.rfind("\n", 0, max(0, stop.line_start - 1)) + 1
    over = stop.text[above : stop.line_start].rstrip()
    over_start = above + len(over) - len(over.lstrip())
    if first - stop.line_start <= over_start - above and over:
        return _colon_missing(stop.text, over_start, above + len(over))
    hint = "start it in the column of the key above; put quotes around text that runs on with a colon"
    return Slip(Code.DATA_SYNTAX, "this line stands too far to the right", first, stop.at, hint, sure=False)


def _start(stop: Stop) -> Slip | None:
    """A value that begins with a sign of YAML's own."""
    for at in (stop.since, stop.at):
        sign = stop.text[at : at + 1]
        before = stop.text[stop.text.rfind("\n", 0, at) + 1 : at].rstrip()
        begins = not before or before[-1] in ":,[{-"
        signs = "scanning" in stop.doing or "node" in stop.doing or "not allowed" in stop.problem
        if sign in STARTS and sign and begins and signs:
            if sign in ",]}":
                return _nothing_before(at, sign)
            return needs_quotes(stop.text, at, stop.in_flow, starts_with(sign))
    return None


def _nothing_before(at: int, sign: str) -> Slip:
    hint = f"take the `{sign}` out, or write the value that is missing in front of it"
    return Slip(Code.DATA_SYNTAX, f"nothing stands before this `{sign}`", at, at + 1, hint, sure=False)


def _open_quote(stop: Stop) -> Slip | None:
    if "quoted scalar" not in stop.doing or "escape" in stop.problem or "escape" in stop.doing:
        return None
    sign = stop.text[stop.since : stop.since + 1]
    hint = f"close the text with {sign}"
    if sign == "'":
        hint += "; put double quotes around text that starts with an apostrophe"
    end = line_end(stop.text, stop.since)
    return Slip(Code.DATA_SYNTAX, "a quote is opened and never closed", stop.since, end, hint, sure=False)


def _escape(stop: Stop) -> Slip | None:
    if "quoted scalar" not in stop.doing:
        return None
    start = stop.text.rfind("\\", stop.since, stop.at + 1)
    start = stop.at if start < 0 else start
    hint = "write the backslash twice, or use single quotes: 'like this'"
    message = "a backslash in double quotes starts a code that YAML does not have"
    return Slip(Code.DATA_SYNTAX, message, start, start + 2, hint, (start, min(start + 2, stop.line_end)))


def _after_close(stop: Stop) -> Slip | None:
    """Words behind a closing quote or bracket: ``"M" size``, ``[a, b] wide``."""
    last = stop.before[-1:]
    if last not in ("'", '"', "]", "}") or not last or stop.at >= stop.line_end:
        return None
    start = stop.value_start()
    what = "quote" if last in "'\"" else "bracket"
    end = value_end(stop.text, start, stop.in_flow)
    value = stop.text[start:end].rstrip()
    hint = f"put quotes around the whole value: {quoted(value)}"
    message = f"text goes on after the closing {what}"
    return Slip(Code.DATA_QUOTE, message, stop.at, max(stop.at + 1, start + len(value)), hint, (start, end))


def _bracket(stop: Stop) -> Slip | None:
    if "flow" not in stop.doing:
        return None
    opened = stop.text[stop.since : stop.since + 1]
    if opened not in ("[", "{"):
        return None
    close = "]" if opened == "[" else "}"
    if stop.text.find("\n", stop.since, stop.at) < 0 and stop.at < stop.line_end:
        hint = f"write a comma or `{close}` here, or put quotes around text that holds `:` or brackets"
        message = f"a comma or `{close}` is missing"
        return Slip(Code.DATA_SYNTAX, message, stop.at, stop.at + 1, hint, sure=False)
    message = f"a `{opened}` is opened and never closed"
    hint = f"write `{close}` at its end"
    return Slip(Code.DATA_SYNTAX, message, stop.since, line_end(stop.text, stop.since), hint, sure=False)


def _no_key(stop: Stop) -> Slip | None:
    if stop.before or stop.text[stop.at : stop.at + 1] != ":":
        return None
    return Slip(Code.DATA_SYNTAX, NO_KEY, stop.at, stop.at + 1, NO_KEY_HINT)


def _no_colon(stop: Stop) -> Slip | None:
    if "simple key" not in stop.doing:
        return None
    return _colon_missing(stop.text, stop.since, line_end(stop.text, stop.since))


def _colon_missing(text: str, start: int, end: int) -> Slip:
    line = text[start:end].rstrip()
    glued = re.match(r"([^\s:]+):(?=\S)", line)
    if glued:
        hint = f"write a space after the colon: `{glued[1]}: {line[glued.end() :][:LONGEST_SHOWN]}`"
    else:
        hint = f"write a colon and a space after the key: `{line[:LONGEST_SHOWN]}: …`"
    end = start + max(1, len(line))
    return Slip(Code.DATA_SYNTAX, "a key without a colon and a space", start, end, hint, (start, end))


def _indent(stop: Stop) -> Slip | None:
    if stop.before.strip() or not ("block" in stop.doing or "document start" in stop.problem):
        return None
    dash = stop.text.startswith("- ", stop.at)
    mixed = dash != stop.text.startswith("- ", stop.since)
    if "block" in stop.doing and mixed:
        message = "a list item among keys" if dash else "a key among list items"
        hint = "indent it under the key it belongs to"
    else:
        message = "this line does not line up with the ones above"
        hint = "start it in the same column as the other keys or items of its group"
    return Slip(Code.DATA_SYNTAX, message, stop.at, max(stop.at + 1, stop.line_end), hint, sure=False)


RULES = (
    _deep,
    _braces,
    _directive,
    _colon,
    _start,
    _open_quote,
    _escape,
    _after_close,
    _bracket,
    _no_key,
    _no_colon,
    _indent,
)
