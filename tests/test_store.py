"""What is kept from build to build: made once, found again, and never trusted where it was touched."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

import chalkfold
from chalkfold.site import store as stores
from chalkfold.site.store import FOLDER, Store


def kept(site: Path) -> list[Path]:
    return sorted(path for path in (site / FOLDER).iterdir() if path.name != ".gitignore")


def made(site: Path, *inputs: str, gives: bytes = b"picture") -> int:
    """How often it had to be made."""
    store = Store(site)
    assert store.get(inputs, "png", lambda: gives) == gives
    return store.made


def test_it_is_made_once(tmp_path: Path) -> None:
    assert [made(tmp_path, "skirt", "M") for _ in range(3)] == [1, 0, 0]
    (file,) = kept(tmp_path)
    assert file.read_bytes() == b"picture"
    assert file.suffix == ".png"


def test_other_inputs_make_another(tmp_path: Path) -> None:
    assert [made(tmp_path, *each) for each in (("skirt", "M"), ("skirt", "L"), ("skirtM",), ("skirt", "M"))] == [
        1,
        1,
        1,
        0,
    ]


def test_another_version_of_the_program_makes_it_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made(tmp_path, "skirt")
    monkeypatch.setattr(stores, "program", lambda: "another")
    assert made(tmp_path, "skirt", gives=b"better") == 1


@pytest.mark.parametrize("damage", [b"", b"pictur", b"something else"])
def test_a_damaged_file_is_dropped_and_made_again(tmp_path: Path, damage: bytes) -> None:
    made(tmp_path, "skirt")
    (file,) = kept(tmp_path)
    file.write_bytes(damage)
    assert made(tmp_path, "skirt") == 1
    assert [each.read_bytes() for each in kept(tmp_path)] == [b"picture"]


def test_a_foreign_file_under_its_name_is_dropped(tmp_path: Path) -> None:
    made(tmp_path, "skirt")
    (file,) = kept(tmp_path)
    foreign = file.with_name(f"{file.name.partition('.')[0]}.0123.png")
    foreign.write_bytes(b"foreign")
    assert made(tmp_path, "skirt") == 0
    file.unlink()
    foreign.write_bytes(b"foreign")
    assert made(tmp_path, "skirt") == 1
    assert not foreign.exists()


def test_the_folder_can_be_deleted_and_is_not_for_version_control(tmp_path: Path) -> None:
    made(tmp_path, "skirt")
    assert (tmp_path / FOLDER / ".gitignore").read_text() == "*\n"
    for path in (*kept(tmp_path), tmp_path / FOLDER / ".gitignore"):
        path.unlink()
    (tmp_path / FOLDER).rmdir()
    assert made(tmp_path, "skirt") == 1


def test_where_nothing_can_be_kept_it_is_made_each_time(tmp_path: Path) -> None:
    (tmp_path / FOLDER).write_text("a file in the way")
    assert [made(tmp_path, "skirt") for _ in range(2)] == [1, 1]
    assert (tmp_path / FOLDER).read_text() == "a file in the way"


@pytest.mark.parametrize(
    "file", ["draw/svg.py", "draw/widths.yml", "amounts/words/en.yml", "geometry/offset.py", "raster.py"]
)
def test_what_draws_is_code_and_the_data_it_reads(tmp_path: Path, file: str) -> None:
    root = Path(chalkfold.__file__).parent
    for room in stores.ROOMS:
        source = root / room
        shutil.copytree(source, tmp_path / room) if source.is_dir() else shutil.copy(source, tmp_path / room)
    assert stores.drawn_by(tmp_path) == stores.program()
    with (tmp_path / file).open("a", encoding="utf-8") as changed:
        changed.write("\n")
    assert stores.drawn_by(tmp_path) != stores.program()
