"""The data files of a site: only its own are read, and each name is there once."""

from __future__ import annotations

from pathlib import Path

import pytest

from site_help import build, built, post, told, write

BOOK = "numbers:\n  hem: 2 cm\n"
CLOTH = "calico: {usable width: 140 cm}\n"
DONOR = "measures:\n  width: 40 cm\n"
CHART = "sizes: [small]\nunit: cm\nmeasures:\n  hip girth: {how: Level round the seat., values: [90]}\n"
USES = {
    "books/hems.yml": (BOOK, "books: [hems]\nsizes: none"),
    "fabrics.yml": (CLOTH, "sizes: none\ncut from:\n  main: {fabric: calico}"),
    "donors/shirt.yml": (DONOR, "sizes: none\ncut from:\n  main: {donor: shirt}"),
    "sizes/body.yml": (CHART, "sizes: body"),
}
LEADS_OUT = "a link that leads out of the site [file.outside-the-site]"


def project(lines: str) -> str:
    return post("Apron", f"```project\n{lines}\n```")


@pytest.mark.parametrize("name", USES)
def test_a_data_file_in_the_site_is_read(tmp_path: Path, name: str) -> None:
    text, lines = USES[name]
    built(tmp_path, {name: text, "posts/a.md": project(lines)})


@pytest.mark.parametrize("name", USES)
def test_a_data_file_behind_a_link_out_of_the_site_is_refused(tmp_path: Path, name: str) -> None:
    text, lines = USES[name]
    (tmp_path / "secret.yml").write_text(f"secret: 1\n{text}")
    site = write(tmp_path / "site", {"posts/a.md": project(lines)})
    (site / name).parent.mkdir(exist_ok=True)
    (site / name).symlink_to(tmp_path / "secret.yml")
    assert told(build(site).faults) == [f"{name}:1:1: this is {LEADS_OUT}"]


def test_a_folder_of_data_files_outside_the_site_is_refused(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere/hems.yml").write_text(BOOK)
    site = write(tmp_path / "site", {"posts/a.md": project("books: [hems]\nsizes: none")})
    (site / "books").symlink_to(tmp_path / "elsewhere")
    assert told(build(site).faults) == [f"books/hems.yml:1:1: this lies behind {LEADS_OUT}"]


def test_a_site_file_outside_the_site_is_refused(tmp_path: Path) -> None:
    site = write(tmp_path / "site", {"posts/a.md": post("A")})
    (site / "chalkfold.yml").rename(tmp_path / "secret.yml")
    (site / "chalkfold.yml").symlink_to(tmp_path / "secret.yml")
    assert told(build(site).faults) == [f"chalkfold.yml:1:1: this is {LEADS_OUT}"]


def test_a_link_within_the_site_is_fine(tmp_path: Path) -> None:
    site = write(tmp_path, {"drafts/hems.yml": BOOK, "posts/a.md": project("books: [hems]\nsizes: none")})
    (site / "books").symlink_to(site / "drafts")
    assert told(build(site).faults) == []


def test_a_list_that_is_a_link_to_itself_is_told_as_such(tmp_path: Path) -> None:
    site = write(tmp_path, {"posts/a.md": project(USES["fabrics.yml"][1])})
    (site / "fabrics.yml").symlink_to("fabrics.yml")
    assert told(build(site).faults) == ["fabrics.yml:1:1: this is a link that leads back to itself [file.missing]"]


def test_two_books_of_one_name_are_both_pointed_at(tmp_path: Path) -> None:
    books = {"books/my book.yml": BOOK, "books/My Book.yml": BOOK}
    (fault,) = build(write(tmp_path, {**books, "posts/a.md": project("books: [my book]\nsizes: none")})).faults
    assert f"{fault.span.place} {fault.code}" == "books/my book.yml:1:1 file.same-address"
    assert fault.message == "two files are called `my book`, capital letters and spaces aside"
    assert [place.place for _, place in fault.related] == ["books/My Book.yml:1:1"]


@pytest.mark.parametrize("name", USES)
def test_a_data_file_that_ends_in_yaml_is_told_its_name(tmp_path: Path, name: str) -> None:
    text, lines = USES[name]
    site = write(tmp_path, {name.replace(".yml", ".yaml"): text, "posts/a.md": project(lines)})
    (fault,) = build(site).faults
    assert (fault.message, fault.hint) == ("this file's name ends in .yaml", f"call it {Path(name).name}")
