"""How body measures are taken, by name: ``measures.yml`` serves charts that do not say so themselves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from chalkfold.diagnostics import Faults
from chalkfold.formula import key_of
from chalkfold.reading import Fields
from chalkfold.reading import Mapping as Body
from chalkfold.trade.files import read_mapping

SHIPPED = Path(__file__).parent / "measures.yml"


@dataclass(frozen=True, slots=True)
class Taking:
    """How a measure is taken, where the sentence comes from, and what to beware of."""

    name: str
    how: str
    source: str
    note: str


@lru_cache(maxsize=1)
def takings() -> Mapping[str, Taking]:
    """The shipped measures by key. The file is our own: it has no faults."""
    faults = Faults()
    found = read_mapping(SHIPPED, "chalkfold/measures.yml", "hip girth: …", faults)
    assert found is not None, "the shipped measures can be read"
    _, body = found
    listed = [_taking(entry.key.value, entry.value, faults) for entry in body if isinstance(entry.value, Body)]
    return {key_of(each.name): each for each in listed}


def _taking(name: str, body: Body, faults: Faults) -> Taking:
    fields = Fields(body, faults, f"the measure `{name}`")
    how, source, note = (fields.text(key) for key in ("how", "source", "note"))
    return Taking(name, *(said.value if said else "" for said in (how, source, note)))


def how_taken(key: str) -> str:
    """The shipped words for the measure ``key``; nothing where it is not known."""
    known = takings().get(key)
    return known.how if known is not None else ""
