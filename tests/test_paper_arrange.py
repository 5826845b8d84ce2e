"""Pieces on one large sheet: apart from each other, turned only where it saves pages, the pages all named."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box

from chalkfold.draw.drawn import Layer
from chalkfold.draw.lines import LineType
from chalkfold.draw.sheet import Grain, Sheet, Stroke
from chalkfold.geometry.shapes import Point
from chalkfold.paper.arrange import EDGE, Place, Shape, arranged
from chalkfold.paper.inked import TooManyPages, inked
from chalkfold.paper.papers import PAPERS, UNITS, NoSuchPaper, paper_of
from chalkfold.paper.room import counts
from chalkfold.paper.tiles import core_of, elements, tiles
from chalkfold.paper.turning import quarter_turn
from draw_help import drawn_lines, quarter_ring, text_box
from paper_help import RING, pieces

A4 = PAPERS["a4"]
SIDES = st.floats(20, 900)


def rectangle(across: float, down: float) -> Shape:
    """A piece in millimetres that may be turned."""
    w, h = across * UNITS, down * UNITS
    return Shape((((0, 0), (w, 0), (w, h), (0, h)),), (((0, 0), (h, 0), (h, w), (0, w)),))


def lying(shape: Shape, place: Place) -> Polygon:
    (points,) = shape.turned if place.turned else shape.outlines
    moved: list[Point] = [(x + place.dx, y + place.dy) for x, y in points]
    return Polygon(moved)


@given(st.lists(st.tuples(SIDES, SIDES), min_size=1, max_size=9))
@settings(max_examples=40, deadline=None)
def test_no_piece_lies_on_another_or_off_the_sheet(sizes: list[tuple[float, float]]) -> None:
    shapes = [rectangle(*each) for each in sizes]
    found = [lying(shape, place) for shape, place in zip(shapes, arranged(shapes, A4), strict=True)]
    assert all(one.distance(other) >= 9.9 * UNITS for one, other in combinations(found, 2))
    assert all(min(each.bounds[:2]) >= EDGE - 1e-6 for each in found)


def test_a_turn_that_saves_a_page_is_made() -> None:
    """26 by 17 cm fits an A4 page upright only."""
    assert arranged([rectangle(260, 170)], A4)[0].turned
    assert not arranged([rectangle(170, 260)], A4)[0].turned


def test_a_turned_sheet_keeps_its_lengths_and_turns_its_grain() -> None:
    sheet = quarter_ring()
    turned = quarter_turn(sheet)
    assert [item.direction for item in turned.items if isinstance(item, Grain)] == [180]
    start, end = sheet.cloth[1][:2], sheet.cloth[1][2:4]
    assert turned.cloth[1] == (-start[1], start[0], -end[1], end[0])
    assert [segment[6] for segment in turned.cloth if len(segment) == 7] == [
        segment[6] for segment in sheet.cloth if len(segment) == 7
    ]
    four = quarter_turn(quarter_turn(quarter_turn(turned)))
    assert four.cloth == sheet.cloth


def test_the_points_of_a_curve_turn_in_pairs() -> None:
    cubic = (0.0, 0.0, 30.0, 0.0, 10.0, -20.0, 20.0, 20.0)
    sheet = Sheet((cubic,), (Stroke(LineType.CUTTING, (cubic,)),))
    turned = (0.0, 0.0, 0.0, 30.0, 20.0, 10.0, -20.0, 20.0)
    assert quarter_turn(sheet) == Sheet((turned,), (Stroke(LineType.CUTTING, (turned,)),))


class TestPages:
    def test_rows_are_letters_and_columns_numbers(self) -> None:
        sheet = inked(pieces(RING.replace("100 cm", "35 cm").replace("50 cm", "15 cm")), A4)
        assert [(tile.name, tile.column, tile.row) for tile in tiles(sheet)] == [
            ("A1", 0, 0),
            ("A2", 1, 0),
            ("B1", 0, 1),
            ("B2", 1, 1),
        ]

    def test_every_line_and_text_lies_on_some_page(self) -> None:
        sheet = inked(pieces(), A4)
        shown = [A4.shown(tile.column, tile.row) for tile in tiles(sheet)]
        covered = box(*shown[0])
        for each in shown[1:]:
            covered = covered.union(box(*each))
        assert all(covered.buffer(13).contains(box(*each.extent)) for each in elements(sheet))

    def test_a_page_with_nothing_on_it_is_left_out_and_one_within_a_piece_is_not(self) -> None:
        """A quarter of a ring of 1 m: the corner towards the centre is empty, the cloth between its arcs is not."""
        (piece,) = pieces(RING)
        sheet = inked([piece], A4)
        names = {tile.name for tile in tiles(sheet)}
        columns, rows = counts(A4, sheet.extent)
        assert (columns, rows) == (6, 4)
        outline = Polygon(sheet.outlines[0])
        for row, letter in enumerate("ABCD"):
            for column in range(columns):
                on_cloth = outline.intersects(box(*core_of(sheet, column, row)).buffer(-1))
                assert on_cloth == (f"{letter}{column + 1}" in names)

    def test_texts_keep_off_the_seams_of_the_pages(self) -> None:
        sheet = inked(pieces(), A4)
        shown = [box(*A4.shown(tile.column, tile.row)) for tile in tiles(sheet)]
        texts = elements(sheet)[-len(sheet.layer.texts) :]
        assert len(texts) > 12
        assert all(any(page.contains(box(*text.extent)) for page in shown) for text in texts)

    @pytest.mark.parametrize("nested", [False, True])
    def test_no_text_lies_on_another_or_on_a_line(self, nested: bool) -> None:
        sheet = inked(pieces(nested=nested), A4)
        lines = [*drawn_lines(sheet.layer), *drawn_lines(Layer(strokes=[(LineType.SEAM, e) for e, _ in sheet.nested]))]
        boxes = [text_box(text) for text in sheet.layer.texts]
        assert not any(one.intersects(other) for one, other in combinations(boxes, 2))
        assert not any(text.intersects(line) for text in boxes for line in lines)

    def test_texts_of_a_piece_lie_within_it(self) -> None:
        sheet = inked(pieces(), A4)
        cloth = [Polygon(outline) for outline in sheet.outlines]
        assert all(any(each.contains(text_box(text)) for each in cloth) for text in sheet.layer.texts)

    def test_more_pages_than_anyone_tapes_are_refused_before_any_work(self) -> None:
        with pytest.raises(TooManyPages):
            inked(pieces(RING.replace("100 cm", "90 m")), A4)


@pytest.mark.parametrize(
    ("said", "size"),
    [
        ("a4", (210, 297)),
        ("Letter", (215.9, 279.4)),
        ("36 in x 48 in", (914.4, 1219.2)),
        ("90 cm × 2 m", (900, 2000)),
        ("300mm by 400mm", (300, 400)),
        ("300mmx400mm", (300, 400)),
        ("8.5x11in", (215.9, 279.4)),
        ("60 x 90 cm", (600, 900)),
    ],
)
def test_paper_by_name_or_size(said: str, size: tuple[float, float]) -> None:
    found = paper_of(said)
    assert (found.width, found.height) == pytest.approx(size)


@pytest.mark.parametrize(
    ("said", "hint"),
    [
        ("leter", "did you mean letter?"),
        ("parchment", "write one of a4, letter, a3, a0, or a size"),
        ("10 cm x 15 cm", "at least 19 cm x 25 cm"),
        ("30 cm x 9 m", "36 in x 150 in"),
        ("30 x 40", "write one of"),
        ("30 cm x 40 cm x 2 cm", "write one of"),
        ("", "write one of"),
    ],
)
def test_other_paper_is_refused_with_what_to_write(said: str, hint: str) -> None:
    with pytest.raises(NoSuchPaper) as refused:
        paper_of(said)
    assert hint in refused.value.hint
