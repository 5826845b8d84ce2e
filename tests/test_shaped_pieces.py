"""Pieces made from pieces with darts and pleats: what is folded away is gone, what stays keeps its shape."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import atan2, degrees

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.affinity import rotate, scale

from chalkfold.geometry import closing, edges, points, trueing
from chalkfold.geometry.shapes import Edge, Point, line
from chalkfold.plan import Drawing, Group, View
from chalkfold.work import Worked
from drafted import drafted, edge, shape, value
from drafted import line as outline_of
from geometry_help import as_polygon, dense, outlines_made_up
from post_help import block, post

FRONT = """\
piece: front
cut: 1 on fold in main
points:
  neck: here
  shoulder: {{from: neck, across: 22 cm, down: -1 cm}}
  hem at side: {{from: neck, across: {hem} cm, down: 55 cm}}
  hem at fold: {{from: neck, down: 55 cm}}
  high: {{from: neck, across: 9 cm, down: {deep} cm}}
  low: {{from: high, across: 1 cm, down: 20 cm}}
  far: {{from: low, down: 9 cm}}
  end: {{along: hem, at: {end} cm, from: hem at fold}}
outline:
  start: neck
  top: curve to shoulder leaving across arriving {lean}°
  side: line to hem at side
  hem: line to hem at fold
  fold: line to neck
on fold: fold
allowances: {{all: 1 cm}}
marks:
  - notch on side at 10 cm from shoulder
darts:
  top dart: {{on: top, to: high, takes: {takes} cm}}
  side dart: {{on: side, at: 40 cm, from: shoulder, takes: 1.5 cm, length: 7 cm, pressed towards: {pressed}}}
