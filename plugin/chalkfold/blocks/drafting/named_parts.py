"""The points or the edges of one piece: each by its name, with what is said of a name that is not there."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import ClassVar

from chalkfold.blocks.desk import Desk
from chalkfold.diagnostics import Code, near
from chalkfold.formula import Name, key_of
from chalkfold.reading import Text


@dataclass
class NamedParts:
    """``names`` holds the spelling of each by key; ``broken`` the keys of those that were faulty and are reported."""

    what: ClassVar[str]
    piece: str
    desk: Desk
    names: dict[str, str] = field(default_factory=dict)
    broken: set[str] = field(default_factory=set)

    def step_name(self, key: str) -> str:
        return f"{self.what} {self.names[key]} of {self.piece}"

    def find(self, said: Text) -> Name | None:
        """The step of the one called so; None after a fault, or silently where it was itself faulty."""
        key = key_of(said.value)
        if key in self.broken:
            return None
        if key in self.names:
            return Name(self.step_name(key), said.span())
        likely = near(said.value, self.names.values())
        known = ", ".join(self.names.values()) or "none yet"
        hint = f"did you mean `{likely}`?" if likely else f"its {self.what}s are: {known}"
        message = f"{self.piece} has no {self.what} called `{said.value}`"
        self.desk.faults.add_once(Code.DRAFT, message, said.span(), hint)
        return None
