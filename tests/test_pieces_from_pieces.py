"""Pieces made from pieces: what is copied stays as long, what is parted sums up, what is turned up lies flat."""

from __future__ import annotations

from itertools import pairwise
from math import cos, pi, sin, sqrt

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.affinity import scale

from chalkfold.formula import key_of
from chalkfold.geometry import arcs, edges, outlines, parting, points
from chalkfold.geometry.crossings import is_simple
from chalkfold.geometry.offset import offset, stray
from chalkfold.geometry.shapes import Edge, Outline, Point, line
from chalkfold.geometry.tracing import inner_line
from chalkfold.geometry.trouble import GeometryTrouble
from chalkfold.geometry.turned import turns_outwards
from chalkfold.plan import Drawing, Facts, Group
from chalkfold.show import Shower
from chalkfold.work import Worked
from drafted import SHELF, drafted, edge, shape, value
from drafted import line as outline_of
from geometry_help import as_polygon, dense, outlines_made_up, polygon
from post_help import block, post, worked

INCH = 25.4

BACK = """
    piece: back
    cut: 1 on fold in main
    points:
      neck: here
      shoulder: {from: neck, across: top width}
      hem at side: {from: neck, across: hem width, down: 60 cm}
      hem at fold: {from: neck, down: 60 cm}
      yoke at fold: {along: fold, at: 20 cm, from: neck}
      yoke at side: {along: side, at: 20 cm, from: shoulder}
    outline:
      start: neck
      top: line to shoulder
      side: arc to hem at side with radius 300 cm bulging left
      hem: line to hem at fold
      fold: line to neck
    on fold: fold
    allowances: {all: 1 cm, hem: 4 cm turned up}
    lines:
      yoke line: from yoke at fold; line to yoke at side
    marks:
      - notch on side at 10 cm from shoulder
      - double notch on hem at 5 cm from hem at side
      - drill at yoke at fold
      - gap on side from 12 cm to 26 cm from shoulder
"""
COPIES = (
    block("draft", "piece: whole back\nlike: back opened out")
    + block("draft", "piece: turned back\nlike: back mirrored")
    + block("draft", "piece: back again\nlike: turned back mirrored")
    + block("draft", "piece: yoke\nlike: back\ncut away: below yoke line")
    + block("draft", "piece: lower back\nlike: back\ncut away: above yoke line")
)
widths = st.floats(15, 30)


def back(top: float, hem: float, more: str = COPIES) -> str:
    return post(f"top width: {top} cm", f"hem width: {hem} cm", blocks=block("draft", BACK) + more)


def drawing(found: Worked, piece: str) -> Drawing:
    views = [view for _, view in found.views]
    views += [inner for view in views if isinstance(view, Group) for inner in view.views]
    return next(view for view in views if isinstance(view, Drawing) and view.piece == piece)


def spots(found: Worked, piece: str) -> list[Point]:
    """Where the marks of a piece lie, from left to right."""
    keys = [key for mark in drawing(found, piece).marks for key in (mark.point, mark.end) if key]
    return sorted(found.values.row(key)[0] for key in keys)  # type: ignore[type-var]


def all_near(these: list[Point], those: list[Point]) -> bool:
    """Whether the points are the same, in whatever order."""
    return len(these) == len(those) and all(min(points.distance(a, b) for b in those) < 1e-6 for a in these)


