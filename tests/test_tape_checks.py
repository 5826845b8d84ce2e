"""What a reader lays the tape on before cutting: the rule, and what a drawing tells of it. Lengths in mm."""

from __future__ import annotations

from itertools import combinations

import pytest
from lxml import etree

from chalkfold.diagnostics import Source
from chalkfold.geometry import arcs
from chalkfold.geometry.checks_before_cutting import is_strap, longest_diagonal, telling_curve, width_half_way
from chalkfold.geometry.offset import offset
from chalkfold.geometry.shapes import Outline, line
from chalkfold.post import build_post
from drafted import SHELF, circle_skirt, skirt_numbers
from geometry_help import polygon, quarter_ring, rectangle
from post_help import block, post
from show_help import text, tree


def diagonal(cut: Outline) -> tuple[int, int] | None:
    return longest_diagonal(cut, combinations(range(len(cut)), 2))


class TestTheRule:
    def test_of_two_diagonals_as_long_the_first(self) -> None:
        assert diagonal(offset(rectangle(600, 400), [10, 10, 30, 10])) == (0, 2)

    def test_a_quarter_ring_is_checked_from_end_to_end_of_its_hem(self) -> None:
        seam = quarter_ring(324.68, 600)
        assert diagonal(offset(seam, [10, 15, 10, 0], {3})) == (2, 3)
        assert telling_curve(seam, range(4)) == 0  # the waist is shorter than the hem

    def test_only_what_is_offered_is_taken(self) -> None:
        assert longest_diagonal(rectangle(600, 400), [(0, 1), (1, 3)]) == (1, 3)
        assert telling_curve(quarter_ring(324.68, 600), [1, 2, 3]) == 2

    def test_a_triangle_has_no_diagonal(self) -> None:
        assert diagonal(polygon((0, 0), (400, 0), (0, 300))) is None

    def test_straight_edges_are_no_curve(self) -> None:
        assert telling_curve(rectangle(600, 400), range(4)) is None

    def test_small_curves_give_way_to_the_longest(self) -> None:
        """Quarters of circles of 20 and 30 mm: 31 and 47 mm long, both too short for a tape."""
        rounded = ((line((0, 0), (80, 0)),), (arcs.around((80, 20), (80, 0), (100, 20)),),
                   (line((100, 20), (100, 70)),), (arcs.around((70, 70), (100, 70), (70, 100)),),
                   (line((70, 100), (0, 100)),), (line((0, 100), (0, 0)),))  # fmt: skip
        assert telling_curve(rounded, range(6)) == 3

    @pytest.mark.parametrize(("across", "down", "strap"), [(60, 360, True), (360, 60, True), (60, 350, False)])
    def test_six_times_as_long_as_wide_is_a_strap(self, across: float, down: float, strap: bool) -> None:
        assert is_strap(rectangle(across, down)) == strap

    @pytest.mark.parametrize(("across", "down", "side"), [(60, 900, 1), (900, 60, 0)])
    def test_a_strap_is_measured_across(self, across: float, down: float, side: int) -> None:
        """Of a rectangle edge 0 is the top and edge 1 the right side; a width runs from one to the one opposite."""
        assert width_half_way(rectangle(across, down)) == side

    def test_no_other_shape_has_a_width_half_way(self) -> None:
        assert width_half_way(polygon((0, 0), (900, 0), (950, 30), (900, 60), (0, 60))) is None
        assert width_half_way(quarter_ring(100, 5)) is None


class TestWhatADrawingTells:
    def told(self, drawn: str) -> list[str]:
        built = build_post(Source("posts/case.md", drawn), SHELF, reader_chooses=False)
        assert [fault.message for fault in built.faults] == []
        return [said(each) for each in tree(built.html).findall(".//section[@class='box checks']//li")]

    def test_a_half_circle_skirt(self) -> None:
        """The waist edge is 100 cm, its radius 100 / π = 31.831 cm, that of the hem 91.831 cm, on the cutting line
        92.831 cm. There the hem ends on the fold at (92.831, 0) and, 1.5 cm beyond the back, at (−1.5, 92.819), for
        √(92.831² − 1.5²) = 92.819: √(94.331² + 92.819²) = 132.340 cm apart.
        """
        skirt = circle_skirt(allowances="{waist: 1 cm, back: 1.5 cm, hem: 1 cm}")
        assert self.told(post(*skirt_numbers("100 cm", "60 cm"), blocks=skirt)) == [
            "G On the cutting line, straight from the corner where back meets hem to the one where hem meets front"
            " fold: 132.5 cm (52⅛ in).",
            "A Along waist on the seam line, as drawn: 50 cm (19 11⁄16 in). Times 2, for every layer, that is"
            " 100 cm (39⅜ in) in all.",
        ]

    def test_a_strap(self) -> None:
        """6 × 92 cm on the cutting line: √(6² + 92²) = 92.2 cm would tell nothing of its width."""
        strap = block(
            "draft", "piece: strap\ncut: 2 in main\nrectangle: {across: 4 cm, down: 90 cm}\nallowances: {all: 1 cm}"
        )
        assert self.told(post(blocks=strap)) == [
            "E On the cutting line, straight across the middle from right to left: 6 cm (2⅜ in)."
        ]

    def test_the_corners_are_the_same_in_every_size(self) -> None:
        """In size M the diagonal from c is the longer one, in size L the other: both show the one of M."""
        corner = "  b: {from: a, across: wide}\n  c: {from: b, down: 30 cm}\n  d: {from: a, across: slant, down: 30 cm}"
        panel = block(
            "draft",
            f"piece: panel\ncut: 1 in main\npoints:\n  a: here\n{corner}\noutline:\n  start: a\n  top: line to b\n"
            "  right: line to c\n  bottom: line to d\n  left: line to a\nallowances: none",
        )
        numbers = "wide: 20 cm", "slant: {M: 2 cm, L: -12 cm}"
        built = build_post(
            Source("posts/case.md", post(*numbers, blocks=panel, head="sizes: [M, L]\nsample size: M")), SHELF
        )
        (check,) = tree(built.html).findall(".//section[@class='box checks']//li")
        assert said(check).startswith("E On the cutting line, straight from the corner where left meets top to the one")
        # a–c: √(20² + 30²) = 36.06 cm in both; b–d: √(18² + 30²) = 34.99 cm in M, √(32² + 30²) = 43.86 cm in L
        assert said(check).endswith(": 36 cm (14¼ in).")


def said(element: etree._Element) -> str:
    return " ".join(text(element).split())
