"""Pieces opened across their folds."""

from __future__ import annotations

from math import pi

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from chalkfold.geometry import arcs, edges, outlines
from chalkfold.geometry.crossings import is_simple
from chalkfold.geometry.offset import offset
from chalkfold.geometry.shapes import Outline, line
from chalkfold.geometry.trouble import GeometryTrouble, Reason
from chalkfold.geometry.unfold import unfold
from geometry_help import as_polygon, disc, polygon, quarter_ring, rectangle

heights = st.floats(10.0, 500.0)


@st.composite
def halves(draw: st.DrawFn) -> tuple[Outline, int]:
    """A piece to the right of a fold that runs up the left, with the index of the fold among its edges."""
    xs = sorted(draw(st.lists(st.integers(1, 60).map(lambda n: n * 10.0), min_size=2, max_size=5, unique=True)))
    top = [(0.0, draw(heights)), *((x, draw(heights)) for x in xs)]
    bottom = (xs[-1], 600.0), (0.0, draw(st.floats(600.0, 800.0)))
    drawn = polygon(*top, *bottom)
    shift = draw(st.integers(0, len(drawn) - 1))
    outline = drawn[shift:] + drawn[:shift]
    return outline, (len(drawn) - 1 - shift) % len(drawn)


@given(halves())
def test_opening_doubles_the_area_and_the_fold_disappears(half: tuple[Outline, int]) -> None:
    outline, fold = half
    opened = unfold(outline, {fold})
    whole = opened.whole.outline
    assert outlines.area(whole) == pytest.approx(2 * outlines.area(outline))
    assert fold not in opened.whole.came_from and opened.holes == ()
    assert outlines.is_closed(whole) and is_simple(whole)
    assert as_polygon(whole).buffer(1e-6).contains(as_polygon(outline))
    for index, edge in enumerate(outline):
        copies = [
            edges.length(other) for other, name in zip(whole, opened.whole.came_from, strict=True) if name == index
        ]
        times = 2 if (fold - index) % len(outline) in (1, len(outline) - 1) else 1  # it ends on the fold
        if index != fold:
            assert copies == [pytest.approx(times * edges.length(edge))] * (2 // times)


def test_a_piece_without_a_fold_is_whole() -> None:
    drawn = rectangle(60, 40)
    opened = unfold(drawn)
    assert (opened.whole.outline, opened.whole.came_from, opened.mirrors) == (drawn, (0, 1, 2, 3), ())


def test_a_rectangle_on_two_folds_is_four_times_as_large() -> None:
    opened = unfold(rectangle(60, 40), {0, 3})
    assert outlines.box(opened.whole.outline) == (-60, -40, 60, 40)
    assert opened.whole.came_from == (2, 1, 2, 1)
    assert len(opened.whole.outline[0]) == 1  # the two halves of a straight edge are one line


def test_a_quarter_ring_on_a_fold_is_half_a_ring() -> None:
    opened = unfold(quarter_ring(324.68, 600), {3})
    waist, back, hem, other_back = opened.whole.outline
    assert opened.whole.came_from == (0, 1, 2, 1)
    assert edges.length(waist) == pytest.approx(pi * 324.68) and edges.length(hem) == pytest.approx(pi * 924.68)
    assert (len(waist), len(hem)) == (1, 1)
    assert edges.length(back) == edges.length(other_back) == pytest.approx(600)


def test_a_circle_skirt_on_two_folds_is_a_whole_ring() -> None:
    # waist 72 cm, length 60 cm: hem 448.99 cm round (reference value C06; plane geometry)
    opened = unfold(quarter_ring(720 / (2 * pi), 600), {1, 3})
    (hem,), (hole,) = opened.whole.outline, opened.holes
    assert opened.whole.came_from == (2,) and hole.came_from == (0,)
    assert edges.length(hem) == pytest.approx(4489.9, abs=0.1)
    assert outlines.length(hole.outline) == pytest.approx(720)
    assert outlines.area(hole.outline) * outlines.area(opened.whole.outline) < 0  # a hole runs the other way
    assert len(opened.mirrors) == 2


def test_half_a_disc_opens_to_a_disc() -> None:
    half = ((arcs.around((0, 0), (0, -80), (0, 80)),), (line((0, 80), (0, -80)),))
    opened = unfold(half, {1})
    assert outlines.area(opened.whole.outline) == pytest.approx(outlines.area(disc(80)))
    assert [len(edge) for edge in opened.whole.outline] == [1]


def test_folds_that_cannot_be_opened() -> None:
    with pytest.raises(GeometryTrouble) as caught:
        unfold(quarter_ring(100, 100), {0})
    assert (caught.value.reason, caught.value.edges) == (Reason.FOLD_NOT_STRAIGHT, (0,))
    for folds in ({0, 2}, {0, 1, 2}):  # side by side; one too many
        with pytest.raises(GeometryTrouble) as caught:
            unfold(rectangle(60, 40), folds)
        assert (caught.value.reason, caught.value.edges) == (Reason.FOLDS_NOT_SQUARE, tuple(sorted(folds)))


def test_the_opened_cutting_line_is_the_cutting_line_opened() -> None:
    """To lay allowances and open, or to open and lay them, is the same."""
    front = polygon((0, 100), (100, 0), (300, 20), (280, 500), (0, 520))
    allowances = [10, 15, 10, 30, 0]
    cut_then_opened = unfold(offset(front, allowances, {4}), {4}).whole.outline
    opened = unfold(front, {4}).whole
    opened_then_cut = offset(opened.outline, [allowances[name] for name in opened.came_from])
    assert shapely.hausdorff_distance(as_polygon(cut_then_opened), as_polygon(opened_then_cut)) < 0.001
