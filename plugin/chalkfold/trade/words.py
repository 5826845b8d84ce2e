"""Which of some listed words a text or the goods of a post name: whole words as listed, capital letters aside."""

from __future__ import annotations

import re
from collections.abc import Collection
from functools import lru_cache

from chalkfold.trade.records import Goods


def words_in(text: str, words: Collection[str]) -> tuple[str, ...]:
    """The words that stand in a text, each once, in their order there. A space stands for any white space."""
    found = _pattern(tuple(sorted(words, key=len, reverse=True))).finditer(text)
    return tuple(dict.fromkeys(" ".join(each[0].casefold().split()) for each in found))


@lru_cache(maxsize=64)
def _pattern(words: tuple[str, ...]) -> re.Pattern[str]:
    listed = "|".join(r"\s+".join(map(re.escape, word.split())) for word in words)
    return re.compile(rf"(?<![\w-])(?:{listed})(?![\w-])" if words else r"(?!)", re.I)


def goods_named(goods: Goods, words: Collection[str]) -> bool:
    """Whether goods are called by one of the words, in their name or in ``what:``."""
    return bool(words_in(f"{goods.name} . {goods.texts.get('what', '')}", words))
