"""A build makes again only what owes to something that changed, and writes what a first build would write."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

import pytest

from again_help import CLOTHS, FILES, change, made
from chalkfold.diagnostics import Code
from chalkfold.shipped import shipped
from chalkfold.site.again import stamps
from chalkfold.site.check import check_site
from chalkfold.site.checking import clean
from chalkfold.site.store import FOLDER
from edits_help import EDITS, MADE, walk
from ledger_help import SITE, changes, release, released
from paper_help import BAG
from site_help import APRON_WITH_NUMBERS, build, page, post, told, tree, write


@pytest.fixture
def site(tmp_path: Path) -> Path:
    write(tmp_path, FILES)
    assert sorted(made(tmp_path)) == ["pages/about.md", "posts/apron.md", "posts/bag.md", "posts/top.md"]
    return tmp_path


def test_nothing_changed_makes_nothing_again(site: Path) -> None:
    before = {path: path.stat().st_ino for path in (site / "public").rglob("*.html")}
    assert made(site) == []
    assert {path: path.stat().st_ino for path in (site / "public").rglob("*.html")} == before, "not written either"


def test_a_post_that_changed_is_made_again_alone(site: Path) -> None:
    change(site / "posts/apron.md", "80 cm", "84 cm")
    assert made(site) == ["posts/apron.md"]
    assert "21\N{NO-BREAK SPACE}cm" in (site / "public/posts/apron.html").read_text("utf-8")


def test_a_mended_book_makes_again_who_uses_it(site: Path) -> None:
    change(site / "books/house ease.yml", "4 cm", "5 cm")
    assert made(site) == ["posts/top.md"]


def test_a_cloth_makes_again_who_uses_it_and_not_who_uses_its_neighbour(site: Path) -> None:
    change(site / "fabrics.yml", "150 cm", "155 cm")
    assert made(site) == []
    change(site / "fabrics.yml", "140 cm", "145 cm")
    assert made(site) == ["posts/bag.md"]


def test_a_new_file_that_takes_the_place_of_a_shipped_one_counts(tmp_path: Path) -> None:
    loops = "```project\nsizes: none\nbooks: [belt loops]\nnumbers:\n  belt width: 4 cm\n```\n\n{= loop length }"
    write(tmp_path, {"posts/a.md": post("A", loops), "posts/b.md": APRON_WITH_NUMBERS})
    assert made(tmp_path) == ["posts/a.md", "posts/b.md"]
    own = "expects:\n  belt width: {kind: length}\nnumbers:\n  loop length: {is: 9 cm, source: common practice}\n"
    write(tmp_path, {"books/belt loops.yml": own})
    assert made(tmp_path) == ["posts/a.md"]
    assert "9\N{NO-BREAK SPACE}cm" in (tmp_path / "public/posts/a.html").read_text("utf-8")


def test_a_page_that_lists_the_shelf_is_made_again_when_the_shelf_has_more(tmp_path: Path) -> None:
    write(tmp_path, {"pages/shelf.md": page("Shelf", "```shelf cloths\n```"), "posts/a.md": APRON_WITH_NUMBERS})
    made(tmp_path)
    write(tmp_path, {"fabrics.yml": CLOTHS})
    assert made(tmp_path) == ["pages/shelf.md"]


def test_a_page_that_another_link_leads_to_elsewhere_is_made_again(site: Path) -> None:
    change(site / "posts/top.md", "tags:", "address: jersey-top\ntags:")
    assert made(site) == ["pages/about.md", "posts/top.md"]


def test_a_link_to_what_is_gone_is_told_though_the_page_is_unchanged(site: Path) -> None:
    (site / "posts/top.md").unlink()
    assert [fault.code for fault in build(site).faults] == [Code.SITE_LINK]


def test_the_menu_and_the_title_of_the_site_need_no_page_made_again(site: Path) -> None:
    change(site / "chalkfold.yml", "Tidewater Mending Room", "Mending Room")
    assert made(site) == []
    write(site, {"chalkfold.yml": "title: Mending Room\n", "pages/visit.md": page("Visit us")})
    assert made(site) == ["pages/visit.md"]
    assert "Visit us" in (site / "public/posts/apron.html").read_text("utf-8")


def test_another_main_unit_makes_all_again(site: Path) -> None:
    (site / "chalkfold.yml").write_text("title: Tidewater Mending Room\nunits: in first\n", "utf-8")
    assert len(made(site)) == 4


def test_an_edit_that_is_taken_back_after_a_fault_makes_nothing_again(site: Path) -> None:
    sound = (site / "posts/apron.md").read_text("utf-8")
    (site / "posts/apron.md").write_text(sound.replace("80 cm", "eighty"), "utf-8")
    assert len(build(site).faults)
    (site / "posts/apron.md").write_text(sound, "utf-8")
    assert made(site) == []


def test_the_faults_of_an_unchanged_post_are_told_again(site: Path) -> None:
    write(site, {"posts/broken.md": post("Broken", "{= no such number }"), "chalkfold.yml": "title: A\n"})
    first = told(build(site).faults)
    assert len(first) == 1
    assert told(build(site).faults) == first


def test_a_faulty_book_is_told_and_mended_again(site: Path) -> None:
    change(site / "books/house ease.yml", "4 cm", "four")
    assert len(build(site).faults) == len(build(site).faults) >= 1
    change(site / "books/house ease.yml", "four", "4 cm")
    assert made(site) == []


def test_a_post_held_back_keeps_its_record(site: Path) -> None:
    change(site / "posts/apron.md", "title:", "published: no\ntitle:")
    assert made(site) == []
    assert not (site / "public/posts/apron.html").exists()
    assert [build(site, unpublished=True).made, build(site, unpublished=True).made] == [("posts/apron.md",), ()]


def test_another_version_of_the_program_makes_all_again(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(stamps, "program", lambda: "another")
    assert len(build(site).made) == 4


def test_pictures_and_patterns_come_along(tmp_path: Path) -> None:
    files = {
        "chalkfold.yml": "title: Room\naddress: https://room.example\n",
        "posts/bag.md": BAG.replace("date:", "patterns: yes\ncover: bag.svg\ndate:"),
        "posts/apron.md": APRON_WITH_NUMBERS,
        "photos/bag.svg": '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 8 5"><path d="M0 0h8"/></svg>',
    }
    write(tmp_path, files)
    assert len(made(tmp_path)) == 2
    assert {"pictures/bag-cover.png", "patterns/bag-small-A4.pdf"} <= tree(tmp_path / "public").keys()
    assert made(tmp_path) == []
    change(tmp_path / "photos/bag.svg", "h8", "h7")
    assert made(tmp_path) == ["posts/bag.md"], "the picture for previews is made from it"
    shutil.rmtree(tmp_path / "public")
    assert made(tmp_path) == [], "they lie in the store"
    change(tmp_path / "chalkfold.yml", "Room", "The Room")
    assert len(made(tmp_path)) == 2, "it stands in the pictures for previews"


def test_a_release_and_its_corrections_reach_pages_that_were_made_before(tmp_path: Path) -> None:
    site = released(tmp_path / "site", {**SITE, "posts/bag.md": BAG.replace("date:", "patterns: yes\ndate:")})
    assert made(site) == []
    change(site / "books/round things.yml", "rim radius + seam", "rim radius + 2 * seam")
    assert release(site, "The seam was counted once.")[0] == 0
    after = tree(site / "public")
    assert b"The seam was counted once." in after["posts/cushion.html"]
    assert b"The seam was counted once." in after["feed.xml"]
    assert made(site) == [], "the release has left its records"
    assert tree(site / "public") == after
    (site / "ledger/corrections/bag").mkdir()
    correction = (site / "ledger/corrections/cushion/2026-06-01.yml").read_text("utf-8")
    (site / "ledger/corrections/bag/2026-06-01.yml").write_text(correction, "utf-8")
    assert made(site) == []
    assert "The seam was counted once." in (site / "public/posts/bag.html").read_text("utf-8")
    change(site / "ledger/releases.yml", "2026-06-01", "2026-09-01")
    assert made(site) == [], "and moves among the earlier ones"
    shutil.rmtree(site / "ledger")
    assert made(site) == []
    assert "The seam was counted once." not in (site / "public/posts/cushion.html").read_text("utf-8")


def test_what_a_printed_pattern_says_of_its_corrections_goes_by_the_address(tmp_path: Path) -> None:
    text = BAG.replace("date:", "patterns: yes\ndate:")
    write(tmp_path, {"chalkfold.yml": "title: Room\n", "posts/bag.md": text, "posts/apron.md": APRON_WITH_NUMBERS})
    made(tmp_path)
    write(tmp_path, {"chalkfold.yml": "title: Room\naddress: https://room.example\n"})
    assert made(tmp_path) == ["posts/apron.md", "posts/bag.md"]
    change(tmp_path / "posts/bag.md", "date:", "address: my-bag\ndate:")
    assert made(tmp_path) == ["posts/bag.md"]


def test_checking_and_asking_for_changes_leave_the_records_alone(site: Path) -> None:
    before = tree(site / FOLDER)
    check_site(site, today=date(2026, 6, 1))
    assert changes(site)[0] == 1
    assert {path: data for path, data in tree(site / FOLDER).items() if path != clean.FILE} == before
    assert made(site) == []


@pytest.mark.timeout(120)
@pytest.mark.parametrize("part", range(4))
def test_after_random_edits_of_the_demo_all_is_as_built_anew(tmp_path: Path, part: int) -> None:
    """Every kind of edit once, on a part of the demo each."""
    site = shutil.copytree(shipped("content_example"), tmp_path / "site", ignore=MADE)
    for path in (site / "pages").glob("guide-*.md"):
        path.unlink()
    for number, path in enumerate(sorted((site / "posts").glob("*.md"))):
        if number % 4 != part:
            path.unlink()
    (site / "pages/index.md").write_text(page("Room", "```shelf cloths\n```"), "utf-8")
    (site / "pages/workshop.md").write_text(page("Workshop"), "utf-8")
    sound, _ = walk(site, EDITS[part::4], part)
    assert sound >= 3
