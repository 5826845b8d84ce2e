"""``sizes``: the body measures that the post uses, and how each is taken."""

from __future__ import annotations

from chalkfold.blocks.desk import Desk, MakeView
from chalkfold.diagnostics import Code
from chalkfold.plan import Plan, Shown, Table, View
from chalkfold.reading import Fields


def read(fields: Fields, desk: Desk) -> MakeView:
    """Needs no keys: the measures are those that the post's numbers lead back to."""
    frame = desk.frame(fields, ("Body measures",))
    fields.finish()
    chart = desk.project.chart
    if chart is None and desk.project.incomplete:
        return lambda plan: Table(frame, (), ())
    if chart is None:
        desk.faults.add(
            Code.BLOCK_PROJECT,
            "this post has no size chart whose measures could be shown",
            fields.whole.where,
            "name one in the `project` block, as in `sizes: house chart`, or take this block out",
        )
        return lambda plan: Table(frame, (), ())

    def view(plan: Plan) -> View:
        used = [(key, measure) for key, measure in chart.measures.items() if key in plan.steps]
        rows = tuple(((measure.step.name,), (Shown(key),), (measure.how,)) for key, measure in used)
        return Table(frame, (("Measure",), ("Yours",), ("How to take it",)), rows, all_sizes=(1,))

    return view
