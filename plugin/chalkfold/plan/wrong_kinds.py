"""Values of the wrong kind: told once, at the number that was typed, with the places that use it."""

from __future__ import annotations

from collections.abc import Mapping

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import MOST_PLACES, Code, Faults, Span
from chalkfold.formula import BySize, Expression, Literal, Name
from chalkfold.formula.expression import place_of
from chalkfold.plan.advice import wrong_kind, wrong_number
from chalkfold.plan.steps import Origin, Step


class WrongKinds:
    """Collects where a kind is due that a step does not have; ``steps`` are all that a post reaches."""

    def __init__(self, steps: Mapping[str, Step], expected: set[str]) -> None:
        """``expected`` holds the keys whose kind a book demands."""
        self.steps = steps
        self.expected = expected
        self.uses: dict[tuple[str, Kind, Kind], list[Span]] = {}
        self.fitting: set[str] = set()

    def fits(self, step: Step) -> None:
        """A number used elsewhere as what it is, is not wrong itself."""
        given = self._given(step)
        if given is not None:
            self.fitting.add(given.key)

    def add(self, step: Step, found: Kind, due: Kind, faults: Faults) -> None:
        """Report a step that is no more than its own formula; keep one that only names a number of the post."""
        place = place_of(step.expression) or step.span
        given = self._given(step)
        if given is not None:
            self.uses.setdefault((given.key, found, due), []).append(place)
            return
        message, hint = wrong_kind(step.name if step.key in self.expected else "", found, due)
        faults.add(Code.FORMULA_KIND, message, place, hint)

    def tell(self, faults: Faults) -> None:
        """Report each number that was kept, where it was typed, or where it is used if it is right elsewhere."""
        for (key, found, due), places in self.uses.items():
            given = self.steps[key]
            if key in self.fitting:
                message, hint = wrong_kind("", found, due)
                for place in places:
                    faults.add(Code.FORMULA_KIND, message, place, hint, related=(("it is given here", given.span),))
                continue
            message, hint = wrong_number(given.name, _unit_left_out(given.expression), found, due)
            related = tuple(("it is used here", place) for place in dict.fromkeys(places))
            place = place_of(given.expression) or given.span
            faults.add(Code.FORMULA_KIND, message, place, hint, related=related[:MOST_PLACES])

    def _given(self, step: Step) -> Step | None:
        """The number of the post that a step only repeats, where it was typed there."""
        here = step
        while isinstance(here.expression, Name) and here.expression.key in self.steps:
            here = self.steps[here.expression.key]
        typed = here.origin.where == Origin().where and " of " not in here.key
        return here if here is not step and typed else None


def _unit_left_out(expression: Expression) -> str:
    """The amount, or that of the first size, where it may be one without its unit: ``20``; else nothing."""
    first = expression.cases[0][1] if isinstance(expression, BySize) else expression
    bare = isinstance(first, Literal) and first.kind is Kind.PLAIN and first.text[-1:].isdigit()
    return first.text if bare and isinstance(first, Literal) else ""
