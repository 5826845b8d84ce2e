"""The stories of the ledger: a wrong formula is found, mended, released, and corrected where it was used."""

from __future__ import annotations

from pathlib import Path

import pytest

from ledger_help import SITE
from site_help import write
from spec_cases import SPEC
from story_help import agrees, follow


@pytest.mark.timeout(60)
def test_the_story_of_a_small_site_is_true_to_the_letter(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(write(tmp_path, SITE))
    for said, found in follow((SPEC / "ledger_story.md").read_text("utf-8"), tmp_path):
        assert found.rstrip("\n") == said.rstrip("\n")
        assert agrees(said, found)
