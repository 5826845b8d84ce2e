"""A preview as a writer runs it: in a terminal, while editors save in their ways, and with a browser beside it."""

from __future__ import annotations

import asyncio
import errno
import os
import re
import shutil
import socket
import subprocess
import sys
from collections.abc import AsyncIterator, Callable, Iterator
from pathlib import Path
from time import monotonic, sleep
from urllib.error import HTTPError
from urllib.request import urlopen

import pytest
from click.testing import CliRunner
from watchfiles import Change

from chalkfold.cli import main
from chalkfold.preview import watch
from chalkfold.preview.texts import Changed
from chalkfold.shipped import shipped
from preview_help import PATIENCE, Running, browser_page, chromium, previewed
from site_help import APRON_WITH_NUMBERS, page, post, tree, write

pytestmark = pytest.mark.timeout(120)

SIZES = """```project
sizes: [small, large]
numbers:
  width: {small: 20 cm, large: 40 cm}
```

The bag is {= width } wide.

```spacing
name: eyelets
along: width
every: nearest 5 cm
```
"""
LONG = "\n\n".join(f"Paragraph {number}." for number in range(80))


@pytest.fixture
def site(tmp_path: Path) -> Path:
    files = {
        "posts/apron.md": APRON_WITH_NUMBERS,
        "posts/bag.md": post("Bag", SIZES + LONG),
        "pages/about.md": page("Us"),
    }
    return write(tmp_path / "site", files)


@pytest.fixture
def running(site: Path) -> Iterator[Running]:
    with previewed(site) as process:
        yield process


def read(address: str) -> str:
    try:
        with urlopen(address, timeout=PATIENCE) as answer:
            return str(answer.read().decode())
    except HTTPError as error:
        with error:
            return str(error.read().decode())


def eventually(holds: Callable[[], bool]) -> None:
    until = monotonic() + PATIENCE
    while not holds():
        assert monotonic() < until, "it never came about"
        sleep(0.05)


def in_one_go(path: Path, text: str) -> None:
    path.write_text(text, "utf-8")


def by_rename(path: Path, text: str) -> None:
    """As editors do that never leave half a file."""
    new = path.with_name(f".{path.name}.swp")
    new.write_text(text, "utf-8")
    new.replace(path)


def by_backup(path: Path, text: str) -> None:
    """As editors do that keep the last version beside the new one."""
    path.rename(path.with_name(f"{path.name}~"))
    path.write_text(text, "utf-8")


def bit_by_bit(path: Path, text: str) -> None:
    with path.open("w", encoding="utf-8") as file:
        for start in range(0, len(text), 60):
            file.write(text[start : start + 60])
            file.flush()
            sleep(0.01)


