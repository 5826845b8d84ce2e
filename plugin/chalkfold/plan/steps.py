"""What reading a post yields for the plan: steps, what they came from, and what must hold."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from chalkfold.amounts import Rounding
from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import Code, Span
from chalkfold.formula import Expression, key_of

Value = float | bool | tuple[Any, ...]
"""A length in mm, an area in mm², an angle in degrees, a plain number; yes or no; a row of lengths, a point, an edge
or an outline.
"""


NOT_SHOWN = frozenset({Kind.POINT, Kind.POINTS, Kind.EDGE, Kind.OUTLINE})
"""Kinds of what is drawn; no text can show one."""


class Limit(StrEnum):
    """What a value may be, checked once it is worked out."""

    ANY = "any"
    NOT_NEGATIVE = "not negative"
    POSITIVE = "more than nothing"


class Style(StrEnum):
    """How a value is printed where its kind alone does not say."""

    USUAL = "usual"
    FINE = "fine"  # radii, edges, equal parts: printed finer than the tape mark
    COUNT = "count"
    PERCENT = "percent"
    FRACTION = "fraction"
    OF_A_CIRCLE = "of a circle"  # ¾ of a circle, a full circle
    TO_BUY = "to buy"  # rounded up to how it is sold


@dataclass(frozen=True, slots=True)
class Manner:
    """How a step's value is printed: its own rounding, if any, and its style."""

    rounding: Rounding | None = None
    style: Style = Style.USUAL


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a step was said: ``the post``, ``book circle skirt``, ``chart house chart`` …"""

    where: str = "the post"
    note: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """An edge of an outline, for messages: what it is called and where it is drawn."""

    name: str
    span: Span


@dataclass(frozen=True, slots=True)
class Step:
    """A name and how its value is found. ``span`` is where the name stands, for faults."""

    name: str
    expression: Expression
    span: Span
    origin: Origin = Origin()
    manner: Manner = Manner()
    limit: Limit = Limit.ANY
    kind: Kind | None = None
    """The kind it must be, where the block or book demands one."""
    why: tuple[str, str] | None = None
    """What is wrong (the value for ``{}``) and what to write where the limit is not kept, if the block knows it better.
    """
    parts: tuple[Part, ...] = ()
    """What ``#0``, ``#1`` … stand for in a message about this step: the edges of an outline."""
    quiet: bool = False
    """The kinds in it are those of other steps, and told there."""

    @property
    def key(self) -> str:
        return key_of(self.name)


@dataclass(frozen=True, slots=True)
class Shown:
    """A value in a text or a cell: the key of its step, and a manner where it differs from the step's own."""

    key: str
    manner: Manner | None = None


@dataclass(frozen=True, slots=True)
class Product:
    """Lengths printed together, as in ``95 × 93.5 cm``: the keys of their steps."""

    keys: tuple[str, ...]


Line = tuple[str | Shown | Product, ...]
"""Running text with values in it."""


@dataclass(frozen=True, slots=True)
class Demand:
    """The step ``key`` (yes or no) must be yes in every size; ``message`` is printed with the values in it.

    Of demands ``about`` one thing only the first that is not met is told; none where a number of it is missing.
    """

    key: str
    message: Line
    span: Span
    hint: str | Line
    about: str = ""
    apart: str | None = None
    """The key of the difference between what should be alike."""
    code: Code = Code.WORK_CHECK


class Scope:
    """A place where names are looked up; this one is a plain table of steps."""

    def __init__(
        self,
        steps: Mapping[str, Step] | None = None,
        broken: Collection[str] = (),
        all_measures_broken: bool = False,
        all_broken: bool = False,
    ) -> None:
        """``broken`` holds keys of names, and of things measured, that were faulty and are reported already.

        ``all_broken`` says that a fault took away names nobody knows, such as those of a book that is not there.
        """
        self.steps: Mapping[str, Step] = steps or {}
        self.broken = broken
        self.all_measures_broken = all_measures_broken
        self.all_broken = all_broken

    def is_broken(self, key: str) -> bool:
        """Whether a fault was reported where this name is defined, so that missing it is no second fault."""
        measured, _, thing = key.rpartition(" of ")
        by_thing = bool(measured) and (self.all_measures_broken or thing in self.broken)
        return self.all_broken or key in self.broken or by_thing

    def find(self, key: str) -> Step | None:
        return self.steps.get(key)

    def names(self) -> Iterable[str]:
        """Every name it could give, for the nearest spelling."""
        return [step.name for step in self.steps.values() if step.kind not in NOT_SHOWN]

    def demanded_kind(self, key: str) -> Kind | None:
        """The kind that this scope expects of a name given elsewhere (a book's ``expects``)."""
        return None

    def why_missing(self, key: str, said: Span) -> tuple[Code, str, Span, str] | None:
        """A better fault than "unknown name", where this scope knows why nothing was found.

        ``said`` is where the formula names it.
        """
        return None
