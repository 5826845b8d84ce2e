"""What is written on printed sheets and where: nested sizes, names on the plan, the foot, notches, seams of pages."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from math import hypot
from xml.etree.ElementTree import fromstring

import pytest
from shapely import LineString, Point, Polygon, box

from chalkfold.draw.drawn import Layer, Written
from chalkfold.draw.layout import laid_out
from chalkfold.draw.lines import NESTED, LineType
from chalkfold.draw.paths import Extent
from chalkfold.draw.words import Anchor, Lettering, plain, width_of
from chalkfold.geometry import edges
from chalkfold.paper.arrange import Shape, arranged
from chalkfold.paper.front import Said
from chalkfold.paper.inked import Inked, inked
from chalkfold.paper.lettered import SMALL, shortened
from chalkfold.paper.overview import overview
from chalkfold.paper.papers import PAPERS, UNITS, paper_of
from chalkfold.paper.tiles import tiles
from draw_help import drawn_lines, text_box
from paper_help import pieces

A4, A0 = PAPERS["a4"], PAPERS["a0"]

SKIRT = """```project
sizes: [small, middle, large]
sample size: middle
numbers:
  wider: {small: 0, middle: 3 cm, large: 6 cm}
```

```draft
piece: skirt
cut: 1 on fold in main
points:
  waist at fold: here
  waist at side: {from: waist at fold, across: 18 cm + wider}
  hip at fold: {from: waist at fold, down: 18 cm + wider}
  hip at side: {from: hip at fold, across: 24 cm + wider}
  hem at fold: {from: waist at fold, down: 60 cm}
  hem at side: {square down from: hip at side, square across from: hem at fold}
outline:
  start: waist at fold
  waist: line to waist at side
  side: arc to hip at side with radius 70 cm bulging right; line to hem at side
  hem: line to hem at fold
  fold: line to waist at fold
on fold: fold
allowances: {all: 1.5 cm, hem: 4 cm}
lines:
  hip line: from hip at fold; line to hip at side
darts:
  dart: {on: waist, at: 9 cm + wider / 2, takes: 2 cm, length: 8 cm + wider}
```
"""

STRIP = """```draft
piece: side strip
cut: 1 pair in main
rectangle: {across: 20 cm, down: 40 cm}
allowances: {all: 1 cm}
marks:
  - notch on right at 20.5 cm from top right
```
"""


def nest() -> Inked:
    return inked(pieces(SKIRT, nested=True), A0)


def said(sheet: Inked) -> list[tuple[str, Written]]:
    return [(plain(text.words), text) for text in sheet.layer.texts]


def nested_lines(sheet: Inked) -> Iterator[LineString]:
    yield from drawn_lines(Layer(strokes=[(LineType.SEAM, edge) for edge, _ in sheet.nested]))


class TestNested:
    def test_every_line_is_in_the_pattern_of_its_size(self) -> None:
        """An outline, a hip line, and of a dart two legs and what is folded, in three sizes."""
        patterns = [dashes for edge, dashes in nest().nested]
        assert {dashes: patterns.count(dashes) for dashes in patterns} == dict.fromkeys(NESTED[:3], 5)

    def test_hip_line_and_dart_say_whose_they_are(self) -> None:
        """On the outline, on the hip line, at the tip of the dart."""
        names = [name for name, _ in said(nest())]
        assert {size: names.count(size) for size in ("small", "middle", "large")} == {
            "small": 3,
            "middle": 3,
            "large": 3,
        }

    def test_a_size_stands_nearest_to_the_tip_that_is_its_own(self) -> None:
        """Tips 3 cm farther down and 1.5 cm farther along from size to size: 8, 11, 14 cm below the waist."""
        sheet = nest()
        (frame_x, frame_y), dart = sheet.outlines[0][0], [9.0, 10.5, 12.0]
        corner = (min(x for x, _ in sheet.outlines[0]), min(y for _, y in sheet.outlines[0]) + 15 * UNITS)
        tips = {
            size: (corner[0] + dart[number] * 10 * UNITS, corner[1] + (80 + 30 * number) * UNITS)
            for number, size in enumerate(("small", "middle", "large"))
        }
        assert frame_x >= corner[0] and frame_y >= corner[1] - 15 * UNITS
        for size, tip in tips.items():
            nearest = min(
                (hypot(text.at[0] - tip[0], text.at[1] - tip[1]), name) for name, text in said(sheet) if name in tips
            )
            assert nearest[1] == size
            assert nearest[0] < 10 * UNITS

    def test_what_is_called_by_its_seam_line_is_led_from_a_line_that_is_drawn(self) -> None:
        """The side's seam line is not drawn in a nest; its leader starts on the cutting line of the smallest."""
        sheet = nest()
        leaders = [edge for line, edge in sheet.layer.strokes if line is LineType.EXTENSION]
        lines = list(nested_lines(sheet))
        starts = [Point(edges.first(edge)) for edge in leaders]
        assert starts
        assert all(min(line.distance(start) for line in lines) < 0.5 for start in starts)

    def test_the_labels_of_sizes_keep_off_the_seams_of_pages(self) -> None:
        sheet = inked(pieces(SKIRT, nested=True), A4)
        shown = [box(*A4.shown(tile.column, tile.row)) for tile in tiles(sheet)]
        sizes = [text_box(text) for name, text in said(sheet) if name in ("small", "middle", "large")]
        assert len(sizes) >= 6
        assert all(any(page.contains(each) for page in shown) for each in sizes)


