"""The sizes of a piece are drawn alike: a label keeps the place it has in the sample size wherever that is free."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import atan2, degrees
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from chalkfold.diagnostics import Faults, Source
from chalkfold.draw.drawn import Drawn
from chalkfold.draw.layout import WIDTH, laid_out
from chalkfold.draw.lines import LineType
from chalkfold.draw.places import AT_FIRST, NOWHERE, Place, Placing
from chalkfold.draw.sheet import Radius, Sheet, Stroke
from chalkfold.draw.words import plain
from chalkfold.post import build_post
from chalkfold.show import drawing
from chalkfold.trade import Shelf
from draw_help import faults, polygon, quarter_ring, stands_inside, text_box

DEMO = Path(__file__).parents[1] / "content_example"
DRAWN = [path for path in sorted(DEMO.glob("posts/*.md")) if "```draft" in path.read_text(encoding="utf-8")]


def moved(one: Drawn, other: Drawn) -> set[str]:
    """The keys of the labels that do not stand in the same place."""
    places = ((one.placing.full, other.placing.full), (one.placing.letters, other.placing.letters))
    return {key for before, after in places for key in before if after.get(key) != before[key]}


def middle_of(drawn: Drawn, text: str) -> tuple[float, float]:
    (found,) = [each for each in drawn.full.texts if plain(each.words) == text]
    x, y = text_box(found).centroid.coords[0]
    return float(x), float(y)


class TestASecondSize:
    def test_has_every_label_in_the_same_place(self) -> None:
        sample = laid_out(quarter_ring(325, 600))
        assert moved(sample, laid_out(quarter_ring(328, 605), sample.placing)) == set()

    def test_of_the_same_measures_is_the_same_drawing(self) -> None:
        sample = laid_out(quarter_ring())
        assert laid_out(quarter_ring(), sample.placing) == sample

    def test_is_drawn_as_large_a_part_of_the_page(self) -> None:
        """A piece that was made smaller for its labels is made smaller at once."""
        long, labels = [(0.0, 0.0), (480.0, 0.0), (480.0, 100.0), (0.0, 100.0)], ["W" * 10] * 4
        sample = laid_out(polygon(long, labels))
        assert sample.placing.part < 1
        other = laid_out(polygon([(x, y * 1.01) for x, y in long], labels), sample.placing)
        assert other.placing.part == sample.placing.part

    @pytest.mark.parametrize(
        ("text", "key"),
        [
            ("waist, 51.1 cm · 20.1 in", "Callout D"),
            ("notch 20.0 cm · 7.9 in", "Notch F"),
            ("check 46.0 cm · 18.1 in", "Check H"),
        ],
    )
    def test_moves_the_label_in_whose_place_a_line_runs_and_no_other(self, text: str, key: str) -> None:
        sheet = quarter_ring()
        sample = laid_out(sheet)
        x, y = (each * sheet.cloth[0][0] / sample.cloth[0][0] for each in middle_of(sample, text))
        in_the_way = Stroke(LineType.STYLE, ((x - 2, y, x + 2, y),))
        other = laid_out(replace(sheet, strokes=(*sheet.strokes, in_the_way)), sample.placing)
        assert moved(sample, other) == {key}
        assert faults(other) == []

    def test_does_not_look_for_what_the_sample_size_had_no_place_for(self) -> None:
        strip = [(0.0, 0.0), (1000.0, 0.0), (1000.0, 6.0), (0.0, 6.0)]
        sample = laid_out(polygon(strip, []))
        assert sample.placing.full["grain E"] == NOWHERE
        wide = laid_out(polygon([(x, y * 90) for x, y in strip], []), sample.placing)
        assert wide.placing.full["grain E"] == NOWHERE

    def test_has_its_name_inside_even_where_the_sample_size_is_too_small(self) -> None:
        strip = [(0.0, 0.0), (1000.0, 0.0), (1000.0, 6.0), (0.0, 6.0)]
        sample = laid_out(polygon(strip, []))
        assert not stands_inside(sample, "PIECE")
        assert stands_inside(laid_out(polygon([(x, y * 90) for x, y in strip], []), sample.placing), "PIECE")


class TestNothingOverlaps:
    @settings(max_examples=25, deadline=None)
    @given(st.floats(1, 800), st.floats(10, 1200), st.floats(0.3, 3), st.floats(0.3, 3))
    def test_in_any_other_size_of_a_ring(self, radius: float, depth: float, wider: float, deeper: float) -> None:
        sample = laid_out(quarter_ring(radius, depth))
        assert faults(laid_out(quarter_ring(radius * wider, depth * deeper), sample.placing)) == []

    @settings(max_examples=25, deadline=None)
    @given(st.lists(st.text("abW Ä5½", min_size=1, max_size=25).filter(str.strip), max_size=4), st.data())
    def test_in_any_other_size_of_a_rectangle(self, labels: list[str], data: st.DataObject) -> None:
        sizes = st.tuples(st.floats(20, 2000), st.floats(20, 2000))
        first, second = (
            polygon([(0, 0), (w, 0), (w, h), (0, h)], labels) for w, h in (data.draw(sizes), data.draw(sizes))
        )
        assert faults(laid_out(second, laid_out(first).placing)) == []


def asked_of(post: Path, monkeypatch: pytest.MonkeyPatch) -> list[tuple[Sheet, Placing]]:
    """What a post has laid out: every size of each of its pieces, with the places of the size before."""
    asked: list[tuple[Sheet, Placing]] = []

    def laid(sheet: Sheet, before: Placing) -> Drawn:
        asked.append((sheet, before))
        return laid_out(sheet, before)

    monkeypatch.setattr(drawing, "laid_out", laid)
    source = Source(post.relative_to(DEMO).as_posix(), post.read_text(encoding="utf-8"))
    assert not len(build_post(source, Shelf.open(DEMO, Faults())).faults)
    return asked


def drawings_of(post: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[tuple[Drawn, list[Drawn]]]:
    """Of each piece of a post, the sample size and the others."""
    asked = asked_of(post, monkeypatch)
    for sheet in dict.fromkeys(sheet for sheet, before in asked if before is AT_FIRST):
        sample = laid_out(sheet, AT_FIRST)
        yield sample, [laid_out(other, before) for other, before in asked if before is sample.placing]


def test_radii_run_the_same_way_in_every_size(monkeypatch: pytest.MonkeyPatch) -> None:
    ways = []
    for sheet, _ in asked_of(DEMO / "posts" / "half-circle-skirt.md", monkeypatch):
        radii = [item for item in sheet.items if isinstance(item, Radius)]
        assert len(radii) == 2
        tips = [(each.on_arc[0] - each.centre[0], each.on_arc[1] - each.centre[1]) for each in radii]
        ways.append([degrees(atan2(y, x)) for x, y in tips])
    for way in zip(*ways, strict=True):
        assert max(way) - min(way) < 1.5


@pytest.mark.parametrize("post", DRAWN, ids=lambda path: path.stem)
class TestTheDemo:
    def test_nothing_overlaps_in_any_size(self, post: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        pieces = list(drawings_of(post, monkeypatch))
        assert pieces
        for sample, others in pieces:
            for each in (sample, *others):
                assert faults(each) == []
                assert each.extent.width == pytest.approx(WIDTH)

    def test_every_name_stands_in_its_piece(self, post: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        for sheet, before in asked_of(post, monkeypatch):
            assert sheet.name is not None
            assert stands_inside(laid_out(sheet, before), sheet.name.name.upper())

    def test_most_labels_keep_their_place(self, post: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        kept, places = 0, list[Place]()
        for sample, others in drawings_of(post, monkeypatch):
            for each in others:
                places += [*each.placing.full.values(), *each.placing.letters.values()]
                kept -= len(moved(sample, each))
        assert (len(places) + kept) / len(places) > 0.75
