"""``chalkfold begin`` and ``chalkfold new``: worked posts that are sound, and nothing overwritten."""

from __future__ import annotations

import re
from collections.abc import Iterator
from importlib.metadata import version
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from hypothesis import given
from hypothesis import strategies as st

from chalkfold.cli import main
from chalkfold.diagnostics import Faults, Source
from chalkfold.post import look_at
from chalkfold.shipped import shipped
from chalkfold.site import new as site_new
from chalkfold.site.begin import USUAL, NotBegunError, WorkedPost, begin, worked_post, worked_posts
from chalkfold.site.build import build_site
from chalkfold.site.check import check_site
from chalkfold.site.pages import read_draft
from chalkfold.trade.shelf import Shelf
from site_help import TODAY, broken_links, told, write

POSTS = [pytest.param(each, id=each.name) for each in worked_posts()]
BOOKS = Path(site_new.__file__).parents[1] / "trade" / "books"


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(main, [*map(str, arguments)], env={"SOURCE_DATE_EPOCH": "1780000000"})  # 28 May 2026


@pytest.fixture(scope="module")
def site_of_all(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """A fresh site with one post begun from each worked post."""
    site = tmp_path_factory.mktemp("begun") / "site"
    assert run("new", site).exit_code == 0
    for each in worked_posts():
        assert run("begin", each.title, "--like", each.name, "--site", site).exit_code == 0
    yield site


def test_every_worked_post_has_nothing_to_mend_and_builds(site_of_all: Path) -> None:
    assert told(check_site(site_of_all, today=TODAY, unpublished=True).found) == []
    report = build_site(site_of_all, site_of_all / "public", today=TODAY, unpublished=True)
    assert told(report.faults) == []
    assert len(list((site_of_all / "public" / "posts").glob("*.html"))) == len(worked_posts()) + 1
    assert broken_links(site_of_all / "public") == []


@pytest.mark.parametrize("post", POSTS)
def test_a_worked_post_uses_each_of_its_books(post: WorkedPost, tmp_path: Path) -> None:
    """A number of every book named is among the steps that the page reaches."""
    looked = look_at(Source("posts/a.md", post.text), Shelf(folder=tmp_path))
    assert post.books
    origins = {step.origin.where for step in looked.worked.plan.steps.values()}
    assert origins >= {f"book {name}" for name in post.books}


@pytest.mark.parametrize("post", POSTS)
def test_a_worked_post_reads_like_a_tutorial(post: WorkedPost) -> None:
    numbered = re.findall(r"^\d+\. ", post.text, re.M)
    assert len(numbered) >= 4
    assert "```materials" in post.text
    assert "```checks" in post.text
    assert "finished:" in post.text
    assert re.search(r"^summary: .{30,}", post.text, re.M)


def test_every_shipped_book_is_used_by_one() -> None:
    assert {file.stem for file in BOOKS.glob("*.yml")} == {book for each in worked_posts() for book in each.books}


def test_the_guide_has_the_table_of_them() -> None:
    guide = (shipped("content_example") / "pages" / "guide-33-begin.md").read_text("utf-8")
    rows = [f"| `{each.name}` | {each.title} | {', '.join(each.books)} |\n" for each in worked_posts()]
    assert "".join(rows) in guide


def test_the_new_post_is_held_back_until_it_is_published(tmp_path: Path) -> None:
    site = write(tmp_path, {})
    result = run("begin", "An apron from a tablecloth", "--site", site)
    assert result.stdout == (
        f"Wrote {site.as_posix()}/posts/an-apron-from-a-tablecloth.md, like the worked post circle-skirt: "
        "A half-circle skirt with an elastic band.\n"
        "There are others; see `chalkfold begin --list`, and choose one with --like.\n"
        f"Look at it while you change it with: chalkfold preview {site.as_posix()}\n"
    )
    text = (site / "posts" / "an-apron-from-a-tablecloth.md").read_text("utf-8")
    assert text.startswith('---\ntitle: "An apron from a tablecloth"\ndate: 2026-05-28\npublished: no')
    assert check_site(site, today=TODAY).pages == 0
    (site / "posts" / "an-apron-from-a-tablecloth.md").write_text(
        "".join(line for line in text.splitlines(True) if not line.startswith("published:")), encoding="utf-8"
    )
    assert check_site(site, today=TODAY).pages == 1


def test_inside_a_site_no_folder_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(write(tmp_path, {}))
    result = run("begin", "Mats", "and", "more", "--like", "bias strips")
    assert "Wrote posts/mats-and-more.md, like the worked post bound-mat:" in result.stdout
    assert result.stdout.endswith("with: chalkfold preview\n")


def test_a_book_leads_to_the_plainest_post_that_uses_it() -> None:
    assert worked_post("Elastic-stitched on").name == "bowl-cover"
    assert worked_post("shrinkage").name == "tucked-curtain"
    assert worked_post(USUAL).name == USUAL


def test_the_list_names_all_of_them() -> None:
    printed = run("begin", "--list").stdout
    for each in worked_posts():
        assert f"{each.name} " in printed
        assert f"books: {', '.join(each.books)}\n" in printed
    assert printed.count("(the usual one)") == 1


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["Z", "--like", "gathrs"], "no worked post is called `gathrs`; did you mean `gathers`?"),
        (["Z", "--like", "saddle"], "no worked post is called `saddle`; `chalkfold begin --list` shows all of them"),
        (["Z", "--like", "../x"], "no worked post is called `../x`"),
        ([], "a post needs a title, as in: chalkfold begin"),
        ([""], "this title holds neither letter nor figure"),
        (["!?"], "this title holds neither letter nor figure"),
        (["A skirt of {= x }"], "no value is filled in in a title"),
    ],
)
def test_what_cannot_be_begun_is_told(arguments: list[str], said: str, tmp_path: Path) -> None:
    result = run("begin", *arguments, "--site", write(tmp_path, {}))
    assert result.exit_code == 2
    assert said in result.stderr
    assert not (tmp_path / "posts").exists()


