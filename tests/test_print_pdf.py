"""Printed patterns measured as a reader would: on the page, with a ruler, and taped together."""

from __future__ import annotations

import re
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from pypdf import PdfReader
from scipy.ndimage import binary_dilation

from chalkfold.paper.job import Order
from chalkfold.paper.papers import MARGIN, OVERLAP, PAPERS
from chalkfold.paper.pattern import whole_sheet
from chalkfold.paper.pdf import joined
from chalkfold.paper.pieces import digest_of
from chalkfold.raster import Renderer
from paper_help import BAG, RING, Pixels, bill, groups, pdf, pieces, scanned

pytestmark = pytest.mark.timeout(60)  # large scans

POINTS = 72 / 25.4
"""Points of a PDF a millimetre has."""

SMALL_RING = RING.replace("100 cm", "35 cm").replace("50 cm", "15 cm")
PATCH = """```draft
piece: patch
cut: 1 in main
rectangle: {across: 12 cm, down: 15 cm}
allowances: {all: 1 cm}
```
"""
STRIP = """
```draft
piece: a strip with a long name, number NUMBER
cut: [2 on fold in main, 2 on fold in interfacing]
rectangle: {across: 4 cm, down: 6 cm}
on fold: left
allowances: {top: 1 cm, right: 1 cm, bottom: 1 cm}
```
""".replace(", number", " number")
DARK = 100
"""Shades below this are ink of the pattern; names and dashes of the pages are lighter."""


@pytest.fixture(scope="module")
def bag() -> bytes:
    return pdf()


def texts(data: bytes) -> list[str]:
    return [page.extract_text() for page in PdfReader(BytesIO(data)).pages]


class TestPages:
    @pytest.mark.parametrize(
        ("paper", "size"),
        [
            ("a4", (210, 297)),  # ISO 216
            ("a3", (297, 420)),
            ("a0", (841, 1189)),
            ("letter", (8.5 * 25.4, 11 * 25.4)),  # ANSI/ASME Y14.1
            ("36 in x 48 in", (914.4, 1219.2)),
        ],
    )
    def test_a_page_is_as_large_as_the_paper(self, paper: str, size: tuple[float, float]) -> None:
        for page in PdfReader(BytesIO(pdf(paper))).pages:
            left, top, right, bottom = (float(each) for each in page.mediabox)
            assert (left, top) == (0, 0)
            assert (right / POINTS, bottom / POINTS) == pytest.approx(size, abs=0.05)

    def test_the_same_post_gives_the_same_bytes(self, bag: bytes) -> None:
        assert pdf() == bag
        assert not re.search(rb"CreationDate|ModDate|/ID\b", bag)

    def test_viewers_are_asked_to_print_at_full_size(self, bag: bytes) -> None:
        preferences = PdfReader(BytesIO(bag)).root_object["/ViewerPreferences"]
        assert preferences["/PrintScaling"] == "/None"  # type: ignore[index]

    def test_title_pages_and_pieces_can_be_found_as_text(self, bag: bytes) -> None:
        first, *rest = texts(bag)
        assert "A bag from a tablecloth" in first.replace("\n", " ")
        assert "Size small" in first
        assert "bag side: cut 2 in main" in first
        assert "half moon: cut 1 on the fold in main" in first
        assert all(name in first for name in ("A1", "A2", "A3"))
        assert [re.findall(r"^[A-Z][0-9]+$", page, re.M)[0] for page in rest] == ["A1", "A2", "A3"]
        whole = " ".join(rest)
        assert all(said in whole for said in ("BAG SIDE", "HALF MOON", "place on the fold", "grain", "stitched line"))

    def test_pieces_that_are_only_in_the_cut_list_are_told_with_their_measures(self, bag: bytes) -> None:
        first = texts(bag)[0].replace("\n", " ")
        assert "mark with a ruler, allowances in: strap 62 × 8 cm" in first

    def test_each_page_names_its_neighbours(self) -> None:
        said = dict(zip(("A1", "A2", "B1", "B2"), texts(pdf(text=SMALL_RING))[1:], strict=True))
        assert {name: re.findall(r"(?:lay on )(\w\d)|(\w\d)(?: comes)", page) for name, page in said.items()} == {
            "A1": [("", "A2"), ("", "B1")],
            "A2": [("A1", ""), ("", "B2")],
            "B1": [("A1", ""), ("", "B2")],
            "B2": [("B1", ""), ("A2", "")],
        }

    def test_on_large_paper_the_title_lies_on_the_sheet(self) -> None:
        (only,) = texts(pdf("a0"))
        assert "Pattern at full size" in only and "HALF MOON" in only and "comes to" not in only