class TestCopies:
    @settings(max_examples=8)
    @given(widths, widths)
    def test_opened_out_the_area_doubles_and_all_lengths_stay(self, top: float, hem: float) -> None:
        found = drafted(back(top, hem), "outline of back", "outline of whole back", "side of back", "hem of back")
        half, whole = shape(found, "outline of back"), shape(found, "outline of whole back")
        assert whole.area == pytest.approx(2 * half.area)
        assert whole.symmetric_difference(half.union(scale(half, -1, 1, origin=(0, 0)))).area < 1
        drawn = {each.name: edges.length(edge(found, each.edge)) for each in drawing(found, "whole back").edges}
        assert list(drawn) == ["top", "side", "hem", "other side"]
        assert drawn["side"] == pytest.approx(drawn["other side"])
        assert drawn["hem"] == pytest.approx(20 * hem)

    @settings(max_examples=8)
    @given(widths, widths)
    def test_opened_out_every_mark_is_there_twice(self, top: float, hem: float) -> None:
        found = drafted(back(top, hem))
        half, whole = spots(found, "back"), spots(found, "whole back")
        assert all_near(whole, [*half, *((-x, y) for x, y in half)])
        outline = shape(found, "outline of whole back")
        assert all(outline.buffer(0.02).contains(shapely.Point(spot)) for spot in whole)

    @settings(max_examples=8)
    @given(widths, widths)
    def test_mirrored_twice_is_the_same(self, top: float, hem: float) -> None:
        names = ("cutting line of back", "cutting line of turned back", "cutting line of back again")
        found = drafted(back(top, hem), *names)
        one, other, again = (outline_of(found, name) for name in names)
        assert all(a == pytest.approx(b) for a, b in zip(flat(one), flat(again), strict=True))
        assert as_polygon(other).symmetric_difference(scale(as_polygon(one), -1, 1, origin=(0, 0))).area < 1
        assert all_near(spots(found, "back again"), spots(found, "back"))

    def test_left_and_right_as_worn_swap_in_a_mirror(self) -> None:
        text = back(20, 25, block("draft", "piece: turned back\nlike: back mirrored"))
        text = text.replace("drill at yoke at fold", "drill at yoke at fold left as worn")
        found = drafted(text)
        assert [mark.worn for mark in drawing(found, "turned back").marks] == ["", "", "right", ""]

    @settings(max_examples=8)
    @given(widths, widths)
    def test_the_parts_cut_away_and_left_sum_up(self, top: float, hem: float) -> None:
        names = ("outline of back", "outline of yoke", "outline of lower back")
        found = drafted(back(top, hem), *names, "side of back", "side of yoke", "side of lower back")
        whole, upper, lower = (shape(found, name) for name in names)
        assert upper.area + lower.area == pytest.approx(whole.area)
        assert upper.union(lower.buffer(0.001)).symmetric_difference(whole).area < 10
        lengths = [value(found, f"side of {piece}") for piece in ("yoke", "lower back", "back")]
        assert lengths[0] + lengths[1] == pytest.approx(lengths[2])

    def test_marks_go_where_the_cloth_goes(self) -> None:
        found = drafted(back(20, 25))
        kinds = {name: [mark.kind for mark in drawing(found, name).marks] for name in ("yoke", "lower back")}
        assert kinds == {"yoke": ["notch", "drill"], "lower back": ["double notch", "drill"]}  # the gap lies on both


def flat(outline: Outline) -> list[tuple[float, ...]]:
    return [segment for each in outline for segment in each]


