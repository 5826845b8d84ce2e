"""How a fault looks in a terminal, and as data."""

from __future__ import annotations

from chalkfold.diagnostics.faults import Fault
from chalkfold.diagnostics.places import Span

LONGEST_LINE = 100


def as_text(fault: Fault) -> str:
    """Print ``file:line:col: what is wrong``, the source line with a caret, and the hint."""
    lines = [f"{fault.span.place}: {_what(fault)} [{fault.code}]", *_excerpt(fault.span)]
    for note, span in fault.related:
        lines += [f"  {span.place}: {note}", *_excerpt(span)]
    lines.append(f"  hint: {fault.hint}")
    return "\n".join(lines)


def as_data(fault: Fault) -> dict[str, object]:
    """The same as plain data, for ``--format json`` and editors."""
    line, column = fault.span.source.line_and_column(fault.span.start)
    return {
        "code": str(fault.code),
        "file": fault.span.source.path,
        "line": line,
        "column": column,
        "length": max(1, fault.span.end - fault.span.start),
        "message": _what(fault),
        "hint": fault.hint,
        "related": [{"place": span.place, "note": note} for note, span in fault.related],
    }


def _what(fault: Fault) -> str:
    if not fault.sizes:
        return fault.message
    return f"{fault.message} ({'size' if len(fault.sizes) == 1 else 'sizes'} {', '.join(fault.sizes)})"


def _excerpt(span: Span) -> list[str]:
    line, column = span.source.line_and_column(span.start)
    text = span.source.line(line)
    if not text.strip():
        return []
    length = max(1, min(span.end - span.start, len(text) - column + 1))
    first = max(0, column - 1 - LONGEST_LINE // 2) if len(text) > LONGEST_LINE else 0
    shown = "".join(c if c.isprintable() else " " for c in text[first : first + LONGEST_LINE])
    caret = " " * (column - 1 - first) + "^" * min(length, LONGEST_LINE)
    return [f"  | {shown}", f"  | {caret}"]
