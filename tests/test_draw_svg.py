"""Drawings as SVG: sound, safe, themed, switched by unit, arcs kept as arcs."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from chalkfold.draw.drawn import Layer, trace
from chalkfold.draw.layout import laid_out
from chalkfold.draw.lines import LineType
from chalkfold.draw.paths import Extent, circle
from chalkfold.draw.sheet import Callout, NameBlock, Spot
from chalkfold.draw.svg import Svg, number, page_svg
from chalkfold.draw.words import Both
from chalkfold.geometry.shapes import line
from draw_help import quarter_ring

BAD = '"><script>alert(1)</script>\x00\ud800&'


@pytest.fixture(scope="module")
def skirt() -> str:
    return page_svg(laid_out(quarter_ring()), "post-skirt-1", "Skirt, size M", "A quarter of a ring.")


class TestMarkup:
    def test_it_is_one_sound_element_with_a_name(self, skirt: str) -> None:
        root = ElementTree.fromstring(skirt)
        assert root.get("role") == "img"
        assert root.get("aria-labelledby") == "post-skirt-1-title post-skirt-1-desc"
        assert {each.get("id"): each.text for each in root if each.get("id")} == {
            "post-skirt-1-title": "Skirt, size M",
            "post-skirt-1-desc": "A quarter of a ring.",
        }

    def test_it_has_no_colour_of_its_own(self, skirt: str) -> None:
        paints = set(re.findall(r'(?:fill|stroke|color)="([^"]+)"', skirt))
        assert paints == {"none", "currentColor"}

    def test_lines_are_told_apart_without_the_style_sheet(self, skirt: str) -> None:
        root = ElementTree.fromstring(skirt)
        pens = {path.get("class"): path.get("stroke-dasharray") for path in root.iter("path")}
        assert pens["cut"] is None
        assert pens["fold"] == "16 4 3 4"
        assert pens["check"] == "1.5 3.5"

    def test_every_text_is_set_without_the_style_sheet(self) -> None:
        """What a text does not say itself, the group it stands in says, as SVG hands such attributes on."""
        drawn = laid_out(quarter_ring())
        root = ElementTree.fromstring(page_svg(drawn, "p", "t", "d"))
        looks = []
        for group in (each for each in root.iter("g") if each.get("font-size")):
            assert (group.get("fill"), group.get("stroke")) == ("currentColor", "none")
            names = ("font-size", "font-weight", "text-anchor")
            looks += [tuple(text.get(name, group.get(name)) for name in names) for text in group.iter("text")]
        assert looks == [
            (number(each.lettering.size), "700" if each.lettering.bold else "400", each.anchor)
            for each in (*drawn.full.texts, *drawn.letters.texts)
        ]

    def test_letters_are_hidden_without_the_style_sheet(self, skirt: str) -> None:
        assert '<g class="letters" display="none">' in skirt
        assert '<g class="full">' in skirt

    def test_both_units_and_what_joins_them_can_be_switched_off(self, skirt: str) -> None:
        joined = '<tspan class="m">60.0 cm</tspan><tspan class="m i"> · </tspan><tspan class="i">23.6 in</tspan>'
        assert joined in skirt

    def test_where_inches_come_first(self) -> None:
        sheet = replace(quarter_ring(), items=(Spot((0, 0), ((Both("1 cm", "⅜ in", inch_first=True),),)),))
        svg = page_svg(laid_out(sheet), "p", "t", "d")
        assert svg.index("⅜ in") < svg.index("1 cm")

    def test_what_the_writer_typed_is_escaped(self) -> None:
        items = (Callout((325, 0), (1, 0), ((BAD,), (Both(BAD, "x"),)), BAD),)
        sheet = replace(quarter_ring(), items=items, name=NameBlock(BAD))
        svg = page_svg(laid_out(sheet), BAD, BAD, BAD)
        ElementTree.fromstring(svg)
        assert "<script" not in svg.lower()

    def test_it_stays_small(self, skirt: str) -> None:
        """Eight sizes go into a page: this is a drawing with all a piece can have."""
        assert len(skirt) < 5500


class TestPaths:
    def test_arcs_stay_arcs(self, skirt: str) -> None:
        root = ElementTree.fromstring(skirt)
        (cut,) = [path.get("d") for path in root.iter("path") if path.get("class") == "cut"]
        assert re.fullmatch(r"M\S+ \S+A(\S+) \1 0 0 1 \S+ \S+L\S+ \S+A(\S+) \2 0 0 0 \S+ \S+", cut or "")

    def test_a_way_round_goes_as_it_should(self) -> None:
        """Clockwise on the page is sweep 1 in SVG, whose y also runs down; more than half a turn is large."""
        svg = Svg(Extent(0, 0, 9, 9), "p", "t", "d")
        trace(svg, ((5.0, 0.0, 0.0, -5.0, 0.0, 0.0, 270.0),))
        svg.stroke(LineType.SEAM)
        assert 'd="M5 0A5 5 0 1 1 0 -5"' in str(svg)

    def test_rounding_leaves_no_gap_in_a_corner(self) -> None:
        """A second `M` would part the cloth in two, each closed by itself."""
        svg = Svg(Extent(0, 0, 9, 9), "p", "t", "d")
        trace(svg, (line((0, 0), (5, 0)), line((5 + 1e-12, 0), (5, 5)), line((5, 7), (0, 7))))
        svg.stroke(LineType.SEAM)
        assert 'd="M0 0L5 0L5 5M5 7L0 7"' in str(svg)

    def test_a_full_circle_is_two_halves(self) -> None:
        layer = Layer(strokes=[(LineType.CUTTING, circle((0, 0), 5)), (LineType.SEAM, ((5, 0, 5, 0, 0, 0, 360),))])
        svg = Svg(Extent(0, 0, 9, 9), "p", "t", "d")
        layer.play(svg)
        assert str(svg).count('d="M5 0A5 5 0 0 1 -5 0A5 5 0 0 1 5 0"') == 2

    def test_numbers_have_two_decimals_at_most_and_no_minus_nought(self, skirt: str) -> None:
        assert number(-0.001) == "0"
        assert number(1.005) == "1.01"
        assert not re.search(r"-0[^.\d]|\d\.\d{3}|e-", " ".join(re.findall(r' (?:d|x|y|viewBox)="([^"]+)"', skirt)))