class TestPanels:
    PANELS = """
    panels:
      along: [first, second]
      a: {side: towards fold}
      b: {side: between first and second}
      c: {side: towards side}
    """

    def front(self, top: float, hem: float, bulge: float) -> str:
        body = BACK.replace("piece: back", "piece: front").replace(
            "yoke line: from yoke at fold; line to yoke at side", ""
        )
        body = body.replace("lines:\n", f"lines:\n      first: from p; arc to q with radius {bulge} cm bulging left\n")
        body = body.replace("    marks:", "      second: from r; line to s\n    marks:")
        ends = ("p: {along: top, at: 6 cm}", "q: {along: hem, at: 8 cm, from: hem at fold}")
        ends += ("r: {along: top, at: 10 cm}", "s: {along: hem, at: 12 cm, from: hem at fold}")
        body = body.replace("    outline:", "".join(f"      {each}\n" for each in ends) + "    outline:")
        panels = self.PANELS.replace("\n    ", "\n").lstrip("\n")
        text = block("draft", body).replace("\n```\n", f"\n{panels}```\n", 1)
        return post(f"top width: {top} cm", f"hem width: {hem} cm", blocks=text)

    @settings(max_examples=8)
    @given(widths, widths, st.floats(300, 900))
    def test_panels_sum_up_to_the_whole_and_their_seams_are_equal(self, top: float, hem: float, bulge: float) -> None:
        names = [f"outline of {piece}" for piece in ("front", "a", "b", "c")]
        seams = ("drawn first of a", "first of b", "second of b", "second of c")
        found = drafted(self.front(top, hem, bulge), *names, *seams)
        whole, *parts = (shape(found, name) for name in names)
        assert sum(part.area for part in parts) == pytest.approx(whole.area)
        assert all(part.difference(whole.buffer(0.02)).area < 1 for part in parts)
        lengths = [value(found, seam) for seam in seams]
        assert lengths[0] == pytest.approx(lengths[1]) and lengths[2] == pytest.approx(lengths[3])

    def test_the_walk_along_the_seams_stands_on_the_page(self) -> None:
        found = drafted(self.front(20, 25, 200))
        group = next(view for _, view in found.views if isinstance(view, Group) and isinstance(view.views[0], Drawing))
        walk = group.views[-1]
        assert isinstance(walk, Facts)
        write = Shower(found.values, SHELF.settings.printer, reader_chooses=False)
        assert [write.plain(fact.label, 0) for fact in walk.facts] == ["first, a to b", "second, b to c"]


@st.composite
def parted(draw: st.DrawFn) -> tuple[Outline, Edge, tuple[float, float]]:
    """An outline, a straight line across it, and the places where that ends."""
    outline = draw(outlines_made_up())
    first = draw(st.integers(0, len(outline) - 2))
    second = draw(st.integers(first + 1, len(outline) - 1))
    ends = [
        edges.point_at(outline[index], edges.length(outline[index]) * draw(st.floats(0.1, 0.9)))
        for index in (first, second)
    ]
    return outline, (line(ends[0], ends[1]),), (first, second)


class TestParting:
    @given(parted())
    def test_the_two_parts_of_an_outline_sum_up(self, case: tuple[Outline, Edge, tuple[int, int]]) -> None:
        outline, across, (first, second) = case
        start, stop = edges.first(across), edges.last(across)
        before = (parting.on_from(outline[first], start), *outline[first + 1 : second])
        one = (*before, parting.up_to(outline[second], stop), edges.backwards(across))
        after = (parting.on_from(outline[second], stop), *outline[second + 1 :], *outline[:first])
        other = (*after, parting.up_to(outline[first], start), across)
        assume(is_simple(one) and is_simple(other))
        whole = outlines.area(outline)
        assume(min(outlines.area(one) * whole, outlines.area(other) * whole) > 0)  # else the line runs outside
        assert outlines.area(one) + outlines.area(other) == pytest.approx(whole, abs=0.5)
        assert as_polygon(one).area + as_polygon(other).area == pytest.approx(as_polygon(outline).area, rel=1e-4)
        length = outlines.length(one) + outlines.length(other) - 2 * edges.length(across)
        assert length == pytest.approx(outlines.length(outline), abs=0.1)

    @given(outlines_made_up(), st.floats(0.01, 0.99), st.data())
    def test_a_place_round_the_outline_leads_back_to_its_point(
        self, outline: Outline, share: float, choose: st.DataObject
    ) -> None:
        index = choose.draw(st.integers(0, len(outline) - 1))
        point = edges.point_at(outline[index], edges.length(outline[index]) * share)
        assert parting.place_round(outline, point) == pytest.approx(index + share, abs=1e-4)
        assert parting.place_round(outline, edges.first(outline[index])) == index
        away = outlines.box(outline)[2] + 5
        assert parting.place_round(outline, (away, point[1])) == parting.OFF

    @given(outlines_made_up())
    def test_the_middle_lies_where_shapely_has_the_centroid(self, outline: Outline) -> None:
        centre = as_polygon(outline).centroid
        left, top, right, bottom = outlines.box(outline)
        near = 0.01 * (right - left + bottom - top)  # it goes by chords, and only says on which side a part lies
        assert parting.middle(outline) == pytest.approx((centre.x, centre.y), abs=near)

    @given(outlines_made_up())
    def test_how_far_an_edge_strays_from_straight(self, outline: Outline) -> None:
        for each in outline:
            chord = shapely.LineString([edges.first(each), edges.last(each)])
            farthest = max(chord.distance(shapely.Point(point)) for point in dense(each))
            assert stray(each) >= farthest - 0.01


