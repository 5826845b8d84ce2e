"""Numbers, sizes and posts under another name: recognised, told, or asked about."""

from __future__ import annotations

from pathlib import Path

import pytest

from chalkfold.amounts.kinds import Kind
from chalkfold.formula import key_of
from chalkfold.site.ledger.records import Number, PostRecord
from chalkfold.site.ledger.renames import Told, pair
from ledger_help import SITE, chalkfold, changes, ledger, mend, release, released
from site_help import write


def record(sizes: tuple[str, ...] = ("S", "M"), **numbers: tuple[str, tuple[float, ...]]) -> PostRecord:
    found = {
        key_of(name): Number(name, Kind.LENGTH, "the post", formula, "to 5 mm", values)
        for name, (formula, values) in ((name.replace("_", " "), each) for name, each in numbers.items())
    }
    return PostRecord("skirt", "posts/skirt.md", "A skirt", sizes, found)


class TestRenamed:
    """The same values or formula under another name is one number; where that is not clear, the writer is asked."""

    def test_the_same_values(self) -> None:
        old, new = record(hem=("1 cm", (10.0,))), record(turn_up=("1 cm", (10.0,)))
        pairs, asked = pair(old, new, Told())
        assert (pairs.numbers, asked) == ({"hem": "turn up"}, [])

    def test_the_same_formula_that_names_something(self) -> None:
        old, new = record(rim=("waist + ease", (900.0,))), record(edge=("waist + ease", (910.0,)))
        assert pair(old, new, Told())[0].numbers == {"rim": "edge"}
        old, new = record(rim=("1 cm", (10.0,))), record(edge=("1 cm", (25.4,)))
        assert pair(old, new, Told())[0].numbers == {}

    def test_of_several_the_one_that_is_spelled_most_alike(self) -> None:
        old = record(hem_turn=("1 cm", (10.0,)), seam=("1 cm", (10.0,)))
        new = record(seam_allowance=("1 cm", (10.0,)), hem_to_turn=("1 cm", (10.0,)))
        assert pair(old, new, Told())[0].numbers == {"hem turn": "hem to turn", "seam": "seam allowance"}

    def test_a_name_that_is_alike_with_another_value_is_asked_about(self) -> None:
        old, new = record(hem_turn=("1 cm", (10.0,))), record(hem_turns=("2 cm", (20.0,)))
        pairs, asked = pair(old, new, Told())
        assert (pairs.numbers, [each.answer for each in asked]) == ({}, ["hem turn=hem turns"])
        assert pair(old, new, Told.of(["Hem turn = hem turns"]))[0].numbers == {"hem turn": "hem turns"}
        gone, asked = pair(old, new, Told.of(["hem turn="]))
        assert (gone.numbers.get("hem turn"), asked) == ("", [])

    def test_a_name_within_the_other_with_another_value_is_asked_about(self) -> None:
        old, new = record(band=("3 cm", (30.0,))), record(waist_band=("4 cm", (40.0,)), loop=("5 cm", (50.0,)))
        assert [each.answer for each in pair(old, new, Told())[1]] == ["band=waist band"]
        assert pair(old, record(waistband=("4 cm", (40.0,))), Told())[1][0].new == "waistband"
        assert pair(old, record(loop=("5 cm", (50.0,))), Told())[1] == []

    def test_a_size_with_the_same_values_is_recognised(self) -> None:
        old = record(("S", "M"), waist=("by size", (700.0, 760.0)))
        new = record(("small", "M"), waist=("by size", (700.0, 760.0)))
        assert pair(old, new, Told())[0].renamed_sizes == (("S", "small"),)

    def test_a_size_with_other_values_is_asked_about(self) -> None:
        old = record(("S", "M"), waist=("by size", (700.0, 760.0)))
        new = record(("small", "M"), waist=("by size", (710.0, 760.0)))
        assert [each.answer for each in pair(old, new, Told())[1]] == ["size S=small"]
        told = pair(old, new, Told.of(["size S=small"]))
        assert (told[0].sizes, told[1]) == ({"S": "small", "M": "M"}, [])

    @pytest.mark.parametrize("answer", ["hem", "=hem", ""])
    def test_what_is_no_answer_is_a_slip_of_the_command(self, tmp_path: Path, answer: str) -> None:
        status, said = release(write(tmp_path, SITE), "Note.", "--renamed", answer)
        assert status == 2
        assert "--renamed takes OLD=NEW" in said

    def test_a_post_of_a_name_alike_is_asked_about(self, tmp_path: Path) -> None:
        site = released(tmp_path)
        mend(site, "posts/apron.md", "strap: 60 cm", "strap: 70 cm")
        (site / "posts/apron.md").rename(site / "posts/half-apron.md")
        assert 'apron: was this post renamed `half-apron`? Release with --renamed "post apron=' in changes(site)[1]
        status, said = release(site, "Straps.")
        assert status == 1
        assert "ledger:1:1: post `apron` is gone and post `half-apron` is new: is it the same?" in said

    def test_changes_of_no_site(self, tmp_path: Path) -> None:
        status, said = changes(tmp_path / "nowhere")
        assert (status, "there is no such folder" in said, "chalkfold new FOLDER" in said) == (1, True, True)

    def test_a_ledger_with_two_versions_in_it_is_told_by_check(self, tmp_path: Path) -> None:
        site = released(tmp_path)
        mend(site, "ledger/posts/apron.txt", "strap\n", "<<<<<<< mine\nstrap\n=======\ntie\n>>>>>>> theirs\n")
        for status, said in (changes(site), chalkfold("check", site)):
            assert (status, said.count("ledger/posts/apron.txt:"), said.count("[file.two-versions]")) == (1, 1, 1)

    def test_a_post_that_moved_keeps_its_corrections(self, tmp_path: Path) -> None:
        site = released(tmp_path)
        mend(site, "posts/cushion.md", "seam: 1 cm", "seam: 2 cm")
        release(site, "Seams.")
        (site / "posts/cushion.md").rename(site / "posts/a-floor-cushion.md")
        assert "posts/a-floor-cushion.md: renamed? It was cushion" in changes(site)[1]
        release(site, "Moved.")
        names = set(ledger(site))
        assert {"posts/a-floor-cushion.txt", "corrections/a-floor-cushion/2026-06-01.yml"} <= names
        assert not any("/cushion" in name for name in names)
