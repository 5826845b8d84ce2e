"""Amounts: what a number with a unit means, and how it is printed for a tape in either system.

A length is a float in millimetres, an area in mm², an angle in degrees. Both unit systems are printed
from the unrounded value. The one rounding rule of the project lives here.
"""

from chalkfold.amounts.durations import print_minutes, read_minutes, spoken_minutes
from chalkfold.amounts.kinds import Kind
from chalkfold.amounts.language import Language, UnknownLanguage, language
from chalkfold.amounts.literals import AmountTrouble, Scanned, read_amount, scan
from chalkfold.amounts.marks import Marks, Rounding, marked, read_rounding
from chalkfold.amounts.printing import Printed, Printer
from chalkfold.amounts.rounding import decimals, down, to_mark, up
from chalkfold.amounts.units import unit_words

__all__ = [
    "AmountTrouble",
    "Kind",
    "Language",
    "Marks",
    "Printed",
    "Printer",
    "Rounding",
    "Scanned",
    "UnknownLanguage",
    "decimals",
    "down",
    "language",
    "marked",
    "print_minutes",
    "read_amount",
    "read_minutes",
    "read_rounding",
    "scan",
    "spoken_minutes",
    "to_mark",
    "unit_words",
    "up",
]
