"""Questions to the plan while a post is still being read: where does a line end, which part lies above it?

The edges that a piece has are settled in reading, so what decides them is worked out beforehand, in every size, from
the steps laid so far. Faults are not told here: the plan of the whole post comes upon the same steps.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce

from chalkfold.blocks.desk import Desk
from chalkfold.diagnostics import Faults, Span
from chalkfold.formula import Expression, Name, apply
from chalkfold.plan import Scope, Value, lay_out, work_out
from chalkfold.trade.scopes import BookScope, ChartScope, RoleScope

Row = tuple[Value | None, ...]


def asked(desk: Desk, *names: Name) -> list[Row]:
    """The values of some steps in every size; None where one cannot be worked out yet, or not at all."""
    silent, project = Faults(), desk.project
    scopes = [
        Scope(project.numbers),
        Scope(desk.steps),
        BookScope(project.books, silent),
        RoleScope(project.roles),
        ChartScope(project.chart),
    ]
    plan = lay_out(scopes, names, project.sizes, silent)
    values = work_out(plan, desk.shelf.settings.mark, silent)
    return [values.row(name.key) for name in names]


def answers(desk: Desk, place: Span, *questions: Expression) -> list[Row]:
    """The same of formulas."""
    names = [desk.step(f"= asked {len(desk.steps)}", question, place) for question in questions]
    return asked(desk, *names)


def unanswered(questions: Sequence[Expression], place: Span, hint: str, desk: Desk) -> None:
    """Say so where numbers can be worked out and yet could not be in reading; else it is told why they cannot."""
    numbers = [desk.hidden(question, place) for question in questions]
    first, *others = (apply("<", number, number) for number in numbers)
    never = reduce(lambda met, other: apply("or", met, other), others, first)
    message = "this hangs on a number that is not known yet where the piece is parted"
    desk.demand(never, (message,), place, hint)
