"""A build that is killed leaves the pages as they were or as they will be, whole; the next build puts all right.

``CHALKFOLD_KILLS=100 pytest tests/test_build_killed.py`` kills a hundred builds at random instead of ten.
"""

from __future__ import annotations

import os
import random
import shutil
import sys
import time
from contextlib import AbstractContextManager
from datetime import date
from pathlib import Path
from subprocess import Popen

import pytest

from chalkfold.site.build import BuildReport, build_site
from kill_help import NOWHERE, Point, kill, stopped
from ledger_help import SITE, mend, released
from paper_help import BAG
from site_help import told, tree

KILLS = int(os.environ.get("CHALKFOLD_KILLS", "10"))

pytestmark = [
    pytest.mark.skipif(sys.platform == "win32", reason="no such signal"),
    pytest.mark.timeout(60 + 6 * KILLS),
]

POINTS: dict[str, Point] = {
    "the folder for the new pages is made": ("chalkfold.site.build", "_ready", "before"),
    "all is read, no page is made": ("chalkfold.site.build", "_make_pages", "before"),
    "pages that were made before are told from others": ("chalkfold.site.again.first", "FirstBench.use", "after"),
    "one page is written, the others are not": ("chalkfold.site.again.keeping", "KeepingBench._write", "after"),
    "a pattern is made and not kept yet": ("chalkfold.site.store", "Store._keep", "before"),
    "what is kept is written and not in its place": ("pathlib", "Path.replace", "before"),
    "one of several kept files is in its place": ("pathlib", "Path.replace", "after"),
    "the new pages are made, the old are not linked": ("chalkfold.site.again.first", "FirstBench.link", "before"),
    "all pages are in the new folder": ("chalkfold.site.again.first", "FirstBench.link", "after"),
    "the old pages are away, the new not there": ("chalkfold.site.swap", ".public.chalkfold-new", "between"),
    "the new pages are there, the old not cleared away": ("shutil", "rmtree", "before"),
    "the new pages are there, the records are not": ("chalkfold.site.again.records", "Index.save", "before"),
    "the records are written": ("chalkfold.site.again.records", "Index.save", "after"),
}
DONE = list(POINTS)[-3:]
"""Where the new pages are the site already."""

Trees = tuple[Path, dict[str, bytes], dict[str, bytes]]


def build(site: Path, *, cached: bool = True) -> BuildReport:
    return build_site(site, site / "public", today=date(2026, 6, 1), cached=cached)


@pytest.fixture(scope="module")
def mended(tmp_path_factory: pytest.TempPathFactory) -> Trees:
    """A site whose book was mended, its pages, and the pages that a build makes of it."""
    bag = BAG.replace("date:", "patterns: yes\ndate:")
    site = released(tmp_path_factory.mktemp("mended") / "site", {**SITE, "posts/bag.md": bag})
    build(site)
    before = tree(site / "public")
    mend(site, "books/round things.yml", "rim radius + seam", "rim radius + 2 * seam")
    mend(site, "posts/bag.md", "title: ", "title: Another ")
    after = shutil.copytree(site, site.with_name("after"))
    assert told(build(after, cached=False).faults) == []
    return site, before, tree(after / "public")


def building(site: Path, point: Point = NOWHERE) -> AbstractContextManager[Popen[bytes]]:
    return stopped(point, "build", site, "--date", "2026-06-01")


def settle(site: Path, old: dict[str, bytes], new: dict[str, bytes]) -> bool:
    """Check that the pages are whole, and that the next build makes them new; whether the killed one had done it."""
    found = tree(site / "public")
    assert found in (old, new) or not (site / "public").exists()
    assert told(build(site).faults) == []
    assert tree(site / "public") == new
    assert [path.name for path in site.glob(".public.*") if path.is_dir()] == []
    assert build(site).made == ()
    assert tree(site / "public") == new
    return found == new


@pytest.mark.parametrize("point", POINTS)
def test_a_build_killed_when(point: str, mended: Trees, tmp_path: Path) -> None:
    origin, old, new = mended
    site = shutil.copytree(origin, tmp_path / "site")
    with building(site, POINTS[point]) as process:
        kill(process)
    assert settle(site, old, new) == (point in DONE)


def test_builds_killed_at_random(mended: Trees, tmp_path: Path) -> None:
    origin, old, new = mended
    chance = random.Random(KILLS)
    with building(shutil.copytree(origin, tmp_path / "measured")) as process:
        began = time.perf_counter()
        assert process.wait() == 0
    whole = time.perf_counter() - began
    for number in range(KILLS):
        site = shutil.copytree(origin, tmp_path / str(number))
        with building(site) as process:
            time.sleep(chance.uniform(0, 1.1 * whole))
            kill(process)
        settle(site, old, new)
        shutil.rmtree(site)
