"""All sizes nested, and the sketch of how the cloth is folded."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString

from chalkfold.draw.folds import Folding, sketch
from chalkfold.draw.lines import NESTED, PENS, LineType
from chalkfold.draw.nest import WIDTH, Nest, Nested, nested
from chalkfold.draw.surface import RecordingSurface
from chalkfold.draw.svg import page_svg
from chalkfold.draw.words import plain
from draw_help import closed, fine, text_box

SHEET = (Path(__file__).parents[1] / "themes/calico/static/drawings.css").read_text("utf-8")


def ring(radius: float, depth: float) -> tuple[tuple[float, ...], ...]:
    r, whole = radius, radius + depth
    inner, outer = (r, 0.0, 0.0, r, 0.0, 0.0, 90.0), (0.0, whole, whole, 0.0, 0.0, 0.0, -90.0)
    return (inner, (0.0, r, 0.0, whole), outer, (whole, 0.0, r, 0.0))


def skirts(step: float, sizes: int = 5) -> Nest:
    return nested([Nested(f"{30 + 2 * n}", ring(200 + step * n, 600 + step * n)) for n in range(sizes)], 1)


def faults(nest: Nest) -> list[str]:
    """Labels on each other, on their leaders, on any size's line, or out of sight."""
    texts = [(plain(text.words), text_box(text)) for text in nest.labels.texts]
    strokes = [edge for _, edge in nest.labels.strokes]
    lines = [LineString(fine(segment)) for edge in [*nest.outlines, *strokes] for segment in edge]
    found = [f"{text} on a line" for text, box in texts for line in lines if box.intersects(line)]
    for number, (text, box) in enumerate(texts):
        found += [f"{text} on {other}" for other, taken in texts[:number] if box.intersects(taken)]
        left, top, right, bottom = box.bounds
        extent = nest.extent
        inside = extent.left <= left and right <= extent.right and extent.top <= top and bottom <= extent.bottom
        found += [] if inside else [f"{text} out of sight"]
    return found


def crossed(nest: Nest) -> int:
    """How many pairs of leaders meet."""
    leaders = [LineString(fine(segment)) for _, edge in nest.labels.strokes for segment in edge]
    return sum(one.intersects(other) for number, one in enumerate(leaders) for other in leaders[:number])


BANDS = (315, 330, 340, 355, 370, 385, 405, 420)
"""Half a child's waist and two allowances, in mm."""


