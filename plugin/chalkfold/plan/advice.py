"""What to say of a name that is nowhere, and of a value of the wrong kind."""

from __future__ import annotations

from collections.abc import Sequence

from chalkfold.amounts.kinds import Kind
from chalkfold.diagnostics import near
from chalkfold.formula import key_of
from chalkfold.formula.kind_rules import shown

Advice = tuple[str, str]
"""A message and a hint."""

_WRITE = {
    Kind.LENGTH: "write a length with its unit, as in `12 cm` or `7 1/2 in`",
    Kind.PLAIN: "write a number without a unit, as in `7` or `1/2`",
    Kind.AREA: "write a length times a length, as in `20 cm * 30 cm`",
    Kind.ANGLE: "write an angle, as in `90°`",
    Kind.WEIGHT: "write the weight of the cloth, as in `140 g/m²` or `4 oz/yd²`, or `weight of main`",
}


def wrong_kind(name: str, found: Kind, demanded: Kind) -> Advice:
    """``name`` is given where a book demands the kind."""
    hint = _WRITE.get(demanded, f"write {shown(demanded)}")
    if name:
        return f"a book expects `{name}` to be {shown(demanded)}, and this is {shown(found)}", hint
    return f"{shown(demanded)} is due here, and this is {shown(found)}", hint


def wrong_number(name: str, amount: str, found: Kind, demanded: Kind) -> Advice:
    """A number of the post that is used where it does not fit; ``amount`` is what it says if a unit may be missing."""
    message = f"`{name}` should be {shown(demanded)} where it is used, and this is {shown(found)}"
    units = {
        Kind.LENGTH: f"write {amount} cm or {amount} in",
        Kind.ANGLE: f"write {amount}°",
        Kind.WEIGHT: f"write {amount} g/m²",
    }
    if amount and demanded in units:
        return message, units[demanded]
    return message, _WRITE.get(demanded, f"write {shown(demanded)}")


def unknown(name: str, known: Sequence[str]) -> Advice:
    """``known`` is every name that would have been found."""
    message = f"nothing here is called `{name}`"
    likely = near(name, known)
    if " of " in name:
        return _unknown_measure(name, known, likely)
    hint = f"add it under `numbers:`, as in `{name}: 12 cm`, or list the book that has it under `books:`"
    return message, f"did you mean `{likely}`? Otherwise {hint}" if likely else hint


def _unknown_measure(name: str, known: Sequence[str], likely: str | None) -> Advice:
    what, _, thing = name.rpartition(" of ")
    behind = f" of {key_of(thing)}"
    measures = sorted({each.rpartition(" of ")[0] for each in known if key_of(each).endswith(behind)})
    meant = f"did you mean `{likely}`? " if likely else ""
    if measures:
        plain = [each for each in measures if " " not in each]
        return f"`{thing}` has no `{what}`", f"{meant}it has {', '.join(plain or measures)}"
    message = f"nothing here is called `{name}`"
    if meant:
        return message, meant.rstrip()
    first, _, rest = name.partition(" of ")
    if key_of(first) in {key_of(each) for each in known}:
        return message, f"to multiply, write `{first} * {rest}`"
    return message, "write behind `of` the name of a piece, a spacing or a role of this post"
