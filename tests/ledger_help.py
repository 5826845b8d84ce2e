"""A small site with a book that two posts share, and the commands run on it."""

from __future__ import annotations

import re
from pathlib import Path

from click.testing import CliRunner

from chalkfold.cli import main
from site_help import post, write

BOOK = """title: Round things
numbers:
  rim radius: rim / (2 * pi)
  cut radius: rim radius + seam
  band length: rim + 2 * seam
"""

CUSHION = post(
    "A round cushion",
    """```project
sizes: [small, large]
books: [round things]
numbers:
  rim: {small: 100 cm, large: 140 cm}
  seam: 1 cm
```

Swing the tape at {= cut radius } and cut a strip {= band length } long.""",
)
POUFFE = post(
    "A pouffe",
    """```project
sizes: none
books: [round things]
numbers:
  rim: 180 cm
  seam: 2 cm
  strips: 12
```

Cut {= strips } strips and a lid with a radius of {= cut radius }.""",
    day="2026-05-02",
)
APRON = post("An apron", "```project\nsizes: none\nnumbers:\n  strap: 60 cm\n```\n\nCut a strap of {= strap }.")
SITE = {
    "chalkfold.yml": "title: Tidewater Mending Room\naddress: https://tidewater.example\n",
    "books/round things.yml": BOOK,
    "posts/cushion.md": CUSHION,
    "posts/pouffe.md": POUFFE,
    "posts/apron.md": APRON,
}


MADE = """```project
sizes: [S, L]
numbers:
  side: {S: 30 cm, L: 40 cm}
  tape: 15 mm
  strap: 90 cm
```

```draft
piece: flap
cut: 1 in main
points:
  A: here
  B: {from: A, across: side}
  C: {from: B, down: 20 cm}
  D: {from: A, down: 20 cm}
  hole: {from: A, across: 10 cm, down: 5 cm}
outline: {start: A, top: line to B, right: line to C, bottom: line to D, left: line to A}
allowances: {all: 1 cm}
marks:
  - drill at hole
```

```materials
items:
  - item: tape, {= tape } wide
    length: strap
    sold in: 10 cm
  - item: buttons
    count: 3
```
"""


def chalkfold(*arguments: str | Path) -> tuple[int, str]:
    """Exit status and all that is printed; how long a build took is left out."""
    result = CliRunner().invoke(main, [str(each) for each in arguments])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result.exit_code, plain(re.sub(r" \(\d+\.\d s\)", "", result.output))


def plain(text: str) -> str:
    """With the usual space for each that keeps a line together."""
    return re.sub("[\N{NO-BREAK SPACE}\N{NARROW NO-BREAK SPACE}\N{THIN SPACE}]", " ", text)


def changes(site: Path, *more: str) -> tuple[int, str]:
    return chalkfold("changes", site, "--date", "2026-06-01", *more)


def release(site: Path, note: str, *more: str, day: str = "2026-06-01") -> tuple[int, str]:
    return chalkfold("release", site, "--note", note, "--date", day, *more)


def released(folder: Path, files: dict[str, str] = SITE) -> Path:
    """A site that was released once."""
    status, said = release(write(folder, files), "The first.", day="2026-05-20")
    assert status == 0, said
    return folder


def mend(site: Path, file: str, old: str, new: str) -> None:
    text = (site / file).read_text("utf-8")
    assert text.count(old) == 1, (file, old)
    (site / file).write_text(text.replace(old, new), "utf-8")


def ledger(site: Path) -> dict[str, str]:
    """Every file of the ledger with its text."""
    top = site / "ledger"
    return {path.relative_to(top).as_posix(): path.read_text("utf-8") for path in top.rglob("*") if path.is_file()}
