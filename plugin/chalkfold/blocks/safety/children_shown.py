"""What the page says of a child's garment: how it was counted, its cords with their limits, and where to look it up."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.blocks.desk import Desk
from chalkfold.blocks.safety.children import Cord, ForChild
from chalkfold.blocks.safety.cord_limits import CHECK, holds_for, limits_on, strictest
from chalkfold.plan import Fact, Facts, Frame, Line, Shown
from chalkfold.trade.children import Asked, CordLimit, child_rules


def child_box(child: ForChild, desk: Desk) -> Facts:
    """The box for a child's garment. Call it when all blocks are read: a reason given in ``checks`` stands here too."""
    rules = child_rules()
    facts = [_counted(child), *(fact for cord in child.cords for fact in _cord(cord, child))]
    if not child.cords:
        facts.append(Fact(("Cords, belts, ties",), ("none",), ("look the rules up before you add one",)))
    if CHECK in desk.not_needed:
        facts.append(Fact(("Limits not checked",), (desk.not_needed[CHECK],)))
    if child.small_parts:
        facts.append(Fact((f"For under-threes: {', '.join(child.small_parts)}",), (rules.says["small parts"],)))
    if child.group == "sleepwear":
        facts.append(Fact((f"Nightwear: {child.garment}",), (rules.says["sleepwear"],)))
    if child.group == "outside":
        facts.append(Fact(("Outside the rule",), (rules.says["outside"].format(garment=child.garment),)))
    legal = rules.says["legal"].format(rules="; ".join(rules.full.values()))
    note: Line = (legal, " ", rules.says["memory"]) if child.cords else (legal,)
    return Facts(Frame(title=("For a child to wear",), note=note), tuple(facts), "child")


def _counted(child: ForChild) -> Fact:
    """The groups, but for those of rules that say nothing of such a garment."""
    speaking = {age for limit in child_rules().limits if holds_for(limit, child) for age in limit.ages}
    groups = [each.said for each in child.groups if each.name in speaking]
    said = "; ".join(groups) or "no group of the rules below"
    known = child.months is not None or len(child.groups) < len(child_rules().ages)
    remark = "the stricter limits hold" if len(groups) > 1 else ""
    if not known:
        remark = "no ages are given, so the strictest limits hold"
    return Fact(("Counted as",), (said,), (remark,) if remark else ())


def _cord(cord: Cord, child: ForChild) -> Iterator[Fact]:
    label = f"{cord.name}, {cord.kind} at the {cord.where}"
    never = next((limit for limit in limits_on(cord, child) if limit.never), None)
    if never is not None:
        yield Fact((label,), ("there",), (f"forbidden by {_named(never)}",))
        return
    asked_of = list(strictest(cord, child))
    if not asked_of:
        said = "lies inside" if cord.truths.get("inside") else "no limit is known here"
        yield Fact((label,), (said,))
    for asked, limit in asked_of:
        yield Fact((f"{label}: {asked.called}",), (_value(cord, asked),), (_allowed(asked, limit),))


def _value(cord: Cord, asked: Asked) -> str | Shown:
    if asked.is_length:
        step = cord.lengths.get(asked.name)
        return "not said" if step is None else Shown(step.key)
    return "yes" if cord.truths.get(asked.name, asked.usually == "yes") else "no"


def _allowed(asked: Asked, limit: CordLimit) -> str:
    allowed = f"at most {limit.most[asked.name].text}" if asked.is_length else f"must be {asked.must}"
    return f"{allowed} by {_named(limit)}{f'; {limit.beside}' if limit.beside and asked.is_length else ''}"


def _named(limit: CordLimit) -> str:
    called = child_rules().called[limit.rule]
    return f"{called}*" if limit.status == "memory" else called
