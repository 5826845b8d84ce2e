"""A release that is killed leaves the ledger as it was or as it will be, whole; the next command puts all right.

``CHALKFOLD_KILLS=100 pytest tests/test_release_killed.py`` kills a hundred releases at random instead of ten.
"""

from __future__ import annotations

import os
import random
import shutil
import sys
import time
from contextlib import AbstractContextManager
from pathlib import Path
from subprocess import Popen

import pytest

from kill_help import NOWHERE, Point, kill, stopped
from ledger_help import changes, ledger, mend, release, released

KILLS = int(os.environ.get("CHALKFOLD_KILLS", "10"))
NOTE = "The seam was counted once."

pytestmark = [
    pytest.mark.skipif(sys.platform == "win32", reason="no such signal"),
    pytest.mark.timeout(60 + 6 * KILLS),
]

POINTS: dict[str, Point] = {
    "the old ledger is being copied": ("shutil", "copytree", "before"),
    "the numbers are being written": ("chalkfold.site.release", "write_ledger", "before"),
    "a correction is written, the others are not": ("chalkfold.site.release", "add_correction", "after"),
    "all is written, no page is made": ("chalkfold.site.release", "build_site", "before"),
    "all pages are made": ("chalkfold.site.release", "swap_in", "before"),
    "the old ledger is away, the new one not there": ("chalkfold.site.swap", ".ledger.chalkfold-new", "between"),
    "the new ledger is there, the new pages are not": ("chalkfold.site.release", "swap_in", "after"),
    "the old ledger is being cleared away": ("shutil", "rmtree", "before"),
}


@pytest.fixture(scope="module")
def mended(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, str], dict[str, str]]:
    """A site whose book was mended, its ledger, and the ledger that a release makes of it."""
    site = released(tmp_path_factory.mktemp("mended") / "site")
    mend(site, "books/round things.yml", "rim radius + seam", "rim radius + 2 * seam")
    after = shutil.copytree(site, site.with_name("after"))
    assert release(after, NOTE)[0] == 0
    return site, ledger(site), ledger(after)


def releasing(site: Path, point: Point = NOWHERE) -> AbstractContextManager[Popen[bytes]]:
    """A release in a process of its own, which has come to the point."""
    return stopped(point, "release", site, "--note", NOTE, "--date", "2026-06-01")


def settle(site: Path, old: dict[str, str], new: dict[str, str]) -> bool:
    """Check that the ledger is whole and that a release goes through; whether the killed one had done it."""
    status, said = changes(site)
    found = ledger(site)
    assert (status, found) in [(1, old), (0, new)], said
    assert release(site, NOTE)[0] == 0
    assert ledger(site) == new
    assert NOTE in (site / "public/posts/cushion.html").read_text("utf-8")
    assert [path.name for path in site.glob(".*-*") if path.is_dir()] == []
    return found == new


@pytest.mark.parametrize("point", POINTS)
def test_a_release_killed_at(point: str, mended: tuple[Path, dict[str, str], dict[str, str]], tmp_path: Path) -> None:
    origin, old, new = mended
    site = shutil.copytree(origin, tmp_path / "site")
    with releasing(site, POINTS[point]) as process:
        kill(process)
    done = settle(site, old, new)
    assert done == (point in list(POINTS)[-2:])


def test_releases_killed_at_random(mended: tuple[Path, dict[str, str], dict[str, str]], tmp_path: Path) -> None:
    origin, old, new = mended
    chance = random.Random(KILLS)
    began = time.perf_counter()
    with releasing(shutil.copytree(origin, tmp_path / "measured")) as process:
        began = time.perf_counter()
        assert process.wait() == 0
    whole = time.perf_counter() - began
    for number in range(KILLS):
        site = shutil.copytree(origin, tmp_path / str(number))
        with releasing(site) as process:
            time.sleep(chance.uniform(0, 1.1 * whole))
            kill(process)
        settle(site, old, new)
        shutil.rmtree(site)