class TestEdits:
    @pytest.mark.parametrize("save", [in_one_go, by_rename, by_backup, bit_by_bit])
    def test_every_way_to_save_is_noticed(
        self, site: Path, running: Running, save: Callable[[Path, str], None]
    ) -> None:
        at = running.address() + "posts/apron.html"
        assert "20\N{NO-BREAK SPACE}cm" in read(at)
        for width in (84, 88):
            save(site / "posts/apron.md", APRON_WITH_NUMBERS.replace("80 cm", f"{width} cm"))
            eventually(lambda width=width: f"{width // 4}\N{NO-BREAK SPACE}cm" in read(at))  # type: ignore[misc]

    def test_a_broken_site_file_is_told_and_outlived(self, site: Path, running: Running) -> None:
        at = running.address()
        running.hears("4 pages, nothing to mend")
        (site / "chalkfold.yml").write_text("title: [\n", "utf-8")
        running.hears(r"^chalkfold\.yml:2:1: ")
        running.hears("1 fault in 1 file; all the rest is shown")
        assert "chalkfold.yml:2:1" in read(at)
        (site / "chalkfold.yml").unlink()
        running.hears(r"^chalkfold\.yml:1:1: no such file")
        assert "20\N{NO-BREAK SPACE}cm" in read(at + "posts/apron.html")
        (site / "chalkfold.yml").write_text("title: Mended\n", "utf-8")
        running.hears("nothing to mend")
        assert ">Mended</a>" in read(at)

    def test_a_new_room_is_noticed(self, site: Path, running: Running) -> None:
        at = running.address() + "posts/apron.html"
        running.hears("nothing to mend")
        text = APRON_WITH_NUMBERS.replace("numbers:", "books: [room]\nnumbers:").replace("80 cm", "sheet")
        (site / "posts/apron.md").write_text(text, "utf-8")
        running.hears("there is no book")
        write(site, {"books/room.yml": "numbers:\n  sheet: 120 cm\n"})
        eventually(lambda: "30\N{NO-BREAK SPACE}cm" in read(at))
        write(site, {"books/room.yml": "numbers:\n  sheet: 128 cm\n"})
        eventually(lambda: "32\N{NO-BREAK SPACE}cm" in read(at))

    @pytest.mark.parametrize("gone", ["posts", "."])
    def test_a_folder_that_goes_and_comes_back(self, site: Path, running: Running, gone: str) -> None:
        at = running.address() + "posts/apron.html"
        aside = (site / gone).resolve().rename(site.parent / "aside")
        eventually(lambda: "There is no page here" in read(at))
        aside.rename((site / gone).resolve())
        eventually(lambda: "20\N{NO-BREAK SPACE}cm" in read(at))
        in_one_go(site / "posts/apron.md", APRON_WITH_NUMBERS.replace("80 cm", "84 cm"))
        eventually(lambda: "21\N{NO-BREAK SPACE}cm" in read(at))

    def test_a_deleted_room_made_anew_is_watched(self, site: Path, running: Running) -> None:
        at = running.address() + "posts/apron.html"
        shutil.rmtree(site / "posts")
        eventually(lambda: "There is no page here" in read(at))
        write(site, {"posts/apron.md": APRON_WITH_NUMBERS})
        eventually(lambda: "20\N{NO-BREAK SPACE}cm" in read(at))
        by_rename(site / "posts/apron.md", APRON_WITH_NUMBERS.replace("80 cm", "84 cm"))
        eventually(lambda: "21\N{NO-BREAK SPACE}cm" in read(at))

    def test_the_site_is_left_as_it_is(self, site: Path) -> None:
        before = tree(site)
        with previewed(site) as running:
            read(running.address() + "posts/bag.html")
            running.hears("nothing to mend")
        assert tree(site) == before
        assert sorted(path.name for path in site.parent.iterdir()) == ["site"]


def test_where_the_system_watches_no_more_folders_it_looks_at_them_itself(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    tried: list[object] = []

    async def full(*folders: Path, force_polling: bool | None, **_: object) -> AsyncIterator[set[object]]:
        tried.append(force_polling)
        if not force_polling:
            raise OSError(errno.ENOSPC, "OS file watch limit reached")
        yield {(Change.modified, str(site / "posts/apron.md")), (Change.modified, str(site / "notes.txt"))}
        yield {(Change.modified, str(site / "posts/apron.md")), (Change.modified, str(site / "notes.txt"))}

    async def first(count: int) -> list[Changed]:
        found: list[Changed] = []
        async for told in watch.changes(site):
            found.append(told)
            if len(found) == count:
                break
        return found

    monkeypatch.setattr(watch, "awatch", full)
    assert asyncio.run(first(4)) == [None, None, None, frozenset({"posts/apron.md"})]
    assert tried == [None, True]


class TestTerminal:
    def test_ctrl_c_ends_it_cleanly(self, running: Running) -> None:
        running.address()
        assert running.stop() == 0
        assert running.said[-1] == "The preview has ended."
        assert not any("Traceback" in line or "Error" in line for line in running.said)

    def test_ctrl_c_ends_it_while_a_browser_waits(self, running: Running) -> None:
        at = running.address()
        page, sign = re.findall(r'data-page="([^"]*)" data-sign="([^"]*)"', read(at))[0]
        with urlopen(f"{at}-preview/changes?page={page}&sign={sign}", timeout=PATIENCE) as line:
            assert line.readline() == b"retry: 1000\n"
            start = monotonic()
            assert running.stop() == 0
        assert monotonic() - start < 5
        assert not any("Traceback" in each or "Error" in each for each in running.said)

    def test_a_port_in_use_is_told_with_what_to_type(self, site: Path, running: Running) -> None:
        port = int(running.address().rpartition(":")[2].strip("/"))
        second = subprocess.run(
            [sys.executable, "-m", "chalkfold", "preview", str(site), "--port", str(port)],
            capture_output=True,
            text=True,
            encoding="utf-8",
            check=False,
            env={**os.environ, "PYTHONIOENCODING": "utf-8"},
        )
        assert second.returncode == 1
        assert second.stdout == ""
        told = re.fullmatch(
            rf"port {port} is taken, perhaps by a preview in another window\n"
            rf"  hint: stop the other, or type: chalkfold preview {re.escape(str(site))} --port (\d+)\n",
            second.stderr,
        )
        assert told, second.stderr
        with previewed(site, "--port", told[1]) as third:
            assert f":{told[1]}/" in third.address()

    def test_it_listens_on_this_computer_alone(self, running: Running) -> None:
        port = int(running.address().rpartition(":")[2].strip("/"))
        others = {info[4][0] for info in socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)} - {"127.0.0.1"}
        for other in others:
            with pytest.raises(OSError), socket.create_connection((str(other), port), timeout=2):
                pass
        with socket.create_connection(("127.0.0.1", port), timeout=2):
            pass

    def test_a_folder_that_is_no_site(self, tmp_path: Path) -> None:
        result = CliRunner().invoke(main, ["preview", str(tmp_path)])
        assert result.exit_code == 1
        assert "this folder holds no chalkfold.yml" in result.stderr

    def test_a_port_that_is_none(self, tmp_path: Path) -> None:
        result = CliRunner().invoke(main, ["preview", str(tmp_path), "--port", "70000"])
        assert result.exit_code == 2
        assert "0<=x<=65535" in result.stderr


