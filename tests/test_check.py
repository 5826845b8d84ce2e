"""``chalkfold check``: every fault of a build, the findings in their words, and nothing written."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from chalkfold.cli import main
from chalkfold.diagnostics import Code, as_data
from chalkfold.diagnostics.catalogue import catalogue
from chalkfold.shipped import shipped
from chalkfold.site.check import check_site
from chalkfold.site.store import FOLDER
from check_help import AROUND, TODAY, told_of
from faults_help import assert_well_told
from site_help import build, post, told, tree, write
from spec_cases import Case, cases
from test_faults import SITES, Files

CASES = [pytest.param(case, id=str(case)) for case in cases("check.md")]
OF_THE_OUTPUT = (Code.SITE_OUTPUT, Code.SITE_BUSY)
TYPED = "```project\nsizes: none\nnumbers:\n  hem: 4 cm\n```\n\nA hem of {= hem }, or 4 cm.\n"


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(main, ["check", *map(str, arguments), "--date", "2026-06-01"])


@pytest.mark.parametrize("case", CASES)
def test_a_post_is_told_in_these_words(case: Case, tmp_path: Path) -> None:
    assert told_of(tmp_path, case.given) == case.expected


def test_every_finding_has_a_case_and_is_well_told(tmp_path: Path) -> None:
    site = write(
        tmp_path, {**AROUND, **{f"posts/{n}.md": post("A", case.given) for n, case in enumerate(cases("check.md"))}}
    )
    found = list(check_site(site, today=TODAY).found)
    for fault in found:
        assert_well_told(fault)
    assert {each.code for each in found} >= {code for code in Code if code.startswith("misleads.")}


@pytest.mark.parametrize(
    ("files", "change"),
    [
        pytest.param(files, change, id=message[:30])
        for code, files, change, message in SITES
        if code not in OF_THE_OUTPUT
    ],
)
def test_what_fails_a_build_is_told(tmp_path: Path, files: Files, change: Callable[[Path], None]) -> None:
    site = write(tmp_path / "site", {"posts/fine.md": post("Fine"), **files})
    change(site)
    failing = told(build(site).faults)
    assert failing
    assert [each for each in told(check_site(site, today=TODAY).found) if "[misleads." not in each] == failing


def test_the_faults_of_every_post_are_told(tmp_path: Path) -> None:
    with_post = [each for each in catalogue() if each.post and each.code is not Code.FILE_FRONT_MATTER]
    site = write(tmp_path, {f"posts/{each.code}.md".replace(".", "-", 1): post("A", each.post) for each in with_post})
    failing = told(build(site).faults)
    assert len(failing) == len(with_post)
    assert [each for each in told(check_site(site, today=TODAY).found) if "[misleads." not in each] == failing


def test_a_template_that_cannot_be_filled_in_is_told(tmp_path: Path) -> None:
    files = {"themes/calico/templates/page.html": "{{ page.nothing }}\n", "pages/a.md": "---\ntitle: A\n---\n\nText.\n"}
    (fault,) = check_site(write(tmp_path, files), today=TODAY).found
    assert fault.code is Code.SITE_THEME


def test_a_sound_site_has_nothing_to_mend_and_stays_as_it_is(tmp_path: Path) -> None:
    site = write(tmp_path, {**AROUND, "posts/a.md": post("A", TYPED.replace(", or 4 cm", ""))})
    before = tree(site)
    result = run(site)
    assert (result.exit_code, result.stdout) == (0, f"Checked 2 pages in {site.as_posix()}/: nothing to mend.\n")
    after = {path: data for path, data in tree(site).items() if not path.startswith(f"{FOLDER}/")}
    assert after == before


def test_what_is_found_is_printed_with_its_line_and_ends_with_status_1(tmp_path: Path) -> None:
    result = run(write(tmp_path, {"posts/a.md": post("A", TYPED)}))
    assert result.exit_code == 1
    assert result.stdout == (
        "posts/a.md:12:23: `4 cm` is typed by hand and repeats hem [misleads.typed-number]\n"
        "  | A hem of {= hem }, or 4 cm.\n"
        "  |                       ^^^^\n"
        "  hint: write `{= hem }`; if it is to stay as it is, write `<!-- as it stands: 4 cm -->` behind it\n"
        "\n"
        f"Checked 1 page in {tmp_path.as_posix()}/: 1 thing to mend.\n"
    )


def test_as_json_it_is_the_data_of_faults(tmp_path: Path) -> None:
    site = write(tmp_path, {"posts/a.md": post("A", TYPED + "\n{= hme }")})
    result = run(site, "--format", "json")
    assert result.exit_code == 1
    assert json.loads(result.stdout) == [as_data(each) for each in check_site(site, today=TODAY).found]
    assert json.loads(run(write(tmp_path / "b", {}), "--format", "json").stdout) == []


def test_the_json_has_the_shape_that_the_guide_tells(tmp_path: Path) -> None:
    result = run(write(tmp_path, {"posts/a.md": post("A", TYPED)}), "--format", "json")
    assert json.loads(result.stdout) == [
        {
            "code": "misleads.typed-number",
            "file": "posts/a.md",
            "line": 12,
            "column": 23,
            "length": 4,
            "message": "`4 cm` is typed by hand and repeats hem",
            "hint": "write `{= hem }`; if it is to stay as it is, write `<!-- as it stands: 4 cm -->` behind it",
            "related": [],
        }
    ]
    guide = next((shipped("content_example") / "pages").glob("guide-*-check.md")).read_text("utf-8")
    (told_of_in_guide,) = json.loads(guide.partition("```json")[2].partition("```")[0])
    assert list(told_of_in_guide) == list(json.loads(result.stdout)[0])


def test_related_places_of_json_say_where_and_what(tmp_path: Path) -> None:
    files = {"posts/a.md": post("A", address="same"), "posts/b.md": post("B", address="same")}
    (fault,) = json.loads(run(write(tmp_path, files), "--format", "json").stdout)
    assert fault["related"] == [{"place": "posts/a.md:4:10", "note": "the other stands here"}]


def test_the_site_file_allows_names_of_goods(tmp_path: Path) -> None:
    body = TYPED.replace("or 4 cm", "with a 100 m reel and firm elastic 25 mm")
    goods = {"chalkfold.yml": 'title: T\nnumbers allowed in text: [100 m reel, "elastic 25 mm"]\n'}
    assert len(check_site(write(tmp_path / "a", {"posts/a.md": post("A", body)}), today=TODAY).found) == 2
    assert told(check_site(write(tmp_path / "b", {"posts/a.md": post("A", body), **goods}), today=TODAY).found) == []


def test_goods_and_sizes_of_the_post_may_be_called_by_their_names(tmp_path: Path) -> None:
    body = "```project\nsizes: [pad 40 cm, pad 50 cm]\nnotions: {elastic: firm elastic 25 mm}\n"
    body += "numbers:\n  hem: 4 cm\n```\n\n{= hem } of the firm elastic 25 mm, and more for pad 50 cm; not 25 mm.\n"
    assert told_of(tmp_path, body).count("is typed by hand") == 1


def test_measures_in_title_and_summary_cannot_be_filled_in(tmp_path: Path) -> None:
    found = told_of(tmp_path, TYPED.replace(", or 4 cm", ""), summary="A hem of 4 cm.")
    assert "leave the measure out, as no value can be filled in here" in found


def test_pages_without_numbers_of_their_own_may_speak_of_any(tmp_path: Path) -> None:
    site = write(
        tmp_path, {"pages/a.md": "---\ntitle: A\n---\n\nA seam of 1 cm.\n", "posts/b.md": post("B", "Cut 2 m.")}
    )
    assert told(check_site(site, today=TODAY).found) == []


def test_posts_held_back_are_checked_on_demand(tmp_path: Path) -> None:
    site = write(tmp_path, {"posts/a.md": post("A", TYPED, day="2027-01-01")})
    assert run(site).exit_code == 0
    assert run(site, "--unpublished").exit_code == 1


def test_several_processes_find_the_same(tmp_path: Path) -> None:
    files = {f"posts/{n}.md": post("A", case.given) for n, case in enumerate(cases("check.md"))}
    site = write(tmp_path, {**AROUND, **files})
    alone, shared = (check_site(site, today=TODAY, workers=workers) for workers in (1, 2))
    assert told(shared.found) == told(alone.found)
    assert shared.pages == alone.pages


def test_a_folder_that_is_no_site_is_told(tmp_path: Path) -> None:
    result = run(tmp_path / "nowhere")
    assert result.exit_code == 1
    assert "there is no such folder" in result.stdout


def test_the_demo_has_nothing_to_mend() -> None:
    result = CliRunner().invoke(main, ["check", str(shipped("content_example")), "--unpublished"])
    assert result.stdout.splitlines()[-1].endswith(": nothing to mend.")
    assert result.exit_code == 0


def test_a_new_site_has_nothing_to_mend(tmp_path: Path) -> None:
    assert CliRunner().invoke(main, ["new", str(tmp_path / "w")]).exit_code == 0
    assert told(check_site(tmp_path / "w", today=TODAY).found) == []
