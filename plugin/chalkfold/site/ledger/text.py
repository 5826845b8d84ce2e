"""A record as text and back: a head, then a paragraph for each number, sorted, one line a fact.

    band length
      from: book waistband
      is: band girth + band lap
      printed: to 5 mm, 1/8 in
      mm: S 900 | M 960.5

Sizes stand before their values for whoever reads a difference; a value that holds for all sizes stands alone.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import isfinite

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Code, Faults, Source, Span
from chalkfold.site.ledger.records import PLACES, Cell, Number, PostRecord

HEADING = "# The numbers of this post as last released. `chalkfold release` writes this file; nobody else should."
UNITS = {
    Kind.LENGTH: "mm",
    Kind.AREA: "mm2",
    Kind.ANGLE: "degrees",
    Kind.WEIGHT: "g/m2",
    Kind.PLAIN: "number",
    Kind.TRUTH: "yes or no",
    Kind.SERIES: "mm each",
    Kind.OUTLINE: "drawn through mm",
}
KINDS = {unit: kind for kind, unit in UNITS.items()}
BETWEEN, BAR, WITHIN = " | ", "|", ";"


def to_text(record: PostRecord) -> str:
    """The file of a record."""
    head = [HEADING, f"file: {record.file}", f"title: {_line(record.title)}"]
    head += [f"size: {size}" for size in record.sizes if record.many]
    paragraphs = [head, *(list(_paragraph(record.numbers[key], record.sizes)) for key in sorted(record.numbers))]
    return "\n\n".join("\n".join(lines) for lines in paragraphs) + "\n"


def _paragraph(number: Number, sizes: Sequence[str]) -> Iterator[str]:
    yield number.name
    yield f"  from: {_line(number.where)}"
    if number.formula:
        yield f"  is: {_line(number.formula)}"
    yield f"  printed: {number.printed}"
    cells = [_cell(value, number.kind) for value in number.values]
    if len(cells) > 1:
        cells = [f"{size.replace(BAR, '/')} {cell}" for size, cell in zip(sizes, cells, strict=True)]
    yield f"  {UNITS[number.kind]}: {BETWEEN.join(cells)}"


def _line(text: str) -> str:
    return " ".join(text.split())


def _cell(value: Cell, kind: Kind) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return WITHIN.join(_decimal(each, kind) for each in value) or "none"
    return _decimal(value, kind)


def _decimal(value: float, kind: Kind) -> str:
    shown = f"{value:.{PLACES[kind]}f}".rstrip("0").rstrip(".")
    return "0" if shown in ("-0", "") else shown


@dataclass
class _Reader:
    """Reads one file, line by line. The first line that no release writes is a fault, and then nothing is read."""

    source: Source
    sizes: list[str]
    numbers: dict[str, Number]
    file: str = ""
    title: str = ""
    current: Number | None = None
    began: Span | None = None
    """Where the number that is being read begins."""

    def read(self) -> Span | None:
        """Return where reading stopped, None at the end."""
        at = 0
        for line in self.source.text.split("\n"):
            here = Span(self.source, at, at + len(line))
            at += len(line) + 1
            if not line.strip() or line.startswith("#"):
                continue
            is_name = not line.startswith("  ") and not self._is_head(line)
            if is_name and not self._close():
                return self.began
            if not self._takes(line):
                return here
            self.began = here if is_name else self.began
        return None if self._close() else self.began

    def _is_head(self, line: str) -> bool:
        return self.began is None and line.startswith(("file: ", "title: ", "size: "))

    def _takes(self, line: str) -> bool:
        key, colon, said = line.partition(": ")
        if line.startswith("  "):
            return bool(colon) and self._fact(key[2:], said)
        if self._is_head(line):
            return self._head(key, said)
        if not self.file:
            return False
        self.current = Number(line, Kind.ZERO, "", "", "", ())
        return True

    def _head(self, key: str, said: str) -> bool:
        if key == "size":
            self.sizes.append(said)
        elif key == "file":
            self.file = said
        else:
            self.title = said
        return True

    def _fact(self, key: str, said: str) -> bool:
        number = self.current
        if number is None:
            return False
        if key in KINDS:
            values = _values(said, KINDS[key], max(1, len(self.sizes)))
            self.current = replace(number, kind=KINDS[key], values=values or ())
            return values is not None
        names = {"from": "where", "is": "formula", "printed": "printed"}
        if key not in names:
            return False
        self.current = replace(number, **{names[key]: said})  # type: ignore[arg-type]  # all three are texts
        return True

    def _close(self) -> bool:
        """Keep the number that was being read; False where it has no value or stood there before."""
        number, self.current = self.current, None
        if number is None:
            return True
        if not number.values or number.key in self.numbers:
            return False
        self.numbers[number.key] = number
        return True


def _values(said: str, kind: Kind, count: int) -> tuple[Cell, ...] | None:
    cells = said.split(BETWEEN)
    alone = len(cells) == 1 and (count == 1 or " " not in cells[0])
    if not alone and len(cells) != count:
        return None
    try:
        return tuple(_value(cell.rpartition(" ")[2], kind) for cell in cells)
    except ValueError:
        return None


def _value(said: str, kind: Kind) -> Cell:
    """Raises ValueError."""
    if kind is Kind.TRUTH:
        return ("no", "yes").index(said) == 1
    if kind in (Kind.SERIES, Kind.OUTLINE):
        return () if said == "none" else tuple(_finite(each) for each in said.split(WITHIN))
    return _finite(said)


def _finite(said: str) -> float:
    found = float(said)
    if not isfinite(found):
        raise ValueError(said)
    return found


def from_text(source: Source, name: str, faults: Faults) -> PostRecord | None:
    """Read a file of the ledger; None after a fault."""
    reader = _Reader(source, [], {})
    stopped = reader.read()
    if stopped is not None or not reader.file:
        hint = "take the last good file of the ledger from your version control, or delete this one and release anew"
        faults.add(Code.SITE_LEDGER, "this line is none that a release writes", stopped or Span(source, 0, 0), hint)
        return None
    return PostRecord(name, reader.file, reader.title, tuple(reader.sizes) or ("",), reader.numbers)
