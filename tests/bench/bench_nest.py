"""How long a draft of ten edges in eight sizes takes to work out and to nest: ``python tests/bench/bench_nest.py``.

Run by hand. Figures are printed as they are and as ratios within the run, since machines differ. Aim: 2 ms warm.
"""

from __future__ import annotations

import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

from bench_drafts import site_of  # beside this file

from chalkfold.diagnostics import Faults, Source
from chalkfold.draw.nest import Nested, nested
from chalkfold.post import work_post
from chalkfold.trade import Shelf

POST = """---
title: Ten edges
date: 2026-03-01
---

```project
sizes: house chart
sample size: M
numbers:
  width: hip girth / 4 + NUMBER cm
  long: {M: 60 cm, step: 1 cm}
```

```draft
piece: front
cut: 1 on fold in main
points:
  top: here
  neck at fold: {from: top, down: 8 cm}
  neck: {from: top, across: 7 cm}
  tip: {from: neck, across: width / 2, down: 3 cm}
  chest: {from: tip, across: -1 cm, down: 8 cm}
  underarm: {from: top, across: width, down: 20 cm}
  waist: {from: underarm, across: -2 cm, down: 18 cm}
  hip: {from: underarm, down: 38 cm}
  hem at side: {from: hip, down: long - 40 cm}
  corner: {from: hem at side, across: -3 cm, down: 1 cm}
  hem at fold: {square down from: top, square across from: corner}
outline:
  start: neck at fold
  neckline: curve to neck leaving across arriving up
  shoulder: line to tip
  upper armhole: line to chest
  lower armhole: curve to underarm leaving down arriving across
  upper side: line to waist
  lower side: curve to hip leaving down arriving down
  straight side: line to hem at side
  corner: line to corner
  hem: line to hem at fold
  fold: line to neck at fold
on fold: fold
allowances: {all: 1 cm}
```
"""


def timed(of: Callable[[int], object], times: int = 25) -> float:
    """Median milliseconds."""
    found = []
    for number in range(times):
        start = time.perf_counter()
        of(number)
        found.append((time.perf_counter() - start) * 1000)
    return median(found)


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        shelf = Shelf.open(site_of(1, Path(folder) / "site"), Faults())

        def work(number: int) -> object:
            source = Source("posts/front.md", POST.replace("NUMBER", f"{1 + number / 100:.2f}"))
            return work_post(source, shelf, Faults())

        found = work_post(Source("posts/front.md", POST.replace("NUMBER", "1")), shelf, Faults())
        row = found.values.row("cutting line of front")
        outlines = [tuple(segment for edge in outline for segment in edge) for outline in row]  # type: ignore[union-attr]

        def nest(number: int) -> object:
            return nested([Nested(f"{number} {size}", outline, (size,)) for size, outline in enumerate(outlines)])

        worked, drawn = timed(work), timed(nest)
    print(f"worked out, read and planned, ten edges in eight sizes: {worked:.1f} ms")
    print(f"nested with labels: {drawn:.1f} ms")
    print(f"the nest against working out: {drawn / worked:.2f} times")


if __name__ == "__main__":
    main()
