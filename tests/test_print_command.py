"""``chalkfold print``: which files it writes, and what it says where it cannot; never a traceback."""

from __future__ import annotations

import errno
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from chalkfold.cli import main
from chalkfold.site import swap
from paper_help import BAG
from site_help import post, write

ENDING = "1 fault in 1 file; nothing was written."


@pytest.fixture(autouse=True)
def workroom(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    site = write(tmp_path / "site", {"posts/bag.md": BAG, "posts/plain.md": post("Plain")})
    (tmp_path / "out").mkdir()
    monkeypatch.chdir(tmp_path / "out")
    return site


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["print", *arguments])


def files() -> list[str]:
    return sorted(path.name for path in Path().iterdir())


@pytest.mark.parametrize(
    ("arguments", "written"),
    [
        ([], ["bag-small-A4.pdf"]),
        (["--size", "LARGE"], ["bag-large-A4.pdf"]),
        (["--size", "all", "--paper", "letter"], ["bag-large-Letter.pdf", "bag-small-Letter.pdf"]),
        (["--nested"], ["bag-all-sizes-A4.pdf"]),
        (["--seam-lines", "--paper", "36 in x 48 in"], ["bag-small-36-in-x-48-in.pdf"]),
        (["--dxf"], ["bag-small.dxf"]),
        (["--out", "mine.dxf"], ["mine.dxf"]),
        (["--out", "mine.pdf", "--size", "all"], ["mine-large.pdf", "mine-small.pdf"]),
    ],
)
def test_files_are_named_after_post_size_and_paper(arguments: list[str], written: list[str]) -> None:
    result = run("../site/posts/bag.md", *arguments)
    assert (result.exit_code, result.stderr) == (0, "")
    assert files() == written
    assert sorted(result.stdout.splitlines()) == [f"Wrote {name}." for name in written]
    assert all(Path(name).read_bytes().startswith((b"%PDF-", b"  0\n")) for name in written)


def test_the_paper_is_the_site_s_unless_another_is_named(workroom: Path) -> None:
    (workroom / "chalkfold.yml").write_text("title: Tidewater Mending Room\npaper: letter\n")
    run("../site/posts/bag.md")
    assert files() == ["bag-small-Letter.pdf"]


@pytest.mark.parametrize(
    ("arguments", "message", "hint"),
    [
        (["bag.md", "--size", "smal"], "this post has no size `smal`", "did you mean `small`?"),
        (["bag.md", "--size", "9"], "this post has no size `9`", "its sizes are small, large, or `all`"),
        (["plain.md"], "nothing is drafted in this post", "write a ```draft block"),
        (["bag.md", "--paper", "a5"], "there is no paper `a5`", "a4, letter, a3, a0"),
        (["bag.md", "--paper", "9 cm x 9 cm"], "is too small", "at least 19 cm x 25 cm"),
        (["bag.md", "--out", "bag.svg"], "cannot be written as `bag.svg`", "`.pdf` or `.dxf`"),
        (["bag.md", "--out", "bag.pdf", "--dxf"], "cannot be written as `bag.pdf`", "`.dxf`"),
        (["bag.md", "--out", "no/bag.pdf"], "this cannot be written: no such file", "make the folder `no` first"),
        (["bag.md", "--out", "../site/posts/bag.pdf"], "among your own files in posts/", "outside"),
        (["gone.md"], "no such file", ""),
    ],
)
def test_what_cannot_be_printed_is_told_with_what_to_write(arguments: list[str], message: str, hint: str) -> None:
    result = run(f"../site/posts/{arguments[0]}", *arguments[1:])
    assert result.exit_code == 1
    assert isinstance(result.exception, SystemExit)
    assert message in result.stderr and hint in result.stderr
    assert result.stderr.splitlines()[-1] == ENDING
    assert files() == []


