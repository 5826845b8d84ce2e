"""What a seam takes: its rows of stitching, its binding, the turnings of a hem, and the thread of all seams.

Thread = length of each row × thread of its stitch, with what is wasted added; the figures and their sources stand in
``trade/seams.yml``.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from chalkfold.amounts.kinds import Kind
from chalkfold.blocks.desk import Desk, times
from chalkfold.blocks.sewing.seam_sentences import TURNED_UP, Option, trimmed
from chalkfold.blocks.sewing.seams import Seam, added
from chalkfold.diagnostics import Span
from chalkfold.formula import Expression, Literal, Name, apply, length, plain
from chalkfold.plan import Limit, Line, Shown, Style
from chalkfold.reading import Text
from chalkfold.trade.seams import seam_words

BINDING = "bound"
JOINING = "301"
"""The row that joins two edges, or holds a hem, where no word takes its place."""
_HOW_OFTEN = re.compile(r"(?P<turn>.+?)\s+(?P<often>once|twice|three\s+times)", re.I)
_TIMES = {"once": 1, "twice": 2, "three times": 3}
_AND = re.compile(r"\s+(?:and|then)\s+", re.I)


def stitched(seam: Seam) -> Seam:
    """The seam with its rows and its binding."""
    said = seam.sentence
    known = [word for option in said.options if (word := seam_words().words.get(option.word))]
    rows: Counter[str] = Counter()
    joined = len(said.sides) == 2 or said.itself or said.has(TURNED_UP)
    if joined and not any(word.instead for word in known):
        rows[JOINING] += 1
    for word in known:
        rows.update(word.adds)
    found: list[tuple[str, Expression]] = [(stitch, times(seam.length, count)) for stitch, count in rows.items()]
    if said.way is not None:
        on_first = times(seam.first, seam.often)
        found += [
            (stitch, times(on_first, count)) for stitch, count in seam_words().ways[said.way.word].rows_on_first.items()
        ]
    lengths = sum(word.binding for word in known)
    return replace(seam, rows=tuple(found), binding=times(seam.length, lengths) if lengths else None)


def lay_hem(seam: Seam, desk: Desk) -> Line | None:
    """How a hem is turned, for the order of work, nothing where it is no hem; None after a fault in the turnings.

    Demands that the turnings are what the piece allows at that edge.
    """
    option = seam.sentence.option(TURNED_UP)
    if option is None or option.rest is None:
        return ()
    turns, said = _turnings(option, seam.name, desk)
    if not turns:
        return None
    turned = desk.step(f"turnings of {seam.name}", added(turns), option.rest.span(), kind=Kind.LENGTH)
    for term in seam.sides[0].edges:
        assert term.piece is not None
        allowance = desk.hidden(term.piece.outline.edges[term.edge].allowance, term.said.span())
        apart = apply("max", turned - allowance, allowance - turned)
        where = f"{term.edge} of {term.piece.name}"
        desk.demand(
            apply("<=", apart, length(seam_words().turnings)),
            ("the hem takes ", desk.shown(turned), f", and the allowance at {where} is ", desk.shown(allowance)),
            option.said.span(),
            f"write `{term.edge}: …` under `allowances:` of {term.piece.name} as much as is turned up, or turn up less",
            about=seam.name,
            apart=apart,
        )
    return said


def last_turning(seam: Seam, desk: Desk) -> Expression | None:
    """The depth of a hem from its fold to its stitching: what is turned last; None where it is no hem."""
    option = seam.sentence.option(TURNED_UP)
    if option is None or option.rest is None:
        return None
    often = _HOW_OFTEN.fullmatch(option.rest.value)
    *_, last = _parts(option.rest if often is None else option.rest.part(0, often.end("turn")))
    return desk.formula(last)


def _turnings(option: Option, name: str, desk: Desk) -> tuple[list[Expression], Line]:
    """Each turning, and how it is told: ``2 cm twice``, ``1 cm and 3 cm``, ``3 cm``."""
    rest = option.rest
    assert rest is not None
    often = _HOW_OFTEN.fullmatch(rest.value)
    words = "once" if often is None else " ".join(often["often"].casefold().split())
    inner = rest if often is None else rest.part(0, often.end("turn"))
    steps: list[Expression] = []
    line: list[str | Shown] = [f"{_way_of_turning(option)} "]
    for number, text in enumerate(_parts(inner), start=1):
        formula = desk.formula(text)
        if formula is None:
            return [], ()
        step = desk.step(f"= turning {len(desk.steps)}", formula, text.span(), limit=Limit.POSITIVE, kind=Kind.LENGTH)
        steps.append(step)
        line += [*([" and then "] if number > 1 else []), desk.shown(step)]
    return steps * _TIMES[words], tuple(line) if words == "once" else (*line, f", {words}")


def _way_of_turning(option: Option) -> str:
    """``turned up``, ``turned down`` … as the writer says it."""
    return " ".join(option.said.value.casefold().split()[:2])


def _parts(text: Text) -> Iterator[Text]:
    start = 0
    for found in _AND.finditer(text.value):
        yield trimmed(text, start, found.start())
        start = found.end()
    yield trimmed(text, start, len(text.value))


def needed(seams: Sequence[Seam], machine: str, called: str, place: Span, desk: Desk) -> Name | None:
    """The thread of all rows sewn on a machine, or the binding; None where no seam takes any."""
    what = "binding" if machine == BINDING else f"{machine} thread"
    parts = [
        desk.step(f"{what} of {seam.name}", part, place)
        for seam in seams
        if (part := seam.binding if machine == BINDING else _thread(seam, machine)) is not None
    ]
    if not parts:
        return None
    total: Expression = added(parts)
    note = "The length of every seam that takes it."
    if machine != BINDING:
        wasted = seam_words().wastage
        total = Literal(1 + wasted, Kind.PLAIN, f"{100 + wasted * 100:g} %") * total
        note = f"Rows of stitching × thread of each stitch, and {wasted * 100:g} % for what is wasted."
    return desk.step(f"length of {called}", total, place, style=Style.TO_BUY, note=note)


def _thread(seam: Seam, machine: str) -> Expression | None:
    """The thread that a machine sews a seam with, before what is wasted."""
    parts: list[Expression] = []
    for number, row in seam.rows:
        stitch = seam_words().stitches[number]
        if stitch.machine == machine:
            parts.append(plain(stitch.thread) * row)
    return added(parts) if parts else None
