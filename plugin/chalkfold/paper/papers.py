"""Sizes of paper, and how a large sheet is cut into pages of one.

A4, A3 and A0 are those of ISO 216, Letter that of ANSI/ASME Y14.1 (8 1/2 by 11 in).
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from chalkfold.amounts import AmountTrouble
from chalkfold.amounts.kinds import Kind
from chalkfold.amounts.literals import scan
from chalkfold.diagnostics import near
from chalkfold.draw.paths import Extent

UNITS = 4.0
"""Drawing units a millimetre of paper has."""

MARGIN = 10.0
"""Millimetres at every edge of a page that stay free: few printers reach closer than 6."""

OVERLAP = 10.0
"""Millimetres two neighbouring pages have in common, for glue or tape."""

SMALLEST = (190.0, 250.0)
"""Millimetres across and down of the smallest page: the first one carries a bar of 8 in."""

LARGEST = 5000.0
"""Millimetres of the longest page a PDF can have (200 in)."""

ONE_SHEET = 400.0
"""Paper at least so wide (mm) comes from a plotter: no sheet of it is spent on a title alone."""

BLOCK = (190.0 * UNITS, 256.0 * UNITS)
"""How wide and high, in drawing units, the title block is where it lies on the sheet itself."""

_BETWEEN = re.compile(r"\s*(?:×|x(?=\s*\d)|\bby\b)\s*", re.IGNORECASE)
_UNIT = re.compile(r"[^\W\d_]+\Z|[\"″]\Z")


@dataclass(frozen=True, slots=True)
class Paper:
    """Width and height in mm; the name is how it is called in print."""

    name: str
    width: float
    height: float

    @property
    def window(self) -> tuple[float, float]:
        """What a page shows of the sheet, across and down, in drawing units."""
        return (self.width - 2 * MARGIN) * UNITS, (self.height - 2 * MARGIN) * UNITS

    @property
    def step(self) -> tuple[float, float]:
        """From page to page, in drawing units."""
        across, down = self.window
        return across - OVERLAP * UNITS, down - OVERLAP * UNITS

    @property
    def is_large(self) -> bool:
        return min(self.width, self.height) >= ONE_SHEET

    def core(self, at: tuple[float, float]) -> tuple[int, int]:
        """Column and row of the page that is needed for a place: the strip two pages share belongs to the first."""
        (x, y), (across, down), shared = at, self.step, OVERLAP * UNITS
        return max(0, int((x - shared) // across)), max(0, int((y - shared) // down))

    def shown(self, column: int, row: int) -> Extent:
        """The part of the sheet a page shows, the shared strips included."""
        (across, down), (width, height) = self.step, self.window
        return Extent(column * across, row * down, column * across + width, row * down + height)


PAPERS = {
    "a4": Paper("A4", 210, 297),
    "letter": Paper("Letter", 215.9, 279.4),
    "a3": Paper("A3", 297, 420),
    "a0": Paper("A0", 841, 1189),
}


class NoSuchPaper(Exception):
    """No paper of that name or size; ``hint`` says what to write."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.hint = hint


def paper_of(said: str) -> Paper:
    """The paper of a name (``a4``) or of a size (``36 in x 48 in``). Raises NoSuchPaper."""
    name = " ".join(said.casefold().split())
    if name in PAPERS:
        return PAPERS[name]
    sides = _sides(_BETWEEN.split(said.strip()))
    if len(sides) == 2 and None not in sides:
        width, height = (each for each in sides if each is not None)
        return _own(said, width, height)
    likely = near(name, PAPERS)
    listed = "write one of a4, letter, a3, a0, or a size such as `36 in x 48 in`"
    raise NoSuchPaper(f"there is no paper `{said}`", f"did you mean {likely}?" if likely else listed)


def _own(said: str, width: float, height: float) -> Paper:
    if width < SMALLEST[0] or height < SMALLEST[1]:
        message = f"paper of {said} is too small: the first page carries a bar of 20 cm to measure"
        raise NoSuchPaper(message, "write a paper of at least 19 cm x 25 cm, width first, such as a4")
    if max(width, height) > LARGEST:
        raise NoSuchPaper(f"paper of {said} is too large: a page has 5 m at most", "write `36 in x 150 in`, say")
    return Paper(" ".join(said.split()), width, height)


def _sides(said: list[str]) -> list[float | None]:
    """Every side in mm; one without a unit has that of the last."""
    unit = _UNIT.search(said[-1])
    return [_side(each) or (_side(f"{each} {unit[0]}") if unit else None) for each in said]


def _side(said: str) -> float | None:
    """A length in mm, or None where it is none."""
    try:
        found = scan(said, 0)
    except AmountTrouble:
        return None
    whole = found is not None and found.kind is Kind.LENGTH and found.end == len(said)
    return found.value if found is not None and whole else None
