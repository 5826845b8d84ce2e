"""The site file ``chalkfold.yml``."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Literal

from chalkfold.amounts import Language, Marks, Printer, UnknownLanguage, language, read_amount
from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Code, Faults
from chalkfold.reading import Fields, Mapping, Text
from chalkfold.trade.files import read_mapping

SITE_FILE = "chalkfold.yml"


@dataclass(frozen=True, slots=True)
class Settings:
    """What a site says of itself. ``main_unit`` is ``cm`` or ``in``, the one printed first."""

    title: str = "Untitled"
    address: str = ""
    language: Language = field(default_factory=lambda: language("en-GB"))
    theme: str = "calico"
    main_unit: Literal["cm", "in"] = "cm"
    marks: Marks = field(default_factory=Marks)
    paper: str = "a4"
    allowed: tuple[str, ...] = ()
    """Phrases with a measure in them, such as names of goods, that may stand in text as they are."""

    @property
    def printer(self) -> Printer:
        return Printer(self.language, self.main_unit, self.marks)

    @property
    def mark(self) -> float:
        """The tape mark (mm) of the main unit, for ``marked( )``."""
        return self.marks.metric if self.main_unit == "cm" else float(self.marks.inch) * 25.4


def read_settings(folder: Path, faults: Faults) -> Settings:
    """Read the site file in ``folder``; what is wrong is reported and keeps its default."""
    found = read_mapping(folder / SITE_FILE, SITE_FILE, "title: Tidewater Mending Room", faults, folder)
    if found is None:
        return Settings()
    fields = Fields(found[1], faults, "the site file")
    title, address, theme = fields.required_text("title"), fields.text("address"), fields.text("theme")
    units = fields.choice("units", ("cm first", "in first"))
    paper = fields.choice("paper", ("a4", "letter", "a3", "a0"))
    spoken = _language(fields.text("language"), faults)
    marks = _marks(fields.mapping("tape marks"), faults)
    allowed = tuple(text.value for text in fields.texts("numbers allowed in text"))
    fields.finish()
    return Settings(
        title.value if title else "Untitled",
        address.value.rstrip("/") if address else "",
        spoken,
        theme.value if theme else "calico",
        "in" if units == "in first" else "cm",
        marks,
        paper or "a4",
        allowed,
    )


def _language(said: Text | None, faults: Faults) -> Language:
    if said is None:
        return language("en-GB")
    try:
        return language(said.value)
    except UnknownLanguage as unknown:
        faults.add(Code.SITE_SETTING, f"`{said.value}` is no language tag", said.span(), unknown.hint)
        return language("en-GB")


def _marks(said: Mapping | None, faults: Faults) -> Marks:
    usual = Marks()
    if said is None:
        return usual
    fields = Fields(said, faults, "`tape marks`")
    centimetres, inches = fields.text("cm"), fields.text("in")
    fields.finish()
    return Marks(
        usual.metric if centimetres is None else _mark(centimetres, 10, faults) or usual.metric,
        usual.inch if inches is None else _inches(inches, faults) or usual.inch,
    )


def _inches(said: Text, faults: Faults) -> Fraction | None:
    millimetres = _mark(said, 25.4, faults)
    return None if millimetres is None else Fraction(millimetres / 25.4).limit_denominator(64)


def _mark(said: Text, unit: float, faults: Faults) -> float | None:
    """A tape mark in mm; a bare number is in the unit of its key (``unit`` mm)."""
    amount = read_amount(said, faults, (Kind.PLAIN, Kind.LENGTH))
    if amount is None:
        return None
    millimetres = amount.value * unit if amount.kind is Kind.PLAIN else amount.value
    if not 0.1 <= millimetres <= 100:
        faults.add(
            Code.SITE_SETTING,
            "a tape mark lies between 0.1 mm and 10 cm",
            said.span(),
            "write `tape marks: {in: 1/8, cm: 0.5}`",
        )
        return None
    return millimetres
