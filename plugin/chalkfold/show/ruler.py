"""Marks along a length, drawn like a tape, with the same places as a table.

Everything along the tape is placed in per cent of the drawing's width, so figures keep their size on a
phone, where fewer of them are shown. In a narrow host page without our style sheet only those few are drawn.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

from chalkfold.amounts import decimals
from chalkfold.plan import Ruler, Shown
from chalkfold.show.lines import Lines
from chalkfold.show.markup import attributes, element, escape, lines
from chalkfold.show.places import by_size, other_sizes
from chalkfold.show.quantities import NO_BREAK, Amount

MARGIN = 6.0
"""Per cent of the width kept free at each end: half of the outermost figures."""

NARROW, WIDE = 225.0, 560.0
"""How many CSS pixels the tape is long at least: on a screen of 320, and above the limit in calico.css."""

DIGIT, SIGN, GAP = 8.4, 13.0, 6.0
"""Upper bounds in CSS pixels for figures of 13 px: a digit or letter, a fraction, the space between."""

ID = "\0"
"""Stands for the id of a drawing until equal drawings are known; no text can hold it."""

SPOKEN_MARKS = 12
"""More marks than these are told by the table, not by the description of the drawing."""


def ruler(write: Lines, view: Ruler, level: int) -> str:
    """The drawing and its table for the chosen size."""
    tables = by_size(write, [(view.start or ("Place",), write.quantities.places(view.marks))], "places")
    versions = [lines(*_drawing(write, view, size), table) for size, table in enumerate(tables)]
    named = {version: version.replace(ID, write.new_id()) for version in dict.fromkeys(versions)}
    return lines(
        f'<figure class="view ruler"{attributes(id=view.frame.id)}>',
        element(f"h{level}", write.title(view.frame, len(named) > 1), class_="figure-title"),
        _ends(write, view),
        write.by_size([named[version] for version in versions], tag="div"),
        *write.below(view.frame, "figcaption"),
        other_sizes(write, tables, level + 1),
        "</figure>",
    )


def _ends(write: Lines, view: Ruler) -> str:
    end = view.end or (("back at the start",) if view.in_the_round else ())
    spans = [f"<span>{write.line(line)}</span>" for line in (view.start, end)]
    return element("p", " ".join(spans), class_="ends") if view.start or end else ""


def _drawing(write: Lines, view: Ruler, size: int) -> list[str]:
    values = write.quantities.values
    marks, length = values.row(view.marks)[size], values.row(view.length)[size]
    if not isinstance(marks, tuple) or not isinstance(length, float | int) or length <= 0:
        return []
    parts = [mark / length for mark in marks]
    amounts = write.quantities.places(view.marks)[size]
    room = values.row(view.width)[size] if view.width else None
    share = room / length if isinstance(room, float | int) else 0.0
    return [
        '<svg class="draw" width="100%" height="84" stroke="currentColor" role="img"'
        f' aria-labelledby="{ID}-title {ID}-desc">',
        f'<title id="{ID}-title">{escape(_title(write, view, size, len(marks)))}</title>',
        f'<desc id="{ID}-desc">{escape(_description(write, view, size, amounts))}</desc>',
        *(_room(part, share) for part in parts if share),
        f'<line class="cut" x1="{_x(0)}" y1="42" x2="{_x(1)}" y2="42"/>',
        _upright("cut", 0, 29, 55),
        _upright("fold" if view.in_the_round else "cut", 1, 29, 55),
        *(_upright("mark", part, 33, 51) for part in parts),
        _figures(write, "m", 72, parts, [amount.metric for amount in amounts]),
        _figures(write, "i", 22, parts, [amount.inch for amount in amounts]),
        "</svg>",
    ]


def _title(write: Lines, view: Ruler, size: int, count: int) -> str:
    name = write.spoken(view.frame.title, size) or "Tape"
    along = write.spoken((Shown(view.length),), size)
    return f"{name}: {count} {'mark' if count == 1 else 'marks'} along {along}"


def _description(write: Lines, view: Ruler, size: int, amounts: tuple[Amount, ...]) -> str:
    start = write.spoken(view.start, size) or "from the start"
    if len(amounts) > SPOKEN_MARKS:
        places = f"first at {amounts[0].spoken}, last at {amounts[-1].spoken}; the table has them all"
    else:
        places = ", ".join(amount.spoken for amount in amounts)
    takes = f" Each takes {write.spoken((Shown(view.width),), size)}." if view.width else ""
    ring = " The end meets the start." if view.in_the_round else ""
    return f"{start[:1].upper()}{start[1:]}: {places}.{takes}{ring}"


def _x(part: float) -> str:
    """A place along the tape, 0 to 1, in per cent of the drawing."""
    return f"{decimals(MARGIN + part * (100 - 2 * MARGIN), 2)}%"


def _upright(name: str, part: float, top: int, bottom: int) -> str:
    return f'<line class="{name}" x1="{_x(part)}" y1="{top}" x2="{_x(part)}" y2="{bottom}"/>'


def _room(part: float, share: float) -> str:
    width = decimals(share * (100 - 2 * MARGIN), 2)
    place = f'x="{_x(part - share / 2)}" y="35" width="{width}%" height="14"'
    return f'<rect class="room" {place} fill-opacity="0.15" stroke="none"/>'


def _figures(write: Lines, name: str, y: int, parts: list[float], texts: list[str]) -> str:
    """The figures of one unit system; those that only a wide tape has room for are of the class ``wide``."""
    unit = texts[0].partition(NO_BREAK)[2] if texts else ""
    labels = [
        (part, text.removesuffix(NO_BREAK + unit) if unit and number else text)
        for number, (part, text) in enumerate(zip(parts, texts, strict=True))
    ]
    wide = thinned(labels, WIDE)
    narrow = {wide[kept] for kept in thinned([labels[each] for each in wide], NARROW)}
    shown = wide if write.reader_chooses else sorted(narrow)
    return lines(
        f'<g class="{name}" text-anchor="middle" font-size="13" fill="currentColor" stroke="none">',
        *(_figure(*labels[each], y, "" if each in narrow else "wide") for each in shown),
        "</g>",
    )


def _figure(part: float, text: str, y: int, name: str) -> str:
    return f'<text{attributes(class_=name)} x="{_x(part)}" y="{y}">{escape(text)}</text>'


def thinned(labels: Sequence[tuple[float, str]], room: float) -> list[int]:
    """Which labels to print on a tape ``room`` pixels long so that none touches its neighbour.

    ``labels`` are their places (0 to 1, ascending) and texts. Every second, third … one stays, and the last.
    """
    last = len(labels) - 1

    def apart(one: int, other: int) -> bool:
        (x, text), (y, next_text) = labels[one], labels[other]
        return (y - x) * room >= (width_of(text) + width_of(next_text)) / 2 + GAP

    for every in range(1, last + 1):
        kept = list(range(0, last, every))
        while len(kept) > 1 and not apart(kept[-1], last):
            kept.pop()
        kept.append(last)
        if all(apart(one, other) for one, other in pairwise(kept)):
            return kept
    return [0] if labels else []


@lru_cache(maxsize=2**12)
def width_of(text: str) -> float:
    """An upper bound of a label's width in CSS pixels."""
    return sum(DIGIT if char.isascii() or char == NO_BREAK else SIGN for char in text)
