"""How long a build takes that has little to make again. Run by hand: ``python tests/bench/bench_again.py``.

A site of 1,000 posts, four blocks in eight sizes, as commands from start to end. Aims: nothing changed 0.4 s, one post
changed 0.5 s, a book mended that ten posts use 0.8 s.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path
from statistics import median

from bench_posts import site_of, started

BOOK = "numbers:\n  room to sit: {is: NUMBER cm, source: common practice}\n"


def used_by_ten(site: Path) -> None:
    (site / "books").mkdir()
    for post in sorted((site / "posts").glob("*.md"))[:10]:
        text = post.read_text("utf-8").replace("sample size: M\n", "sample size: M\nbooks: [room]\n")
        post.write_text(text.replace("+ 4 cm", "+ room to sit"), "utf-8")


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        site = site_of(1000, Path(folder) / "site")
        used_by_ten(site)
        post = site / "posts/skirt-500.md"
        text, count = post.read_text("utf-8"), iter(range(5, 100))

        def one() -> None:
            post.write_text(text.replace("fullness: 1.5", f"fullness: 1.{next(count)}"), "utf-8")

        def book() -> None:
            (site / "books/room.yml").write_text(BOOK.replace("NUMBER", str(next(count))), "utf-8")

        book()
        print(f"all made: {build(site):.2f} s")
        cases: dict[str, Callable[[], None]] = {"nothing": lambda: None, "one post": one, "a book of ten": book}
        for what, change in cases.items():
            times = []
            for _ in range(7):
                change()
                times.append(build(site))
            print(f"{what} changed: {median(times):.2f} s")


def build(site: Path) -> float:
    return started("-m", "chalkfold", "build", str(site), "--date", "2026-11-01", times=1)


if __name__ == "__main__":
    main()
