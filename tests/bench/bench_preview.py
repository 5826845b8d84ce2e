"""How long from a save until a browser shows it. Run by hand: ``python tests/bench/bench_preview.py``.

Once on a site of 1,000 posts, four blocks in eight sizes, and once on the demo. Aim: 150 ms, the median of 20. The
clock runs from before the file is written until the new number stands in the page in Chromium; beside it, until a
program that waits like a browser has the new page.
"""

from __future__ import annotations

import re
import shutil
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from urllib.request import urlopen

from bench_posts import site_of

sys.path.insert(0, str(Path(__file__).parents[1]))
from chalkfold.shipped import shipped
from preview_help import browser_page, chromium, previewed

TIMES = 20
SEEN = "number => document.readyState !== 'loading' && document.querySelector('main').textContent.includes(number)"


@dataclass
class Bench:
    """A post with a number that grows with every save, and a sentence that shows 70 times as much."""

    post: Path
    name: str
    old: str

    def __post_init__(self) -> None:
        text = self.post.read_text("utf-8")
        assert self.old in text
        self._text, self._saved = f"{text}\nFor a test: {{= 70 * {self.name} }} long.\n", 0

    def save(self) -> str:
        """Save the post with another number, and return how the sentence shows it."""
        self._saved += 1
        number = f"{4 + self._saved / 10:g} cm"
        self.post.write_text(self._text.replace(self.old, f"{self.name}: {number}"), "utf-8")
        return f"{280 + 7 * self._saved}\N{NO-BREAK SPACE}cm"


def in_a_browser(at: str, program: str, bench: Bench) -> list[float]:
    taken = []
    with browser_page(program) as page:
        page.goto(at)
        for _ in range(TIMES):
            time.sleep(0.6)
            start = time.perf_counter()
            shown = bench.save()
            page.wait_for_function(SEEN, arg=shown, polling="raf")
            taken.append(time.perf_counter() - start)
    return taken


def in_a_program(at: str, bench: Bench) -> list[float]:
    taken = []
    for _ in range(TIMES):
        (page, sign), *_ = re.findall(r'data-page="([^"]*)" data-sign="([^"]*)"', read(at))
        with urlopen(f"{at[: at.index('/', 8)]}/-preview/changes?page={page}&sign={sign}") as line:
            time.sleep(0.6)
            start = time.perf_counter()
            shown = bench.save()
            while not line.readline().startswith(b"data:"):
                pass
            html = read(at)
            taken.append(time.perf_counter() - start)
            assert shown in html
    return taken


def read(address: str) -> str:
    with urlopen(address) as answer:
        return str(answer.read().decode())


def measure(what: str, site: Path, name: str, old: str, post: str) -> None:
    bench = Bench(site / f"posts/{post}.md", name, old)
    with previewed(site) as running:
        at = f"{running.address()}posts/{post}.html"
        start = time.perf_counter()
        running.hears("nothing to mend", 180)
        print(f"{what}: all looked through {time.perf_counter() - start:.1f} s after the start")
        told(f"{what}, a program", in_a_program(at, bench))
        program = chromium()
        if program is None:
            print("No Chromium here, so nothing is told of a browser.")
        else:
            told(f"{what}, Chromium", in_a_browser(at, program, bench))


def told(what: str, taken: list[float]) -> None:
    print(f"{what}: median {median(taken) * 1000:.0f} ms, slowest {max(taken) * 1000:.0f} ms of {len(taken)}")


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        many, demo = site_of(1000, Path(folder) / "many"), Path(folder) / "demo"
        for post in (many / "posts").glob("*.md"):
            post.write_text(post.read_text("utf-8").replace("numbers:\n", "numbers:\n  turn: 3 cm\n"), "utf-8")
        measure("1,000 posts", many, "turn", "turn: 3 cm", "skirt-500")
        shutil.copytree(shipped("content_example"), demo, ignore=shutil.ignore_patterns("public", ".*"))
        measure("the demo, fringed apron", demo, "tie width", "tie width: 3 cm", "fringed-apron")


if __name__ == "__main__":
    main()