class TestPlan:
    @pytest.mark.parametrize("height", [400.0, 700.0])
    def test_names_of_pieces_lie_on_no_line_and_on_no_name_of_a_page(self, height: float) -> None:
        sheet = inked(pieces(SKIRT), A4)
        parts = list(overview(sheet, tiles(sheet), Extent(40.0, 40.0, 640.0, 40.0 + height)))
        boxes = [plan_text(part) for part in parts if part.startswith("<text")]
        paths = [plan_path(part) for part in parts if part.startswith("<path") and 'stroke-width="1.2"' in part]
        assert [name for name, _ in boxes] == ["The sheets, put together", "A1", "A2", "B1", "B2", "C1", "C2", "skirt"]
        assert not any(one.intersects(other) for (_, one), (_, other) in combinations(boxes[1:], 2))
        assert not any(boxes[-1][1].intersects(line) for line in paths)
        assert Polygon(paths[0].coords).contains(boxes[-1][1])


class TestFoot:
    def test_size_and_sign_are_read_however_long_the_title_is(self) -> None:
        foot = Said("A very long title " * 9, "Tidewater", "size M", "cc2e d4b8", True, False).foot
        assert foot.startswith("size M · numbers cc2e d4b8 · A very long title")
        assert shortened(foot, SMALL, 400).startswith("size M · numbers cc2e d4b8 · A very")


class TestNotches:
    def test_the_name_of_an_edge_leaves_room_for_what_its_notch_is_called(self) -> None:
        """The notch lies half a centimetre below the middle of its edge, where the edge's name would stand."""
        sheet = inked(pieces(STRIP), A0)
        names = dict(said(sheet))
        edge, notch = names["right 40\xa0cm · 15¾\xa0in"], names["from top right"]
        middle = sheet.outlines[0][0][1] + 210 * UNITS
        half = width_of(plain(edge.words), edge.lettering) / 2
        assert abs(edge.at[1] - middle) > half
        assert abs(notch.at[1] - middle) < 20 * UNITS

    def test_on_the_page_it_is_led_out_beside_its_edge_not_across_the_piece(self) -> None:
        """The seam line on the right lies at 20 cm of a drawing whose cloth is 22 cm across."""
        (piece,) = pieces(STRIP)
        drawn = laid_out(piece.sheets[0])
        (text,) = (each for each in drawn.full.texts if plain(each.words).startswith("from top right"))
        assert text.at[0] > max(x for segment in drawn.cloth for x in (segment[0], segment[2]))


class TestArranged:
    def test_pieces_are_turned_together_where_one_alone_saves_nothing(self) -> None:
        """Two of 44 by 75 cm on paper of 82 by 100 cm: beside each other they are 88 cm wide. Turned they are 75 wide
        and below each other 88 deep; where one alone is turned they take 75 + 44."""
        corners = ((0.0, 0.0), (440.0, 0.0), (440.0, 750.0), (0.0, 750.0))
        upright = tuple((x * UNITS, y * UNITS) for x, y in corners)
        shape = Shape((upright,), (tuple((-y, x) for x, y in upright),))
        assert [place.turned for place in arranged([shape, shape], paper_of("820 mm x 1000 mm"))] == [True, True]


def plan_text(part: str) -> tuple[str, Polygon]:
    """What a text of the plan says, and the room it takes."""
    found = fromstring(part)
    at = float(found.attrib["x"]), float(found.attrib["y"])
    angle = float(found.attrib.get("transform", "rotate(0 ").removeprefix("rotate(").split()[0])
    words, lettering = found.text or "", Lettering("plan", float(found.attrib["font-size"]))
    anchor: Anchor = "middle" if found.attrib["text-anchor"] == "middle" else "start"
    return words, text_box(Written(at, (words,), lettering, anchor, angle))


def plan_path(part: str) -> LineString:
    corners = fromstring(part).attrib["d"].removeprefix("M").split("L")
    return LineString([tuple(map(float, corner.split())) for corner in corners])
