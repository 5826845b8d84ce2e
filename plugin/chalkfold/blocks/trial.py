"""Questions to the plan while a post is still being read: where does a line end, which part lies above it?

The edges that a piece has are settled in reading, so what decides them is worked out beforehand, in every size, from
the steps laid so far. Faults are not told here: the plan of the whole post comes upon the same steps.
"""

from __future__ import annotations

from chalkfold.blocks.desk import Desk
from chalkfold.diagnostics import Faults, Span
from chalkfold.formula import Apply, Expression, Name
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


def unanswered(outline: Name, place: Span, hint: str, desk: Desk) -> None:
    """Say so where an outline can be drawn and yet nothing could be asked of it in reading."""
    desk.want(outline)
    none = Apply("<", (Apply("outline width", (outline,), place), Apply("neg", (Apply("outline width", (outline,)),))))
    message = "this hangs on a number that is not known yet where the piece is parted"
    desk.demand(none, (message,), place, hint)
