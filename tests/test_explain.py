"""Every number can say how it was found: formula, what was put in, result, where from, source."""

from __future__ import annotations

import re

import pytest

from chalkfold.diagnostics import Source
from chalkfold.post import NoSuchNumber, explain
from post_help import block, post, workroom

SKIRT = post(
    "top edge: max(hip girth, waist girth) + 4 cm",
    "elastic width: {M: 25 mm, step: 5 mm}",
    "heading: 2 * casing depth",
    head="sizes: workroom chart\nbooks: casing",
    blocks=block(
        "cut-list",
        """
        pieces:
          - piece: skirt
            rectangle: {across: top edge / 4, down: 60 cm}
            on fold: left
            allowances: {all: 1 cm, top: casing depth}
            cut: 2 on fold in main
        """,
    ),
)


def told(name: str, size: str | None = None, text: str = SKIRT) -> list[str]:
    lines = explain(Source("posts/skirt.md", text), workroom(), name, size)
    return [re.sub(r"(?<=\S)\s", " ", line) for line in lines]  # the spaces inside an amount do not break


def test_a_number_tells_its_way_down_to_the_chart() -> None:
    assert told("top edge") == [
        "top edge = 102 cm (40⅛ in)",
        "  max(hip girth, waist girth) + 4 cm",
        "  = max(98 cm (38⅝ in), 76 cm (29⅞ in)) + 4 cm",
        "  from the post",
        "hip girth = 98 cm (38⅝ in)",
        "  98 cm",
        "  from chart workroom chart; source: Invented for these cases, with numbers that are easy to reckon with.",
        "  Level round the seat.",
        "waist girth = 76 cm (29⅞ in)",
        "  76 cm",
        "  from chart workroom chart; source: Invented for these cases, with numbers that are easy to reckon with.",
        "  Level round the waist.",
    ]


def test_a_number_of_a_book_tells_book_note_and_source() -> None:
    """XL is two sizes above M: 25 + 2 × 5 mm."""
    assert told("casing depth", "XL") == [
        "casing depth = 4 cm (1⅝ in)",
        "  elastic width + casing play",
        "  = 3.5 cm (1⅜ in) + 5 mm (3⁄16 in)",
        "  from book casing; source: plane geometry",
        "elastic width = 3.5 cm (1⅜ in)",
        "  25 mm + 2 * 5 mm",
        "  from the post",
        "casing play = 5 mm (3⁄16 in)",
        "  5 mm",
        "  from book casing; source: common practice, no source",
        "  Room for the elastic to slide.",
    ]


def test_the_total_of_an_edge_tells_layers_and_copies() -> None:
    """The post shows it nowhere; it is explained all the same."""
    assert told("total top of skirt", "L")[:8] == [
        "total top of skirt = 110 cm (43 5⁄16 in)",
        "  4 * drawn top of skirt",
        "  = 4 * 27.5 cm (10 13⁄16 in)",
        "  from piece skirt",
        "  Layers × copies: 2 × 2.",
        "drawn top of skirt = 27.5 cm (10 13⁄16 in)",
        "  across drawn of skirt",
        "  from piece skirt",
    ]


def test_what_only_repeats_a_number_is_left_out() -> None:
    """Neither "part 1 of buttons" nor a length from which no ends are taken off."""
    buttons = post("edge: 60 cm", blocks=block("spacing", "name: buttons\nalong: edge\ncount: 5"))
    assert told("space of buttons", text=buttons) == [
        "space of buttons = 15 cm (5⅞ in)",
        "  span of buttons / max(1, count of buttons - 1)",
        "  = 60 cm (23⅝ in) / max(1, 5 - 1)",
        "  from the post",
        "span of buttons = 60 cm (23⅝ in)",
        "  edge",
        "  from the post",
        "count of buttons = 5",
        "  wished count of buttons",
        "  from the post",
        "edge = 60 cm (23⅝ in)",
        "  60 cm",
        "  from the post",
        "wished count of buttons = 5",
        "  from the post",
    ]


def test_a_name_that_is_not_there() -> None:
    with pytest.raises(NoSuchNumber, match="no number called `top egde`") as caught:
        told("top egde")
    assert caught.value.hint == "did you mean `top edge`?"


def test_a_size_that_is_not_there() -> None:
    with pytest.raises(NoSuchNumber, match="no size `XXL`") as caught:
        told("top edge", "XXL")
    assert caught.value.hint == "its sizes are XS, S, M, L, XL"


def test_a_measure_of_a_drawn_edge_tells_how_it_is_drawn() -> None:
    """An edge has no value to print; its points have."""
    flap = block(
        "draft",
        """
        piece: flap
        cut: 1 in main
        points:
          a: here
          b: {from: a, across: 20 cm}
        outline:
          start: a
          top: line to b
          rim: curve to a leaving down arriving up
        allowances: none
        """,
    )
    assert told("top of flap", text=post(blocks=flap))[:6] == [
        "top of flap = 20 cm (7⅞ in)",
        "  length of(edge top of flap)",
        "  from piece flap",
        "edge top of flap = drawn",
        "  line(point a of flap, point b of flap)",
        "  = line(0 cm across, 0 cm down (0 in across, 0 in down), 20 cm across, 0 cm down (7⅞ in across, 0 in down))",
    ]
