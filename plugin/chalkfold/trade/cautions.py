"""Cautions by what a post uses, from ``cautions.yml``."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import yaml

from chalkfold.formula import key_of
from chalkfold.trade.records import Goods
from chalkfold.trade.words import goods_named, words_in


@dataclass(frozen=True, slots=True)
class Caution:
    """What is said, and what brings it up: words of the post, goods and roles so called, a garment for a child."""

    name: str
    says: str
    words: tuple[str, ...] = ()
    goods: tuple[str, ...] = ()
    roles: tuple[str, ...] = ()
    child: bool = False
    on_paper: bool = False

    @property
    def label(self) -> str:
        return self.name[:1].upper() + self.name[1:]

    def comes_up(self, text: str, goods: Mapping[str, Goods], for_child: bool) -> bool:
        """Whether a post with this text, these goods in their roles and this wearer needs it."""
        if self.child and not for_child:
            return False
        named = any(goods_named(each, self.goods) for each in goods.values())
        return bool(words_in(text, self.words)) or named or any(key_of(role) in self.roles for role in goods)


@cache
def cautions() -> Mapping[str, Caution]:
    """The shipped cautions in their order, read once."""
    data = yaml.load(Path(__file__).with_name("cautions.yml").read_text("utf-8"), Loader=yaml.CSafeLoader)
    return {name: _caution(name, **said) for name, said in data.items()}


def _caution(name: str, says: str, child: bool = False, **said: Iterable[str]) -> Caution:
    words, goods, roles = (tuple(said.get(key, ())) for key in ("words", "goods", "roles"))
    return Caution(name, says, words, goods, roles, child, bool(said.get("on paper")))


def on_paper() -> tuple[Caution, ...]:
    """Those that stand on every printed pattern."""
    return tuple(each for each in cautions().values() if each.on_paper)
