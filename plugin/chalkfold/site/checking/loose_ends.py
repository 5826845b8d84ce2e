"""What a tutorial leaves out: finished measures, a list to cut from, a use for every number."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from chalkfold.diagnostics import Code, Span
from chalkfold.plan import Step, names_in
from chalkfold.site.checking.look import Look

MOST_NAMES = 4


def check(look: Look) -> None:
    if look.sound and look.page.kind == "post":
        _finished(look)
        _never_cut(look)
        _unused(look)


def _finished(look: Look) -> None:
    """Only what has pieces is a tutorial; news of the workshop need no measures."""
    desk = look.worked.reading.desk
    if not desk.pieces or desk.project.finished is not None:
        return
    project = next((fence.span for fence, _ in look.worked.views if fence.name == "project"), None)
    place = Span(look.source, 0, 0) if project is None else _first_line(project)
    hint = "add `finished:` to the `project` block, and below it lines such as `length: height of skirt`"
    look.found.add(Code.MISLEADS_FINISHED, "this post does not say how large the finished thing is", place, hint)


def _first_line(span: Span) -> Span:
    end = span.source.text.find("\n", span.start, span.end)
    return Span(span.source, span.start, span.end if end < 0 else end)


def _never_cut(look: Look) -> None:
    pieces = list(look.worked.reading.desk.pieces.values())
    if not pieces or any(fence.name == "cut-list" for fence, _ in look.worked.views):
        return
    named = ", ".join(f"`{piece.name}`" for piece in pieces[:MOST_NAMES])
    more = f" and {len(pieces) - MOST_NAMES} more" if len(pieces) > MOST_NAMES else ""
    are = "is" if len(pieces) == 1 else "are"
    message = f"{named}{more} {are} drafted, and nothing in this post tells to cut {'it' if are == 'is' else 'them'}"
    hint = "write an empty `cut-list` block where the reader cuts; it lists every piece"
    look.found.add(Code.MISLEADS_NOT_CUT, message, pieces[0].span, hint)


def _unused(look: Look) -> None:
    desk, steps = look.worked.reading.desk, look.worked.plan.steps
    used = _reached((name.key for name in desk.wanted.values()), steps)
    idle = {key: step for key, step in desk.project.numbers.items() if key not in used}
    built_on = {name.key for step in idle.values() for name in names_in(step.expression)}
    for key, step in idle.items():
        if key not in built_on:
            hint = f"show it with `{{= {step.name} }}`, use it in a formula, or take it out"
            look.found.add(Code.MISLEADS_UNUSED, f"nothing shows or uses `{step.name}`", step.span, hint)


def _reached(wanted: Iterable[str], steps: Mapping[str, Step]) -> set[str]:
    found: set[str] = set()
    waiting = list(wanted)
    while waiting:
        key = waiting.pop()
        if key not in found and key in steps:
            found.add(key)
            waiting += [name.key for name in names_in(steps[key].expression)]
    return found