class TestSizes:
    def test_without_a_word_it_is_the_sample_size(self) -> None:
        assert [job.size for job in bill().jobs(Order(PAPERS["a4"]))] == ["small"]

    def test_all_sizes_are_a_file_each(self) -> None:
        assert [job.size for job in bill().jobs(Order(PAPERS["a4"], size="all"))] == ["small", "large"]

    def test_nested_sizes_have_a_key_and_their_labels_on_the_lines(self) -> None:
        first, *rest = texts(pdf(nested=True))
        assert "Sizes small, large" in first and "Which line is whose size" in first
        assert "the solid line is the cutting line" not in first.replace("\n", " ")  # it is not, in a nest
        assert " ".join(rest).count("large") >= 2
        assert "12 cm" not in " ".join(rest)  # a length of one size would mislead

    def test_a_plan_without_room_on_the_first_page_gets_one_of_its_own(self) -> None:
        labels = [f"size {number}" for number in range(1, 41)]
        many = re.sub(r"depth: \{.*\}", "depth: {size 1: 30 cm, step: 1 mm}", BAG)
        many = many.replace("[small, large]", f"[{', '.join(labels)}]").replace(
            "sample size: small", "sample size: size 1"
        )
        many += "".join(STRIP.replace("NUMBER", number) for number in ("one", "two", "three", "four", "five", "six"))
        first, second, *_ = texts(pdf(text=many, nested=True))
        assert "The sheets, put together" not in first and "size 40" in first
        assert second.startswith("The sheets, put together")
        assert "The sheets, put together" in texts(pdf(nested=True))[0]

    def test_seam_lines_say_that_allowances_are_missing(self) -> None:
        first, *rest = texts(pdf(allowances=False))
        assert "NOT in" in first
        assert "seam lines, no allowances" in " ".join(rest)

    def test_the_sign_of_the_numbers_changes_with_any_of_them_and_with_nothing_else(self) -> None:
        sign = digest_of(pieces())
        assert re.fullmatch("[0-9a-f]{4} [0-9a-f]{4}", sign)
        assert digest_of(pieces(BAG.replace("notch on right at 12 cm", "notch on right at 12.5 cm"))) != sign
        assert digest_of(pieces(BAG.replace("all: 1 cm, top: 3 cm", "all: 1 cm, top: 3.1 cm"))) != sign
        assert digest_of(pieces(BAG.replace("title: A bag", "title: The bag"))) == sign
        assert digest_of(pieces(size="large")) != sign


class TestMeasured:
    """On a scan at ten dots to the millimetre, to 0.2 mm."""

    @pytest.mark.parametrize("paper", ["a4", "letter"])
    def test_the_square_and_the_bar(self, paper: str, tmp_path: Path) -> None:
        page = scanned(pdf(paper), tmp_path, 1, 300)
        dots = 300 / 25.4
        width = PAPERS[paper].width
        strip = page[int(36 * dots), int((width - MARGIN - 52) * dots) :] < DARK
        left, right = groups(strip)
        assert (right - left) / dots == pytest.approx(50, abs=0.2)
        column = int((width - MARGIN - 25) * dots)
        top, bottom = groups(page[: int(64 * dots), column] < DARK)[:2]
        assert (bottom - top) / dots == pytest.approx(50, abs=0.2)
        start, metric, inch = groups(page[:, int(10.6 * dots)] < DARK)
        assert (metric - start) / dots == pytest.approx(200, abs=0.2)
        assert (inch - start) / dots == pytest.approx(203.2, abs=0.2)

    @pytest.mark.parametrize("allowances", [True, False])
    def test_a_piece_is_as_large_as_the_post_says(self, allowances: bool, tmp_path: Path) -> None:
        """12 by 15 cm, and a centimetre more at every side where allowances are in."""
        page = scanned(pdf(text=PATCH, allowances=allowances), tmp_path, 2) < 60
        more = 20 if allowances else 0
        (left, *_, right), (top, *_, bottom) = groups(page.sum(axis=0) > 700), groups(page.sum(axis=1) > 700)
        assert (right - left) / 10 == pytest.approx(120 + more, abs=0.2)
        assert (bottom - top) / 10 == pytest.approx(150 + more, abs=0.2)

    def test_taped_together_the_pages_are_the_sheet(self, tmp_path: Path) -> None:
        """Every dot of ink of the one is within 0.3 mm of one of the other."""
        (ring,) = pieces(SMALL_RING)
        whole = scanned(joined([whole_sheet([ring], PAPERS["a4"])], "", "en", Renderer.open()), tmp_path, 1) < DARK
        taped = _taped(pdf(text=SMALL_RING), tmp_path, (2, 2), whole.shape)
        near = np.ones((7, 7), dtype=bool)
        assert whole.sum() > 20_000
        assert not (whole & ~binary_dilation(taped, near)).any()
        joins = _joins(whole.shape, (2, 2))
        assert not (taped & ~binary_dilation(whole, near) & ~joins).any()


def _taped(data: bytes, folder: Path, count: tuple[int, int], shape: tuple[int, int]) -> Pixels:
    """The windows of the pages laid on each other in their order, as the first page says."""
    columns, rows = count
    sheet = np.zeros((6000, 6000), dtype=bool)
    margin, (across, down) = int(MARGIN * 10), (int(each / 4 * 10) for each in PAPERS["a4"].step)
    for number in range(columns * rows):
        page = scanned(data, folder, number + 2) < DARK
        window = page[margin:-margin, margin:-margin]
        x, y = number % columns * across, number // columns * down
        sheet[y : y + window.shape[0], x : x + window.shape[1]] = window
    moved = np.zeros(shape, dtype=bool)
    moved[:] = sheet[: shape[0], : shape[1]]
    return moved


def _joins(shape: tuple[int, int], count: tuple[int, int]) -> Pixels:
    """Where frames and marks of the pages are, besides the pattern: a strip at each join."""
    found = np.zeros(shape, dtype=bool)
    across, down = (int(each / 4 * 10) for each in PAPERS["a4"].step)
    reach = int(OVERLAP * 10)
    for column in range(1, count[0]):
        found[:, column * across - reach : column * across + reach] = True
    for row in range(1, count[1]):
        found[row * down - reach : row * down + reach, :] = True
    return found
