"""What readers were told of a change: one small file a correction, and what a page and the feed show of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from collections.abc import Mapping as Data
from dataclasses import dataclass
from datetime import date, timedelta

import yaml

from chalkfold.amounts import Language
from chalkfold.diagnostics import Code, Faults
from chalkfold.reading import Fields, Mapping, Node, Text

RECENT = timedelta(days=30)
"""So long after its date a correction stands on top of its page, counted to the latest release; then it moves into the
list at the end. So a page needs no clock, and a site that releases nothing more keeps its last word on top.
"""

MOST_ROWS = 2000
"""Rows of a correction that are kept; the numbers beyond are counted."""

FEW = 12
"""So many rows of a correction are shown openly; common practice, no source."""

Rows = tuple[tuple[str, str], ...]
"""Sizes, and what was there before and is now; the sizes are empty where a post has none."""


@dataclass(frozen=True, slots=True)
class Correction:
    """One correction of one post: ``changed`` holds the name of each number with its rows, ``more`` counts others."""

    day: date
    note: str
    changed: tuple[tuple[str, Rows], ...]
    more: int = 0


@dataclass(frozen=True, slots=True)
class Release:
    day: date
    note: str


class _Plain(yaml.SafeDumper):
    """Writes texts alone, so that nothing is quoted that our reader takes as it stands."""

    yaml_implicit_resolvers = {}  # noqa: RUF012  # so the library has it


def plain_yaml(data: Data[str, object]) -> str:
    """Texts, lists and mappings as YAML, each text on one line."""
    return yaml.dump(data, Dumper=_Plain, width=10**6, allow_unicode=True, sort_keys=False)


def correction_text(correction: Correction) -> str:
    """The file of a correction."""
    changed = {name: dict(rows) if rows[0][0] else rows[0][1] for name, rows in correction.changed}
    more = {"more": str(correction.more)} if correction.more else {}
    return plain_yaml({"date": correction.day.isoformat(), "note": correction.note, "changed": changed, **more})


def releases_text(releases: Sequence[Release]) -> str:
    """The file of all releases, the latest first."""
    return plain_yaml({"releases": [{"date": each.day.isoformat(), "note": each.note} for each in releases]})


def read_correction(body: Mapping, faults: Faults) -> Correction | None:
    """None after a fault."""
    before = len(faults)
    fields = Fields(body, faults, "a correction")
    day = fields.date("date") if fields.required("date") else None
    note, changed, more = fields.required_text("note"), fields.mapping("changed"), fields.text("more")
    fields.finish()
    rows = tuple((entry.key.value, tuple(_rows(entry.value, faults))) for entry in changed or ())
    count = _count(more, faults)
    if len(faults) > before or day is None or note is None:
        return None
    return Correction(day, note.value, rows, count)


def _rows(node: Node, faults: Faults) -> Iterator[tuple[str, str]]:
    if isinstance(node, Text):
        yield "", node.value
        return
    for entry in node if isinstance(node, Mapping) else ():
        if isinstance(entry.value, Text):
            yield entry.key.value, entry.value.value
    if not isinstance(node, Mapping) or not all(isinstance(entry.value, Text) for entry in node):
        hint = "write `{M: 14 cm → 15 cm}`, or one text for all sizes"
        faults.add(Code.DATA_SHAPE, "this does not say what was and what is now", node.where, hint)


def _count(said: Text | None, faults: Faults) -> int:
    if said is None:
        return 0
    if said.value.isascii() and said.value.isdigit():
        return int(said.value[:9])
    faults.add(Code.DATA_SHAPE, "`more` is how many numbers are not listed", said.span(), "write a whole number")
    return 0


def read_releases(body: Mapping, faults: Faults) -> list[Release]:
    """All releases; a faulty one is reported and left out."""
    fields = Fields(body, faults, "the list of releases")
    found = []
    for item in fields.items("releases"):
        if not isinstance(item, Mapping):
            hint = "write `- date: 2026-11-01` and below it `note: …`"
            faults.add(Code.DATA_SHAPE, "a release has a date and a note", item.where, hint)
            continue
        inner = Fields(item, faults, "a release")
        day = inner.date("date") if inner.required("date") else None
        note = inner.required_text("note")
        inner.finish()
        if day is not None and note is not None:
            found.append(Release(day, note.value))
    fields.finish()
    return found


@dataclass(frozen=True, slots=True)
class Notices:
    """What one page shows: corrections on top while they are recent, the others at the end. Each newest first."""

    recent: tuple[dict[str, object], ...] = ()
    earlier: tuple[dict[str, object], ...] = ()
    updated: str = ""
    """The day of the latest one (``2026-11-01``), empty where there is none."""
    note: str = ""


def notices(corrections: Sequence[Correction], latest: date, language: Language) -> Notices:
    """What a page shows of its corrections, newest first, where the latest release was on that day."""
    shown = [(each, _view(each, language)) for each in corrections]
    return Notices(
        tuple(view for each, view in shown if latest - each.day <= RECENT),
        tuple(view for each, view in shown if latest - each.day > RECENT),
        corrections[0].day.isoformat() if corrections else "",
        corrections[0].note if corrections else "",
    )


def _view(correction: Correction, language: Language) -> dict[str, object]:
    """One correction as a page shows it: all rows where they are few, else those of the first number and the rest."""
    rows = [
        {"name": name if first else "", "sizes": sizes, "change": change, "span": len(found)}
        for name, found in correction.changed
        for first, (sizes, change) in zip((True, *(False,) * len(found)), found, strict=False)
    ]
    shown = len(rows) if len(rows) <= FEW else len(correction.changed[0][1])
    return {
        "date": language.date(correction.day),
        "iso": correction.day.isoformat(),
        "note": correction.note,
        "parts": [rows[:shown], rows[shown:]],
        "others": len(correction.changed) - 1,
        "by_size": any(row["sizes"] for row in rows),
        "more": correction.more,
    }
