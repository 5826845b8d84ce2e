"""Care of cloths and notions in five fields, each in words from the mildest treatment to the strictest."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import yaml

from chalkfold.diagnostics import Code, Faults, near
from chalkfold.reading import Entry, Fields, Text
from chalkfold.reading import Mapping as Body

Care = Mapping[str, Mapping[str, int]]
"""Field → thing said of it (``heat``, ``action`` …) → how strict, by its place in the words of ``care.yml``."""

NOTE = "note"


@dataclass(frozen=True, slots=True)
class CareField:
    """A field as printed (``label``), and the words for each thing that may be said of it, mildest first."""

    name: str
    label: str
    said: Mapping[str, tuple[str, ...]]
    source: str

    @property
    def words(self) -> dict[str, tuple[str, int]]:
        """Every word, folded, with what it says and how strict it is."""
        return {word.casefold(): (thing, n) for thing, words in self.said.items() for n, word in enumerate(words)}

    def text(self, found: Mapping[str, int]) -> str:
        """What is said, in words: ``40 degrees, mild``."""
        return ", ".join(words[found[thing]] for thing, words in self.said.items() if thing in found)


@cache
def care_fields() -> Mapping[str, CareField]:
    """The five fields in their order, read once."""
    data = yaml.load(Path(__file__).with_name("care.yml").read_text("utf-8"), Loader=yaml.CSafeLoader)
    return {
        name: CareField(
            name, each["label"], {thing: tuple(words) for thing, words in each["said"].items()}, each["source"]
        )
        for name, each in data.items()
    }


def read_care(entry: Entry, of: str, faults: Faults) -> tuple[Care, str]:
    """Read ``care:`` of the goods ``of``: a mapping of fields, or a plain text, which is a note. Returns both."""
    if isinstance(entry.value, Text):
        return {}, entry.value.value
    if not isinstance(entry.value, Body):
        hint = "write `care: {wash: 40 degrees, iron: 150 degrees}`, or a few words"
        faults.add(Code.DATA_SHAPE, f"the care of {of} is a list", entry.value.where, hint)
        return {}, ""
    fields = Fields(entry.value, faults, f"the care of {of}")
    said = [(each, fields.texts(each.name)) for each in care_fields().values()]
    note = fields.text(NOTE)
    fields.finish()
    return {each.name: _read(each, texts, faults) for each, texts in said if texts}, note.value if note else ""


def _read(field: CareField, texts: Sequence[Text], faults: Faults) -> dict[str, int]:
    found: dict[str, int] = {}
    for text in texts:
        for part in text.value.split(","):
            word = " ".join(part.split()).casefold()
            thing, how = field.words.get(word, ("", 0))
            if not thing or thing in found:
                _cannot_be(field, word, thing, text, faults)
            else:
                found[thing] = how
    return found


def _cannot_be(field: CareField, word: str, thing: str, text: Text, faults: Faults) -> None:
    rows = "; ".join(" | ".join(words) for words in field.said.values())
    if thing:
        faults.add(Code.DATA_CHOICE, f"`{field.name}` says a second {thing}: `{word}`", text.span(), "keep one of them")
        return
    close = near(word, field.words)
    meant = f"did you mean `{close}`? " if close else ""
    of_each = " of each row, with a comma between them" if len(field.said) > 1 else ""
    hint = f"{meant}write one{of_each}: {rows}"
    faults.add(Code.DATA_CHOICE, f"`{field.name}` cannot be `{word}`", text.span(), hint)


def care_in_words(care: Care, note: str) -> str:
    """All fields and the note in one line: ``wash: 40 degrees, mild; iron: 150 degrees. Iron it damp.``"""
    said = "; ".join(f"{name}: {field.text(care[name])}" for name, field in care_fields().items() if care.get(name))
    return ". ".join(filter(None, (said, note)))


def strictest(cares: Mapping[str, Care], field: str) -> tuple[dict[str, int], tuple[str, ...], tuple[str, ...]]:
    """The strictest of what is said about one field by several goods, given by role.

    Returns it, the roles that make it so (the only one that speaks, or those without which it would be milder), and
    the roles that say nothing about the field.
    """
    worst: dict[str, int] = {}
    for care in cares.values():
        for thing, how in care.get(field, {}).items():
            worst[thing] = max(how, worst.get(thing, 0))
    speaking = [role for role, care in cares.items() if care.get(field)]
    silent = tuple(role for role in cares if role not in speaking)
    alone = len(speaking) == 1 and bool(silent)
    return worst, tuple(role for role in speaking if alone or _decides(role, cares, field, worst)), silent


def _decides(role: str, cares: Mapping[str, Care], field: str, worst: Mapping[str, int]) -> bool:
    """Whether another role that speaks of the field would be content with something milder than this one."""
    own = [thing for thing, how in cares[role][field].items() if how == worst[thing]]
    others = [care[field] for other, care in cares.items() if other != role and care.get(field)]
    return any(other.get(thing, -1) < worst[thing] for other in others for thing in own)
