"""Tutorials written from the guide alone, with shipped books only: built, checked, and held to sums done by hand."""

from __future__ import annotations

import re
import shutil
from functools import cache
from pathlib import Path

import html5lib
import pytest
from click.testing import CliRunner

from chalkfold.cli import main
from chalkfold.diagnostics import Faults
from chalkfold.formula import key_of
from chalkfold.site.check import check_site
from chalkfold.trade import Shelf
from chalkfold.work import Worked
from post_help import amounts, worked
from site_help import TODAY, broken_links, build, told

WRITTEN = Path(__file__).parent / "newcomer"

# Post, size, number, value, and the sum behind it. A value with ≈ is held to the digits written.
BY_HAND = """
pyjama-trousers | M | top edge | = 116 cm | hips 102 + 14
pyjama-trousers | M | waist of front | = 29 cm | 116 / 4
pyjama-trousers | M | waist of back | ≈ 26.1725 cm | 29 − 3 across and 3 up: √(26² + 3²)
pyjama-trousers | M | elastic to cut | = 74.26 cm | 92 % of the waist of 78 is 71.76, more than 102 / 2; and 2.5 to lap
pyjama-trousers | M | cut height of front | = 121 cm | 31 + 74, 4 for the casing, 3 × 4 for the turn-up
pyjama-trousers | M | turnings of turn-ups | = 12 cm | 4 three times
pyjama-trousers | M | belt strap length to cut | = 150 cm | 78 + 70 + 2 × 1
pyjama-trousers | M | count of pins | = 7 | 2 × 29 + 2 × 26.1725 = 110.345, about every 15
pyjama-trousers | M | space of pins | ≈ 15.7636 cm | 110.345 / 7
pinafore | 110 | waist edge | = 65.5 cm | chest 57.5 + 8
pinafore | 110 | cut width of skirt | = 60.95 cm | 65.5 × 1.8 / 2 + 2
pinafore | 110 | cut width of ruffle | = 49.16 cm | 117.9 × 1.6 / 4 + 2
pinafore | 110 | ratio of ruffle seam | = 1.6 | 4 × 47.16 / (2 × 58.95)
pinafore | 110 | shoulder strap width to cut | = 12 cm | 4 × 3
pinafore | 110 | back strap width to cut | = 8 cm | 4 × 2
pinafore | 110 | cut height of strap | = 17 cm | 14 + 2 × 1.5, the end that both straps share
pinafore | 110 | cut height of back strap | = 12 cm | 9 + 2 × 1.5
pinafore | 122 | neck edge | = 66 cm | 2 × 21 + 2 × (15 − 2 × 1.5)
pinafore | 110 | slit facing length to cut | = 14 cm | 9 + 3 + 2 × 1
pinafore | 110 | space of pockets | = 36.95 cm | 58.95 less 6 + 5 at both ends
pinafore | 110 | length unwashed | ≈ 101.053 cm | 3 × 32 / 0.95
sweatshirt | M | total chest of front | = 55 cm | (94 + 16) / 4 on the half
sweatshirt | M | hem knit band ring | = 93.5 cm | 2 × 55 × 85 %
sweatshirt | M | cut width of hem band | = 48.15 cm | 93.5 / 2 + 2 × 0.7
sweatshirt | M | hem knit band opens to | = 168.3 cm | 93.5 × 1.8
sweatshirt | M | sleeve knit band length to cut | = 20.6 cm | 24 × 80 % + 2 × 0.7
sweatshirt | L | sleeve knit band ring | = 19.6 cm | 24.5 × 80 %
sweatshirt | M | neck knit band across to cut | = 6.4 cm | 2 × 2.5 + 2 × 0.7
sweatshirt | M | side of front | = 28 cm | 52 − 24
box-cushion | stool | edge of panel | ≈ 141.133 cm | 4 × (37 − 8) + 2π × 4
box-cushion | stool | cut width of boxing | ≈ 58.066 cm | (141.133 − 31) / 2 + 2 × 1.5
box-cushion | stool | zip length | = 30 cm | 37 − 6 − 1
box-cushion | stool | piping bias length | ≈ 294.265 cm | 2 × 141.133 + 4 × 3
box-cushion | stool | piping bias spacing | ≈ 6.020 cm | (π × 0.4 + 2 × 1.5) × √2
box-cushion | bench | count of clips | = 32 | 2 × (89 + 39) − 8 × 4 + 2π × 4 = 249.13, at most 8 apart: 31.1 up
"""
PINNED = [[cell.strip() for cell in line.split("|")] for line in BY_HAND.strip().splitlines()]


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return shutil.copytree(WRITTEN, tmp_path / "site")


def test_they_use_no_books_of_their_own() -> None:
    assert not (WRITTEN / "books").exists()
    assert sorted(path.stem for path in WRITTEN.glob("posts/*.md")) == sorted({line[0] for line in PINNED})


def test_they_build_and_nothing_misleads(site: Path) -> None:
    report = build(site)
    assert told(report.faults) == []
    assert list(check_site(site, today=TODAY).found) == []
    assert broken_links(site / "public") == []
    for file in site.glob("public/posts/*.html"):
        text = file.read_text("utf-8")
        html5lib.HTMLParser(strict=True).parse(text)
        assert not re.search(r"\{=|NaN|undefined", text), file.name


@cache
def worked_post(name: str) -> Worked:
    """With every number that is pinned."""
    text = (WRITTEN / f"posts/{name}.md").read_text("utf-8").split("---\n", 2)[2]
    found = worked(text, Shelf.open(WRITTEN, Faults()), [line[2] for line in PINNED if line[0] == name])
    assert [fault.message for fault in found.faults] == []
    return found


@pytest.mark.parametrize("line", PINNED, ids=lambda line: f"{line[0]} {line[2]}")
def test_a_number_is_what_was_worked_out_by_hand(line: list[str]) -> None:
    post, size, name, value, _ = line
    values = worked_post(post).values
    ((wanted, half),) = amounts(value[2:])
    near = 1e-6 if value[0] == "=" else float(half)
    assert values.row(key_of(name))[values.sizes.labels.index(size)] == pytest.approx(float(wanted), rel=0, abs=near)


def run(site: Path, *words: str) -> str:
    return CliRunner().invoke(main, list(words), catch_exceptions=False).output.replace("\xa0", " ")


def test_each_use_of_a_book_is_explained_by_itself(site: Path) -> None:
    said = run(site, "explain", str(site / "posts/sweatshirt.md"), "sleeve knit band ring", "--size", "M")
    assert said.startswith("sleeve knit band ring = 19 cm (7½ in)\n  sleeve banded edge * sleeve knit band share\n")
    assert "from book knit bands; source: common practice, no source" in said
    assert "neck" not in said


def test_a_number_of_one_use_that_changes_is_told_without_the_others(site: Path) -> None:
    run(site, "release", str(site), "--note", "As it stands.", "--date", "2026-12-01")
    assert "Nothing differs" in run(site, "changes", str(site), "--date", "2026-12-01")
    file = site / "posts/sweatshirt.md"
    text = file.read_text("utf-8")
    assert "neck knit band share: 80 %" in text
    file.write_text(text.replace("neck knit band share: 80 %", "neck knit band share: 79 %"), encoding="utf-8")
    changed = run(site, "changes", str(site), "--date", "2026-12-02")
    assert "neck knit band length to cut" in changed
    assert "sleeve knit band" not in changed and "hem knit band" not in changed
