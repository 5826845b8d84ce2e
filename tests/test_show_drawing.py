"""A drawing and what stands beside it: one figure a size, one table that tells the same, ids that are unique."""

from __future__ import annotations

import re

import pytest
from lxml import etree
from markdown_it import MarkdownIt

from chalkfold.diagnostics import Source
from chalkfold.post import build_post, convert
from post_help import block, workroom
from show_help import text, tree

SHELF = workroom()
SIXTEENTH = "20\N{NARROW NO-BREAK SPACE}1⁄16"
WAIST = "40\N{NARROW NO-BREAK SPACE}3⁄16"
"""51 cm is 20.08 in; a length that is doubled is printed finely."""
PROJECT = block(
    "project",
    """
    sizes: [S, M, L]
    sample size: M
    numbers:
      waist edge: {S: 96 cm, M: 102 cm, L: 110 cm}
      radius: waist edge / pi
    """,
)
SKIRT = block(
    "draft",
    """
    piece: skirt
    cut: 1 on fold in main
    points:
      centre: here
      waist at fold: {from: centre, across: radius}
      waist at back: {from: centre, down: radius}
      hem at fold: {from: centre, across: radius + 60 cm}
      hem at back: {from: centre, down: radius + 60 cm}
      hip: {from: waist at back, down: 20 cm}
      hip inside: {from: hip, across: 10 cm}
    outline:
      start: waist at fold
      waist: arc to waist at back around centre
      back: line to hem at back
      hem: arc to hem at fold around centre
      fold: line to waist at fold
    on fold: fold
    allowances: {waist: 1 cm, back: 1.5 cm, hem: 1 cm}
    lines:
      hip line: from hip; line to hip inside
    marks:
      - notch on back at 20 cm from waist at back
      - drill at hip inside left as worn
    """,
)
BAND = block(
    "draft",
    """
    piece: band
    cut: 2 in main
    rectangle: {across: 30 cm, down: 8 cm}
    allowances: {all: 1 cm}
    """,
)
SHAPES = {
    "circle": "cut: 1 on two folds in main\ncircle: {radius: radius}",
    "flounce": "cut: 2 in main\nflounce: {inner radius: radius, depth: 20 cm, fraction: 1/2}",
    "rectangle": "cut: 1 on fold in main\nrectangle: {across: radius, down: 60 cm}\non fold: left",
    "tube": "cut: 1 in the round in main\nrectangle: {across: radius, down: 60 cm}\ndonor sides: left right",
    "pair": "cut: 1 pair in main\nrectangle: {across: 12 cm, down: 20 cm}",
}


def built(post: str, *, reader_chooses: bool = True) -> str:
    found = build_post(Source("posts/skirt.md", post), SHELF, reader_chooses=reader_chooses, prefix="p-")
    assert not len(found.faults), [fault.message for fault in found.faults]
    return found.html


def piece(shape: str) -> str:
    return PROJECT + block("draft", f"piece: {shape}\n{SHAPES[shape]}\nallowances: {{all: 1 cm}}")


def _with(draft: str, more: str) -> str:
    """A draft with one more key in it."""
    return draft.replace("\n```\n\n", f"\n{more}\n```\n\n")


def drawings(html: str, kind: str = "sheet") -> list[etree._Element]:
    return [each for each in tree(html).iter() if is_svg(each) and kind in each.get("class").split()]


def is_svg(element: etree._Element) -> bool:
    return isinstance(element.tag, str) and element.tag.endswith("svg")


def texts(drawing: etree._Element, group: str) -> list[str]:
    (found,) = [each for each in drawing if each.get("class") == group]
    return [text(each) for each in found.iter() if str(each.tag).endswith("text")]


def rows(html: str) -> dict[str, list[str]]:
    """The table beside a drawing: letter, name and cells by the name, for a post without a size bar."""
    page = tree(html)
    found = [[text(cell) for cell in row] for row in page.findall(".//table[@class='key']/tbody/tr")]
    return {row[1]: row for row in found}


