"""A build makes again only what owes to something that changed, and writes what a first build would write."""

from __future__ import annotations

import errno
import json
import os
import shutil
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from chalkfold.diagnostics import Code
from chalkfold.shipped import shipped
from chalkfold.site.again import stamps
from chalkfold.site.again.records import FILE, Index
from chalkfold.site.build import BuildReport, build_site
from chalkfold.site.check import check_site
from chalkfold.site.store import FOLDER, Store
from edits_help import EDITS, walk
from ledger_help import SITE, changes, release, released
from paper_help import BAG
from site_help import APRON_WITH_NUMBERS, build, page, post, told, tree, write

BOOK = "title: Ease\nnumbers:\n  ease: {is: 4 cm, note: to move in, source: common practice}\n"
USES_BOOK = "```project\nsizes: none\nbooks: [{}]\n```\n\nLeave {{= {} }}."
CLOTHS = "canvas:\n  usable width: 140 cm\ndrill:\n  usable width: 150 cm\n"
FILES = {
    "posts/apron.md": APRON_WITH_NUMBERS,
    "posts/top.md": post("Top", USES_BOOK.format("house ease", "ease"), tags="[jersey]"),
    "posts/bag.md": post("Bag", "```project\nsizes: none\ncut from:\n  main: {fabric: canvas}\n```\n\nText."),
    "pages/about.md": page("About us", "[The top](../posts/top.md)"),
    "books/house ease.yml": BOOK,
    "fabrics.yml": CLOTHS,
}


@pytest.fixture
def site(tmp_path: Path) -> Path:
    write(tmp_path, FILES)
    assert sorted(made(tmp_path)) == ["pages/about.md", "posts/apron.md", "posts/bag.md", "posts/top.md"]
    return tmp_path


def made(site: Path) -> list[str]:
    """What a build makes again, once it equals a build from nothing."""
    report = build(site)
    assert told(report.faults) == []
    clean = site.parent / "clean"
    build_site(site, clean, today=date(2026, 6, 1), cached=False)
    assert tree(site / "public") == tree(clean)
    return list(report.made)


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")


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
    assert tree(site / FOLDER) == before
    assert made(site) == []


def resealed(text: bytes) -> bytes:
    from chalkfold.site.again.records import _seal

    return _seal(text).encode() + b"\n" + text


def index_of(site: Path) -> tuple[Path, dict[str, dict[str, dict[str, object]]]]:
    path = site / FOLDER / FILE
    return path, json.loads(path.read_bytes().partition(b"\n")[2])


@pytest.mark.parametrize("damage", [b"", b"{}", b"1 0\n{}", resealed(b"[]"), resealed(b'{"records": {"a": 1}}')])
def test_records_that_are_none_are_dropped(site: Path, damage: bytes) -> None:
    (site / FOLDER / FILE).write_bytes(damage)
    assert len(made(site)) == 4
    assert made(site) == []


def test_a_record_of_another_post_is_not_used(site: Path) -> None:
    path, data = index_of(site)
    data["records"]["posts/apron.md"] = data["records"]["posts/top.md"]
    path.write_bytes(resealed(json.dumps(data).encode()))
    assert made(site) == ["posts/apron.md"]


@pytest.mark.parametrize("damage", [b"", b"<p>cut", b"<p>foreign</p>"])
def test_a_body_that_is_not_what_it_says_is_made_again(site: Path, damage: bytes) -> None:
    shutil.rmtree(site / "public")
    body = Index.load(Store(site)).records["posts/top.md"].body
    (site / FOLDER / body).write_bytes(damage)
    assert made(site) == ["posts/top.md"]


def test_no_record_leads_out_of_the_site(site: Path) -> None:
    shutil.rmtree(site / "public")
    path, data = index_of(site)
    data["records"]["posts/apron.md"]["body"] = "../chalkfold.yml"
    data["records"]["posts/top.md"]["beside"]["files"] = [
        ["../../escaped.html", data["records"]["posts/bag.md"]["body"]]
    ]
    path.write_bytes(resealed(json.dumps(data).encode()))
    assert made(site) == ["posts/apron.md", "posts/top.md"]
    assert not (site.parent / "escaped.html").exists()


def test_a_page_that_somebody_changed_in_the_output_is_written_again(site: Path) -> None:
    page = site / "public/posts/apron.html"
    stat = page.stat()
    page.write_bytes(page.read_bytes().replace(b"20 cm", b"30 cm"))
    os.utime(page, ns=(stat.st_atime_ns, stat.st_mtime_ns))
    assert made(site) == []


def test_no_cache_keeps_nothing_and_uses_nothing(tmp_path: Path) -> None:
    write(tmp_path, FILES)

    def anew() -> BuildReport:
        return build_site(tmp_path, tmp_path / "public", today=date(2026, 6, 1), cached=False)

    assert [len(anew().made), len(anew().made)] == [4, 4]
    assert not (tmp_path / FOLDER).exists()


def test_where_nothing_can_be_kept_all_is_made_each_time(tmp_path: Path) -> None:
    write(tmp_path, FILES)
    (tmp_path / FOLDER).write_text("a file in the way")
    assert [len(made(tmp_path)), len(made(tmp_path))] == [4, 4]


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EROFS, errno.EACCES])
def test_a_disk_that_keeps_nothing_more_stops_no_build(
    site: Path, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    """Full, or for reading only: what lies there already is still used."""
    write_bytes = Path.write_bytes

    def refuse(path: Path, data: bytes) -> int:
        if FOLDER not in path.parts:
            return write_bytes(path, data)
        write_bytes(path, data[: len(data) // 2])
        raise OSError(number, os.strerror(number))

    with monkeypatch.context() as patch:
        patch.setattr(Path, "write_bytes", refuse)
        change(site / "posts/apron.md", "80 cm", "84 cm")
        assert [made(site), made(site)] == [["posts/apron.md"], ["posts/apron.md"]]
    assert made(site) == ["posts/apron.md"]
    assert [path.name for path in (site / FOLDER).glob(".new-*")] == []


def test_two_builds_at_once_into_two_folders_share_what_is_kept(site: Path) -> None:
    change(site / "chalkfold.yml", "title:", "units: in first\ntitle:")
    command = [sys.executable, "-m", "chalkfold", "build", str(site), "--date", "2026-06-01", "--out"]
    outs = [site.parent / f"out-{number}" for number in range(3)]
    running = [subprocess.Popen([*command, str(out)], stdout=subprocess.DEVNULL) for out in outs]
    assert [each.wait() for each in running] == [0, 0, 0]
    assert made(site) == []
    assert all(tree(out) == tree(site / "public") for out in outs)


def test_several_processes_keep_the_same_records(tmp_path: Path) -> None:
    write(tmp_path, FILES)
    assert len(build(tmp_path, workers=2).made) == 4
    assert made(tmp_path) == []


@pytest.mark.timeout(120)
@pytest.mark.parametrize("part", range(4))
def test_after_random_edits_of_the_demo_all_is_as_built_anew(tmp_path: Path, part: int) -> None:
    """Every kind of edit once, on a part of the demo each."""
    site = shutil.copytree(shipped("content_example"), tmp_path / "site")
    for path in (site / "pages").glob("guide-*.md"):
        path.unlink()
    for number, path in enumerate(sorted((site / "posts").glob("*.md"))):
        if number % 4 != part:
            path.unlink()
    (site / "pages/index.md").write_text(page("Room", "```shelf cloths\n```"), "utf-8")
    (site / "pages/workshop.md").write_text(page("Workshop"), "utf-8")
    sound, _ = walk(site, EDITS[part::4], part)
    assert sound >= 3
