"""What is kept for the next build is never trusted where it was touched, and may be missing."""

from __future__ import annotations

import errno
import json
import os
import shutil
import subprocess
import sys
from datetime import date
from importlib.metadata import version
from pathlib import Path

import pytest

import chalkfold
from again_help import FILES, change, made
from chalkfold.site.again import stamps
from chalkfold.site.again.records import FILE, Index
from chalkfold.site.build import BuildReport, build_site
from chalkfold.site.store import FOLDER, Store
from site_help import build, tree, write


@pytest.fixture
def site(tmp_path: Path) -> Path:
    write(tmp_path, FILES)
    assert sorted(made(tmp_path)) == ["pages/about.md", "posts/apron.md", "posts/bag.md", "posts/top.md"]
    return tmp_path


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


def test_what_is_kept_goes_by_the_bytes_of_the_program_and_not_by_its_place(tmp_path: Path) -> None:
    one, other = (shutil.copytree(Path(chalkfold.__file__).parent, tmp_path / name / "chalkfold") for name in "ab")
    assert program_in(one.parent) == program_in(other.parent)
    marks = other / "amounts/marks.py"
    text, stat = marks.read_text("utf-8"), marks.stat()
    marks.write_text(text.replace(".", ";", 1), "utf-8")  # of its first sentence
    os.utime(marks, ns=(stat.st_atime_ns, stat.st_mtime_ns))
    assert marks.stat().st_size == stat.st_size
    assert program_in(one.parent) != program_in(other.parent)


def program_in(folder: Path) -> str:
    command = [sys.executable, "-c", "from chalkfold.site.again.stamps import program; print(program())"]
    environment = os.environ | {"PYTHONPATH": str(folder), "PYTHONDONTWRITEBYTECODE": "1"}
    return subprocess.run(command, check=True, capture_output=True, text=True, env=environment).stdout


def test_what_is_kept_goes_by_the_versions_of_the_libraries() -> None:
    assert list(stamps._versions()) == [f"{name} {version(name)}" for name in stamps.LIBRARIES]


def test_several_processes_keep_the_same_records(tmp_path: Path) -> None:
    write(tmp_path, FILES)
    assert len(build(tmp_path, workers=2).made) == 4
    assert made(tmp_path) == []
