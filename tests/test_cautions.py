"""Where cautions stand: before the first block of the work, once, and on printed patterns."""

from __future__ import annotations

from io import BytesIO

import pytest
from pypdf import PdfReader

from chalkfold.diagnostics import Source
from chalkfold.post import build_post
from chalkfold.trade import Shelf
from chalkfold.trade.cautions import cautions, on_paper
from chalkfold.trade.words import words_in
from paper_help import pdf
from post_help import block

DRAFT = block("draft", "piece: bag\ncut: 1 in main\nrectangle: {across: 12 cm, down: 12 cm}\nallowances: {all: 1 cm}")
CUT = block("cut-list", "caption: All.")


def page(text: str, project: str = "sizes: none") -> str:
    built = build_post(Source("a.md", f"{block('project', project)}{text}"), Shelf())
    assert not len(built.faults), [fault.message for fault in built.faults]
    return built.html


def test_they_stand_once_before_the_first_block_of_the_work() -> None:
    html = page(f"{DRAFT}{CUT}Press it.")
    assert html.count("Mind your hands") == 1
    assert html.index("Mind your hands") < html.index("<figure")


def test_without_such_a_block_they_stand_below_the_project() -> None:
    html = page("Press it.", "sizes: none\nmade for: adults")
    assert html.index("Made for") < html.index("Mind your hands") < html.index("Press it.")


def test_a_post_that_uses_nothing_has_none() -> None:
    assert "Mind your hands" not in page(f"{DRAFT}Fold it.")


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Press the seam.", ("press",)),
        ("PRESS it", ("press",)),
        ("a rotary\n  cutter", ("rotary cutter",)),
        ("express pressure", ()),
        ("an iron-on patch", ("iron-on",)),
        ("", ()),
    ],
)
def test_words_are_whole_words(text: str, found: tuple[str, ...]) -> None:
    assert words_in(text, ["press", "iron", "iron-on", "rotary cutter"]) == found


def test_every_caution_is_short_and_can_come_up() -> None:
    for caution in cautions().values():
        assert len(caution.says) <= 160
        assert caution.words or caution.goods or caution.roles or caution.on_paper


def printed(project: str, text: str = "") -> str:
    pages = PdfReader(BytesIO(pdf(text=f"{block('project', project)}{DRAFT}{text}"))).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_patterns_have_those_for_cutting_and_name_the_others() -> None:
    text = printed("sizes: none", "Press it, and pin it.")
    for caution in on_paper():
        assert caution.says in text
    assert "The page of the post says more: needles and pins, iron." in text


def test_patterns_have_them_as_the_post_words_them() -> None:
    text = printed("sizes: none\ncautions: {reword: {blades: The cat sleeps on the cutting table.}}")
    assert "The cat sleeps on the cutting table." in text
    assert cautions()["blades"].says not in text
