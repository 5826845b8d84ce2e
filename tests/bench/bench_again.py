"""How long a build takes that has little to make again. Run by hand: ``python tests/bench/bench_again.py``.

A site of 1,000 posts, four blocks in eight sizes, as commands from start to end. Aims: nothing changed 0.4 s, one post
changed 0.5 s, a book mended that ten posts use 0.8 s. The time of the processors is told besides, as it tells more of
the program where a machine has other things to do.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from statistics import median

from bench_posts import site_of

BOOK = "numbers:\n  room to sit: {is: NUMBER cm, source: common practice}\n"
ENVIRONMENT = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
"""An installed copy has its modules compiled, and so have these after the first build."""
FIRST = date(2022, 1, 1)


def dated(site: Path) -> None:
    """A post a day, as every date is written out by itself."""
    for number, post in enumerate(sorted((site / "posts").glob("*.md"))):
        day = (FIRST + timedelta(number)).isoformat()
        post.write_text(post.read_text("utf-8").replace("date: 2026-03-01", f"date: {day}"), "utf-8")


def used_by_ten(site: Path) -> None:
    (site / "books").mkdir()
    for post in sorted((site / "posts").glob("*.md"))[:10]:
        text = post.read_text("utf-8").replace("sample size: M\n", "sample size: M\nbooks: [room]\n")
        post.write_text(text.replace("+ 4 cm", "+ room to sit"), "utf-8")


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        site = site_of(1000, Path(folder) / "site")
        dated(site)
        used_by_ten(site)
        post = site / "posts/skirt-500.md"
        text, count = post.read_text("utf-8"), iter(range(5, 100))

        def one() -> None:
            post.write_text(text.replace("fullness: 1.5", f"fullness: 1.{next(count)}"), "utf-8")

        def book() -> None:
            (site / "books/room.yml").write_text(BOOK.replace("NUMBER", str(next(count))), "utf-8")

        book()
        print("all made: {:.2f} s".format(*build(site)))
        cases: dict[str, Callable[[], None]] = {"nothing": lambda: None, "one post": one, "a book of ten": book}
        for what, change in cases.items():
            times = []
            for _ in range(9):
                change()
                times.append(build(site))
            whole, processors = zip(*times, strict=True)
            print(
                f"{what} changed: {median(whole):.2f} s, at best {min(whole):.2f};"
                f" processors {median(processors):.2f} s, at best {min(processors):.2f}"
            )


def build(site: Path) -> tuple[float, float]:
    """Seconds from start to end, and those of the processors."""
    before, began = os.times(), time.perf_counter()
    command = [sys.executable, "-m", "chalkfold", "build", str(site), "--date", "2026-11-01"]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env=ENVIRONMENT)
    whole, after = time.perf_counter() - began, os.times()
    return whole, sum(after[2:4]) - sum(before[2:4])


if __name__ == "__main__":
    main()