def stretch(outline: Outline, first: int, many: int) -> list[Edge]:
    """So many edges from the first on, and those before and behind them."""
    return [outline[number % len(outline)] for number in range(first - 1, first + many + 1)]


class TestFacings:
    @given(st.lists(st.floats(200, 400), min_size=5, max_size=9), st.floats(5, 60), st.data())
    def test_every_point_of_the_inner_edge_is_as_deep_as_it_should(
        self, spokes: list[float], depth: float, choose: st.DataObject
    ) -> None:
        count = len(spokes)
        outline = polygon(*((r * cos(2 * pi * n / count), r * sin(2 * pi * n / count)) for n, r in enumerate(spokes)))
        first, many = choose.draw(st.integers(0, count - 1)), choose.draw(st.integers(1, count - 2))
        try:
            inner = inner_line(outline, depth, *stretch(outline, first, many))
        except GeometryTrouble:
            assume(False)
            raise
        inside = as_polygon(outline).buffer(0.01)
        assert inside.contains(shapely.LineString(dense(inner)))
        for step in range(many):  # a straight edge each, and its own parallel among those of the inner edge
            traced = shapely.LineString(dense(outline[(first + step) % count]))
            middle = shapely.Point(edges.point_at((inner[step],), edges.length((inner[step],)) / 2))
            endless = scale(traced, 1e3, 1e3, origin=traced.centroid)
            assert endless.distance(middle) == pytest.approx(depth, abs=0.01)


leans = st.floats(-0.6, 0.6)


