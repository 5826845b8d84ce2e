"""A release: where readers meet its corrections, and when it is refused."""

from __future__ import annotations

import errno
import json
import os
from pathlib import Path
from xml.etree import ElementTree

import pytest
from filelock import FileLock
from pypdf import PdfReader

from ledger_help import MADE, SITE, chalkfold, changes, ledger, mend, release, released
from site_help import post, write


class TestTold:
    """Where readers meet a correction besides the page."""

    def test_the_feed_carries_it_as_an_update(self, tmp_path: Path) -> None:
        site = released(tmp_path)
        mend(site, "posts/cushion.md", "seam: 1 cm", "seam: 2 cm")
        release(site, "Seams <wider>.", day="2026-06-03")
        atom = "{http://www.w3.org/2005/Atom}"
        first = next(ElementTree.parse(site / "public/feed.xml").iter(f"{atom}entry"))
        told = {each.tag.removeprefix(atom): each.text for each in first}
        assert told["title"] == "A round cushion"
        assert (told["published"], told["updated"]) == ("2026-04-11T00:00:00Z", "2026-06-03T00:00:00Z")
        link = "https://tidewater.example/posts/cushion.html#corrections"
        assert told["content"] == f'<p><a href="{link}">Correction</a>: Seams &lt;wider&gt;.</p>'

    def test_two_on_one_day_stand_in_their_order(self, tmp_path: Path) -> None:
        site = released(tmp_path)
        for number in range(2, 13):
            mend(site, "posts/cushion.md", f"seam: {number - 1} cm", f"seam: {number} cm")
            release(site, f"Now {number} cm.")
        page = (site / "public/posts/cushion.html").read_text("utf-8")
        assert page.index("Now 12 cm.") < page.index("Now 11 cm.") < page.index("Now 2 cm.")

    def test_a_printed_pattern_says_where_its_corrections_stand(self, tmp_path: Path) -> None:
        files = {"chalkfold.yml": SITE["chalkfold.yml"], "posts/flap.md": post("A flap", MADE, patterns="yes")}
        site = released(tmp_path, files)
        status, said = chalkfold("print", site / "posts/flap.md", "--out", tmp_path / "flap.pdf")
        assert status == 0, said
        for file in (tmp_path / "flap.pdf", site / "public/patterns/flap-S-A4.pdf"):
            text = PdfReader(file).pages[0].extract_text()
            assert "https://tidewater.example/posts/flap.html#corrections" in text
        sign = text[text.index("see whether numbers ") :].split()[3:5]
        assert f"numbers {' '.join(sign)})</li>" in (site / "public/posts/flap.html").read_text("utf-8")

    def test_data_for_other_programs(self, tmp_path: Path) -> None:
        site = released(tmp_path)
        mend(site, "books/round things.yml", "rim radius + seam", "rim radius + 2 * seam")
        status, said = changes(site, "--format", "json")
        assert status == 1
        data = json.loads(said)
        assert [each["file"] for each in data["posts"]] == ["posts/cushion.md", "posts/pouffe.md"]
        assert data["posts"][1]["numbers"] == [
            {
                "name": "cut radius",
                "what": "changed",
                "was": None,
                "kind": "length",
                "before": {"formula": "rim radius + seam", "from": "book round things"},
                "now": {"formula": "rim radius + 2 * seam", "from": "book round things"},
                "sizes": [{"size": "", "said": "30.6 cm (12 1⁄16 in) → 32.6 cm (12⅞ in)", "announced": True}],
            }
        ]
        assert json.loads(changes(released(tmp_path / "again"), "--format", "json")[1])["posts"] == []


def test_what_misleads_stops_no_release_and_is_counted(tmp_path: Path) -> None:
    site = released(tmp_path)
    mend(site, "posts/apron.md", "Cut a strap of", "Cut 60 cm, which is a strap of")
    mend(site, "posts/cushion.md", "seam: 1 cm", "seam: 2 cm")
    status, said = release(site, "Seams.")
    assert (status, "`chalkfold check` finds 1 thing to mend besides.\n" in said) == (0, True)


class TestRefused:
    """A release does all or nothing."""

    def test_a_site_with_a_fault_keeps_pages_and_ledger(self, tmp_path: Path) -> None:
        site = released(tmp_path)
        before, page = ledger(site), (site / "public/posts/cushion.html").read_bytes()
        mend(site, "posts/cushion.md", "seam: 1 cm", "seam: 2 cm")
        mend(site, "posts/apron.md", "Cut a strap", "[Cut](nowhere.md) a strap")
        status, said = release(site, "Seams.")
        assert (status, "there is no page nowhere.md" in said, "nothing was written" in said) == (1, True, True)
        assert (ledger(site), (site / "public/posts/cushion.html").read_bytes()) == (before, page)
        assert sorted(path.name for path in site.glob(".ledger.chalkfold-*")) == [".ledger.chalkfold-lock"]

    def test_two_releases_at_once(self, tmp_path: Path) -> None:
        site = released(tmp_path)
        with FileLock(site / ".ledger.chalkfold-lock"):
            status, said = release(site, "Seams.")
        assert status == 1
        assert "another release is writing the ledger [site.busy]" in said

    @pytest.mark.parametrize("note", ["", "  "])
    def test_a_note_says_something(self, tmp_path: Path, note: str) -> None:
        status, said = release(write(tmp_path, SITE), note)
        assert (status, "--note says nothing" in said) == (2, True)

    def test_a_folder_that_is_no_site(self, tmp_path: Path) -> None:
        for status, said in (release(tmp_path, "Note."), changes(tmp_path)):
            assert status == 1
            assert "chalkfold.yml" in said

    def test_a_correction_that_was_changed_by_hand_is_read_with_care(self, tmp_path: Path) -> None:
        site = released(tmp_path)
        file = site / "ledger/corrections/cushion/2026-06-01.yml"
        file.parent.mkdir(parents=True)
        file.write_text("date: soon\nnote: x\nchanged: {a: [1]}\nmore: some\n")
        said = chalkfold("build", site, "--date", "2026-06-01")[1]
        for message in ("`date` is not a date", "this does not say what was and what is now", "`more` is how many"):
            assert message in said

    def test_a_disk_that_says_no_is_told(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        site = released(tmp_path)
        before = ledger(site)
        mend(site, "posts/cushion.md", "seam: 1 cm", "seam: 2 cm")

        def full(_self: Path, _data: bytes) -> int:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

        monkeypatch.setattr(Path, "write_bytes", full)
        status, said = release(site, "Seams.")
        monkeypatch.undo()
        assert (status, "this cannot be written: no space left on device" in said) == (1, True)
        assert ledger(site) == before
