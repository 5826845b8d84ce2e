"""The finder on any text: places are true, what a page prints is recognised, and hostile text takes no time."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from chalkfold.amounts import Kind, Marks, Printer, language
from chalkfold.diagnostics import Source, Span
from chalkfold.formula import Literal
from chalkfold.plan import Sizes, Step, Values
from chalkfold.post import parser
from chalkfold.stale.measures import measures_in
from chalkfold.stale.prose import MASK, prose_of
from chalkfold.stale.tracing import Tracer
from chalkfold.stale.words import words_of

WORDS = words_of("en-GB")
PIECES = st.sampled_from(
    [
        *(
            "16",
            "7",
            "1/2",
            "½",
            " ",
            "  ",
            "-",
            "–",
            " to ",
            " × ",
            " x ",
            "in",
            " inches",
            '"',
            "cm",
            " m",
            "'",
            "a ",
        ),
        *("half ", "an ", "of ", "and ", "(", ")", ",", ".", "about ", "five ", "twenty", "sq ", "2", "`", "*", "\n"),
        *(
            "{= seam }",
            "**",
            "[a](b.md)",
            "![",
            "](c.svg)",
            "&nbsp;",
            "&frac12;",
            "\\",
            "<!--",
            "-->",
            "<b>",
            "|",
            "> ",
        ),
    ]
)
TEXTS = st.lists(PIECES, max_size=40).map("".join) | st.text(max_size=80)


def values_of(mm: float) -> Values:
    source = Source("a.md", "x")
    step = Step("hem", Literal(mm, Kind.LENGTH, "x"), Span(source, 0, 1))
    return Values(Sizes(), {"hem": step}, {"hem": Kind.LENGTH}, {"hem": (mm,)})


@given(TEXTS)
def test_measures_stand_in_order_and_inside_the_text(text: str) -> None:
    found = measures_in(text, WORDS)
    ends = [0]
    for each in found:
        assert ends[-1] <= each.start < each.end <= len(text)
        assert text[each.start : each.end].strip() == text[each.start : each.end]
        assert all(part.value > 0 and part.step > 0 for part in each.parts)
        ends.append(each.end)


@given(TEXTS)
def test_every_character_of_prose_stands_where_it_is_said_to(text: str) -> None:
    source = Source("a.md", text.replace("\r", "\n").replace("\0", ""))
    for prose in prose_of(parser().parse(source.text), source, 0):
        value = prose.text.value
        for at, char in enumerate(value):
            span = prose.text.span(at, at + 1)
            assert 0 <= span.start <= len(source.text)
            if char in "0123456789" and "&" not in source.text:
                assert source.text[span.start] == char


@given(st.floats(3, 3000), st.booleans(), st.sampled_from([Marks(), Marks(1.0, Marks().inch / 2)]))
def test_what_a_page_prints_is_traced_to_its_number(mm: float, inch_first: bool, marks: Marks) -> None:
    printed = Printer(language("en-GB"), "in" if inch_first else "cm", marks).length(mm)
    tracer = Tracer(values_of(mm), marks, ["hem"])
    for said in (printed.metric, printed.inch, printed.both):
        text = f"Turn up {said} at the edge."
        (typed,) = measures_in(text, WORDS)
        assert text[typed.start : typed.end] == said
        ((likeness, *_),) = tracer.trace(typed, text).parts
        assert likeness.name == "hem"


@given(st.floats(20, 3000), st.floats(1.3, 3))
def test_a_measure_far_from_every_number_is_traced_to_none(mm: float, factor: float) -> None:
    text = f"Cut {mm * factor / 10:.1f} cm."
    (typed,) = measures_in(text, WORDS)
    assert not Tracer(values_of(mm), Marks(), ["hem"]).trace(typed, text).found


HOSTILE = {
    "numbers": "16 " * 20_000,
    "ranges": "5 to 7 x 8 " * 7_000,
    "fractions": "1/2 " * 20_000,
    "one long number": "1" * 200_000,
    "points": "1.1" * 20_000,
    "halves": "and a half " * 7_000,
    "feet": "5' " * 20_000,
    "quotes": '"a ' * 20_000,
    "opening quotes": "“a ” " * 40_000,
    "words": "twenty-" * 30_000,
    "square": "2 sq " * 40_000,
    "systems": "1 cm (1 in) " * 15_000,
    "hyphens": "-" * 200_000,
}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_hostile_text_is_read_in_time(text: str) -> None:
    """Twice as much takes twice as long; a slower way of reading would not end within the limit of a test."""
    found = measures_in(text, WORDS)
    assert all(each.end <= len(text) for each in found)


MARKUP = {
    "comments": "<!-- as it stands: 2 cm " * 8_000,
    "comments closed": "2 cm <!-- as it stands: 2 cm --> " * 4_000,
    "entities": "&amp;*a*" * 15_000,
    "brackets": "[" * 20_000,
    "escapes": "\\*" * 50_000,
    "cells": "| a \\| b " * 10_000 + "\n|" + "---|" * 2,
    "tags": "<b" * 50_000,
}


@pytest.mark.parametrize("text", MARKUP.values(), ids=MARKUP)
def test_hostile_markup_is_read_in_time(text: str) -> None:
    source = Source("a.md", text)
    tokens = parser().parse(text)
    shown = [prose.text.value.replace(MASK, "") for prose in prose_of(tokens, source, 0)]
    assert sum(map(len, shown)) <= len(text)
