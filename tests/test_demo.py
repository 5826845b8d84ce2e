"""The demo site as a reader and a maintainer meet it."""

from __future__ import annotations

import re
import shutil
from datetime import date
from pathlib import Path

import html5lib
import pytest
from lxml import html

from chalkfold.diagnostics import Faults
from chalkfold.shipped import shipped
from chalkfold.site.build import build_site
from chalkfold.trade import Shelf
from post_help import worked

TODAY = date(2026, 11, 1)
DEMO = shipped("content_example")

pytestmark = pytest.mark.timeout(60)  # whole sites with all their pictures


def built(site: Path, out: Path) -> dict[str, bytes]:
    report = build_site(site, out, today=TODAY)
    assert list(report.faults) == []
    return {path.relative_to(out).as_posix(): path.read_bytes() for path in sorted(out.rglob("*")) if path.is_file()}


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    folder = tmp_path_factory.mktemp("demo")
    return built(shutil.copytree(DEMO, folder / "site"), folder / "out")


def test_it_builds_to_the_same_bytes_again(pages: dict[str, bytes], tmp_path: Path) -> None:
    assert built(shutil.copytree(DEMO, tmp_path / "other name"), tmp_path / "out") == pages


def test_every_page_is_valid_and_has_each_id_once(pages: dict[str, bytes]) -> None:
    for name, content in pages.items():
        if name.endswith(".html"):
            html5lib.HTMLParser(strict=True).parse(content.decode())
            ids = html.fromstring(content).xpath("//@id")
            assert len(ids) == len(set(ids)), name


def test_no_heading_skips_a_level(pages: dict[str, bytes]) -> None:
    for name, content in pages.items():
        if name.endswith(".html"):
            found = html.fromstring(content).xpath("//h1 | //h2 | //h3 | //h4 | //h5 | //h6")
            levels = [int(heading.tag[1:]) for heading in found]
            assert levels[:1] == [1] and levels.count(1) == 1, name
            for before, level, heading in zip(levels, levels[1:], found[1:], strict=False):
                assert level <= before + 1, (name, heading.text_content())


def test_no_value_is_left_over_in_a_tutorial(pages: dict[str, bytes]) -> None:
    for name, content in pages.items():
        if name.startswith("posts/"):
            tree = html.fromstring(content)
            for code in tree.xpath("//code | //pre"):
                code.drop_tree()
            assert "{= " not in html.tostring(tree, encoding="unicode"), name


def test_every_link_inside_the_site_leads_somewhere(pages: dict[str, bytes]) -> None:
    for name, content in pages.items():
        if not name.endswith(".html") or name == "404.html":
            continue
        for link in html.fromstring(content).xpath("//@href | //@src"):
            target = str(link).partition("#")[0]
            if target and not re.match(r"[a-z]+:", target):
                path = (Path("/") / name).parent / target
                assert Path(*path.parts[1:]).as_posix().replace("//", "/") in normal(pages), (name, target)


def normal(pages: dict[str, bytes]) -> set[str]:
    """Every page under every way to write its path from one of the folders of the site."""
    ways = set(pages)
    for folder in {str(Path(name).parent) for name in pages} - {"."}:
        ways |= {f"{folder}/../{name}" for name in pages}
    return ways


def test_nothing_is_fetched_from_elsewhere(pages: dict[str, bytes]) -> None:
    for name, content in pages.items():
        if name.endswith((".html", ".css", ".js")):
            content = content.replace(b'<link rel="canonical" href="https://tidewater.example/', b"")
            assert not re.search(rb'(?:src|href)="https?:|url\(["\']?https?:|@import', content), name


def test_it_uses_at_least_twelve_of_the_shipped_books() -> None:
    """Not only listed: some number of the book is worked out."""
    shelf, used = Shelf.open(DEMO, Faults()), set()
    for page in (DEMO / "posts").glob("*.md"):
        steps = worked(page.read_text("utf-8"), shelf).plan.steps.values()
        used |= {step.origin.where.removeprefix("book ") for step in steps}
    assert len(used & set(Shelf().names("book"))) >= 12


def test_a_formula_mended_in_a_book_changes_the_pages_that_use_it_and_no_other_byte(
    pages: dict[str, bytes], tmp_path: Path
) -> None:
    site = shutil.copytree(DEMO, tmp_path / "site")
    users = {
        f"posts/{page.stem}.html"
        for page in (site / "posts").glob("*.md")
        if re.search(r"^books: .*house rules", page.read_text(encoding="utf-8"), re.M)
    }
    assert users, "some post uses the book"
    book = site / "books" / "house rules.yml"
    text = book.read_text(encoding="utf-8")
    assert "room to pull on:\n    is: 4 cm" in text
    book.write_text(text.replace("is: 4 cm", "is: 4.5 cm"), encoding="utf-8")
    after = built(site, tmp_path / "out")
    changed = {name for name in pages if after[name] != pages[name]}
    pictures = {name for name in changed if name.startswith(tuple(f"pictures/{Path(user).stem}-" for user in users))}
    assert pictures, "its drawings changed with it"
    assert changed - pictures == users
    assert after.keys() == pages.keys()
