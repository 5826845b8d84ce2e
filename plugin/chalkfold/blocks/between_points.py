"""``A to B of skirt``: the straight distance between two points of a piece, laid down when a formula asks for it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.sewing.laps import OVERLAP
from chalkfold.diagnostics import Code, Span, near
from chalkfold.formula import Apply, Name
from chalkfold.plan import Scope, Step


class DeskScope(Scope):
    """The steps of the blocks, and with them the distance between any two points of a piece."""

    def __init__(
        self, steps: Mapping[str, Step], broken: Collection[str], all_measures_broken: bool, laps_lost: bool
    ) -> None:
        """``laps_lost`` says that a seam was faulty, which may have been the lap of an ``overlap at EDGE``."""
        super().__init__(steps, broken, all_measures_broken)
        self.laps_lost = laps_lost

    def find(self, key: str) -> Step | None:
        found = super().find(key)
        if found is not None:
            return found
        for first, last, piece in _splits(key):
            ends = self.steps.get(_point(first, piece)), self.steps.get(_point(last, piece))
            if ends[0] is not None and ends[1] is not None:
                start, end = (Name(step.name, step.span) for step in ends if step is not None)
                name = f"{_called(ends[0])} to {_called(ends[1])} of {ends[0].origin.where.removeprefix('piece ')}"
                return Step(name, Apply("distance", (start, end), ends[0].span), ends[0].span, ends[0].origin)
        return None

    def is_broken(self, key: str) -> bool:
        pairs = ((first, last, piece) for first, last, piece in _splits(key))
        if super().is_broken(key) or (self.laps_lost and key.startswith(OVERLAP)):
            return True
        return any(_point(end, piece) in self.broken for first, last, piece in pairs for end in (first, last))

    def why_missing(self, key: str, said: Span) -> tuple[Code, str, Span, str] | None:
        """One of the two is a point of the piece, and the other is not."""
        for first, last, piece in _splits(key):
            there = [end for end in (first, last) if _point(end, piece) in self.steps]
            if len(there) == 1:
                missing = last if there[0] == first else first
                known = [
                    _called(step)
                    for each, step in self.steps.items()
                    if each.endswith(f" of {piece}") and step.kind is Kind.POINT
                ]
                likely = near(missing, known)
                hint = f"did you mean `{likely}`?" if likely else f"its points are: {', '.join(known)}"
                return Code.PLAN_UNKNOWN, f"{piece} has no point called `{missing}`", said, hint
        return None


def _splits(key: str) -> Iterator[tuple[str, str, str]]:
    """Every way to read ``A to B of PIECE``."""
    names, _, piece = key.rpartition(" of ")
    words = names.split(" to ")
    for at in range(1, len(words)):
        yield " to ".join(words[:at]), " to ".join(words[at:]), piece


def _point(name: str, piece: str) -> str:
    return f"point {name} of {piece}"


def _called(step: Step) -> str:
    return step.name.removeprefix("point ").rpartition(" of ")[0]
