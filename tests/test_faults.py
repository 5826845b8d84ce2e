"""Every fault there is: produced by a post or a site, told once, at its place, with a hint."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner
from filelock import FileLock

from chalkfold.cli import main
from chalkfold.diagnostics import Code, Fault, Faults, as_data, as_text
from chalkfold.diagnostics.catalogue import Explained, catalogue
from chalkfold.post import build_post
from chalkfold.reading import read_text
from faults_help import assert_well_told, faults_of, shelf_of
from site_help import build, page, post, told, tree, write
from spec_cases import SPEC, Case, cases

PAGES = sorted(path.name for path in SPEC.glob("faults_*.md"))
CASES = [pytest.param(case, id=f"{name} {case}") for name in PAGES for case in cases(name)]
CODES_FILE = Path(__file__).parent.parent / "plugin/chalkfold/diagnostics/codes.yml"


def printed(faults: list[Fault]) -> str:
    return "".join(f"{as_text(fault)}\n" for fault in faults)


class TestWords:
    """The pages of cases: each word of each message."""

    @pytest.mark.parametrize("case", CASES)
    def test_a_slip_is_told_in_these_words(self, case: Case) -> None:
        assert printed(faults_of(case.given, shelf_of(SPEC / "faults_workroom"))) == case.expected

    @pytest.mark.parametrize("case", CASES[::9])
    def test_a_file_with_other_line_ends_gives_the_same_places(self, case: Case, tmp_path: Path) -> None:
        file = tmp_path / "post.md"
        file.write_bytes(b"\xef\xbb\xbf" + case.given.replace("\n", "\r\n").encode())
        source = read_text(file, "post.md", Faults())
        assert source is not None
        built = build_post(source, shelf_of(SPEC / "faults_workroom"))
        assert printed(list(built.faults)) == case.expected

    def test_front_matter_moves_every_place_down_by_its_lines(self) -> None:
        text = "```project\nnumbers:\n  hem: 2 cm +\n```\n\n{= hme }\n"
        alone = [as_data(fault) for fault in faults_of(text)]
        below = [as_data(fault) for fault in faults_of(f"---\ntitle: Apron\ndate: 2026-04-11\n---\n{text}")]
        assert len(alone) == 2
        assert [{**fault, "line": fault["line"]} for fault in below] == [
            {**fault, "line": int(str(fault["line"])) + 4} for fault in alone
        ]


WITH_POST = [pytest.param(each, id=each.code) for each in catalogue() if each.post]
WITHOUT_POST = {each.code for each in catalogue() if not each.post}


class TestCatalogue:
    """``codes.yml``: what the guide says of every code is true."""

    def test_it_lists_each_code_once_and_none_besides(self) -> None:
        listed = yaml.safe_load(CODES_FILE.read_text("utf-8"))
        assert list(listed) == [str(code) for code in Code]
        assert all(set(entry) <= {"meaning", "post"} for entry in listed.values())

    @pytest.mark.parametrize("entry", catalogue(), ids=lambda entry: entry.code)
    def test_the_meaning_is_a_sentence_or_two(self, entry: Explained) -> None:
        assert re.fullmatch(r"[A-Z].{20,240}\.", entry.meaning)

    @pytest.mark.parametrize("entry", WITH_POST)
    def test_the_post_has_just_that_fault(self, entry: Explained) -> None:
        (fault,) = faults_of(entry.post)
        assert fault.code is entry.code
        assert_well_told(fault)


BOOK = "title: A\nexpects:\n  width: {kind: length}\nnumbers:\n  play: 5 mm\n  depth: width + play\n"
NUMBERS = "```project\nbooks: [one, two]\nnumbers:\n  width: 2 cm\n  edge: play\n```\n"
LONG = "```project\nnumbers:\n  sum: {}\n```\n"


def nothing(_site: Path) -> None:
    pass


def link_out(site: Path) -> None:
    outside = site.parent / "outside.md"
    outside.write_text(post("Outside"))
    (site / "posts/outside.md").symlink_to(outside)


def garbage(site: Path) -> None:
    (site / "posts/photo.md").write_bytes(bytes(range(256)))


def utf_16(site: Path) -> None:
    (site / "posts/apron.md").write_bytes(post("Schürze").encode("utf-16"))


def latin_1(site: Path) -> None:
    (site / "posts/apron.md").write_bytes(post("Schürze").encode("latin-1"))


def huge(site: Path) -> None:
    (site / "posts/huge.md").write_text(post("Huge", "hem " * 600_000))


def foreign_output(site: Path) -> None:
    (site / "public").mkdir()
    (site / "public/diary.txt").write_text("mine")


Files = dict[str, str]
SITES: list[tuple[Code, Files, Callable[[Path], None], str]] = [
    (Code.FILE_NOT_TEXT, {}, garbage, "posts/photo.md:1:1: a byte that is not UTF-8 text (hex 00)"),
    (Code.FILE_NOT_TEXT, {}, utf_16, "posts/apron.md:1:1: the file is saved as UTF-16"),
    (Code.FILE_NOT_TEXT, {}, latin_1, "posts/apron.md:2:11: a byte that is not UTF-8 text (hex FC)"),
    (Code.FILE_OUTSIDE, {}, link_out, "posts/outside.md:1:1: this is a link that leads out of the site"),
    (
        Code.FILE_OUTSIDE,
        {"posts/a.md": post("A", "[a](../../diary.md)")},
        nothing,
        "posts/a.md:6:5: ../../diary.md leads out of the site's folder",
    ),
    (Code.FILE_TOO_LONG, {}, huge, "posts/huge.md:1:1: a file of more than 2 MB"),
    (Code.FILE_FRONT_MATTER, {"posts/a.md": "Text.\n"}, nothing, "posts/a.md:1:1: no front matter"),
    (
        Code.FILE_SAME_ADDRESS,
        {"posts/an apron.md": post("A"), "posts/an-apron.md": post("B")},
        nothing,
        "posts/an-apron.md:1:1: two pages would stand at posts/an-apron.html",
    ),
    (
        Code.FORMULA_TOO_LONG,
        {"posts/a.md": post("A", LONG.format(" + ".join(["2 cm"] * 300)))},
        nothing,
        "posts/a.md:8:8: a formula is at most 2,000 characters long",
    ),
    (
        Code.PLAN_TWO_BOOKS,
        {"books/one.yml": BOOK, "books/two.yml": BOOK, "posts/a.md": post("A", NUMBERS)},
        nothing,
        "posts/a.md:7:14: `play` stands in `one` and `two`",
    ),
    (
        Code.PLAN_EXPECTS,
        {"books/one.yml": BOOK, "posts/a.md": post("A", "```project\nbooks: one\n```\n\n{= depth }")},
        nothing,
        "posts/a.md:7:8: the book `one` expects `width`, and the post does not give it",
    ),
    (
        Code.SITE_SETTING,
        {"chalkfold.yml": "title: T\nlanguage: tailor\n"},
        nothing,
        "chalkfold.yml:2:11: `tailor` is no language tag",
    ),
    (
        Code.SITE_THEME,
        {"chalkfold.yml": "title: T\ntheme: tulle\n"},
        nothing,
        "chalkfold.yml:2:8: there is no theme tulle",
    ),
    (
        Code.SITE_LINK,
        {"posts/a.md": post("A", "[a](b.md)")},
        nothing,
        "posts/a.md:6:5: there is no page b.md",
    ),
    (
        Code.SITE_PICTURE,
        {
            "chalkfold.yml": "title: T\naddress: https://tidewater.example\n",
            "posts/a.md": post("A", cover="a.svg"),
            "photos/a.svg": "<svg",
        },
        nothing,
        "posts/a.md:4:8: this picture cannot be drawn",
    ),
    (Code.PRINT_ORDER, {"posts/a.md": post("A", patterns="yes")}, nothing, "posts/a.md:4:11: nothing is drafted"),
    (Code.SITE_OUTPUT, {}, foreign_output, "this folder holds files that chalkfold did not write"),
]


class TestSites:
    """Faults that take more than one post; all through the command, as a writer meets them."""

    @pytest.mark.parametrize(
        ("code", "files", "change", "message"), SITES, ids=[f"{code} {message[:25]}" for code, _, _, message in SITES]
    )
    def test_a_site_has_just_that_fault(
        self, tmp_path: Path, code: Code, files: Files, change: Callable[[Path], None], message: str
    ) -> None:
        site = write(tmp_path / "site", {"posts/fine.md": post("Fine"), **files})
        change(site)
        before = tree(site)
        (fault,) = build(site).faults
        assert fault.code is code
        assert message in as_text(fault)
        assert_well_told(fault)
        run = CliRunner().invoke(main, ["build", str(site), "--date", "2026-06-01"])
        assert run.exit_code == 1
        assert message in run.stderr
        assert run.stderr.endswith("1 fault in 1 file; nothing was written.\n")
        after = {name: data for name, data in tree(site).items() if "chalkfold-lock" not in name}
        assert {name: data for name, data in after.items() if not name.startswith(".chalkfold/")} == before

    def test_a_folder_that_is_not_there(self, tmp_path: Path) -> None:
        (fault,) = build(tmp_path / "nowhere").faults
        assert fault.code is Code.FILE_MISSING
        assert_well_told(fault)

    def test_two_builds_at_once(self, tmp_path: Path) -> None:
        site = write(tmp_path, {"posts/a.md": post("A")})
        with FileLock(site / ".public.chalkfold-lock"):
            (fault,) = build(site).faults
        assert fault.code is Code.SITE_BUSY
        assert_well_told(fault)

    def test_the_command_tells_each_post_its_own_fault(self, tmp_path: Path) -> None:
        with_post = [each for each in catalogue() if each.post and each.code is not Code.FILE_FRONT_MATTER]
        write(tmp_path, {f"posts/{each.code}.md".replace(".", "-", 1): post("A", each.post) for each in with_post})
        run = CliRunner().invoke(main, ["build", str(tmp_path)])
        assert run.exit_code == 1
        assert sorted(re.findall(r"^posts/\S+ .* \[(\S+)\]$", run.stderr, re.M)) == sorted(e.code for e in with_post)
        assert run.stderr.endswith(f"{len(with_post)} faults in {len(with_post)} files; nothing was written.\n")

    def test_no_code_is_without_a_test(self) -> None:
        in_check = {code for code in Code if code.startswith("misleads.")}  # see test_check.py
        here = {code for code, _, _, _ in SITES} | {Code.FILE_MISSING, Code.SITE_BUSY, Code.PRINT_LIBRARY}
        here |= {Code.SITE_LEDGER, Code.SITE_RELEASE}  # of other commands than build: test_ledger.py
        here |= {Code.PREVIEW_FAILED}  # see test_preview.py
        here |= {Code.FILE_TWO_VERSIONS}  # of any file: test_reading_files_and_fields.py
        assert WITHOUT_POST - here - in_check == set()

    def test_all_faults_of_a_site_come_in_one_go(self, tmp_path: Path) -> None:
        files = {
            "chalkfold.yml": "title: T\nlanguage: tailor\nthem: calico\n",
            "books/hems.yml": "numbers:\n  hem: 1,5 cm\n",
            "posts/a.md": post("A", "```project\nbooks: hems\nnumbers:\n  top: hem + zebra\n```\n\n[b](c.md)"),
            "posts/b.md": post("B", "```spacing\nname: loops\nalong: 40 cm\nevery: 5 cm\n```", day="soon"),
            "pages/c.md": page("C", "{= zebra }"),
        }
        site = write(tmp_path, files)
        garbage(site)
        assert told(build(site).faults) == [
            "books/hems.yml:2:8: ‘1,5’ has a comma inside the number [amount.decimal-comma]",
            "chalkfold.yml:2:11: `tailor` is no language tag [site.setting]",
            "chalkfold.yml:3:1: the site file has no key `them` [data.unknown-key]",
            "pages/c.md:5:4: nothing here is called `zebra` [plan.unknown-name]",
            "posts/a.md:9:14: nothing here is called `zebra` [plan.unknown-name]",
            "posts/a.md:12:5: there is no page c.md [site.link]",
            "posts/b.md:3:7: `date` is not a date [data.wrong-shape]",
            "posts/b.md:9:8: `every:` does not say how near to keep to it [block.spacing]",
            "posts/photo.md:1:1: a byte that is not UTF-8 text (hex 00) [file.not-text]",
        ]
