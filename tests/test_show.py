"""Views as HTML and text: what stands in the page, what a reader can choose, what a voice reads."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from chalkfold.amounts import Kind
from chalkfold.plan import (
    Choice,
    Fact,
    Facts,
    Frame,
    Group,
    Listing,
    Product,
    Ruler,
    Shown,
    Sizes,
    Style,
    Table,
    View,
)
from show_help import (
    ALL_VIEWS,
    CUT_LIST,
    FIVE,
    LENGTH,
    PIECES,
    PROJECT,
    USUAL,
    Rows,
    shower,
    text,
    tree,
)

NO_BREAK = "\N{NO-BREAK SPACE}"


def everything(**given: object) -> str:
    write = shower(**given)  # type: ignore[arg-type]
    return "\n".join(write.view(view) for view in ALL_VIEWS)


class TestValues:
    def test_a_value_that_is_equal_in_all_sizes_stands_once(self) -> None:
        assert shower().value(Shown("skirt length")) == (
            '<span class="q"><span class="m">60\xa0cm</span><small class="i"><i> (</i>23⅝\xa0in<i>)</i></small></span>'
        )

    def test_a_value_that_differs_stands_once_for_each_run_of_sizes(self) -> None:
        assert shower().value(Shown("hem edge")) == (
            '<span class="q z z0 z1 z2 s"><b>XS to M: </b><span class="m">72\xa0cm</span>'
            '<small class="i"><i> (</i>28⅜\xa0in<i>)</i></small></span>'
            '<span class="q z z3 z4"><b>; L, XL: </b><span class="m">80\xa0cm</span>'
            '<small class="i"><i> (</i>31½\xa0in<i>)</i></small></span>'
        )

    def test_the_main_unit_comes_first(self) -> None:
        assert text(tree(shower(main="in").value(Shown("skirt length")))).endswith("23⅝ in (60 cm)")

    def test_without_a_style_sheet_every_value_says_its_sizes(self) -> None:
        shown = text(tree(shower().line(("Waist ", Shown("hem edge"), "."))))
        assert shown.endswith("Waist XS to M: 72 cm (28⅜ in); L, XL: 80 cm (31½ in).")

    def test_where_nobody_can_choose_the_sample_size_stands_alone(self) -> None:
        write = shower(reader_chooses=False)
        assert write.value(Shown("hem")) == '<span class="q">290.5\xa0cm (114⅜\xa0in)</span>'

    def test_a_post_without_sizes_has_no_switches(self) -> None:
        write = shower({"hem": (LENGTH, USUAL, (720.0,))}, Sizes())
        assert 'class="z' not in write.value(Shown("hem"))
        assert "size" not in write.view(Facts(Frame(title=("Finished",)), (Fact(("Hem",), (Shown("hem"),)),), "x"))

    def test_lengths_printed_together_share_their_unit(self) -> None:
        assert shower().plain((Product(("across", "down")),), 2) == "95 × 93.5\xa0cm (37⅜ × 36¾\xa0in)"
        assert shower().spoken((Product(("across", "down")),), 2) == "95 centimetres by 93.5 centimetres"

    def test_lengths_of_different_units_keep_their_own(self) -> None:
        rows: Rows = {"a": (LENGTH, USUAL, (950.0,)), "b": (LENGTH, USUAL, (5.0,))}
        assert shower(rows, Sizes()).plain((Product(("a", "b")),), 0).startswith("95\xa0cm × 5\xa0mm (")

    @pytest.mark.parametrize(
        ("kind", "style", "value", "printed"),
        [
            (Kind.TRUTH, Style.USUAL, True, "yes"),
            (Kind.PLAIN, Style.PERCENT, 0.85, "85\xa0%"),
            (Kind.PLAIN, Style.FRACTION, 0.75, "¾"),
            (Kind.PLAIN, Style.COUNT, 7.0, "7"),
            (Kind.ANGLE, Style.USUAL, 45.0, "45°"),
            (Kind.LENGTH, Style.TO_BUY, 1010.0, "1.1\xa0m (1⅛\xa0yd)"),
            (Kind.SERIES, Style.USUAL, (0.0, 254.0), "0, 25.5\xa0cm (0, 10\xa0in)"),
            (
                Kind.POINT,
                Style.USUAL,
                (254.0, 508.0),
                "25.5\xa0cm across, 51\xa0cm down (10\xa0in across, 20\xa0in down)",
            ),
            (Kind.LENGTH, Style.USUAL, None, "—"),
        ],
    )
    def test_every_kind_prints(self, kind: Kind, style: Style, value: float | None, printed: str) -> None:
        assert shower({"x": (kind, style, (value,))}, Sizes()).plain((Shown("x"),), 0) == printed

    def test_a_fraction_set_with_a_slash_is_read_in_words(self) -> None:
        write = shower({"x": (LENGTH, Style.FINE, (304.8 + 25.4 * 3 / 16,))}, Sizes())
        spoken = tree(write.value(Shown("x"))).find(".//span[@role='img']")
        assert spoken.get("aria-label") == "12 and 3 sixteenths inches"
        assert "aria-label" not in shower().value(Shown("skirt length"))


class TestPages:
    @pytest.mark.parametrize("chooses", [True, False])
    def test_markup_is_sound_and_ids_are_unique(self, chooses: bool) -> None:
        page = tree(everything(reader_chooses=chooses))
        ids = [each.get("id") for each in page.iter() if isinstance(each.tag, str) and each.get("id")]
        assert len(ids) > 2
        assert len(ids) == len(set(ids))
        for each in page.iter():
            if isinstance(each.tag, str):
                assert set((each.get("aria-labelledby") or "").split()) <= set(ids)

    def test_ids_and_names_of_two_posts_in_one_page_do_not_meet(self) -> None:
        first, second = (set(re.findall(r'(?:id|name)="([^"]+)"', everything(prefix=each))) for each in ("a-", "b-"))
        assert first & second == {"cut-list", "tassels"}  # the writer's own

    @pytest.mark.parametrize("chooses", [True, False])
    def test_a_host_that_reads_it_as_markdown_finds_no_break_and_no_code(self, chooses: bool) -> None:
        for line in everything(reader_chooses=chooses).split("\n"):
            assert line.strip()
            assert not line.startswith(("    ", "\t"))

    def test_equal_views_give_equal_bytes(self) -> None:
        assert everything() == everything()

    @pytest.mark.parametrize("chooses", [True, False])
    def test_all_sizes_are_there_in_both_units(self, chooses: bool) -> None:
        shown = text(tree(everything(reader_chooses=chooses)))
        for waist in ("92 cm (36¼ in)", "97 cm (38¼ in)", "102 cm (40⅛ in)", "109 cm (42⅞ in)", "116 cm (45⅝ in)"):
            assert waist in shown

    @pytest.mark.parametrize("chooses", [True, False])
    def test_text_of_the_writer_is_escaped_everywhere(self, chooses: bool) -> None:
        bad = '<script>alert("1")</script>&\n\n    code'
        line = (bad, Shown("hem"))
        frame = Frame(id=bad, title=line, caption=line, note=line)
        views: tuple[View, ...] = (
            Table(frame, (line, line), ((line, line),), all_sizes=(1,)),
            Facts(frame, (Fact(line, line, line),), bad),
            Ruler(frame, "hem edge", "places", line, line, "loop"),
            Listing(frame, ((line, "places"),)),
            Choice(frame),
        )
        write = shower(sizes=Sizes((bad, "S", "M", "L", "XL"), 0), reader_chooses=chooses)
        html = "\n".join(write.view(view) for view in (*views, Group(frame, views[:2])))
        assert "script>alert" in text(tree(html))
        assert tree(html).find(".//script") is None
        assert "\n\n" not in html
        assert "\n " not in html

    @given(st.text(max_size=30))
    def test_no_text_breaks_a_line_or_the_markup(self, said: str) -> None:
        html = shower().line((said,))
        assert len(html.splitlines()) <= 1
        assert "<" not in html
        html.encode()  # a lone surrogate would raise


class TestChoice:
    def test_every_input_has_a_label_and_the_sample_size_is_chosen(self) -> None:
        page = tree(shower().view(PROJECT))
        assert len(page.findall(".//input")) == 5 + 3
        for each in page.iter("input"):
            assert each.get("type") == "radio"
            assert text(each.getparent()).strip()
            assert each.getparent().tag == "label"
        chosen = [each.get("value") for each in page.iter("input") if each.get("checked") is not None]
        assert chosen == ["M", "both"]
        assert [text(each) for each in page.iter("legend")] == ["Size", "Show"]

    def test_one_size_has_nothing_to_choose_but_the_unit(self) -> None:
        page = tree(shower({}, Sizes()).view(Choice(Frame())))
        assert [text(each) for each in page.iter("legend")] == ["Show"]

    def test_the_bar_stands_free_so_that_it_can_stay_in_sight(self) -> None:
        bar = tree(shower().view(PROJECT)).find(".//div[@class='bar']")
        assert bar.getparent().tag == "body"

    def test_where_nobody_can_choose_a_sentence_says_the_size(self) -> None:
        said = shower(reader_chooses=False).view(Choice(Frame()))
        assert said == "<p>Sizes XS, S, M, L, XL. The text is for size M.</p>"


class TestTables:
    def test_rows_and_columns_have_heads(self) -> None:
        page = tree(shower().view(CUT_LIST))
        shown, behind = page.findall(".//table")
        assert [each.get("scope") for each in shown.iter("th")] == ["col"] * 4 + ["row"] * 2
        assert text(shown.find("caption")).startswith("Cut list, size XS, S, M, L, XL")
        assert [text(each) for each in behind.find("thead").iter("th")] == ["Piece", *FIVE.labels]
        assert behind.getparent().tag == "details"

    def test_every_cell_says_its_column_for_narrow_screens(self) -> None:
        shown, behind = tree(shower().view(CUT_LIST)).findall(".//table")
        assert [each.get("data-label") for each in shown.iter("td")] == ["Cut", "In", "Across × down"] * 2
        assert [each.get("data-label") for each in behind.find("tbody").iter("td")] == list(FIVE.labels) * 2

    def test_where_nobody_can_choose_all_sizes_follow_openly(self) -> None:
        page = tree(shower(reader_chooses=False).view(CUT_LIST))
        assert page.find(".//details") is None
        shown, behind = page.findall(".//table")
        assert text(shown.find("caption")).startswith("Cut list, size M")
        assert text(behind.find(".//tbody/tr/td")) == "92 × 90.5 cm (36⅛ × 35½ in)"

    def test_twelve_sizes_become_a_grid(self) -> None:
        sizes = Sizes(tuple(str(size) for size in range(34, 58, 2)))
        rows: Rows = {"hem": (LENGTH, USUAL, tuple(1000.0 + 20 * n for n in range(12)))}
        page = tree(
            shower(rows, sizes).view(Table(Frame(), (("Edge",), ("Whole",)), ((("Hem",), (Shown("hem"),)),), (1,)))
        )
        assert page.findall(".//table")[1].get("class") == "all many"

    def test_a_box_offers_all_sizes_only_for_what_differs(self) -> None:
        box = tree(shower().view(PROJECT.views[1]))
        heads = [text(each) for each in box.findall(".//tbody//th")]
        assert heads == ["Waist before the elastic", "Hem circumference"]
        assert text(box.find(".//dl/div[2]")) == "Length below the band60 cm (23⅝ in) planned"

    def test_a_listing_has_as_many_rows_as_its_size_has_places(self) -> None:
        page = tree(shower().view(PIECES))
        assert [len(each.findall("tbody/tr")) for each in page.iter("table")] == [10, 11]
        bare = shower(reader_chooses=False).view(PIECES)
        assert "<h4>Sizes L, XL</h4>" in bare
