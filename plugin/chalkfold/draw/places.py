"""Where the labels of a drawing stand, told so that it holds in another size too.

The sample size is laid out first. In the other sizes each label goes to the same place if that is free, so that labels
do not jump about when a reader changes the size, and little is left to look for.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

Place = tuple[float, ...]
"""How a label stands, in numbers: the row of a dimension, the turn and length of a leader, the part of the piece …"""

NOWHERE: Place = ()
"""There is no such place; the label is written in some other way, or not at all."""


@dataclass(slots=True)
class Places:
    """The places of a layer by the key of what is labelled: those of the size before, and those found in this one."""

    before: dict[str, Place] = field(default_factory=dict)
    found: dict[str, Place] = field(default_factory=dict)

    def settle(
        self, key: str, fits: Callable[[Place], bool], search: Callable[[], Place], give_up: bool = True
    ) -> Place:
        """The place of the size before where that fits, else what a search finds; what had no place before is only
        looked for again unless we ``give_up``."""
        before = self.before.get(key)
        again = before is not None and (give_up if before == NOWHERE else fits(before))
        self.found[key] = found = before if before is not None and again else search()
        return found


@dataclass(frozen=True, slots=True, eq=False)
class Placing:
    """All places of a drawing; ``part`` is how large the piece is drawn, 1 being as large as it may be."""

    part: float
    full: dict[str, Place]
    letters: dict[str, Place]


AT_FIRST = Placing(1.0, {}, {})
"""Nothing has a place yet."""
