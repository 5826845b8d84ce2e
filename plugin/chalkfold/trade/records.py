"""One record for each thing a site keeps: size chart, formula book, and goods (donor, cloth, notion)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Span
from chalkfold.formula import BySize, Expression
from chalkfold.trade.care import Care

if TYPE_CHECKING:  # a build that makes nothing again needs no plan
    from chalkfold.plan import Step


@dataclass(frozen=True, slots=True)
class Measure:
    """A body measure of a chart: its step (one value a size) and how it is taken."""

    step: Step
    how: str


@dataclass(frozen=True, slots=True)
class Chart:
    """A size chart. Measures are found by key; their names are those of ISO 8559-1 where it has one."""

    name: str
    title: str
    made_for: str
    sizes: tuple[str, ...]
    measures: Mapping[str, Measure]
    note: str
    source: str
    broken: frozenset[str] = frozenset()
    """Keys of measures that were faulty and are reported already; so in a book."""


@dataclass(frozen=True, slots=True)
class Expected:
    """A number that a book leaves to the post."""

    name: str
    kind: Kind | None
    note: str
    span: Span


@dataclass(frozen=True, slots=True)
class Book:
    """Formulas that several posts share.

    ``purpose`` is what a post uses it for, where it uses one book for several things; it then stands before every name,
    and ``plainly`` leads from the key of each name in the file to that name.
    """

    name: str
    title: str
    expects: Mapping[str, Expected]
    numbers: Mapping[str, Step]
    note: str
    source: str
    broken: frozenset[str] = frozenset()
    purpose: str = ""
    plainly: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Goods:
    """A donor, a cloth or a notion: named amounts (some by its own sizes) and texts.

    ``amounts`` maps a key to the name as written and an expression; ``texts`` a key to a text.
    """

    kind: str
    name: str
    title: str
    sizes: tuple[str, ...]
    amounts: Mapping[str, tuple[str, Expression, Span]]
    texts: Mapping[str, str]
    care: Care = field(default_factory=dict)
    """In five fields; a note on it is the text ``care``."""
    own: bool = True
    """Whether it stands among the site's files; False for what ships with the tool."""

    def amount(self, key: str, size: str | None) -> tuple[str, Expression, Span] | None:
        """The amount ``key``, for one of the goods' own sizes where it has them."""
        found = self.amounts.get(key)
        if found is None:
            return None
        name, expression, span = found
        if isinstance(expression, BySize):
            case = next((e for label, e in expression.cases if label == size), None)
            return None if case is None else (name, case, span)
        return found
