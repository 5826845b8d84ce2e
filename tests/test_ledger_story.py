"""The stories of the ledger: a wrong formula is found, mended, released, and corrected where it was used."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from chalkfold.shipped import shipped
from ledger_help import SITE, chalkfold
from site_help import write
from spec_cases import SPEC
from story_help import agrees, follow

DEMO = shipped("content_example")


@pytest.mark.timeout(60)
def test_the_story_of_a_small_site_is_true_to_the_letter(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(write(tmp_path, SITE))
    for said, found in follow((SPEC / "ledger_story.md").read_text("utf-8"), tmp_path):
        assert found.rstrip("\n") == said.rstrip("\n")
        assert agrees(said, found)


@pytest.mark.timeout(60)
def test_the_page_of_the_guide_can_be_followed_on_a_copy_of_the_demo(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    left_by_builds = shutil.ignore_patterns("public", ".*chalkfold*")
    site = shutil.copytree(DEMO, tmp_path / "site", ignore=left_by_builds)
    monkeypatch.chdir(site)
    told = (DEMO / "pages/guide-31-corrections.md").read_text("utf-8")
    for said, found in follow(told, site):
        assert agrees(said, found), found


@pytest.mark.skipif(not (DEMO / "ledger").is_dir(), reason="the demo has not been released")
def test_the_ledger_of_the_demo_says_what_its_pages_say() -> None:
    """Where this fails, the demo was changed: release it anew, as the message of ``changes`` tells what differs."""
    assert chalkfold("changes", DEMO, "--date", "2026-12-01") == (0, "Nothing differs from the ledger.\n")