class TestHemsTurnedUp:
    @given(leans, leans, st.sampled_from([0.0, 10.0, 15.0]), st.floats(5, 60))
    def test_folded_up_the_hem_lies_on_the_piece_edge_on_edge(
        self, left: float, right: float, side: float, depth: float
    ) -> None:
        """Folded along the seam line (shapely's mirror image) it covers just the strip of the piece above."""
        seam = polygon((0, 0), (400, 0), (400 + 300 * right, 300), (300 * left, 300))
        cut = as_polygon(offset(seam, [10, side, depth, side], (), (2,)))
        beyond = cut.intersection(shapely.box(-1e4, 300, 1e4, 1e4))
        above = cut.intersection(shapely.box(-1e4, 300 - depth, 1e4, 300))
        folded = scale(beyond, 1, -1, origin=(0, 300))
        assert folded.symmetric_difference(above).area < 0.5

    @settings(max_examples=25)
    @given(outlines_made_up(), st.data())
    def test_only_the_ends_of_the_hem_change(self, outline: Outline, choose: st.DataObject) -> None:
        hem = choose.draw(st.integers(0, len(outline) - 1))
        allowances = [10.0] * len(outline)
        try:
            plain, turned = offset(outline, allowances), offset(outline, allowances, (), (hem,))
        except GeometryTrouble:
            assume(False)
            raise
        ends = {(hem - 1) % len(outline), hem, (hem + 1) % len(outline)}
        assert all(plain[n] == turned[n] for n in range(len(outline)) if n not in ends)
        assert offset(outline, allowances, (), ()) == plain

    def test_the_hem_corner_of_hapgoods_drawers(self) -> None:
        """Olive C. Hapgood, School Needlework (Ginn, Boston, 1893), child's drawers, age 8: the hem of 2 in is folded
        under before its end is cut. The leg edge bows 1 in at its middle; as an arc its radius is 11.313 in. The corner
        of the hem lies 9.123 in from the fold, where the leg edge 2 in above the hem line is; carried straight on it
        would be 8.26 in.
        """
        text = post(
            blocks=block(
                "draft",
                """
                piece: drawers
                cut: 2 on fold in main
                points:
                  A: here
                  H: {from: A, down: 3 in}
                  I: {from: A, across: 10 in}
                  G: {from: A, across: 14 in, down: 12.5 in}
                  J: {from: A, across: 8.5 in, down: 20 in}
                  E: {from: A, down: 20 in}
                outline:
                  start: H
                  top: line to I
                  seat: line to G
                  leg: arc to J with radius 11.313 in bulging left
                  hem: line to E
                  fold: line to H
                on fold: fold
                allowances: {all: 0, hem: 2 in turned up}
                """,
            )
            + block("checks", "not needed: {square at the fold: the top is gathered into a band}")
        )
        found = drafted(text, "cutting line of drawers", "leg of drawers")
        corner = edges.first(outline_of(found, "cutting line of drawers")[3])
        assert (corner[0] / INCH, corner[1] / INCH) == pytest.approx((9.123, 22), abs=0.001)
        straight = drafted(text.replace(" turned up", ""), "cutting line of drawers")
        assert edges.first(outline_of(straight, "cutting line of drawers")[3])[0] / INCH == pytest.approx(
            8.26, abs=0.01
        )


class TestEase:
    """A hem on a curve: its edge is longer than the line that it is sewn to, by 2 × depth × the angle it turns by."""

    SKIRT = """
        piece: skirt
        cut: 1 on fold in main
        points:
          centre: here
          a: {from: centre, across: 20 cm}
          b: {from: centre, down: 20 cm}
          c: {from: centre, down: 80 cm}
          d: {from: centre, across: 80 cm}
        outline:
          start: a
          waist: arc to b around centre
          back: line to c
          hem: arc to d around centre
          fold: line to a
        on fold: fold
        allowances: {waist: 1 cm, back: 0, hem: 3 cm turned up}
    """

    DEEP = block("checks", "not needed: {hem depth: so deep to see what it takes}")

    def hems(self, body: str) -> list[tuple[str, str]]:
        found = drafted(post("elastic width: 2 cm", blocks=block("draft", body) + self.DEEP))
        write = Shower(found.values, SHELF.settings.printer, reader_chooses=False)
        return [(hem.edge, write.plain(hem.said, 0)) for hem in drawing(found, "skirt").hems]

    def test_a_half_circle(self) -> None:
        """π × 83 = 260.75 cm, sewn to π × 77 = 241.90 cm: 2 × 3 × π = 18.85 cm. Plane geometry."""
        ((about, said),) = self.hems(self.SKIRT)
        assert about == "hem"
        for amount in ("260.8 cm", "241.9 cm", "18.8 cm"):
            assert amount in said.replace("\N{NO-BREAK SPACE}", " "), said
        assert [pi * 83, pi * 77, 6 * pi] == pytest.approx([260.752, 241.903, 18.850], abs=0.001)

    def test_a_page_tells_it_only_where_there_is_any(self) -> None:
        curved = drafted(post(blocks=block("draft", self.SKIRT) + self.DEEP))
        straight = drafted(back(20, 25, block("draft", "piece: whole back\nlike: back opened out")))
        for found, told in ((curved, True), (straight, False)):
            write = Shower(found.values, SHELF.settings.printer, reader_chooses=False)
            html = "".join(write.view(view) for _, view in found.views)
            assert ("of ease" in html, "the mirror image of the edges beside it" in html) == (told, not told)

    def test_a_casing_on_a_curve_is_warned_of(self) -> None:
        ((_, said),) = self.hems(self.SKIRT + "    carries: elastic\n        channel: 3 cm\n")
        assert "as a casing it would not lie flat" in said and "`" not in said

    @settings(max_examples=8)
    @given(st.floats(300, 900), st.floats(20, 50), st.floats(0, 0.3))
    def test_the_line_it_is_sewn_to_is_as_long_as_told(self, radius: float, depth: float, lean: float) -> None:
        """Held against the line traced inside the piece, for sides that do not run towards the centre as well."""
        half = radius * 0.6
        rise = sqrt(radius**2 - half**2)
        arc = arcs.around((0.0, -rise), (half, 0.0), (-half, 0.0))
        top = half * (1 - lean)
        outline: Outline = (
            (line((-top, -250.0), (top, -250.0)),),
            (line((top, -250.0), (half, 0.0)),),
            (arc,),
            (line((-half, 0.0), (-top, -250.0)),),
        )
        edge_of_hem = edges.length(offset(outline, [0, 0, depth, 0], (), (2,))[2])
        sewn_to = edges.length(inner_line(outline, depth, *stretch(outline, 2, 1)))
        told = edge_of_hem - 2 * depth * turns_outwards(outline, 2)
        assert told == pytest.approx(sewn_to, rel=0.02)


