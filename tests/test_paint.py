"""Two players of one drawing: the page's, painted by its theme, and the one in plain colours for renderers."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from chalkfold.draw.drawn import Drawn
from chalkfold.draw.folds import Folding, sketch
from chalkfold.draw.layout import laid_out
from chalkfold.draw.paint import painted
from chalkfold.draw.sheet import NameBlock, Sheet
from chalkfold.draw.svg import page_svg
from draw_help import polygon, quarter_ring

SVG = "{http://www.w3.org/2000/svg}"
SHEETS = [
    quarter_ring(),
    polygon([(0, 0), (200, 0), (180, 300), (20, 300)], ["hem", "side", "top"]),
    polygon([(0, 0), (20, 0), (20, 15)], ["a"]),
]


def themed(drawing: Drawn) -> list[tuple[str, str]]:
    """Path or text in the order drawn, without the letters that only a narrow page shows."""
    root = ElementTree.fromstring(page_svg(drawing, "p", "t", "d"))
    letters = {id(each) for group in root.iter("g") if group.get("class") == "letters" for each in group.iter()}
    return [drawn(each) for each in root.iter() if each.tag in ("path", "text") and id(each) not in letters]


def resolved(drawing: Drawn) -> list[tuple[str, str]]:
    root = ElementTree.fromstring(painted(drawing))
    return [drawn(each) for each in root.iter() if each.tag in (f"{SVG}path", f"{SVG}text")]


def drawn(element: ElementTree.Element) -> tuple[str, str]:
    return (
        element.tag.removeprefix(SVG),
        element.get("d") or "".join(element.itertext()).replace("\N{FRACTION SLASH}", "/"),
    )


@pytest.mark.parametrize("sheet", SHEETS, ids=["quarter ring", "panel", "scrap"])
def test_both_draw_the_same_paths_and_texts(sheet: Sheet) -> None:
    drawing = laid_out(sheet)
    found = resolved(drawing)
    assert len(found) > 8
    assert found == themed(drawing)


def test_so_they_do_for_a_sketch_of_folds() -> None:
    drawing = sketch(Folding.ON_TWO_FOLDS)
    assert resolved(drawing) == themed(drawing)


def test_every_paint_is_a_plain_colour_and_nothing_needs_a_style_sheet() -> None:
    svg = painted(laid_out(quarter_ring()))
    assert {each for each in re.findall(r'(?:fill|stroke)="([^"]+)"', svg) if each != "none"} <= {
        "#111111", "#8a8a8a", "#eef1f3", "#ffffff",
    }  # fmt: skip
    assert not re.search(r"class=|style|currentColor|display", svg)


def test_what_the_writer_typed_is_escaped() -> None:
    svg = painted(laid_out(replace(quarter_ring(), name=NameBlock('<b>&"\x00'))))
    ElementTree.fromstring(svg)
    assert "&lt;B&gt;&amp;" in svg