"""
INNER = "  inner dart: {tip: low, other tip: far, takes: 1 cm}\n"
TUCKS = (
    "pleats:\n  tucks: {on: hem, at: 4 cm, from: hem at fold, kind: tuck, takes: 1 cm, stitched down: 5 cm,"
    " folded towards: right}\n"
)
PANELS = (
    "lines:\n  princess line: from end; curve to high leaving up arriving -95°\n"
    "panels:\n  a: {side: towards fold}\n  b: {side: towards side}\n"
)
COPIES = block("draft", "piece: turned\nlike: front mirrored") + block("draft", "piece: whole\nlike: front opened out")


def tenths(least: int, most: int) -> st.SearchStrategy[float]:
    return st.integers(10 * least, 10 * most).map(lambda many: many / 10)


takes, deep, lean, hem, end = tenths(0, 4), tenths(6, 15), tenths(-25, 5), tenths(24, 34), tenths(12, 20)


def front(
    takes: float = 2,
    deep: float = 12,
    lean: float = -10,
    hem: float = 30,
    *,
    end: float = 15,
    pressed: str = "down",
    also: str = INNER,
    more: str = "",
) -> str:
    """A post with a front half drawn, which has a dart at its top and its side; ``also`` and ``more`` stand behind."""
    drawn = FRONT.format(takes=takes, deep=deep, lean=lean, hem=hem, end=end, pressed=pressed)
    return post(blocks=block("draft", drawn + also) + more)


def facing(name: str, how: str, of: str = "front") -> str:
    return block(
        "draft", f"piece: {name}\nfacing of: {of}\nalong: top\ndepth: 4 cm\ncut: 1 {how} in main\nallowances: none"
    )


def drawing(found: Worked, piece: str) -> Drawing:
    def drawings(view: View) -> Iterator[Drawing]:
        if isinstance(view, Drawing):
            yield view
        for inner in view.views if isinstance(view, Group) else ():
            yield from drawings(inner)

    return next(each for _, view in found.views for each in drawings(view) if each.piece == piece)


def drawn(found: Worked, piece: str, name: str) -> Edge:
    return next(edge(found, each.edge) for each in drawing(found, piece).edges if each.name == name)


def dart(found: Worked, piece: str, name: str) -> tuple[Point, list[Point]]:
    """The tip of a dart and the ends of its legs."""
    (dart,) = (each for each in drawing(found, piece).shapings if each.name == name)
    legs = [edge(found, key) for _, key in dart.lines[:2]]
    return edges.last(legs[0]), [edges.first(leg) for leg in legs]


def spots(found: Worked, piece: str) -> list[Point]:
    """Where the tips, notches and marks of a piece lie."""
    view = drawing(found, piece)
    keys = [key for each in view.shapings for key in (*each.drills, *(point for point, _ in each.notches))]
    keys += [mark.point for mark in view.marks]
    return [found.values.row(key)[0] for key in keys]  # type: ignore[misc]


def all_near(these: list[Point], those: list[Point]) -> bool:
    return len(these) == len(those) and all(min(points.distance(a, b) for b in those) < 1e-6 for a in these)


class TestClosed:
    @given(outlines_made_up(), st.data())
    def test_what_is_left_of_an_edge_keeps_its_shape(self, outline: tuple[Edge, ...], data: st.DataObject) -> None:
        sewn = outline[data.draw(st.integers(0, len(outline) - 1))]
        whole = edges.length(sewn)
        parts = sorted(data.draw(st.lists(st.floats(0.05, 0.95), min_size=4, max_size=4)))
        places = [0.0, *(part * whole for part in parts), whole]
        assume(all(b - a > 1 for a, b in pairwise(places)))
        legs = [leg for begin, stop in (places[1:3], places[3:5]) for leg in folded(sewn, begin, stop, 80.0)]
        closed = closing.taken_in(sewn, *data.draw(st.sampled_from([legs, legs[2:] + legs[:2]])))
        lost = 0.0
        for begin, stop, resumes in ((*places[:2], places[2]), (*places[2:4], places[4]), (*places[4:], whole)):
            was = points.distance(edges.point_at(sewn, begin), edges.point_at(sewn, stop))
            now = points.distance(edges.point_at(closed, begin - lost), edges.point_at(closed, stop - lost))
            assert was == pytest.approx(now, abs=1e-6)
            lost += resumes - stop
        assert edges.length(closed) == pytest.approx(whole - lost, abs=1e-6)

    @given(outlines_made_up(), st.floats(0.1, 0.4), st.floats(0.5, 0.9), st.floats(30, 200))
    def test_what_lies_beyond_moves_with_the_end(
        self, outline: tuple[Edge, ...], begin: float, stop: float, deep: float
    ) -> None:
        sewn, beyond = outline[0], outline[1]
        legs = folded(sewn, *(edges.length(sewn) * part for part in (begin, stop)), deep)
        closed, moved = closing.taken_in(sewn, *legs), closing.carried_along(beyond, sewn, *legs)
        assert points.same(edges.last(closed), edges.first(moved), 1e-6)
        assert edges.length(moved) == pytest.approx(edges.length(beyond))


def folded(sewn: Edge, begin: float, stop: float, deep: float) -> list[Edge]:
    """The legs of a dart between two places of an edge."""
    feet = [edges.point_at(sewn, place) for place in (begin, stop)]
    tip = points.shifted(points.between(*feet, 0.5), points.left_of(points.unit(*feet)), deep)
    return [(line(foot, tip),) for foot in feet]


class TestFacings:
    @settings(max_examples=12)
    @given(takes, deep, lean, hem)
    def test_its_edge_is_as_long_as_it_is_sewn_and_it_lies_on_the_piece_folded(
        self, takes: float, deep: float, lean: float, hem: float
    ) -> None:
        text = front(takes, deep, lean, hem, more=facing("facing", "on fold"))
        found = drafted(text, "top of front", "top of facing", "outline of facing", "= flat outline of front")
        assert value(found, "top of facing") == pytest.approx(value(found, "top of front"), abs=0.01)
        faced, cloth = shape(found, "outline of facing"), closed_by_hand(found)
        assert faced.difference(cloth.buffer(0.02)).area < 1
        sewn = shapely.LineString(dense(drawn(found, "facing", "top")))
        assert cloth.intersection(sewn.buffer(39.9)).difference(faced.buffer(0.05)).area < 1

    def test_cut_one_way_up_it_is_the_mirror_image(self) -> None:
        kinds = {"facing": "right side up", "traced": "wrong side up", "plain": "", "pairs": "pair"}
        more = "".join(facing(name, how) for name, how in kinds.items()) + facing("band", "", "front mirrored")
        text = front(more=more).replace("cut: 1 on fold in main\n", "cut: 1 in main\n").replace("on fold: fold\n", "")
        found = drafted(text.replace("takes: 2 cm}", "takes: 2 cm, pressed towards: left}"))
        shapes = {name: shape(found, f"outline of {name}") for name in (*kinds, "band")}
        turned_over = scale(shapes["traced"], -1, 1, origin=(0, 0))
        assert shapes["traced"].symmetric_difference(turned_over).area > 100
        assert all(shapes[name].symmetric_difference(turned_over).area < 1 for name in ("facing", "plain"))
        assert all(shapes[name].symmetric_difference(shapes["traced"]).area < 1 for name in ("pairs", "band"))


def closed_by_hand(found: Worked) -> shapely.Polygon:
    """The front above the tip of its top dart: what lies beyond the dart turned about the tip, leg on leg."""
    tip, legs = dart(found, "front", "top dart")
    flat = as_polygon(outline_of(found, "= flat outline of front"))
    angles = [degrees(atan2(leg[1] - tip[1], leg[0] - tip[0])) for leg in legs]
    ups = [points.polar(tip, angle, 3000.0) for angle in angles]
    left = flat.intersection(shapely.Polygon([tip, ups[0], (-6000, -3000), (-6000, tip[1])]))
    right = flat.intersection(shapely.Polygon([tip, ups[1], (6000, -3000), (6000, tip[1])]))
    beyond = rotate(right, angles[0] - angles[1], origin=shapely.Point(tip))
    return shapely.union_all([left.buffer(0.005), beyond.buffer(0.005)])


class TestCopies:
    @settings(max_examples=8)
    @given(takes, deep, lean, hem)
    def test_a_mirrored_copy_is_congruent_with_darts_and_all(
        self, takes: float, deep: float, lean: float, hem: float
    ) -> None:
        names = [f"{what} of {piece}" for what in ("outline", "cutting line") for piece in ("front", "turned")]
        found = drafted(front(takes, deep, lean, hem, more=COPIES), *names)
        for one, other in (names[:2], names[2:]):
            mirrored = scale(shape(found, one), -1, 1, origin=(0, 0))
            assert mirrored.symmetric_difference(shape(found, other)).area < 1
        assert all_near(spots(found, "turned"), [(-x, y) for x, y in spots(found, "front")])

    @settings(max_examples=8)
    @given(takes, deep, lean, hem)
    def test_opened_out_both_halves_are_there_with_darts_and_all(
        self, takes: float, deep: float, lean: float, hem: float
    ) -> None:
        found = drafted(front(takes, deep, lean, hem, more=COPIES), "outline of whole", "top of whole", "top of front")
        half, whole = shape(found, "outline of front"), shape(found, "outline of whole")
        assert whole.symmetric_difference(half.union(scale(half, -1, 1, origin=(0, 0)))).area < 2
        assert value(found, "top of whole") == pytest.approx(value(found, "top of front"))
        there = spots(found, "front")
        assert all_near(spots(found, "whole"), [*there, *((-x, y) for x, y in there)])

    def test_what_is_pressed_or_folded_to_one_side_goes_to_the_other_in_a_mirror(self) -> None:
        found = drafted(front(pressed="left", also=INNER + TUCKS, more=COPIES))
        said = {
            name: [part for each in drawing(found, name).shapings for line in each.said for part in line]
            for name in ("front", "turned", "whole")
        }
        assert {"pressed to the left", "folded to the right", "pressed towards the fold"} <= set(said["front"])
        assert {"pressed to the right", "folded to the left", "pressed towards the fold"} <= set(said["turned"])
        assert said["whole"].count("pressed towards the middle") == 2


class TestPanels:
    @settings(max_examples=8)
    @given(takes, deep, lean, end)
    def test_a_seam_through_a_dart_is_as_long_on_both_panels_and_the_wedge_is_gone(
        self, takes: float, deep: float, lean: float, end: float
    ) -> None:
        found = drafted(front(takes, deep, lean, end=end, also=PANELS), "top of front", "top of a", "total top of b")
        lengths = [edges.length(drawn(found, piece, "princess line")) for piece in ("a", "b")]
        assert lengths[0] == pytest.approx(lengths[1], abs=0.5)
        assert value(found, "top of a") + value(found, "total top of b") == pytest.approx(value(found, "top of front"))
        tip, legs = dart(found, "front", "top dart")
        panels = [shape(found, f"outline of {piece}") for piece in ("a", "b")]
        if points.distance(*legs) > 1:
            assert all(panel.intersection(shapely.Polygon([tip, *legs])).area < 5 for panel in panels)
        assert [[each.name for each in drawing(found, piece).shapings] for piece in ("a", "b")] == [[], ["side dart"]]


class TestTrued:
    @given(st.lists(st.tuples(st.floats(5, 200), st.floats(-25, 25)), min_size=2, max_size=8))
    def test_no_corner_is_left_and_the_ends_stay_as_they_are(self, way: list[tuple[float, float]]) -> None:
        angle, places = 0.0, [(0.0, 0.0)]
        for length, turn in way:
            angle += turn
            places.append(points.polar(places[-1], angle, length))
        before = tuple(line(a, b) for a, b in pairwise(places))
        after = trueing.trued(before)
        for end in (edges.first, edges.last):
            assert end(after) == pytest.approx(end(before))
        for from_end in (False, True):
            directions = [edges.direction_at(edge, 0.0, from_end=from_end) for edge in (before, after)]
            assert directions[0] == pytest.approx(directions[1], abs=1e-6)
        joins = [
            (edges.direction_at((a,), 0.0, from_end=True), edges.direction_at((b,), 0.0)) for a, b in pairwise(after)
        ]
        assert all(abs((one - other + 180) % 360 - 180) <= 0.26 for one, other in joins)
        cut_off = edges.length(before) - edges.length(after)
        assert -1e-6 <= cut_off <= 0.01 * edges.length(before)
        drawn = shapely.LineString(dense(before))
        assert all(drawn.distance(shapely.Point(point)) < 8 for point in dense(after))
