"""``cautions:`` of a project: those that come up by themselves, the writer's own, and where they stand."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.blocks.desk import Desk, MakeView
from chalkfold.diagnostics import Code, near
from chalkfold.plan import CAUTIONS, Fact, Facts, Frame, Group, Line, Plan, View
from chalkfold.reading import Entry, Fence, Fields, Text
from chalkfold.reading import Mapping as Body
from chalkfold.trade.cautions import cautions

TITLE = "Mind your hands"
WORK = frozenset({"draft", "cut-list", "spacing", "sew"})
"""Blocks with which the work starts."""
SHORTEST_REASON = 2
"""Words."""


def read_cautions(fields: Fields, desk: Desk) -> Facts | None:
    """The box of cautions for a post; None where nothing comes up."""
    body = fields.mapping("cautions")
    inner = Fields(body or Body((), fields.whole.where), desk.faults, "`cautions`")
    up = _coming_up(fields, body, desk)
    added = [desk.line(text) for text in inner.texts("add")]
    reworded = dict(_named("reword", "Use a press cloth", inner, desk))
    left_out = dict(_named("leave out", "the reason why", inner, desk, up))
    inner.finish()
    facts = [
        Fact((each.label,), reworded.get(each.name, (each.says,)))
        for each in cautions().values()
        if (each.name in up or each.name in reworded) and each.name not in left_out
    ]
    facts += [Fact(("Also",), line) for line in added]
    facts += [Fact((f"Left out: {name}",), line) for name, line in left_out.items()]
    return Facts(Frame(title=(TITLE,)), tuple(facts), CAUTIONS, all_sizes=False) if facts else None


def _coming_up(fields: Fields, body: Body | None, desk: Desk) -> set[str]:
    """By what the post says (but for its ``cautions:``) and uses."""
    place = fields.whole.where
    text = place.source.text
    if body is not None:
        text = f"{text[: body.where.start]} {text[body.where.end :]}"
    goods = {role: each for role, (each, _) in desk.roles.items()}
    return {each.name for each in cautions().values() if each.comes_up(text, goods, desk.child is not None)}


def _named(key: str, example: str, inner: Fields, desk: Desk, up: set[str] | None = None) -> Iterator[tuple[str, Line]]:
    """Cautions by name with a text each. With ``up``, only of those that come up, and the text is a reason."""
    for entry in inner.mapping(key) or ():
        name = entry.key.value.casefold()
        if _is_caution(name, entry, desk) and _is_text(key, name, example, entry, up is not None, desk):
            if up is not None and name not in up:
                hint = "take the line out, or say it where the work is described"
                desk.faults.add(
                    Code.CAUTIONS, f"there is no caution `{name}` here to leave out", entry.key.span(), hint
                )
            elif isinstance(entry.value, Text):
                yield name, desk.line(entry.value)


def _is_caution(name: str, entry: Entry, desk: Desk) -> bool:
    if name in cautions():
        return True
    close = near(name, cautions())
    hint = (
        f"did you mean `{close}`?" if close else f"they are called: {', '.join(cautions())}. Your own goes under `add:`"
    )
    desk.faults.add(Code.CAUTIONS, f"there is no caution called `{entry.key.value}`", entry.key.span(), hint)
    return False


def _is_text(key: str, name: str, example: str, entry: Entry, is_reason: bool, desk: Desk) -> bool:
    if isinstance(entry.value, Text) and len(entry.value.value.split()) >= SHORTEST_REASON:
        return True
    message = f"it is not said why `{name}` is left out" if is_reason else f"`{name}` is not reworded"
    hint = f"write `{key}: {{{name}: {example} …}}` in a few words; readers see it"
    desk.faults.add(Code.CAUTIONS, message, entry.key.span(), hint)
    return False


def put_cautions(views: list[tuple[Fence, MakeView]], desk: Desk) -> None:
    """Put the box before the first block of the work, below the project where there is none."""
    box = desk.cautions
    if box is None or not views:
        return
    starts = [(fence.span.start, n) for n, (fence, _) in enumerate(views) if fence.name in WORK]
    number = min(starts)[1] if starts else next(n for n, (fence, _) in enumerate(views) if fence.name == "project")
    fence, make = views[number]

    def view(plan: Plan) -> View:
        made = make(plan)
        return Group(Frame(), (box, made) if starts else (made, box))

    views[number] = fence, view
