"""What is installed holds the themes and the demo, found the same way as from a checkout."""

from __future__ import annotations

import os
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

from chalkfold.shipped import shipped

ROOT = Path(__file__).parents[1]
STARTER = Path("chalkfold/site/starter")
TRADE = Path("chalkfold/trade")
PREVIEW = Path("chalkfold/preview")


def run(*command: str | Path, cwd: Path = ROOT, **environment: str) -> str:
    done = subprocess.run(
        [str(each) for each in command],
        capture_output=True,
        text=True,
        check=False,
        cwd=cwd,
        env={**os.environ, **environment},
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def packages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the source archive and the wheel made from it."""
    out = tmp_path_factory.mktemp("dist")
    run(sys.executable, "-m", "build", "--no-isolation", "--outdir", out, ROOT)
    return out


def files_of(folder: Path) -> set[str]:
    return {
        path.relative_to(folder).as_posix()
        for path in folder.rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }


def shipped_files(room: str) -> set[str]:
    """The writer's side of a shipped folder: not what a build has left in it."""
    return {name for name in files_of(ROOT / room) if not name.startswith(("public/", "."))}


@pytest.mark.timeout(120)
def test_the_wheel_holds_themes_demo_and_starter(packages: Path) -> None:
    (wheel,) = packages.glob("*.whl")
    held = set(zipfile.ZipFile(wheel).namelist())
    for room in ("themes", "content_example"):
        assert {f"chalkfold/shipped/{room}/{name}" for name in shipped_files(room)} - held == set()
    assert {(STARTER / name).as_posix() for name in files_of(ROOT / "plugin" / STARTER)} - held == set()
    assert {(PREVIEW / name).as_posix() for name in files_of(ROOT / "plugin" / PREVIEW)} - held == set()
    assert {(TRADE / name).as_posix() for name in files_of(ROOT / "plugin" / TRADE)} - held == set()
    assert [name for name in held if name.startswith(("tests", "chalkfold/tests"))] == []


@pytest.mark.timeout(120)
def test_the_source_archive_holds_all_that_is_needed_to_test_it(packages: Path) -> None:
    (archive,) = packages.glob("*.tar.gz")
    with tarfile.open(archive) as source:
        held = {name.partition("/")[2] for name in source.getnames()}
    wanted = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", ".ci/run", "tests/test_packaging.py"}
    assert wanted - held == set()
    assert {f"content_example/{name}" for name in shipped_files("content_example")} - held == set()


@pytest.mark.timeout(120)
def test_an_installed_wheel_finds_its_themes_and_builds_a_site(packages: Path, tmp_path: Path) -> None:
    (wheel,) = packages.glob("*.whl")
    target = tmp_path / "installed"
    pip = [sys.executable, "-m", "pip", "install", "-q", "--no-deps", "--no-index", "--target"]
    run(*pip, target, wheel, PIP_DISABLE_PIP_VERSION_CHECK="1", PIP_ROOT_USER_ACTION="ignore")
    program = "from chalkfold.shipped import shipped; print(shipped('themes'))"
    found = run(sys.executable, "-c", program, cwd=tmp_path, PYTHONPATH=str(target))
    assert Path(found.strip()) == target / "chalkfold" / "shipped" / "themes"
    chalkfold = [sys.executable, "-m", "chalkfold"]
    run(*chalkfold, "new", "workshop", cwd=tmp_path, PYTHONPATH=str(target))
    built = run(*chalkfold, "build", "workshop", cwd=tmp_path, PYTHONPATH=str(target))
    assert "pages in workshop/public/" in built


@pytest.mark.parametrize("room", ["themes", "content_example"])
def test_a_checkout_finds_its_own_folders(room: str) -> None:
    assert shipped(room) == ROOT / room
