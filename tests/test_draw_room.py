"""The room left on a drawing, against shapely: what touches what, and what a grid of lines must not miss."""

from __future__ import annotations

from math import cos, radians, sin

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon
from shapely.affinity import rotate
from shapely.geometry.base import BaseGeometry

from chalkfold.draw.room import Room, apart, box, inside, strip

XY = tuple[float, float]
HAIR = 1e-6
"""Units: nearer than this, neither answer is wrong."""

PLACES = st.tuples(st.floats(-300, 300), st.floats(-300, 300))
TURNS = st.sampled_from([0.0, 90.0, -90.0]) | st.floats(-180, 180)
BOXES = st.tuples(PLACES, st.floats(1, 200), st.floats(1, 60), TURNS)
LINES = st.tuples(PLACES, PLACES)


def shape(given: tuple[XY, float, float, float]) -> Polygon:
    (x, y), width, height, angle = given
    w, h = width / 2, height / 2
    return rotate(Polygon([(x - w, y - h), (x + w, y - h), (x + w, y + h), (x - w, y + h)]), angle, origin=(x, y))


def touching(one: BaseGeometry, other: BaseGeometry) -> bool | None:
    """Whether two shapes touch; None where that hangs on a hair."""
    if 0 < one.distance(other) < HAIR:
        return None
    return bool(one.intersects(other) and one.buffer(-HAIR).intersects(other)) or (
        None if one.intersects(other) else False
    )


@settings(max_examples=300, deadline=None)
@given(BOXES, BOXES)
def test_boxes_are_apart_where_they_share_no_point(
    one: tuple[XY, float, float, float], other: tuple[XY, float, float, float]
) -> None:
    touch = touching(shape(one), shape(other))
    assert touch is None or apart(box(*one), box(*other)) is not touch


@settings(max_examples=300, deadline=None)
@given(LINES, st.floats(0.5, 40), BOXES)
def test_a_strip_is_a_line_with_room_to_both_sides(
    line: tuple[XY, XY], width: float, other: tuple[XY, float, float, float]
) -> None:
    band = LineString(line).buffer(width / 2, cap_style="flat")
    touch = touching(band, shape(other)) if band.area else None
    assert touch is None or apart(strip(*line, width), box(*other)) is not touch


@settings(max_examples=200, deadline=None)
@given(st.lists(LINES, max_size=12), st.lists(BOXES, max_size=4), BOXES)
def test_a_box_is_free_where_it_touches_no_line_and_no_text(
    lines: list[tuple[XY, XY]], texts: list[tuple[XY, float, float, float]], asked: tuple[XY, float, float, float]
) -> None:
    room = Room()
    for line in lines:
        room.add_line(*line)
    for text in texts:
        room.add_text(box(*text))
    taken = [*map(LineString, lines), *map(shape, texts)]
    touches = [touching(shape(asked), each) for each in taken]
    if None not in touches:
        assert room.free(box(*asked)) is not any(touches)


@settings(max_examples=200, deadline=None)
@given(st.lists(LINES, max_size=12, unique=True), LINES)
def test_a_leader_counts_each_line_it_crosses_once(lines: list[tuple[XY, XY]], leader: tuple[XY, XY]) -> None:
    room = Room()
    for line in lines:
        room.add_line(*line)
    one = LineString(leader)
    if one.length > 1 and all(crosses(one, LineString(line)) is not None for line in lines):
        assert room.crossings(*leader) == sum(bool(crosses(one, LineString(line))) for line in lines)


def crosses(one: LineString, other: LineString) -> bool | None:
    """Whether two lines meet; None where one all but ends on the other, as then a hair decides."""
    ends = [(Point(end), line) for line, end in ((one, each) for each in other.coords)]
    ends += [(Point(end), other) for end in one.coords]
    return None if any(end.distance(line) < HAIR for end, line in ends) else bool(one.intersects(other))


@given(st.lists(st.integers(0, 71), min_size=3, max_size=9, unique=True), PLACES)
def test_inside_is_inside(turns: list[int], point: XY) -> None:
    outline = [(200 * cos(radians(5 * turn)), 90 * sin(radians(5 * turn))) for turn in sorted(turns)]
    if Polygon(outline).exterior.distance(Point(point)) > HAIR:
        assert inside(point, outline) is bool(Polygon(outline).contains(Point(point)))
