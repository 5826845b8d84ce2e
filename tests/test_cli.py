"""The ``chalkfold`` command: what it prints, its exit status, and never a traceback for bad input."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from chalkfold.cli import main
from site_help import APRON_WITH_NUMBERS, page, post, tree, write


def run(*arguments: str | Path, **environment: str) -> Result:
    return CliRunner(env=environment).invoke(main, [str(each) for each in arguments])


def test_new_makes_a_site_that_builds_without_a_fault(tmp_path: Path) -> None:
    site = tmp_path / "workshop"
    started = run("new", site)
    assert started.exit_code == 0
    assert f"Build it with: chalkfold build {site.as_posix()}" in started.stdout
    assert (site / ".gitignore").read_text().splitlines()[1] == "public/"
    assert (site / "photos").is_dir()
    built = run("build", site)
    assert built.stderr == ""
    assert built.exit_code == 0
    assert built.stdout.startswith(f"Built 5 pages in {site.as_posix()}/public/ (")
    bag = (site / "public/posts/pillowcase-tote-bag.html").read_text("utf-8")
    assert "36\xa0cm" in bag
    assert "{=" not in bag


def test_new_never_overwrites(tmp_path: Path) -> None:
    (tmp_path / "diary.txt").write_text("mine")
    result = run("new", tmp_path)
    assert result.exit_code == 1
    assert "something is already here, and a new site never overwrites it" in result.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["diary.txt"]


def test_faults_go_to_the_error_stream_with_a_closing_line(tmp_path: Path) -> None:
    files = {"posts/a.md": post("A", "[x](no.md) [y](nor.md)"), "posts/b.md": "no front matter\n"}
    result = run("build", write(tmp_path, files))
    assert result.exit_code == 1
    assert result.stdout == ""
    assert result.stderr == (
        "posts/a.md:6:5: there is no page no.md [site.link]\n"
        "  | [x](no.md) [y](nor.md)\n"
        "  |     ^^^^^\n"
        "  hint: write the way to a post or page that is there, such as other-post.md\n"
        "\n"
        "posts/a.md:6:16: there is no page nor.md [site.link]\n"
        "  | [x](no.md) [y](nor.md)\n"
        "  |                ^^^^^^\n"
        "  hint: write the way to a post or page that is there, such as other-post.md\n"
        "\n"
        "posts/b.md:1:1: no front matter [file.front-matter]\n"
        "  | no front matter\n"
        "  | ^\n"
        "  hint: begin the file with `---`, a line `title: …` and another `---`\n"
        "\n"
        "3 faults in 2 files; nothing was written.\n"
    )


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["build", "nowhere"], "nowhere:1:1: there is no such folder"),
        (["build", "."], ".:1:1: this folder holds no chalkfold.yml, so it is not a site"),
        (["build", "site", "--out", "site"], "the pages would replace the site itself"),
        (["build", "broken"], "chalkfold.yml:1:1: "),
        (["explain", "nowhere.md", "hem"], "nowhere.md:1:1: no such file"),
        (["explain", "site", "hem"], "site:1:1: not a file"),
        (["convert", "binary.md"], "binary.md:1:1: a byte that is not UTF-8 text"),
        (["convert", "plain.md", "--out", "no/such/folder.md"], "this cannot be written: no such file"),
        (["new", "plain.md"], "something is already here"),
        (["new", "plain.md/site"], "this cannot be written: not a directory"),
    ],
)
def test_bad_input_is_told_without_a_traceback(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, arguments: list[str], message: str
) -> None:
    write(tmp_path / "site", {"posts/a.md": post("A")})
    write(tmp_path / "broken", {"chalkfold.yml": "theme: calico\n"})
    (tmp_path / "binary.md").write_bytes(b"\xfb no text")
    (tmp_path / "plain.md").write_text(post("Plain"))
    monkeypatch.chdir(tmp_path)
    result = run(*arguments)
    assert result.exit_code == 1
    assert isinstance(result.exception, SystemExit)
    assert message in result.stderr
    assert result.stderr.splitlines()[-1] == "1 fault in 1 file; nothing was written."


def test_the_day_decides_which_posts_are_out(tmp_path: Path) -> None:
    site = write(tmp_path, {"posts/a.md": post("A", day="2026-04-11")})
    page_of_a = site / "public/posts/a.html"
    assert run("build", site, "--date", "2026-04-10").exit_code == 0
    assert not page_of_a.exists()
    assert run("build", site, SOURCE_DATE_EPOCH="1775865600").exit_code == 0  # 11 April 2026, 00:00 UTC
    assert page_of_a.exists()
    assert run("build", site, SOURCE_DATE_EPOCH="1775865599").exit_code == 0
    assert not page_of_a.exists()
    assert run("build", site, "--date", "2026-04-10", "--unpublished").exit_code == 0
    assert page_of_a.exists()
    wrong = run("build", site, SOURCE_DATE_EPOCH="soon")
    assert wrong.exit_code == 2
    assert "SOURCE_DATE_EPOCH must be a whole number of seconds" in wrong.stderr


def test_the_folder_for_the_pages_can_be_named(tmp_path: Path) -> None:
    site = write(tmp_path / "site", {"posts/a.md": post("A")})
    result = run("build", site, "--out", tmp_path / "www")
    assert result.stdout.startswith(f"Built 2 pages in {(tmp_path / 'www').as_posix()}/ (")
    assert (tmp_path / "www/posts/a.html").is_file()
    assert not (site / "public").exists()


def test_explain_shows_how_a_number_comes_about(tmp_path: Path) -> None:
    site = write(tmp_path, {"posts/apron.md": APRON_WITH_NUMBERS})
    result = run("explain", site / "posts/apron.md", "fringe length")
    assert result.exit_code == 0
    assert "apron width / 4" in result.stdout
    assert "fringe length = 20\xa0cm" in result.stdout


def test_explain_of_an_unknown_number_is_a_fault(tmp_path: Path) -> None:
    site = write(tmp_path, {"posts/apron.md": APRON_WITH_NUMBERS})
    result = run("explain", site / "posts/apron.md", "fringe lenght")
    assert result.exit_code == 1
    assert result.stderr == (
        "posts/apron.md: the post has no number called `fringe lenght`\n  hint: did you mean `fringe length`?\n"
    )


def test_explain_of_an_unknown_size_is_no_fault_of_a_line(tmp_path: Path) -> None:
    sized = APRON_WITH_NUMBERS.replace("sizes: none", "sizes: [small, large]")
    site = write(tmp_path, {"posts/apron.md": sized})
    result = run("explain", site / "posts/apron.md", "fringe length", "--size", "medium")
    assert result.exit_code == 1
    assert result.stderr == "posts/apron.md: the post has no size `medium`\n  hint: its sizes are small, large\n"


def test_convert_fills_in_the_numbers_outside_a_site_too(tmp_path: Path) -> None:
    (tmp_path / "apron.md").write_text(APRON_WITH_NUMBERS)
    printed = run("convert", tmp_path / "apron.md")
    assert printed.exit_code == 0
    assert "Leave 20\xa0cm (7⅞\xa0in) for the fringe." in printed.stdout
    written = run("convert", tmp_path / "apron.md", "--out", tmp_path / "done.md")
    assert written.stdout == f"Wrote {(tmp_path / 'done.md').as_posix()}.\n"
    assert (tmp_path / "done.md").read_text("utf-8") == printed.stdout


@pytest.mark.parametrize(
    ("out", "why"),
    [
        ("site/posts/apron.md", "this is the file you write in, and its blocks would be lost"),
        ("site/posts/../posts/apron.md", "this is the file you write in"),
        ("link.md", "this is the file you write in"),
        ("second name.md", "this is the file you write in"),
        ("site/posts/done.md", "this would land among your own files in posts/"),
        ("site/books/done.md", "this would land among your own files in books/"),
        ("site/chalkfold.yml", "this is your own chalkfold.yml"),
        ("other/pages/deep/done.md", "this would land among your own files in pages/"),
    ],
)
def test_convert_never_writes_over_the_writers_own_files(tmp_path: Path, out: str, why: str) -> None:
    site = write(tmp_path / "site", {"posts/apron.md": APRON_WITH_NUMBERS})
    write(tmp_path / "other", {"pages/deep/about.md": page("About")})
    (tmp_path / "link.md").symlink_to(site / "posts/apron.md")
    (tmp_path / "second name.md").hardlink_to(site / "posts/apron.md")
    before = tree(tmp_path)
    result = run("convert", site / "posts/apron.md", "--out", tmp_path / out)
    assert result.exit_code == 1
    assert why in result.stderr
    assert "[site.output]" in result.stderr
    assert tree(tmp_path) == before


def test_convert_keeps_the_old_file_when_the_disk_is_full(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "apron.md").write_text(APRON_WITH_NUMBERS)
    (tmp_path / "done.md").write_text("from last week")

    def full(path: Path, _data: bytes) -> int:
        path.touch()
        raise OSError(errno.ENOSPC, "No space left on device", str(path))

    monkeypatch.setattr(Path, "write_bytes", full)
    result = run("convert", tmp_path / "apron.md", "--out", tmp_path / "done.md")
    assert (
        f"{(tmp_path / 'done.md').as_posix()}:1:1: this cannot be written: no space left on device [" in result.stderr
    )
    assert (tmp_path / "done.md").read_text() == "from last week"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["apron.md", "done.md"]


def test_convert_replaces_what_it_wrote_before(tmp_path: Path) -> None:
    (tmp_path / "apron.md").write_text(APRON_WITH_NUMBERS)
    (tmp_path / "done.md").write_text("from last week")
    assert run("convert", tmp_path / "apron.md", "--out", tmp_path / "done.md").exit_code == 0
    assert "Leave 20" in (tmp_path / "done.md").read_text("utf-8")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["apron.md", "done.md"]


@pytest.mark.parametrize("command", [["convert", "loop.md"], ["explain", "loop.md", "hem"]])
def test_a_link_to_itself_is_told_as_such(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: list[str]) -> None:
    monkeypatch.chdir(tmp_path)
    Path("loop.md").symlink_to("loop.md")
    result = run(*command)
    assert result.exit_code == 1
    assert "loop.md:1:1: this is a link that leads back to itself [file.missing]" in result.stderr


def test_the_installed_command_answers_without_the_heavy_rooms() -> None:
    """``--help`` in a process of its own, in a terminal that knows no letters beyond ASCII."""
    help_text = subprocess.run(
        [sys.executable, "-m", "chalkfold", "--help"],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"},
    ).stdout
    assert [name for name in ("new", "build", "explain", "convert") if f"  {name} " not in help_text] == []


def test_a_terminal_without_the_letters_gets_the_faults_all_the_same(tmp_path: Path) -> None:
    write(tmp_path, {"posts/a.md": page("Ärmel ⅜")})
    done = subprocess.run(
        [sys.executable, "-m", "chalkfold", "build", str(tmp_path)],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"},
    )
    assert done.returncode == 1
    assert "Traceback" not in done.stderr
    assert "front matter without `date`" in done.stderr
