"""How long drawings take: ``python tests/bench/bench_drafts.py``. Run by hand.

The post has two drafts and two more blocks in eight sizes: sixteen drawings and two nests. Figures are printed as they
are and as ratios within the run, since machines differ. Aims: one post 8 ms warm, 1,000 posts 4.5 s on two cores.
"""

from __future__ import annotations

import tempfile
import time
from datetime import date
from pathlib import Path
from statistics import median

from bench_posts import CHART  # beside this file

from chalkfold.diagnostics import Faults, Source
from chalkfold.post import build_post, work_post
from chalkfold.site.build import build_site
from chalkfold.trade import Shelf

POST = """---
title: Skirt NUMBER
date: 2026-03-01
---

```project
sizes: house chart
sample size: M
numbers:
  waist edge: max(hip girth, waist girth) + NUMBER cm
  skirt length: {M: 60 cm, step: 1 cm}
  waist radius: waist edge / pi
```

```draft
piece: skirt
cut: 1 on fold in main
points:
  centre: here
  waist at fold: {from: centre, across: waist radius}
  waist at back: {from: centre, down: waist radius}
  hem at fold: {from: centre, across: waist radius + skirt length}
  hem at back: {from: centre, down: waist radius + skirt length}
outline:
  start: waist at fold
  waist: arc to waist at back around centre
  back: line to hem at back
  hem: arc to hem at fold around centre
  fold: line to waist at fold
on fold: fold
allowances: {waist: 1 cm, back: 1.5 cm, hem: 1 cm}
marks:
  - notch on back at 20 cm from waist at back
```

```draft
piece: band
cut: 1 in main
rectangle: {across: waist edge, down: 8 cm}
allowances: {all: 1 cm}
```

```cut-list
```

```checks
must hold:
  - total waist of skirt = waist edge
```
"""


def site_of(posts: int, folder: Path) -> Path:
    """A site of posts that differ in their measures, and so in every drawing."""
    for room in ("posts", "sizes"):
        (folder / room).mkdir(parents=True)
    (folder / "chalkfold.yml").write_text("title: Tidewater Mending Room\n", encoding="utf-8")
    (folder / "sizes" / "house chart.yml").write_text(CHART, encoding="utf-8")
    for number in range(posts):
        (folder / "posts" / f"skirt-{number}.md").write_text(post(number), encoding="utf-8")
    return folder


def post(number: int) -> str:
    return POST.replace("NUMBER", f"{3 + number / 100:.2f}")


def built(number: int, shelf: Shelf) -> tuple[float, float]:
    """Milliseconds to work the post out, and to build it, which does that too."""
    source = Source("posts/skirt.md", post(number))
    start = time.perf_counter()
    work_post(source, shelf, Faults())
    middle = time.perf_counter()
    found = build_post(source, shelf)
    end = time.perf_counter()
    assert not len(found.faults), list(found.faults)
    return (middle - start) * 1000, (end - middle) * 1000


def one_post() -> float:
    """Milliseconds of a post whose drawings are new."""
    with tempfile.TemporaryDirectory() as folder:
        shelf = Shelf.open(site_of(1, Path(folder) / "site"), Faults())
        _, cold = built(0, shelf)
        warm = [built(40 * number, shelf) for number in range(1, 26)]
        worked, new = (median(each) for each in zip(*warm, strict=True))
        same = median(built(1000, shelf)[1] for _ in range(10))
    print(f"the first post of a process: {cold:.0f} ms")
    print(f"one post, warm, every drawing new: {new:.1f} ms, of which working it out {worked:.1f} ms")
    print(f"one post, warm, drawings as before: {same:.1f} ms")
    print(f"new drawings against those as before: {new / same:.2f} times")
    return new


def many_posts(posts: int) -> float:
    """Milliseconds a post, in as many processes as there are cores."""
    with tempfile.TemporaryDirectory() as folder:
        site = site_of(posts, Path(folder) / "site")
        start = time.perf_counter()
        report = build_site(site, Path(folder) / "out", today=date(2026, 11, 1))
        seconds = time.perf_counter() - start
        assert not len(report.faults), list(report.faults)[:1]
    print(f"{posts} posts: {seconds:.1f} s, {seconds / posts * 1000:.1f} ms each")
    return seconds / posts * 1000


if __name__ == "__main__":
    one = one_post()
    print(f"a post among 1,000 against one warm post: {many_posts(1000) / one:.2f}")
