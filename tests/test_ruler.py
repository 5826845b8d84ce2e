"""The drawing of places along a length: marks where they belong, figures that never touch."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lxml import etree

from chalkfold.plan import Frame, Ruler
from chalkfold.show.ruler import NARROW, WIDE, thinned, width_of
from show_help import SKIRT, TASSELS, shower, text, tree

NO_BREAK = "\N{NO-BREAK SPACE}"


class TestRuler:
    def drawings(self, **given: object) -> list[etree._Element]:
        page = tree(shower(**given).view(TASSELS))  # type: ignore[arg-type]
        return [each for each in page.iter() if isinstance(each.tag, str) and each.tag.endswith("svg")]

    def parts(self, drawing: etree._Element, tag: str, name: str) -> list[etree._Element]:
        return [each for each in drawing.iter() if str(each.tag).endswith(tag) and each.get("class") == name]

    def test_each_mark_lies_where_its_place_is(self) -> None:
        for drawing, size in zip(self.drawings(), (0, 3), strict=True):
            start, end = (float(self.parts(drawing, "line", "cut")[0].get(x)[:-1]) for x in ("x1", "x2"))
            marks = [float(each.get("x1")[:-1]) for each in self.parts(drawing, "line", "mark")]
            length, places = SKIRT["hem edge"][2][size], SKIRT["places"][2][size]
            assert isinstance(length, float)
            assert isinstance(places, tuple)
            shown = [(mark - start) / (end - start) * length for mark in marks]
            assert shown == pytest.approx(places, abs=length * 0.0002)

    def test_the_table_beside_it_tells_every_place(self) -> None:
        first = tree(shower().view(TASSELS)).find(".//table")
        assert [text(each) for each in first.findall("tbody/tr/td")][:3] == [
            "0 cm (0 in)", "8 cm (3⅛ in)", "16 cm (6\N{NARROW NO-BREAK SPACE}5⁄16 in)",
        ]  # fmt: skip

    def test_it_has_a_name_and_a_description(self) -> None:
        drawing = self.drawings()[0]
        assert drawing.get("role") == "img"
        title, desc = (text(each) for each in drawing[:2])
        assert title == "tassels: 10 marks along 72 centimetres"
        assert desc.startswith("From the back seam: 0 centimetres, 8 centimetres, 16 centimetres,")
        assert desc.endswith("Each takes 1 centimetre.")

    @pytest.mark.parametrize(("room", "narrow"), [(NARROW, True), (WIDE, False)])
    @pytest.mark.parametrize("unit", ["m", "i"])
    def test_figures_do_not_touch(self, room: float, narrow: bool, unit: str) -> None:
        for drawing in self.drawings():
            figures = [
                each for each in self.parts(drawing, "g", unit)[0] if not (narrow and each.get("class") == "wide")
            ]
            assert len(figures) >= 3
            boxes = [self.box(each, room) for each in figures]
            assert all(left[1] < right[0] for left, right in pairwise(boxes))

    def box(self, figure: etree._Element, room: float) -> tuple[float, float]:
        """13 px figures of a wide open font: 0.636 em a digit, 1 em a fraction (DejaVu Sans)."""
        width = sum(8.3 if each in "0123456789. cmin" + NO_BREAK else 13 for each in figure.text)
        middle = float(figure.get("x")[:-1]) / 88 * room
        return middle - width / 2, middle + width / 2

    def test_in_other_hosts_only_figures_that_fit_a_phone_are_drawn(self) -> None:
        (drawing,) = self.drawings(reader_chooses=False)
        assert not self.parts(drawing, "text", "wide")

    @given(
        st.lists(st.tuples(st.floats(0, 1), st.text("0123456789.⅜½", min_size=1, max_size=8)), max_size=60).map(sorted)
    )
    def test_kept_figures_never_touch_and_the_first_stays(self, labels: list[tuple[float, str]]) -> None:
        kept = thinned(labels, NARROW)
        assert kept[:1] == ([0] if labels else [])
        for one, other in pairwise(kept):
            (x, left), (y, right) = labels[one], labels[other]
            assert x * NARROW + width_of(left) / 2 < y * NARROW - width_of(right) / 2

    def test_a_length_that_is_not_known_leaves_the_drawing_out(self) -> None:
        view = Ruler(Frame(), "lost", "places", ("from the seam",))
        assert "<svg" not in shower().view(view)
        assert "80" in shower().view(view)

    def test_a_closed_edge_says_so(self) -> None:
        html = shower().view(Ruler(Frame(), "hem edge", "places", ("from the seam",), in_the_round=True))
        assert "back at the start" in html
        assert "The end meets the start." in html
