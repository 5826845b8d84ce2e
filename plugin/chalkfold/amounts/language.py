"""What depends on the language of a site: decimal mark, dates, and the few words printed with amounts.

Decimal marks and dates are Babel's (Unicode CLDR); words are ``words/<language>.yml``. A language that
has no words file prints English words with its own decimals and dates; a new file is all it takes to
change that. Babel is loaded with the first language, not before.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import Literal

import yaml

WORDS = Path(__file__).with_name("words")
_TAG = re.compile(r"[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8}){0,2}")

Words = Mapping[str, Mapping[str, str | list[str]]]


class UnknownLanguage(ValueError):
    """A language tag that is not one, or that Unicode CLDR does not know; ``hint`` says what to write."""

    hint = "write a language tag such as en-GB, en-US or de-DE"


@dataclass(frozen=True, slots=True)
class Language:
    """One language and region; compared by ``tag``, which is in its usual spelling (en-GB)."""

    tag: str
    decimal: str = field(compare=False)
    words: Words = field(compare=False, repr=False)

    def unit(self, sign: str, one: bool) -> str:
        """A unit written out: ``inch`` for one, ``inches`` for more."""
        return self.words["units"][sign][0 if one else 1]

    def part(self, below: int, one: bool) -> str | None:
        """``sixteenth`` or ``sixteenths``; None when the language has no word for that part."""
        names = self.words["parts"].get(str(below))
        return names[0 if one else 1] if names else None

    def phrase(self, name: str) -> str:
        return str(self.words["phrases"][name])

    def number(self, shown: str) -> str:
        """A number made with a point and a hyphen, in this language's signs and a true minus."""
        return shown.replace(".", self.decimal).replace("-", "−")

    def date(self, day: date, style: Literal["short", "medium", "long", "full"] = "long") -> str:
        """A date as this language writes it."""
        return _date(self.tag, day, style)


@lru_cache(maxsize=4096)
def _date(tag: str, day: date, style: Literal["short", "medium", "long", "full"]) -> str:
    from babel.dates import format_date

    return format_date(day, style, locale=tag.replace("-", "_"))


@lru_cache(maxsize=64)
def language(tag: str) -> Language:
    """The language of a tag such as en-GB (BCP 47). Raises UnknownLanguage."""
    from babel import Locale, UnknownLocaleError

    if not _TAG.fullmatch(tag):
        raise UnknownLanguage(f"‘{tag[:40]}’ is not a language tag")
    try:
        locale = Locale.parse(tag, sep="-")
    except (UnknownLocaleError, ValueError) as error:
        raise UnknownLanguage(f"‘{tag}’ is not a language known here") from error
    symbols = locale.number_symbols
    decimal = symbols.get("latn", symbols)["decimal"]
    return Language(str(locale).replace("_", "-"), decimal, _words(locale.language, locale.territory))


def _words(name: str, territory: str | None) -> Words:
    known = name if (WORDS / f"{name}.yml").is_file() else "en"
    words = _file(known)
    regional = f"{known}-{territory}"
    if known == name and (WORDS / f"{regional}.yml").is_file():
        for group, entries in _file(regional).items():
            words[group].update(entries)
    return words


def _file(name: str) -> dict[str, dict[str, str | list[str]]]:
    text = (WORDS / f"{name}.yml").read_text("utf-8")
    data: dict[str, dict[str, str | list[str]]] = yaml.load(text, Loader=yaml.CBaseLoader)
    return data
