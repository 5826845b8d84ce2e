"""The formula language: parse, check kinds, print back, and turn into plain data.

No evaluation here; the plan does that. Nothing in this room knows what a name stands for.
"""

from chalkfold.formula.check import Check, check_kinds, parse_check
from chalkfold.formula.data import from_data, to_data
from chalkfold.formula.expression import (
    Apply,
    BySize,
    Expression,
    Literal,
    Name,
    apply,
    key_of,
    length,
    place_of,
    plain,
)
from chalkfold.formula.kinds import kind_of
from chalkfold.formula.names import parse_name
from chalkfold.formula.parser import parse
from chalkfold.formula.printing import to_readers, to_text
from chalkfold.formula.prose import Prose, Value, parse_prose
from chalkfold.formula.signatures import PRIMITIVES, Primitive, is_written
from chalkfold.formula.walking import fold, parts_of

__all__ = [
    "PRIMITIVES",
    "Apply",
    "BySize",
    "Check",
    "Expression",
    "Literal",
    "Name",
    "Primitive",
    "Prose",
    "Value",
    "apply",
    "check_kinds",
    "fold",
    "from_data",
    "is_written",
    "key_of",
    "kind_of",
    "length",
    "parse",
    "parse_check",
    "parse_name",
    "parse_prose",
    "parts_of",
    "place_of",
    "plain",
    "to_data",
    "to_readers",
    "to_text",
]
