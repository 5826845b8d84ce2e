"""Holds the cords of a child's garment against the limits: a fault for each that is passed or cannot be told."""

from __future__ import annotations

from collections.abc import Iterator

from chalkfold.blocks.desk import Desk
from chalkfold.blocks.safety.children import EXAMPLE, Cord, ForChild
from chalkfold.diagnostics import Code
from chalkfold.formula import Apply, key_of
from chalkfold.trade.children import Asked, CordLimit, child_rules

CHECK = "cords on children's clothing"
"""The name under which ``not needed:`` gives a reason for not keeping to the limits."""


def demand_cords(desk: Desk) -> None:
    """Report and demand everything about the cords of a post. Called when all its blocks are read."""
    child = desk.child
    if child is None or CHECK in desk.not_needed:
        return
    _undeclared(child, desk)
    for cord in child.cords:
        _hold(cord, child, desk)


def limits_on(cord: Cord, child: ForChild) -> list[CordLimit]:
    """The limits that hold for a cord: of its place, its kind, and every group that the garment is for."""
    groups = {each.name for each in child.groups}
    return [
        limit
        for limit in child_rules().limits
        if groups.intersection(limit.ages)
        and (not limit.zones or cord.zone in limit.zones)
        and (not limit.kinds or cord.kind in limit.kinds)
        and holds_for(limit, child)
    ]


def holds_for(limit: CordLimit, child: ForChild) -> bool:
    """Whether a limit is for such garments; one that the post doesn't name may be any."""
    if child.group == "outside" and limit.rule == "EN":
        return False
    return not limit.garments or child.group in ("", limit.garments)


def strictest(cord: Cord, child: ForChild) -> Iterator[tuple[Asked, CordLimit]]:
    """Everything that is asked of a cord that is not forbidden, each with the limit that asks most."""
    limits = limits_on(cord, child)
    if any(limit.never for limit in limits) or cord.truths.get("inside"):
        return
    for name, asked in child_rules().measures.items():
        if not asked.is_length:
            asking = [limit for limit in limits if name in limit.must]
        elif not asked.only or cord.kind in asked.only or name in cord.lengths:
            asking = sorted((each for each in limits if name in each.most), key=lambda each: each.most[name].value)
        else:
            asking = []
        if asking:
            yield asked, asking[0]


def _undeclared(child: ForChild, desk: Desk) -> None:
    """A cord that runs somewhere, of which nobody says where on the child it lies."""
    if child.lost:
        return
    hint = f"write in `project` a line `cords:` and below it `{EXAMPLE}`"
    spoken_for = {cord.channel for cord in child.cords}
    free = sum(not cord.channel for cord in child.cords)
    for piece in desk.pieces.values():
        if piece.carries == "cord" and key_of(piece.name) not in spoken_for:
            free -= 1
            if free < 0:
                message = f"a cord runs in `{piece.name}`, and it is not said where on the child it lies"
                desk.faults.add(Code.CHILDREN, message, piece.span, hint)
    for role, place in child.bought:
        if not child.cords and not child.said_none:
            message = f"`{role}` is a cord on a child's garment, and it is not said where it lies"
            desk.faults.add(Code.CHILDREN, message, place, f"{hint}; or `cords: none` where it is none to pull")


def _hold(cord: Cord, child: ForChild, desk: Desk) -> None:
    never = next((limit for limit in limits_on(cord, child) if limit.never), None)
    if never is not None:
        message = f"`{cord.name}` is a {cord.kind} at the {cord.where}, which {_called(never)} forbids on this garment"
        hint = f"take it off; an elastic does the same. {_look_up(never, child)}"
        desk.faults.add(Code.CHILDREN, message, cord.place, hint)
        return
    missing = []
    for asked, limit in strictest(cord, child):
        if asked.name not in cord.said and not asked.usually:
            missing.append(asked)
        elif asked.name in cord.lengths:
            _demand(cord, asked, limit, child, desk)
        elif cord.truths.get(asked.name, asked.must == "yes") != (asked.must == "yes"):
            message = f"`{cord.name}` {asked.wrong}, against {_called(limit)}"
            desk.faults.add(Code.CHILDREN, message, cord.place, f"{asked.mend}. {_look_up(limit, child)}")
    if missing:
        asks = ", nor ".join(each.asks for each in missing)
        writes = ", ".join(f"`{each.write}`{f' ({each.note})' if each.note else ''}" for each in missing)
        desk.faults.add(Code.CHILDREN, f"of `{cord.name}` it is not said {asks}", cord.place, f"write {writes}")


def _demand(cord: Cord, asked: Asked, limit: CordLimit, child: ForChild, desk: Desk) -> None:
    step, most = cord.lengths[asked.name], limit.most[asked.name]
    message = (
        f"the {asked.called} of `{cord.name}` is ",
        desk.shown(step),
        f", and {_called(limit)} allows {most.text}",
    )
    desk.demand(
        Apply("<=", (step, most), cord.place),
        message,
        step.span or cord.place,
        f"make it shorter. {_look_up(limit, child)}",
    )


def _called(limit: CordLimit) -> str:
    called = child_rules().called[limit.rule]
    return f"{called}, as far as we remember it," if limit.status == "memory" else called


def _look_up(limit: CordLimit, child: ForChild) -> str:
    found = f"The rule to look up is {child_rules().full[limit.rule]}"
    if limit.garments and not child.garment:
        found += f"; if this is no {limit.garments}, say what it is, as in `garment: skirt`"
    return found
