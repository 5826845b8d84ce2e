"""Drafts against published figures, worked sums and other people's geometry, the source beside each."""

from __future__ import annotations

from math import asin, pi

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from svgpathtools import parse_path  # type: ignore[import-untyped]

from chalkfold.geometry.shapes import Edge
from chalkfold.work import Worked
from drafted import CIRCLE, SHELF, circle_skirt, drafted, edge, line, shape, skirt_numbers, value
from geometry_help import FINE, as_path
from post_help import block, post, worked

CM, INCH = 10.0, 25.4


def skirt(waist: str, length: str, fraction: str, **others: str) -> str:
    return post(*skirt_numbers(waist, length, fraction), blocks=circle_skirt(fraction, **others))


class TestCircleSkirts:
    @pytest.mark.parametrize(
        ("fraction", "printed"), [("1", 4.13), ("1/2", 8.2), ("1/3", 12.4), ("1/4", 16.56)], ids=lambda each: str(each)
    )
    def test_radii_for_a_waist_of_26_inches(self, fraction: str, printed: float) -> None:
        """https://www.prettyquirkypants.com/2014/03/07/diy-tips-circle-skirt-half-circle-skirt-formulas/ (truncated)"""
        found = drafted(skirt("26 in", "20 in", fraction), "radius of waist of skirt", "total waist of skirt")
        assert value(found, "radius of waist of skirt") / INCH == pytest.approx(printed, abs=0.08)
        assert value(found, "total waist of skirt") / INCH == pytest.approx(26)

    def test_a_full_circle_for_24_inches(self) -> None:
        """https://www.quiltingboard.com/3156097-post15.html: 3.82 in"""
        found = drafted(skirt("24 in", "20 in", "1"), "radius of waist of skirt")
        assert value(found, "radius of waist of skirt") / INCH == pytest.approx(3.82, abs=0.005)

    @pytest.mark.parametrize(("hips", "printed"), [(25, 3.625), (36, 5.125), (42, 6), (49, 7)])
    def test_an_opening_that_passes_the_hips_is_no_smaller_than_a_leaflet_cuts_it(
        self, hips: int, printed: float
    ) -> None:
        """A leaflet for square dancers (kipdf.com, how to make a simple circle skirt): hip girth / 7 to the eighth, on
        purpose about a tenth less than the girth needs, because the edge stretches.
        """
        found = drafted(skirt(f"{hips} in", "20 in", "1"), "radius of waist of skirt")
        radius = value(found, "radius of waist of skirt") / INCH
        assert printed < radius < 1.2 * printed

    def test_an_inch_for_both_allowances(self) -> None:
        """The same leaflet: the cut depth is the finished length and 1 in, here half an inch at waist and hem."""
        names = ("cut radius of hem of skirt", "cut radius of waist of skirt")
        found = drafted(skirt("36 in", "24 in", "1", allowances="{waist: 1/2 in, hem: 1/2 in}"), *names)
        assert (value(found, names[0]) - value(found, names[1])) / INCH == pytest.approx(25)

    @pytest.mark.parametrize(
        ("fraction", "waist", "hem", "sweep"),
        [
            ("1", 11.46, 71.46, 448.99),
            ("3/4", 15.28, 75.28, 354.74),
            ("1/2", 22.92, 82.92, 260.50),
            ("1/4", 45.84, 105.84, 166.25),
        ],
    )
    def test_a_waist_of_72_and_a_length_of_60(self, fraction: str, waist: float, hem: float, sweep: float) -> None:
        """Plane geometry: radius 72 / (2 π × fraction), hem 72 + 2 π × fraction × 60."""
        names = ("radius of waist of skirt", "radius of hem of skirt", "total hem of skirt", "total waist of skirt")
        found = drafted(skirt("72 cm", "60 cm", fraction), *names)
        assert [value(found, name) / CM for name in names] == pytest.approx([waist, hem, sweep, 72], abs=0.01)

    def test_a_quarter_arc_of_13_inches_has_a_radius_of_8_28(self) -> None:
        """Common practice, no source. 13 / (π / 2) = 8.276."""
        found = drafted(skirt("13 in", "20 in", "1/4"), "radius of waist of skirt", "waist of skirt")
        assert value(found, "radius of waist of skirt") / INCH == pytest.approx(8.28, abs=0.005)
        assert value(found, "waist of skirt") / INCH == pytest.approx(13)


CHECKED = block("checks", "must hold: [total waist of skirt = waist edge ± 1 mm]")


