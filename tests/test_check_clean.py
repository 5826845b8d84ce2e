"""Pages in which nothing was found are not looked at again, and what is found is the same as if they were."""

from __future__ import annotations

import random
import shutil
from pathlib import Path

import pytest

from chalkfold.shipped import shipped
from chalkfold.site import check
from chalkfold.site.check import check_site
from chalkfold.site.checking.clean import FILE
from chalkfold.site.store import FOLDER
from edits_help import EDITS, TODAY, Edit
from site_help import told

POSTS = ("button-row-cushion", "jersey-skirt", "two-tier-skirt")
PAGES = ("index", "workshop")


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """A part of the demo, checked once."""
    site = tmp_path / "site"
    shutil.copytree(shipped("content_example"), site, ignore=shutil.ignore_patterns("public", ".*", "ledger"))
    for path in [*site.glob("posts/*.md"), *site.glob("pages/*.md")]:
        if path.stem not in (*POSTS, *PAGES):
            path.unlink()
    found(site)
    return site


def found(site: Path, *, cached: bool = True) -> list[str]:
    return sorted(told(check_site(site, today=TODAY, cached=cached, workers=1).found))


@pytest.fixture
def looked_at(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Which texts the checks have looked at, but for the front page, which they always do."""
    paths: list[str] = []
    look = check.look_at

    def noted(source: check.Source, shelf: check.Shelf) -> check.Looked:
        if source.path != "pages/index.md":
            paths.append(source.path)
        return look(source, shelf)

    monkeypatch.setattr(check, "look_at", noted)
    return paths


def test_a_sound_page_is_looked_at_once(site: Path, looked_at: list[str]) -> None:
    found(site)
    sound = [path for path in ("posts/jersey-skirt.md", "pages/workshop.md") if path in looked_at]
    assert sound == []
    found(site, cached=False)
    assert {"posts/jersey-skirt.md", "pages/workshop.md"} <= set(looked_at)


def test_a_page_that_changed_is_looked_at_alone(site: Path, looked_at: list[str]) -> None:
    before = found(site)
    looked_at.clear()
    post = site / "posts/jersey-skirt.md"
    post.write_text(post.read_text("utf-8") + "\nCut 23.7 cm off.\n", "utf-8")
    (new,) = set(found(site)) - set(before)
    assert "23.7 cm" in new
    assert "posts/jersey-skirt.md" in looked_at
    assert "posts/button-row-cushion.md" not in looked_at


def test_what_was_found_is_told_every_time(site: Path) -> None:
    post = site / "posts/jersey-skirt.md"
    post.write_text(post.read_text("utf-8") + "\n[The waist](#no-such-place) and 23.7 cm.\n", "utf-8")
    first = found(site)
    assert len([each for each in first if "no-such-place" in each or "23.7 cm" in each]) == 2
    assert found(site) == first == found(site, cached=False)


@pytest.mark.timeout(120)  # twenty checks of a part of the demo
@pytest.mark.parametrize("order", range(2))
def test_after_any_edit_the_same_is_found_as_without_what_is_kept(site: Path, order: int) -> None:
    random_ = random.Random(order)
    edits: list[Edit] = random_.sample(EDITS, len(EDITS))
    for edit in edits:
        if len(list(site.glob("posts/*.md"))) < 2 or not list(site.glob("photos/*.svg")):
            break
        said = edit(site, random_)
        assert found(site) == found(site, cached=False), said


@pytest.mark.parametrize("spoilt", [b"", b"1 abc\n{}", b"\xff\xfe", b"nonsense"])
def test_a_spoilt_file_is_as_good_as_none(site: Path, spoilt: bytes, looked_at: list[str]) -> None:
    before = found(site)
    looked_at.clear()
    (site / FOLDER / FILE).write_bytes(spoilt)
    assert found(site) == before
    assert "posts/jersey-skirt.md" in looked_at


def test_a_phrase_no_longer_allowed_is_found(site: Path) -> None:
    post, settings = site / "posts/jersey-skirt.md", site / "chalkfold.yml"
    post.write_text(post.read_text("utf-8") + "\nTake the 23.7 cm ruler.\n", "utf-8")
    before = settings.read_text("utf-8")
    settings.write_text(before + "\nnumbers allowed in text:\n  - 23.7 cm ruler\n", "utf-8")
    assert not [each for each in found(site) if "23.7" in each]
    settings.write_text(before, "utf-8")
    assert [each for each in found(site) if "23.7" in each]
