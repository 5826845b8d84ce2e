"""Care of the finished garment: the strictest of all that went into it, and which part makes it so."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from chalkfold.plan import Fact, Facts, Frame
from chalkfold.trade import Goods
from chalkfold.trade.care import Care, CareField, care_fields, strictest

FIRST = "Read the labels of your own cloth first. In the words of ISO 3758; temperatures are the highest allowed."


def care_of_all(roles: Mapping[str, tuple[Goods, str | None]]) -> Facts | None:
    """The box of care for the goods in their roles; None where nothing is known of any."""
    cares = {role: goods.care for role, (goods, _) in roles.items()}
    facts = [fact for field in care_fields().values() if (fact := _fact(field, cares))]
    if not facts:
        return None
    notes = tuple(
        Fact((role,), (goods.texts["care"],)) for role, (goods, _) in roles.items() if goods.texts.get("care")
    )
    return Facts(Frame(title=("Care",), note=(FIRST,)), (*facts, *notes), "washing", all_sizes=False)


def _fact(field: CareField, cares: Mapping[str, Care]) -> Fact | None:
    worst, makers, silent = strictest(cares, field.name)
    if not worst:
        return None
    return Fact((field.label,), (field.text(worst),), ("; ".join(_why(makers, silent)),))


def _why(makers: tuple[str, ...], silent: tuple[str, ...]) -> Iterator[str]:
    if makers:
        yield f"because of {_listed(makers)}"
    if silent:
        yield f"nothing is said of {_listed(silent)}"


def _listed(roles: tuple[str, ...]) -> str:
    return " and ".join(filter(None, (", ".join(roles[:-1]), roles[-1])))
