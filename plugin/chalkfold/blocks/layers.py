"""``cut: 2 on fold in main``: how many, folded how, in what."""

from __future__ import annotations

import re
from dataclasses import dataclass

from chalkfold.blocks.desk import Desk
from chalkfold.diagnostics import Code, near
from chalkfold.formula import key_of
from chalkfold.reading import Text

FOLDED = {
    "": 1,
    "pair": 1,
    "right side up": 1,
    "wrong side up": 1,
    "on fold": 2,
    "on two folds": 4,
    "in the round": 2,
}
"""How a piece lies → the layers that one drawing gives."""

SAID = {
    "": "",
    "pair": "as a pair",
    "right side up": "right side up",
    "wrong side up": "wrong side up",
    "on fold": "on the fold",
    "on two folds": "on two folds",
    "in the round": "in the round",
}
_CUT = re.compile(r"(\d{1,3})(?: +([a-z ]+?))? +in +(\S.*)", re.IGNORECASE)
HINT = "write how many and in what, as in `2 in main`, `1 on fold in main` or `1 pair in main`"


@dataclass(frozen=True, slots=True)
class Cut:
    """One line of cutting. ``count`` is as written: a pair of pieces counts 1, and its ``copies`` 2."""

    count: int
    lies: str
    role: str

    @property
    def layers(self) -> int:
        return FOLDED[self.lies]

    @property
    def copies(self) -> int:
        return self.count * (2 if self.lies == "pair" else 1)

    @property
    def said(self) -> str:
        if self.lies == "pair":
            return "1 pair" if self.count == 1 else f"{self.count} pairs"
        return f"{self.count} {SAID[self.lies]}".strip()


def read_cuts(said: list[Text], desk: Desk, like: tuple[Cut, ...] = ()) -> tuple[Cut, ...]:
    """Read ``cut:``; a list is one line for each material. All must lie the same way, and as those in ``like``."""
    cuts = [cut for text in said if (cut := _cut(text, desk))]
    first = (*like, *cuts)[:1]
    for text, cut in zip(said, cuts, strict=False):
        if cut.layers != first[0].layers:
            desk.faults.add(
                Code.PIECE,
                "a piece is drawn one way: on the fold in every material, or in none",
                text.span(),
                f"write `{cut.count} {first[0].lies} in {cut.role}`".replace("  ", " "),
            )
            return ()
    return tuple(cuts)


def _cut(text: Text, desk: Desk) -> Cut | None:
    match = _CUT.fullmatch(" ".join(text.value.split()))
    if match is None or int(match[1]) == 0:
        desk.faults.add(Code.PIECE, f"`{text.value}` does not say how to cut", text.span(), HINT)
        return None
    lies = (match[2] or "").lower().replace("on the fold", "on fold")
    if lies not in FOLDED:
        likely = near(lies, FOLDED)
        hint = f"did you mean `{likely}`?" if likely else f"write one of {', '.join(filter(None, FOLDED))}"
        desk.faults.add(Code.PIECE, f"a piece cannot be cut `{lies}`", text.span(), hint)
        return None
    role = _role(match[3], text, desk)
    return None if role is None else Cut(int(match[1]), lies, role)


def _role(said: str, text: Text, desk: Desk) -> str | None:
    """The role as the project spells it. A post that lists no roles may name any."""
    if not desk.roles:
        return said
    found = next((role for role in desk.roles if key_of(role) == key_of(said)), None)
    if found is None and key_of(said) not in desk.project.broken:
        likely = near(said, desk.roles)
        listed = ", ".join(desk.roles)
        desk.faults.add(
            Code.PIECE,
            f"nothing plays the role `{said}` in this post",
            text.span(len(text.value) - len(said)),
            f"did you mean `{likely}`?" if likely else f"the roles are: {listed}; add it under `cut from:`",
        )
    return found