class TestWhatSeamsAndAllowancesTake:
    """A half circle, finished waist 72 cm, is marked on its cutting line: the raw edge of the back lies on the radius,
    and the fold opposite. The back seam lies 1.5 cm inside, on both halves, so it takes 2 × 1.5 cm of the arc.

    The arc is therefore 72 + 3 = 75 cm before it is divided: 75 / π = 23.873 cm. The waist allowance of 1 cm lies
    towards the centre: cut at 22.873 cm. Then 2 × 23.873 × (π / 2 − arcsin(1.5 / 23.873)) = 71.998 cm are left on the
    seam line. Had the arc not been lengthened: 72 / π = 22.918, and 2 × 22.918 × (π / 2 − arcsin(1.5 / 22.918)) =
    68.998 cm.
    """

    def marked(self, arc: str, waist_allowance: str = "1 cm") -> str:
        return post(
            "waist edge: 72 cm",
            "skirt length: 60 cm",
            f"waist radius: ({arc}) / pi",
            blocks=circle_skirt(
                radius=f"waist radius - {waist_allowance}",
                hem="waist radius + skirt length + 1 cm",
                allowances=f"{{waist: {waist_allowance}, back: 1.5 cm, hem: 1 cm}}",
            ).replace("points:", "outline is: cutting line\npoints:")
            + CHECKED,
        )

    def test_a_seam_inside_the_arc_lengthens_it_before_it_is_divided(self) -> None:
        names = ("total waist of skirt", "radius of waist of skirt", "cut radius of waist of skirt")
        found = drafted(self.marked("waist edge + 2 * 1.5 cm"), *names)
        assert [value(found, name) / CM for name in names] == pytest.approx([71.998, 23.873, 22.873], abs=0.001)
        assert value(found, names[0]) / CM == pytest.approx(2 * 75 / pi * (pi / 2 - asin(1.5 * pi / 75)))

    def test_an_arc_that_was_not_lengthened_fails_its_check(self) -> None:
        (fault,) = worked(self.marked("waist edge"), SHELF).faults
        assert " ".join(fault.message.split()) == (
            "this does not hold: total waist of skirt is 69 cm (27 3⁄16 in), waist edge is 72 cm (28⅜ in): "
            "3 cm (1 3⁄16 in) apart"
        )

    def test_a_waist_allowance_shortens_the_radius_that_is_cut(self) -> None:
        for allowance in (0.5, 1.0, 1.5):
            text = self.marked("waist edge + 2 * 1.5 cm", f"{allowance} cm")
            found = drafted(text, "cut radius of waist of skirt", "total waist of skirt")
            assert value(found, "cut radius of waist of skirt") / CM == pytest.approx(75 / pi - allowance)
            assert value(found, "total waist of skirt") / CM == pytest.approx(71.998, abs=0.001)


class TestAForgottenFold:
    """The classic mistake: a quarter arc on the fold is a half circle. Cut twice, it goes round twice."""

    def on_fold(self, count: int) -> str:
        numbers = skirt_numbers("72 cm", "60 cm")
        return post(*numbers, blocks=circle_skirt(cut=f"{count} on fold") + CHECKED)

    def test_once_on_the_fold_is_the_wanted_waist(self) -> None:
        assert value(drafted(self.on_fold(1), "total waist of skirt"), "total waist of skirt") == pytest.approx(720)

    def test_twice_on_the_fold_fails_with_twice_the_waist(self) -> None:
        (fault,) = worked(self.on_fold(2), SHELF).faults
        assert " ".join(fault.message.split()) == (
            "this does not hold: total waist of skirt is 144 cm (56 11⁄16 in), waist edge is 72 cm (28⅜ in): "
            "72 cm (28⅜ in) apart"
        )
        assert fault.span.text == "total waist of skirt = waist edge ± 1 mm"


def path_length(drawn: Edge) -> float:
    """As svgpathtools measures it."""
    return float(sum(parse_path(as_path(segment)).length() for segment in drawn))


lengths = st.integers(40, 1500).map(lambda n: n / 10)
NAMES = ("waist", "back", "hem", "front fold")


def same_area(found: Worked, name: str, polygon: shapely.Polygon, layers: int) -> None:
    """Shapely's polygon stands off the arcs by no more than ``FINE``."""
    assert value(found, name) == pytest.approx(layers * polygon.area, abs=layers * polygon.length * FINE)


def same_box(found: Worked, name: str, polygon: shapely.Polygon) -> None:
    left, top, right, bottom = polygon.bounds
    measured = [value(found, name.format(which)) for which in ("width", "height")]
    assert measured == pytest.approx([right - left, bottom - top], abs=2 * FINE)


class TestOtherPeoplesGeometry:
    @given(lengths, lengths, st.sampled_from(sorted(CIRCLE)))
    def test_areas_by_shapely_and_arcs_by_svgpathtools(self, waist: float, length: float, fraction: str) -> None:
        allowances = "{waist: 1 mm, hem: 1 cm}" if fraction == "1" else "{waist: 1 mm, hem: 1 cm, all: 0}"
        names = [f"{cut}{what} of skirt" for cut in ("", "cut ") for what in ("area", "width", "height")]
        text = skirt(f"{waist} cm", f"{length} cm", fraction, allowances=allowances)
        found = drafted(text, *names, "drawn waist of skirt", "drawn hem of skirt")
        layers = {"1": 4, "1/2": 2}.get(fraction, 1)
        same_area(found, "area of skirt", shape(found, "outline of skirt"), layers)
        same_area(found, "cut area of skirt", shape(found, "cutting line of skirt"), layers)
        same_box(found, "cut {} of skirt", shape(found, "cutting line of skirt"))
        drawn = dict(zip(NAMES, line(found, "outline of skirt"), strict=True))
        for name in ("waist", "hem"):
            assert value(found, f"drawn {name} of skirt") == pytest.approx(path_length(drawn[name]))

    @given(lengths, st.floats(1.01, 4), st.sampled_from(["left", "right"]))
    def test_an_arc_by_its_radius(self, chord: float, wider: float, side: str) -> None:
        names = ("drawn side of patch", "edge side of patch", "area of patch", "width of patch", "height of patch")
        found = drafted(post(blocks=bulging(chord, chord / 2 * wider, side)), *names)
        assert value(found, names[0]) == pytest.approx(path_length(edge(found, names[1])))
        same_area(found, "area of patch", shape(found, "outline of patch"), 1)
        same_box(found, "{} of patch", shape(found, "outline of patch"))


def bulging(chord: float, radius: float, side: str) -> str:
    return block(
        "draft",
        f"""
        piece: patch
        cut: 1 in main
        points:
          a: here
          b: {{from: a, across: {2 * radius + chord} cm}}
          c: {{from: b, down: {chord} cm}}
          d: {{from: a, down: {chord} cm}}
        outline:
          start: a
          top: line to b
          side: arc to c with radius {radius} cm bulging {side}
          bottom: line to d
          front: line to a
        allowances: none
        """,
    )