def test_a_fault_of_the_piece_behind_is_told_in_one_place() -> None:
    found = worked(back(20, 25).replace("line to shoulder", "line to sholder"), SHELF)
    assert [fault.message for fault in found.faults] == ["back has no point called `sholder`"]


def test_a_long_row_of_copies_is_refused_not_followed() -> None:
    names = ["back", *(f"copy {number}" for number in range(1200))]
    drafts = [block("draft", f"piece: {name}\nlike: {before}") for before, name in pairwise(names)]
    found = worked(back(20, 25, "".join(reversed(drafts))), SHELF)
    messages = {fault.message for fault in found.faults}
    assert "more than 40 pieces are made from one another here, each from the next" in messages
    assert len(messages) <= 2


def test_a_piece_in_more_parts_than_any_is_refused() -> None:
    lost = ", ".join(["below yoke line"] * 13)
    found = worked(back(20, 25, block("draft", f"piece: yoke\nlike: back\ncut away: [{lost}]")), SHELF)
    assert [fault.message for fault in found.faults] == ["yoke is cut away 13 times"]


def test_measures_of_a_panel_are_names_like_others() -> None:
    found = drafted(TestPanels().front(20, 25, 200), "total second of c", "count of c")
    assert value(found, "total second of c") == pytest.approx(2 * found.values.row(key_of("second of c"))[0])


def test_a_copy_and_a_panel_are_shaped_as_pieces_are() -> None:
    """A plain copy has the darts of its piece; a panel may have one of its own, and then its seam may not agree."""
    dart = "darts:\n  hem dart: {on: hem, at: 9 cm, takes: 2 cm, length: 10 cm, pressed towards: fold}\n"
    text = back(20, 25, block("draft", "piece: again\nlike: back")).replace("lines:\n", f"{dart}lines:\n", 1)
    found = drafted(text, "drawn hem of again", "hem of again", "hem of back")
    assert value(found, "hem of again") == pytest.approx(value(found, "hem of back")) == pytest.approx(460)
    own = "darts: {d: {on: first, at: 9 cm, takes: 2 cm, length: 4 cm, pressed towards: up}}"
    panels = TestPanels().front(20, 25, 300).replace("a: {side: towards fold}", f"a: {{side: towards fold, {own}}}")
    (message,) = (" ".join(fault.message.split()) for fault in worked(panels, SHELF).faults)
    assert message == "first is 58.1 cm (22⅞ in) long on a and 60.1 cm (23 11⁄16 in) on b: 2 cm (13⁄16 in) apart"
