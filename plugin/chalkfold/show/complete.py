"""Whether a view of a post with faults has all that it is drawn from. A table has a dash for what is missing."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.plan import Drawing, Group, Listing, Ruler, Values, View


def is_complete(view: View, values: Values) -> bool:
    """Whether every value that a view cannot do without is there, in every size."""
    return all(None not in values.row(key) for key in _needed(view))


def _needed(view: View) -> Iterator[str]:
    match view:
        case Group():
            for each in view.views:
                yield from _needed(each)
        case Ruler():
            yield from filter(None, (view.length, view.marks, view.width))
        case Listing():
            yield from (key for _, key in view.columns)
        case Drawing():
            yield from _drawn(view)
        case _:
            return


def _drawn(view: Drawing) -> Iterator[str]:
    yield from (view.outline, view.cutting, view.grain)
    for edge in view.edges:
        keys = (edge.edge, edge.drawn, edge.whole, edge.allowance, edge.radius, edge.cut_radius, edge.centre, edge.sewn)
        yield from filter(None, keys)
    for mark in view.marks:
        yield from filter(None, (mark.point, mark.edge, mark.end, mark.across))
    yield from (key for line in view.lines for key in line[1:])
    yield from (key for shaping in view.shapings for key in shaping.keys)
    yield from (hem.ease for hem in view.hems)
    checks = view.checks
    for check in (*checks.diagonals.values(), *checks.widths, *checks.along.values()):
        yield from filter(None, (check.edge, check.start, check.end))
