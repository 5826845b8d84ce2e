"""No label of a drawing lies on another or on a line, whatever the piece and however many labels it has."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from chalkfold.draw.layout import WIDTH, laid_out
from chalkfold.draw.lines import LineType
from chalkfold.draw.sheet import (
    Button,
    Callout,
    Check,
    Dimension,
    Drill,
    Gap,
    Grain,
    NameBlock,
    OnFold,
    Radius,
    Sheet,
    Spot,
    Stroke,
    letters,
)
from chalkfold.draw.surface import RecordingSurface
from chalkfold.draw.words import LABEL, Block, Both, Words, evened, plain, width_of, wrapped
from draw_help import closed, faults, in_piece, polygon, quarter_ring, stands_inside, text_box

LABELS = st.lists(st.text("abcdeW ÄQ5½", min_size=1, max_size=30).filter(str.strip), max_size=9)
MM = st.floats(5, 3000)


@st.composite
def convex(draw: st.DrawFn) -> list[tuple[float, float]]:
    """Corners on an ellipse, clockwise on the page."""
    across, down = draw(MM), draw(MM)
    turns = sorted(draw(st.sets(st.integers(0, 23), min_size=3, max_size=9)))
    return [(across * cos(radians(15 * turn)), down * sin(radians(15 * turn))) for turn in turns]


class TestNothingOverlaps:
    @settings(max_examples=40, deadline=None)
    @given(convex(), LABELS)
    def test_in_any_convex_piece(self, points: list[tuple[float, float]], labels: list[str]) -> None:
        assert faults(laid_out(polygon(points, labels))) == []

    @settings(max_examples=25, deadline=None)
    @given(st.floats(1, 800), st.floats(10, 1200))
    def test_in_any_quarter_of_a_ring(self, radius: float, depth: float) -> None:
        assert faults(laid_out(quarter_ring(radius, depth))) == []

    @pytest.mark.parametrize("size", [(1040, 58), (50, 50), (2000, 50), (50, 2000), (3000, 2), (4, 4)])
    def test_in_bands_pockets_and_strips(self, size: tuple[float, float]) -> None:
        w, h = size
        sheet = polygon([(0, 0), (w, 0), (w, h), (0, h)], ["top", "right", "bottom", "left"])
        assert faults(laid_out(sheet)) == []

    def test_with_forty_labels_at_one_place(self) -> None:
        outline = closed([(0, 0), (300, 0), (300, 300), (0, 300)])
        letter = letters()
        crowd = tuple(Callout((150, 0), (0, -1), ((f"label number {n}",),), next(letter)) for n in range(40))
        drawn = laid_out(Sheet(outline, (Stroke(LineType.CUTTING, outline),), crowd))
        assert faults(drawn) == []
        assert len(drawn.full.texts) == len(drawn.letters.texts) == 40

    def test_with_one_word_wider_than_the_drawing(self) -> None:
        drawn = laid_out(polygon([(0, 0), (300, 0), (300, 300), (0, 300)], ["W" * 90]))
        assert faults(drawn) == []
        assert drawn.extent.width > WIDTH

    def test_with_every_kind_of_mark(self) -> None:
        assert faults(laid_out(with_everything())) == []


def with_everything() -> Sheet:
    outline = closed([(0, 0), (140, 0), (150, 180), (330, 330), (330, 700), (250, 800), (0, 800)])
    cut, fold = outline[:-1], outline[-1:]
    items = (
        OnFold((0, 800), (0, 0), (1, 0), ("place on the fold",), "A"),
        Drill((120, 420), (("pocket corner",),), "B"),
        Button((80, 60), 18, (("button",),), "C"),
        Gap(((120.0, 800.0, 60.0, 800.0),), (0, 1), (("gap for the cord",),), "D"),
        Check(((0.0, 0.0, 330.0, 330.0),), (("check 46.7 cm",),), "E"),
        Spot((250, 600), (("hip point",),), "F"),
        Radius((-4000, 400), (0, 400), ("radius ", Both("400 cm", "157½ in")), "G"),
        Dimension((0, 800), (250, 800), (0, 1), (Both("25 cm", "9⅞ in"),), "H"),
        Grain(45, ("bias",), "J"),
    )
    strokes = (Stroke(LineType.CUTTING, cut), Stroke(LineType.FOLD, fold))
    return Sheet(outline, strokes, items, NameBlock("wrap apron", (("cut 1 on the fold in main",),)))


class TestWhatIsDrawn:
    def test_a_skirt_on_the_fold_has_its_lines_and_labels(self) -> None:
        surface = RecordingSurface()
        laid_out(quarter_ring()).play(surface)
        base = {role: path for group, role, path in surface.entries if group == ""}
        assert base["cloth"] == "move arc line arc line close"
        assert base["cut"] == "move arc line arc"
        assert base["fold"] == base["check"] == base["grain"] == "move line"
        full = [text for group, role, text in surface.entries if group == "full" and role in ("lab", "name")]
        assert {"SKIRT", "place on the fold", "grain", "centre", "60.0 cm · 23.6 in"} <= set(full)

    def test_every_letter_stands_once_beside_the_name(self) -> None:
        drawn = laid_out(quarter_ring())
        shown = sorted(plain(text.words) for text in drawn.letters.texts)
        assert shown == [*"ABCDEFGHJK", "SKIRT"]

    def test_letters_skip_those_like_figures(self) -> None:
        row = letters()
        first = [next(row) for _ in range(26)]
        assert "I" not in first
        assert "O" not in first
        assert first[-3:] == ["Z", "A2", "B2"]

    def test_a_name_stands_in_its_piece(self) -> None:
        sheet = quarter_ring()
        drawn = laid_out(sheet)
        (name,) = [text for text in drawn.full.texts if plain(text.words) == "SKIRT"]
        assert in_piece(drawn.cloth, text_box(name).centroid.coords[0])

    def test_a_band_holds_its_name_in_one_line(self) -> None:
        drawn = laid_out(polygon([(0, 0), (1040, 0), (1040, 58), (0, 58)], []))
        assert "PIECE · cut 2 in main · size M · the whole piece" in [plain(each.words) for each in drawn.full.texts]

    @pytest.mark.parametrize(("across", "down"), [(340, 80), (150, 900), (500, 500), (1200, 900), (90, 400)])
    def test_a_name_finds_room_beside_a_check_from_corner_to_corner(self, across: float, down: float) -> None:
        sheet = polygon([(0, 0), (across, 0), (across, down), (0, down)], [])
        check = Check(((0, 0, across, down),), (("check",),))
        drawn = laid_out(replace(sheet, items=(*sheet.items, check)))
        assert faults(drawn) == []
        assert stands_inside(drawn, "PIECE")

    def test_where_only_the_name_fits_what_is_cut_is_led_off(self) -> None:
        sheet = polygon([(0, 0), (150, 0), (150, 700), (0, 700)], [])
        lines = tuple(Stroke(LineType.STYLE, ((0, y, 150, y),)) for y in range(40, 700, 40))
        drawn = laid_out(replace(sheet, strokes=(*sheet.strokes, *lines)))
        assert stands_inside(drawn, "PIECE")
        assert not stands_inside(drawn, "cut 2 in main")

    def test_a_radius_too_short_for_its_text_is_named_beyond_its_arrow(self) -> None:
        """As drawing offices do it (ISO 129, from memory): the text stands where the line would go on."""
        outline = closed([(0, 0), (300, 0), (300, 300), (0, 300)])
        radius = Radius((150, 0), (150, 60), (Both("6 cm", "2⅜ in"),), "A")
        beside = tuple(Stroke(LineType.STYLE, ((x, 0, x, 80),)) for x in (120, 180))
        drawn = laid_out(Sheet(outline, (Stroke(LineType.CUTTING, outline), *beside), (radius,)))
        (text,) = (each for each in drawn.full.texts if plain(each.words) == "6 cm · 2⅜ in")
        x, y = text_box(text).centroid.coords[0]
        scale = drawn.cloth[1][3] / 300
        assert abs(x - 150 * scale) < 20
        assert 0 < y - 60 * scale < 50

    def test_dimension_lines_run_outside_the_piece(self) -> None:
        drawn = laid_out(polygon([(0, 0), (400, 0), (400, 500), (0, 500)], []))
        for line, edge in drawn.full.strokes:
            if line is LineType.DIMENSION:
                (x0, y0, x1, y1), *_ = edge
                assert not in_piece(drawn.cloth, ((x0 + x1) / 2, (y0 + y1) / 2))

    def test_a_centre_far_off_is_only_pointed_at(self) -> None:
        """A slight curve of 4 m radius must not make the piece tiny."""
        assert laid_out(with_everything()).extent.width == pytest.approx(WIDTH)

    def test_it_is_the_same_every_time(self) -> None:
        assert laid_out(quarter_ring()) == laid_out(quarter_ring())


class TestSmallScreens:
    @settings(max_examples=15, deadline=None)
    @given(convex(), LABELS)
    def test_letters_are_12_pixels_high_on_a_screen_of_320(
        self, points: list[tuple[float, float]], labels: list[str]
    ) -> None:
        """A page keeps 16 px free at each side."""
        drawn = laid_out(polygon(points, labels))
        assert all(text.lettering.size * (320 - 32) / drawn.extent.width >= 12 for text in drawn.letters.texts)


class TestRoomOfTexts:
    def test_widths_are_those_of_the_font_the_table_names(self) -> None:
        """DejaVu Sans: an m is 1995, a space 651 of 2048 units to the size wide (from memory of its metrics)."""
        assert width_of("m", LABEL) == pytest.approx(13.5 * 1995 / 2048, abs=0.02)
        assert width_of(" ", LABEL) == pytest.approx(13.5 * 651 / 2048, abs=0.02)

    def test_a_character_the_table_lacks_counts_as_wide(self) -> None:
        assert width_of("漢", LABEL) >= 13.5

    def test_long_lines_are_broken_at_spaces_and_amounts_stay_whole(self) -> None:
        line: Words = ("notch at ", Both("20 cm", "7⅞ in"), " from the waist at the back")
        rows = wrapped(line, LABEL, 120)
        assert [plain(row) for row in rows] == ["notch at", "20 cm · 7⅞ in", "from the waist at", "the back"]
        assert Block.of((line,), LABEL, 120).width <= 120

    def test_broken_lines_of_a_block_are_about_equally_wide(self) -> None:
        """The first would hold one word more, and leave the last alone."""
        line: Words = ("notch ", Both("32.5 cm", "12¾ in"), " from panel end")
        assert [plain(row) for row in wrapped(line, LABEL, 240)] == ["notch 32.5 cm · 12¾ in from panel", "end"]
        block = Block.of((line,), LABEL, 240)
        assert [plain(row) for row, _ in block.lines] == ["notch 32.5 cm · 12¾ in", "from panel end"]

    @given(st.lists(st.text("abW", min_size=1, max_size=9), min_size=1, max_size=9), st.floats(10, 400))
    def test_no_line_is_added_and_no_word_lost_by_that(self, words: list[str], most: float) -> None:
        line: Words = (" ".join(words),)
        rows, even = wrapped(line, LABEL, most), evened(line, LABEL, most)
        assert len(even) == len(rows)
        assert " ".join(map(plain, even)).split() == words
        assert max(width_of(plain(row), LABEL) for row in even) <= max(width_of(plain(row), LABEL) for row in rows)