@pytest.fixture(scope="module")
def browser() -> str:
    found = chromium()
    if found is None:
        pytest.skip(
            "no Chromium on this computer, so no browser looks at the preview; install chromium to have it tested"
        )
    return found


class TestBrowser:
    def test_a_save_shows_by_itself_and_all_else_stays(self, site: Path, running: Running, browser: str) -> None:
        with browser_page(browser) as page:
            page.goto(running.address() + "posts/bag.html")
            page.locator("fieldset.sizes label", has_text="large").click()
            page.evaluate("scrollTo(0, 900)")
            page.evaluate("window.mine = true")
            in_one_go(site / "posts/bag.md", post("Bag", SIZES.replace("large: 40 cm", "large: 46 cm") + LONG))
            page.wait_for_function("document.querySelector('main').innerText.includes('46\\u00a0cm')")
            assert page.evaluate("scrollY") == 900
            assert page.locator("fieldset.sizes input:checked").get_attribute("value") == "large"
            assert page.evaluate("window.mine"), "the page was not loaded again"
            page.locator("fieldset.sizes label", has_text="small").click()
            page.reload()
            assert page.locator("fieldset.sizes input:checked").get_attribute("value") == "small", "calico remembers"

    def test_a_fault_shows_in_its_place_and_goes(self, site: Path, running: Running, browser: str) -> None:
        with browser_page(browser) as page:
            page.goto(running.address() + "posts/bag.html")
            in_one_go(site / "posts/bag.md", post("Bag", SIZES.replace("along: width", "along: widht") + LONG))
            box = page.locator("main pre.fault")
            box.wait_for()
            assert "did you mean `width`?" in box.inner_text()
            assert "20\N{NO-BREAK SPACE}cm" in page.locator("main").inner_text()
            in_one_go(site / "posts/bag.md", post("Bag", SIZES + LONG))
            box.wait_for(state="detached")

    def test_another_style_loads_the_page_again_where_it_was(self, site: Path, running: Running, browser: str) -> None:
        with browser_page(browser) as page:
            page.goto(running.address() + "posts/bag.html")
            page.locator("fieldset.sizes label", has_text="large").click()
            page.evaluate("scrollTo(0, 700)")
            styles = (shipped("themes") / "calico/static/sizes.css").read_text("utf-8")
            write(site, {"themes/calico/static/sizes.css": styles + "main { color: rgb(1, 2, 3) }\n"})
            page.wait_for_function("getComputedStyle(document.querySelector('main')).color === 'rgb(1, 2, 3)'")
            page.wait_for_function("scrollY === 700")
            assert page.locator("fieldset.sizes input:checked").get_attribute("value") == "large"

    def test_without_scripts_a_reload_shows_it(self, site: Path, running: Running, browser: str) -> None:
        with browser_page(browser, scripts=False) as page:
            page.goto(running.address() + "posts/apron.html")
            in_one_go(site / "posts/apron.md", APRON_WITH_NUMBERS.replace("80 cm", "84 cm"))
            eventually(lambda: "21\N{NO-BREAK SPACE}cm" in read(page.url))
            page.reload()
            assert "21\N{NO-BREAK SPACE}cm" in page.locator("main").inner_text()
