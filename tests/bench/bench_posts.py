"""How long posts take: one, a thousand, two thousand. Run by hand: ``python tests/bench/bench_posts.py``.

The post has four blocks besides its project, in eight sizes. Figures are printed as they are and as ratios within
the run, since machines differ. Aims: one post 5 ms warm, 1,000 posts 4 s on two cores, growth at most 2.2.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from datetime import date
from pathlib import Path
from statistics import median

from chalkfold.diagnostics import Faults, Source
from chalkfold.post import build_post, parser
from chalkfold.site.build import build_site
from chalkfold.trade import Shelf

CHART = """title: House chart
unit: cm
sizes: [XS, S, M, L, XL, 2XL, 3XL, 4XL]
measures:
  waist girth: {how: where the belt settles, values: [64, 68, 74, 82, 92, 102, 114, 126]}
  hip girth: {how: at the fullest part, values: [88, 92, 98, 106, 114, 124, 134, 144]}
"""
POST = """---
title: Gathered skirt NUMBER
date: 2026-03-01
tags: [skirt]
summary: Two rectangles.
---

```project
sizes: house chart
sample size: M
numbers:
  waist edge: max(hip girth, waist girth) + 4 cm
  skirt length: {M: 60 cm, step: 1 cm}
  fullness: 1.5
finished:
  length: skirt length
  waist: total top of skirt
```

Cut the skirt {= waist edge } wide. Its length is {= skirt length }, and the hem is {= total bottom of skirt } round.

```cut-list
pieces:
  - piece: skirt
    rectangle: {across: fullness * waist edge / 2, down: skirt length}
    allowances: {all: 1 cm, bottom: 3 cm}
    cut: 2 in main
  - piece: band
    rectangle: {across: waist edge, down: 8 cm}
    allowances: {all: 1 cm}
    cut: 1 in main
```

Some words about sewing, with *emphasis* and a [link](https://example.org/).

```spacing
name: tassels
along: total bottom of skirt
in the round: yes
every: nearest 8 cm
```

```materials
items:
  - item: elastic
    length: waist girth
  - item: stranded cotton
    each: 60 cm
    count: count of tassels
    sold in: 8 m skeins
```

```checks
must hold:
  - total top of skirt = fullness * waist edge
```
"""


def site_of(posts: int, folder: Path) -> Path:
    for room in ("posts", "sizes"):
        (folder / room).mkdir(parents=True)
    (folder / "chalkfold.yml").write_text("title: Tidewater Mending Room\n", encoding="utf-8")
    (folder / "sizes" / "house chart.yml").write_text(CHART, encoding="utf-8")
    for number in range(posts):
        text = POST.replace("NUMBER", str(number)).replace("60 cm, step", f"{50 + number % 30} cm, step")
        (folder / "posts" / f"skirt-{number}.md").write_text(text, encoding="utf-8")
    return folder


def one_post() -> float:
    with tempfile.TemporaryDirectory() as folder:
        shelf = Shelf.open(site_of(1, Path(folder) / "site"), Faults())
        source = Source("posts/skirt-0.md", POST)
        times = []
        for _ in range(40):
            start = time.perf_counter()
            built = build_post(source, shelf)
            times.append(time.perf_counter() - start)
        assert not len(built.faults)
        start = time.perf_counter()
        for _ in range(40):
            parser().parse(POST)
        markdown = (time.perf_counter() - start) * 25
        print(f"one post, warm: {median(times[5:]) * 1000:.1f} ms, of which Markdown {markdown:.1f} ms")
        return median(times[5:])


def many_posts(posts: int) -> float:
    with tempfile.TemporaryDirectory() as folder:
        site = site_of(posts, Path(folder) / "site")
        start = time.perf_counter()
        report = build_site(site, Path(folder) / "out", today=date(2026, 11, 1))
        seconds = time.perf_counter() - start
        assert not len(report.faults), list(report.faults)[:1]
        print(f"{posts} posts: {seconds:.2f} s, {seconds / posts * 1000:.2f} ms each")
        return seconds


def started(*arguments: str, times: int = 5) -> float:
    """The median time of a whole command, in seconds."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        subprocess.run([sys.executable, *arguments], check=True, capture_output=True)
        taken.append(time.perf_counter() - start)
    return median(taken)


if __name__ == "__main__":
    one = one_post()
    thousand, two_thousand = many_posts(1000), many_posts(2000)
    print(f"growth from 1,000 to 2,000: {two_thousand / thousand:.2f} times")
    print(f"1,000 posts against 1,000 times one warm post: {thousand / (1000 * one):.2f}")
    bare = started("-c", "pass")
    print(f"python alone: {bare:.3f} s; chalkfold --help: {started('-m', 'chalkfold', '--help'):.3f} s")
