"""What every code means, with an example of each: the guide's page of faults is made from it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from chalkfold.diagnostics.codes import Code


@dataclass(frozen=True, slots=True)
class Explained:
    """``post`` is a small post that has just this fault; empty where it takes more than a post to make it."""

    code: Code
    meaning: str
    post: str


@lru_cache(maxsize=1)
def catalogue() -> tuple[Explained, ...]:
    """Every code, in the order of the enum. Read from ``codes.yml`` beside this file."""
    import yaml  # only a guide needs it here

    listed = yaml.load((Path(__file__).parent / "codes.yml").read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return tuple(
        Explained(code, " ".join(listed[code]["meaning"].split()), listed[code].get("post", "")) for code in Code
    )
