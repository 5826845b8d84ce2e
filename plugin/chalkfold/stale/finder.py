"""Finds the measures of one post that are typed by hand, and tells which of its numbers they repeat."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from chalkfold.diagnostics import Code, Faults
from chalkfold.formula import key_of
from chalkfold.plan import Shown, Values
from chalkfold.show import Shower
from chalkfold.stale.allowed import covered
from chalkfold.stale.measures import Typed, measures_in
from chalkfold.stale.passages import Passage
from chalkfold.stale.telling import Teller
from chalkfold.stale.tracing import Tracer
from chalkfold.stale.words import words_of
from chalkfold.trade.settings import Settings

MOST_TOLD = 500
"""Measures of one post that are traced; more is no tutorial."""
NEAR = 60
"""Characters on each side of a measure whose words speak for one number or another."""


def find_typed(
    passages: Iterable[Passage], names: Iterable[str], settings: Settings, faults: Faults
) -> list[tuple[Passage, Typed]]:
    """Every measure typed by hand that nothing allows; a comment that allows what is not there is reported.

    ``names`` are those of goods and sizes, which may hold a measure.
    """
    words, allowed = words_of(settings.language.tag), (*settings.allowed, *names)
    found = []
    for passage in passages:
        text = passage.text.value
        for typed in measures_in(text, words):
            by_comment = passage.allowance.covers(text, typed.start, typed.end)
            if not by_comment and not covered(allowed, text, typed.start, typed.end):
                found.append((passage, typed))
        for phrase in passage.allowance.unused:
            hint = "write it as the text has it, or take the comment out"
            faults.add(Code.MISLEADS_ALLOWED, f"no measure here reads `{phrase.value}`", phrase.span(), hint)
    return found


def tell_typed(
    found: Sequence[tuple[Passage, Typed]], values: Values, own: Sequence[str], settings: Settings, faults: Faults
) -> None:
    """Trace each measure to the numbers of the post; ``own`` are the names under ``numbers:``."""
    write = Shower(values, settings.printer, reader_chooses=False)
    tracer = Tracer(values, settings.marks, [key_of(name) for name in own])
    teller = Teller(values, lambda key, size: write.plain((Shown(key),), size), faults)
    if len(found) > MOST_TOLD:
        passage, typed = found[MOST_TOLD]
        message = f"more than {MOST_TOLD} measures are typed by hand in this post; what follows is not looked at"
        span = passage.text.span(typed.start, typed.end)
        faults.add(Code.MISLEADS_TYPED, message, span, "mend those before, and check again")
    for passage, typed in found[:MOST_TOLD]:
        near = passage.text.value[max(0, typed.start - NEAR) : typed.end + NEAR]
        teller.tell(typed, tracer.trace(typed, near), passage)