class TestNest:
    @settings(max_examples=20, deadline=None)
    @given(st.floats(0, 80), st.integers(1, 10))
    def test_every_size_has_a_label_that_lies_on_nothing(self, step: float, sizes: int) -> None:
        nest = skirts(step, sizes)
        assert faults(nest) == []
        assert sorted(plain(text.words) for text in nest.labels.texts) == sorted(f"{30 + 2 * n}" for n in range(sizes))

    @pytest.mark.parametrize("sizes", [4, 8])
    @pytest.mark.parametrize(("across", "down"), [(100, 60), (250, 100), (400, 60), (400, 700), (250, 700)])
    @pytest.mark.parametrize(("wider", "longer"), [(4, 0), (4, 15), (10, 3), (25, 0), (25, 15)])
    def test_leaders_of_graded_rectangles_do_not_cross(
        self, across: float, down: float, wider: float, longer: float, sizes: int
    ) -> None:
        def size(n: int) -> Nested:
            w, h = across + n * wider, down + n * longer
            return Nested(str(98 + 6 * n), closed([(0, 0), (w, 0), (w, h), (0, h)]))

        nest = nested([size(n) for n in range(sizes)])
        assert faults(nest) == []
        assert crossed(nest) == 0

    @pytest.mark.parametrize("sizes", range(2, 10))
    @pytest.mark.parametrize("step", [3, 5, 8, 12, 18, 25, 40])
    def test_leaders_of_graded_rings_do_not_cross(self, step: float, sizes: int) -> None:
        assert crossed(skirts(step, sizes)) == 0

    def test_sizes_of_a_band_are_named_in_one_row_in_order(self) -> None:
        bands = [Nested(str(98 + 6 * n), closed([(0, 0), (w, 0), (w, 80), (0, 80)])) for n, w in enumerate(BANDS)]
        texts = nested(bands).labels.texts
        assert len({text.at[1] for text in texts}) == 1
        assert [plain(text.words) for text in sorted(texts, key=lambda text: text.at[0])] == [
            each.label for each in bands
        ]

    def test_forty_sizes_of_a_rectangle(self) -> None:
        sizes = [Nested(str(n), closed([(0, 0), (300 + 6 * n, 0), (300 + 6 * n, 500), (0, 500)])) for n in range(40)]
        nest = nested(sizes)
        assert faults(nest) == []
        assert len(nest.labels.texts) == 40

    def test_where_sizes_lie_apart_a_line_stops_for_its_label(self) -> None:
        nest = skirts(60.0)
        assert nest.labels.strokes == []
        assert all(len(outline) == 5 for outline in nest.outlines), "one segment of each is in two"
        assert all(len(segment) in (4, 7) for outline in nest.outlines for segment in outline)

    def test_where_sizes_lie_close_a_leader_says_which_is_meant(self) -> None:
        nest = skirts(6.0)
        assert len(nest.labels.strokes) == len(nest.labels.solids) == 5

    def test_arcs_stay_arcs_and_go_on_around_the_same_centre(self) -> None:
        """A broken arc's ends lie on its circle: quarters of rings around (0, 0), the centre they share."""
        for outline in skirts(60.0).outlines:
            arcs = [segment for segment in outline if len(segment) == 7]
            assert len(arcs) >= 2
            for x0, y0, x1, y1, cx, cy, _ in arcs:
                assert (cx, cy) == (0, 0)
                assert x0**2 + y0**2 == pytest.approx(x1**2 + y1**2)

    def test_its_patterns_are_no_others(self) -> None:
        """Neither continuous nor the pattern of any line that has a meaning of its own on one piece."""
        assert () not in NESTED
        assert not set(NESTED) & {PENS[line].dashes for line in LineType}
        assert len(set(NESTED)) == len(NESTED)

    def test_labels_are_12_pixels_high_on_a_screen_of_320(self) -> None:
        nest = skirts(6.0, 10)
        assert nest.extent.width == pytest.approx(WIDTH)
        assert all(text.lettering.size * 288 / nest.extent.width >= 12 for text in nest.labels.texts)

    def test_the_sample_size_is_heavy_without_the_style_sheet(self) -> None:
        svg = page_svg(skirts(60.0), "n", "All sizes", "d", "nest")
        assert '<path class="size p1 n1 s" stroke-width="2.4" d=' in svg
        assert '<path class="size p0 n0" stroke-width="1" stroke-dasharray="1 3" d=' in svg

    def test_the_style_sheet_has_every_pattern_and_a_rule_for_each_of_forty_sizes(self) -> None:
        for number, dashes in enumerate(NESTED):
            pattern = " ".join(f"{each:g}" for each in dashes)
            assert f".nest path.p{number} {{ stroke-dasharray: {pattern}; }}" in SHEET
        for number in range(40):
            own, chosen = ".bar:not(.result .bar)", f".z{number}:checked"
            rule = f":root:has({own} {chosen}) .n{number}:not(.result .n{number}), .result:has({chosen}) .n{number}"
            assert len(re.findall(re.escape(rule) + r"(?:,| \{)", SHEET)) == 1


class TestFolds:
    @pytest.mark.parametrize(
        ("folding", "layers", "folds"), [("ON_FOLD", 2, 1), ("ON_TWO_FOLDS", 4, 2), ("IN_THE_ROUND", 2, 2)]
    )
    def test_it_says_how_many_layers_and_where_the_folds_are(self, folding: str, layers: int, folds: int) -> None:
        """Cloth folded once lies double, folded again fourfold; a tube laid flat has a fold at each side."""
        surface = RecordingSurface()
        sketch(Folding[folding]).play(surface)
        texts = [text for _, role, text in surface.entries if role == "lab"]
        assert texts.count("fold") == folds
        assert f"{layers} layers" in texts
        assert [path.count("move") for _, role, path in surface.entries if role == "fold"] == [folds]

    @pytest.mark.parametrize("folding", list(Folding))
    def test_nothing_lies_on_anything(self, folding: Folding) -> None:
        drawn = sketch(folding)
        boxes = [text_box(text) for text in drawn.full.texts]
        lines = [LineString(fine(s)) for layer in (drawn.base, drawn.full) for _, edge in layer.strokes for s in edge]
        assert not any(box.intersects(line) for box in boxes for line in lines)
        assert not any(one.intersects(other) for n, one in enumerate(boxes) for other in boxes[:n])
