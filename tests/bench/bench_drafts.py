"""How long drawings take: two drafts and two more blocks in eight sizes, cold and warm. Run by hand.

Aim: 8 ms warm a post. Laying out labels is by far the most of it; equal drawings are laid out once a process.
"""

from __future__ import annotations

import tempfile
import time
from pathlib import Path
from statistics import median

from bench_posts import site_of  # beside this file

from chalkfold.diagnostics import Faults, Source
from chalkfold.post import build_post, work_post
from chalkfold.trade import Shelf

POST = """```project
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


def timed(number: int, shelf: Shelf) -> tuple[float, float]:
    """Milliseconds to work the post out, and to build it."""
    source = Source("posts/skirt.md", POST.replace("NUMBER", str(number)))
    start = time.perf_counter()
    faults = Faults()
    work_post(source, shelf, faults)
    middle = time.perf_counter()
    assert not len(faults) and not len(build_post(source, shelf).faults)
    return (middle - start) * 1000, (time.perf_counter() - middle) * 1000


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        shelf = Shelf.open(site_of(1, Path(folder) / "site"), Faults())
        timed(3, shelf)
        cold = [timed(number, shelf) for number in range(4, 9)]
        warm = [timed(8, shelf) for _ in range(5)]
    print(f"worked out: {median(work for work, _ in cold):.1f} ms")
    print(f"built, every drawing new: {median(build for _, build in cold):.0f} ms")
    print(f"built, drawings as before: {median(build for _, build in warm):.1f} ms")
