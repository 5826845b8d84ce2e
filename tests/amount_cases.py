"""What the tests of amounts share: the tables of ``spec/amounts.md`` and a few short words."""

import re
from pathlib import Path

from chalkfold.amounts import Rounding, read_rounding, scan
from chalkfold.diagnostics import Faults, Source, Span
from chalkfold.reading import Text

HERE = Path(__file__).parent


def text(value: str) -> Text:
    return Text(value, Span(Source("a.md", value), 0, len(value)))


def cases(heading: str) -> list[tuple[str, ...]]:
    """The rows of the table under a heading of the page of cases."""
    page = (HERE / "spec" / "amounts.md").read_text("utf-8")
    section = re.split(r"^## ", page, flags=re.M)
    body = next(part for part in section if part.startswith(f"{heading}\n"))
    rows = [line.strip("|").split("|") for line in body.splitlines() if line.startswith("|")]
    return [tuple(cell.strip() for cell in row) for row in rows[2:]]


def told(faults: Faults) -> list[tuple[str, str, str]]:
    return [(str(fault.code), fault.span.text, fault.hint) for fault in faults]


def millimetres(written: str) -> float:
    amount = scan(written, 0)
    assert amount
    return amount.value


def asked(written: str) -> Rounding | None:
    faults = Faults()
    found = read_rounding(text(written), faults) if written else None
    assert not told(faults)
    return found


def plainly(shown: str) -> str:
    return shown.replace("\N{NO-BREAK SPACE}", " ").replace("\N{NARROW NO-BREAK SPACE}", " ")