class TestTheSkirt:
    """Half a circle for a waist edge of 102 cm: the radius is 102 cm / π = 32.47 cm, the hem twice 145.24 cm."""

    html = built(PROJECT + SKIRT, reader_chooses=False)

    def test_the_table_tells_what_is_drawn_and_what_is_whole(self) -> None:
        table = rows(self.html)
        assert table["waist"] == ["A", "waist", f"51 cm ({SIXTEENTH} in)", f"102 cm ({WAIST} in)", "1 cm (⅜ in)"]
        assert table["hem"][2:4] == ["145.2 cm (57\N{NARROW NO-BREAK SPACE}3⁄16 in)", "290.5 cm (114⅜ in)"]
        assert table["fold"][2] == "on the fold, no allowance"
        assert table["waist, radius"][2].startswith("31.5 cm (12⅜ in) from the centre")

    def test_the_drawing_says_the_same(self) -> None:
        (drawing,) = drawings(self.html)
        said = " ".join(texts(drawing, "full"))
        for each in (
            "SKIRT",
            f"51 cm · {SIXTEENTH} in drawn",
            f"102 cm · {WAIST} in whole",
            "31.5 cm · 12⅜ in",
            "145.2 cm",
        ):
            assert each in said
        assert "place on the fold" in said
        assert "size M · half of the piece" in said

    def test_it_is_read_out(self) -> None:
        (drawing,) = drawings(self.html)
        assert drawing.get("role") == "img"
        title, description = (text(each) for each in drawing[:2])
        assert title == "Skirt, half of the piece, size M"
        assert "waist: 51 centimetres drawn, 102 centimetres whole, cut radius 31.5 centimetres." in description
        assert "fold: place on the fold." in description

    def test_the_caption_says_what_is_shown(self) -> None:
        caption = text(tree(self.html).find(".//figure[@class='drawn']/figcaption"))
        assert caption.startswith("The solid line is the cutting line, the dashed one the seam line.")
        assert caption.endswith("Half of the piece is drawn.")

    def test_before_cutting_there_is_a_tape_to_lay(self) -> None:
        checks = [text(each) for each in tree(self.html).findall(".//section[@class='box checks']//li")]
        assert any("Along waist" in each and "51 cm" in each and "102 cm" in each for each in checks)
        assert checks[-1].startswith("A ")

    def test_lines_are_told_apart(self) -> None:
        (drawing,) = drawings(self.html)
        paths = {each.get("class"): each for each in drawing.iter() if str(each.tag).endswith("path")}
        assert {"cut", "seam", "fold", "check", "grain", "style", "mark"} <= set(paths)
        assert float(paths["cut"].get("stroke-width")) > float(paths["seam"].get("stroke-width"))
        assert paths["cut"].get("stroke-dasharray") is None


class TestSizes:
    def test_there_is_one_figure_a_size_for_a_reader_who_chooses(self) -> None:
        html = built(PROJECT + SKIRT)
        assert len(drawings(html)) == 3
        assert [text(each[0]) for each in drawings(html)] == [
            f"Skirt, half of the piece, size {size}" for size in ("S", "M", "L")
        ]
        assert len(drawings(html, "nest")) == len(drawings(html, "folds")) == 1

    def test_sizes_that_are_alike_share_a_figure(self) -> None:
        html = built(PROJECT + BAND)
        (drawing,) = drawings(html)
        assert "every size · the whole piece" in " ".join(texts(drawing, "full"))
        assert drawings(html, "nest") == drawings(html, "folds") == []

    def test_other_hosts_get_the_sample_size_and_a_table_of_all(self) -> None:
        html = built(PROJECT + SKIRT, reader_chooses=False)
        assert len(drawings(html)) == len(drawings(html, "nest")) == 1
        table = tree(html).find(".//table[@class='all']")
        assert [text(each) for each in table.findall("thead/tr/th")][1:] == ["S", "M", "L"]
        assert [text(each) for each in table.findall("tbody/tr")[1]][2] == f"102 cm ({WAIST} in)"

    def test_the_nest_names_every_size(self) -> None:
        (nest,) = drawings(built(PROJECT + SKIRT), "nest")
        assert sorted(texts(nest, "labels")) == ["L", "M", "S"]

    def test_without_sizes_none_is_named(self) -> None:
        html = built(block("project", "sizes: none") + BAND)
        assert "size" not in " ".join(texts(drawings(html)[0], "full"))


class TestLetters:
    @pytest.mark.parametrize("post", [PROJECT + SKIRT + BAND, *(piece(shape) for shape in SHAPES)])
    def test_each_stands_in_the_drawing_and_in_the_table(self, post: str) -> None:
        page = tree(built(post))
        for view in page.iterfind(".//div[@class='view drawing']"):
            told = [text(each) for each in view.iterfind(".//table/tbody/tr/td[@class='letter']")]
            told = [each for each in told if each]
            assert len(told) == len(set(told))
            for drawing in (each for each in view.iter() if is_svg(each) and "sheet" in each.get("class")):
                drawn = [each for each in texts(drawing, "letters") if re.fullmatch("[A-Z]2?", each)]
                assert sorted(drawn) == sorted(told)

    def test_a_check_along_an_edge_has_the_letter_of_the_edge(self) -> None:
        page = tree(built(PROJECT + SKIRT))
        letters = [text(each) for each in page.iterfind(".//section[@class='box checks']//b[@class='letter']")]
        assert letters[-1] == "A"


class TestTheCutList:
    """Each drafted piece leads to its drawing; what is given in the list itself has none."""

    LIST = block(
        "cut-list",
        "pieces: [{piece: tie, rectangle: {across: 3 cm, down: 60 cm}, allowances: {all: 1 cm}, cut: 2 in main}]",
    )
    NAMED = BAND.replace("piece: band", "piece: left-hand band\nid: the-band")

    @pytest.mark.parametrize("reader_chooses", [True, False])
    def test_a_piece_leads_to_its_drawing(self, reader_chooses: bool) -> None:
        page = tree(built(PROJECT + SKIRT + self.NAMED + self.LIST, reader_chooses=reader_chooses))
        links = {text(each): each.get("href") for each in page.iterfind(".//th/a")}
        assert links == {"skirt": "#p-drawing_skirt", "left-hand band": "#the-band"}
        drawn = [each.get("id") for each in page.iterfind(".//div[@class='view drawing']")]
        assert [f"#{each}" for each in drawn] == list(links.values())

    def test_the_name_of_a_piece_keeps_its_spelling(self) -> None:
        html = built(PROJECT + BAND.replace("piece: band", "piece: T-shirt Dart"), reader_chooses=False)
        page = tree(html)
        assert text(page.find(".//*[@class='figure-title']")) == "T-shirt Dart"
        assert page.find(".//div[@class='view drawing']").get("id") == "p-drawing_t-shirt_dart"


