"""The plan: names, look-up, order, the primitives, the evaluator, and where each value came from.

Reading yields steps (a name and an expression); the plan orders those that the post reaches and works
them out for every size. Pure: no files, no markup, no sewing words.
"""

from chalkfold.plan.evaluate import rough, work_out
from chalkfold.plan.explain import Found, explain, formulas_of, put_in
from chalkfold.plan.layout import Plan, lay_out, names_in
from chalkfold.plan.steps import (
    Demand,
    Limit,
    Line,
    Manner,
    Origin,
    Part,
    Product,
    Scope,
    Shown,
    Step,
    Style,
    Value,
)
from chalkfold.plan.views import (
    CAUTIONS,
    Choice,
    Drawing,
    DrawnEdge,
    Fact,
    Facts,
    Frame,
    Group,
    Hem,
    Listing,
    Mark,
    Ruler,
    Shaping,
    Table,
    TapeCheck,
    TapeChecks,
    View,
)
from chalkfold.plan.worked import Sizes, Values

__all__ = [
    "CAUTIONS",
    "Choice",
    "Demand",
    "Drawing",
    "DrawnEdge",
    "Fact",
    "Facts",
    "Found",
    "Frame",
    "Group",
    "Hem",
    "Limit",
    "Line",
    "Listing",
    "Manner",
    "Mark",
    "Origin",
    "Part",
    "Plan",
    "Product",
    "Ruler",
    "Scope",
    "Shaping",
    "Shown",
    "Sizes",
    "Step",
    "Style",
    "Table",
    "TapeCheck",
    "TapeChecks",
    "Value",
    "Values",
    "View",
    "explain",
    "formulas_of",
    "lay_out",
    "names_in",
    "put_in",
    "rough",
    "work_out",
]
