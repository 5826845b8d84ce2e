"""``from: seams`` of the materials: the thread of each machine, and binding, for all seams of the post."""

from __future__ import annotations

import re

from chalkfold.blocks.desk import Desk
from chalkfold.blocks.sewing.seam_stitching import needed
from chalkfold.diagnostics import Code, near
from chalkfold.formula import Name
from chalkfold.reading import Text
from chalkfold.trade.seams import seam_words

SEAMS = re.compile(r"seams(?:\s+(?P<how>\S.*))?$", re.I)
SEWN = "sewn"


def from_seams(text: Text, called: str, desk: Desk) -> Name | None:
    """The length that ``seams``, ``seams overlocked``, ``seams bound`` … take; None after a fault."""
    match = SEAMS.match(text.value)
    assert match is not None
    how = SEWN if match["how"] is None else " ".join(match["how"].casefold().split())
    machines = seam_words().machines
    if how not in machines:
        likely = near(how, machines)
        listed = ", ".join(f"`from: seams {each}` ({what})" for each, what in machines.items() if each != SEWN)
        hint = f"did you mean `from: seams {likely}`?" if likely else f"write `from: seams`, or one of {listed}"
        desk.faults.add(Code.MATERIALS, f"seams take nothing called `{match['how']}`", text.span(), hint)
        return None
    length = needed(desk.seams, how, called, text.span(), desk)
    if length is None and not desk.seams_lost:
        message = f"no seam of this post takes {machines[how]}" if desk.seams else "this post has no seams"
        hint = "write them in a `sew` block, as in `side of front to side of back`"
        if desk.seams:
            hint = f"write in the `sew` block which seams are {how}, or take this item out"
        desk.faults.add(Code.MATERIALS, message, text.span(), hint)
    return length