def test_a_post_with_faults_has_them_printed_as_in_a_build(workroom: Path) -> None:
    (workroom / "posts/bag.md").write_text(BAG.replace("across: 24 cm", "across: 24 cn"))
    result = run("../site/posts/bag.md")
    assert result.exit_code == 1
    assert result.stderr.startswith("posts/bag.md:18:")
    assert "nothing was written." in result.stderr
    assert files() == []


def test_a_pattern_of_hundreds_of_sheets_is_refused(workroom: Path) -> None:
    (workroom / "posts/bag.md").write_text(
        BAG.replace("across: 24 cm", "across: 240 m").replace("20 cm bul", "300 m bul")
    )
    result = run("../site/posts/bag.md")
    assert "the pattern would take more than 400 sheets of A4" in result.stderr
    assert files() == []


@pytest.mark.parametrize("arguments", [["--nested", "--size", "small"], ["--dxf", "--paper", "a3"]])
def test_what_does_not_go_together_is_told_before_any_work(arguments: list[str]) -> None:
    result = run("../site/posts/bag.md", *arguments)
    assert result.exit_code == 2
    assert "so leave" in result.stderr


def test_a_full_disk_keeps_the_last_file(monkeypatch: pytest.MonkeyPatch) -> None:
    run("../site/posts/bag.md")
    before = Path("bag-small-A4.pdf").read_bytes()

    def full(self: Path, data: bytes) -> int:
        raise OSError(errno.ENOSPC, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(swap.Path, "write_bytes", full)
        result = run("../site/posts/bag.md", "--seam-lines")
    assert result.exit_code == 1
    assert "bag-small-A4.pdf:1:1: this cannot be written: no space left on device" in result.stderr
    assert Path("bag-small-A4.pdf").read_bytes() == before
    assert files() == ["bag-small-A4.pdf"]


class NoLibrary:
    """An import system without the cairo library: loading it fails as on a computer that lacks it."""

    def find_spec(self, name: str, path: object = None, target: object = None) -> None:
        if name.partition(".")[0] in ("cairocffi", "cairosvg"):
            raise OSError('no library called "cairo-2" was found')


@pytest.fixture
def no_cairo(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in [each for each in sys.modules if each.partition(".")[0] in ("cairocffi", "cairosvg")]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setattr(sys, "meta_path", [NoLibrary(), *sys.meta_path])


@pytest.mark.usefixtures("no_cairo")
def test_without_cairo_it_says_what_to_install() -> None:
    result = run("../site/posts/bag.md")
    assert result.exit_code == 1
    assert "PDF and PNG need the cairo library" in result.stderr
    assert all(name in result.stderr for name in ("libcairo2", "dnf install cairo", "brew install cairo", "GTK"))


@pytest.mark.usefixtures("no_cairo")
def test_without_cairo_dxf_is_written_all_the_same() -> None:
    assert run("../site/posts/bag.md", "--dxf").exit_code == 0


@pytest.mark.usefixtures("no_cairo")
def test_without_cairo_pages_are_built_all_the_same(workroom: Path) -> None:
    (workroom / "chalkfold.yml").write_text("title: Tidewater\naddress: https://tidewater.example\n")
    (workroom / "posts/bag.md").write_text(BAG.replace("date:", "patterns: yes\ndate:"))
    result = CliRunner().invoke(main, ["build", str(workroom), "--date", "2026-06-01"])
    assert result.exit_code == 0
    assert "libcairo2" in result.stderr
    assert "Built 3 pages" in result.stdout
    page = (workroom / "public/posts/bag.html").read_text("utf-8")
    assert "og:image" not in page and ".pdf" not in page
    assert "<title>A bag from a tablecloth" in (workroom / "public/feed.xml").read_text("utf-8")


def test_without_ezdxf_it_says_which_extra_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    result = run("../site/posts/bag.md", "--dxf")
    assert result.exit_code == 1
    assert "pip install 'chalkfold[dxf]'" in result.stderr
