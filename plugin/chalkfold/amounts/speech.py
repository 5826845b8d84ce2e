"""How a printed amount is read aloud, for labels that a screen reader speaks."""

from __future__ import annotations

import re
from functools import lru_cache

from chalkfold.amounts.language import Language
from chalkfold.amounts.typography import MIXED, NO_BREAK, PARTS


@lru_cache(maxsize=2**12)
def spoken(shown: str, language: Language) -> str:
    """A printed amount in words a voice reads right: ``12 and 3 sixteenths inches``."""
    number = MIXED.match(shown)
    if not number or not number[0]:
        return shown
    sign = shown[number.end() :].replace(NO_BREAK, " ").strip()
    whole, part = number["whole"], _part(number, language)
    count = part if whole is None else whole
    if whole is not None and part:
        count = language.phrase("and").format(whole=whole, part=part)
    one = (whole is None) if part else whole == "1"
    amount = f"{count} {language.unit(sign, one)}" if sign else str(count)
    return language.phrase("minus").format(amount=amount) if number["minus"] else amount


def _part(number: re.Match[str], language: Language) -> str | None:
    if number["sign"]:
        above, below = PARTS[number["sign"]]
    elif number["above"]:
        above, below = int(number["above"]), int(number["below"])
    else:
        return None
    if (above, below) == (1, 2):
        return language.phrase("half")
    word = language.part(below, above == 1)
    return f"{above} {word}" if word else language.phrase("other part").format(above=above, below=below)