@pytest.mark.parametrize("name", ["posts/an-apron.md", "posts/An Apron.md", "posts/2025/an_apron.md"])
def test_nothing_is_overwritten_and_no_address_taken_twice(name: str, tmp_path: Path) -> None:
    site = write(tmp_path, {name: "Mine.\n"})
    result = run("begin", "An apron!", "--site", site)
    assert result.exit_code == 1
    assert f"{name}:1:1: a post of that name is here already, and stays as it is [site.output]" in result.stderr
    assert [file.read_text("utf-8") for file in site.rglob("*.md")] == ["Mine.\n"]


@pytest.mark.parametrize(("title", "file"), [("AUX", "aux-post.md"), ("Com1", "com1-post.md"), ("Aux 2", "aux-2.md")])
def test_no_file_has_a_name_that_windows_refuses(title: str, file: str, tmp_path: Path) -> None:
    site = write(tmp_path, {})
    assert begin(title, site, TODAY).path == site / "posts" / file


def test_a_folder_that_is_no_site_is_told(tmp_path: Path) -> None:
    result = run("begin", "Z", "--site", tmp_path)
    assert result.exit_code == 1
    assert "this folder holds no chalkfold.yml, so it is not a site" in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_where_posts_is_a_file_the_disk_says_no(tmp_path: Path) -> None:
    result = run("begin", "Z", "--site", write(tmp_path, {"posts": "a file"}))
    assert result.exit_code == 1
    assert "this cannot be written" in result.stderr


@given(st.text(max_size=200))
def test_whatever_the_title_the_post_has_it(tmp_path_factory: pytest.TempPathFactory, title: str) -> None:
    site = write(tmp_path_factory.mktemp("site"), {})
    try:
        path = begin(title, site, TODAY).path
    except NotBegunError:
        return
    faults = Faults()
    page = read_draft(Source(f"posts/{path.name}", path.read_text("utf-8")), "post", faults).page
    assert told(faults) == []
    assert page is not None
    assert len(path.stem) <= 80
    assert page.address == f"posts/{path.stem}.html"
    assert not page.published
    assert "".join(page.title.split()) in "".join(title.split()) or not title.isprintable()


def test_a_new_site_says_how_it_is_put_on_the_web(tmp_path: Path) -> None:
    site = tmp_path / "my site"
    result = run("new", site)
    assert result.stdout.splitlines() == [
        "  README.md",
        "  chalkfold.yml",
        "  .gitignore",
        "  posts/pillowcase-tote-bag.md",
        "  requirements.txt",
        "  sizes/our chart.yml",
        f"Started a site in {site.as_posix()}/. Build it with: chalkfold build '{site.as_posix()}'",
        f"Look at it while you write with: chalkfold preview '{site.as_posix()}'",
        f"Begin a post of your own with: chalkfold begin \"Its title\" --site '{site.as_posix()}'",
    ]
    pinned = f"chalkfold=={version('chalkfold')}"
    assert pinned in (site / "requirements.txt").read_text("utf-8").splitlines()
    readme = (site / "README.md").read_text("utf-8")
    assert "pip install -r requirements.txt" in readme
    assert "{version}" not in readme
    assert {"public/", ".chalkfold/"} <= set((site / ".gitignore").read_text("utf-8").splitlines())
    assert sorted(each.name for each in site.iterdir()) == [
        ".gitignore",
        "README.md",
        "chalkfold.yml",
        "photos",
        "posts",
        "requirements.txt",
        "sizes",
    ]


@pytest.mark.parametrize("was_there", [True, False])
def test_a_site_that_cannot_be_finished_leaves_nothing(
    was_there: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = tmp_path / "site"
    if was_there:
        site.mkdir()
    monkeypatch.setattr(site_new, "version", _full_at_the_third())
    result = run("new", site)
    assert result.exit_code == 1
    assert "this cannot be written: no space left on device" in result.stderr
    assert site.exists() == was_there
    assert list(tmp_path.rglob("*")) == ([site] if was_there else [])


def _full_at_the_third() -> object:
    """A version that the disk has no room for, the third time it is asked for."""
    asked: list[str] = []

    def of(name: str) -> str:
        asked.append(name)
        if len(asked) == 3:
            raise OSError(28, "No space left on device")
        return "1.0"

    return of