class TestMarks:
    def test_the_table_says_what_a_mark_is_measured_from_and_how_large_a_button_is(self) -> None:
        marks = "marks:\n  - notch on top at 4 cm\n  - button at top left, 18 mm across\n  - button at top right"
        html = built(PROJECT + _with(BAND, marks), reader_chooses=False)
        said = [text(each) for each in tree(html).findall(".//table[@class='key']/tbody/tr/th")]
        assert "notch 4 cm (1⅝ in) on top, from where it meets left" in said
        assert "button 1.8 cm (11⁄16 in) across" in said
        assert "button" in said

    def test_a_button_is_drawn_as_large_as_it_is(self) -> None:
        """30 × 8 cm with 1 cm round it is drawn 32 cm wide; a button of 4 cm is an eighth of that."""
        (drawing,) = drawings(built(PROJECT + _with(BAND, "marks: [button at bottom right]")))
        (large,) = drawings(built(PROJECT + _with(BAND, 'marks: ["button at bottom right, 4 cm across"]')))
        paths = [next(each.get("d") for each in one.iter() if each.get("class") == "mark") for one in (drawing, large)]
        cloth = next(each.get("d") for each in large.iter() if each.get("class") == "cloth")
        across = [float(each) for each in re.findall(r"[ML](-?[\d.]+) ", cloth)]
        radii = [float(re.search(r"A([\d.]+) ", path)[1]) for path in paths]
        assert radii[0] == 4
        assert 2 * radii[1] == pytest.approx((max(across) - min(across)) * 4 / 32, abs=0.02)


class TestMarkup:
    ALL = PROJECT + SKIRT + BAND + "".join(piece(shape).removeprefix(PROJECT) for shape in SHAPES)

    @pytest.mark.parametrize("reader_chooses", [True, False])
    def test_ids_are_unique_and_those_named_are_there(self, reader_chooses: bool) -> None:
        page = tree(built(self.ALL, reader_chooses=reader_chooses))
        ids = [each.get("id") for each in page.iter() if isinstance(each.tag, str) and each.get("id")]
        assert len(ids) == len(set(ids))
        named = " ".join(each.get("aria-labelledby", "") for each in page.iter() if isinstance(each.tag, str))
        assert set(named.split()) <= set(ids)

    def test_other_generators_take_it_as_one_piece_of_markup(self) -> None:
        markdown, faults = convert(Source("posts/skirt.md", self.ALL), SHELF)
        assert not len(faults)
        html = MarkdownIt("commonmark", {"html": True}).render(markdown)
        page = tree(html)
        assert page.findall(".//pre") == []
        assert len(drawings(html)) == 2 + len(SHAPES)
        for shown in re.findall(r'(?ms)^<div class="view drawing">.*?^</div>$', html):
            assert not re.search(r"(?m)^\s|^$", shown)

    def test_it_is_the_same_every_time(self) -> None:
        assert built(self.ALL) == built(self.ALL)

    def test_names_of_sizes_are_escaped(self) -> None:
        post = PROJECT.replace("[S, M, L]", "['<S>', M, 'L & up']").replace("{S:", "{'<S>':").replace("L:", "'L & up':")
        html = built(post + SKIRT)
        assert "<S>" not in html
        assert [text(each[0]) for each in drawings(html)][::2] == [
            "Skirt, half of the piece, size <S>",
            "Skirt, half of the piece, size L & up",
        ]


class TestHowAPieceLies:
    @pytest.mark.parametrize(
        ("shape", "shown", "folds"),
        [
            ("circle", "a quarter of the piece", 1),
            ("flounce", "the whole piece", 0),
            ("rectangle", "half of the piece", 1),
            ("tube", "laid flat", 1),
            ("pair", "one of the pair", 0),
        ],
    )
    def test_what_is_drawn_of_it_is_said(self, shape: str, shown: str, folds: int) -> None:
        html = built(piece(shape))
        assert shown in text(drawings(html)[0][0])
        assert len(drawings(html, "folds")) == folds

    def test_in_the_round_the_donor_keeps_its_sides(self) -> None:
        html = built(piece("tube"), reader_chooses=False)
        assert rows(html)["left"][2] == "the donor’s own side, left whole"
        assert texts(drawings(html)[0], "full").count("left whole") == 2

    def test_a_whole_piece_has_one_column_of_lengths(self) -> None:
        html = built(piece("pair"), reader_chooses=False)
        assert rows(html)["top"][1:] == ["top", "12 cm (4¾ in)", "1 cm (⅜ in)"]
