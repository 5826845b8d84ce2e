"""Posts to print, and a look at printed pages as a reader's scanner would see them (pdftoppm, of poppler)."""

from __future__ import annotations

import subprocess
from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image

from chalkfold.diagnostics import Faults, Source
from chalkfold.paper.job import Bill, Order
from chalkfold.paper.papers import PAPERS, paper_of
from chalkfold.paper.pieces import Piece
from chalkfold.post import work_post
from chalkfold.raster import Renderer
from chalkfold.site.printing import bill_of, pattern_pdf
from chalkfold.trade import Shelf
from site_help import post

Pixels = Any  # an array of shades, row by row

DOTS = 254
"""Dots to the inch: ten to the millimetre."""

BAG = post(
    "A bag from a tablecloth",
    """```project
sizes: [small, large]
sample size: small
numbers:
  depth: {small: 30 cm, large: 38 cm}
```

```draft
piece: bag side
cut: 2 in main
points:
  top left: here
  top right: {from: top left, across: 24 cm}
  foot right: {from: top right, down: depth}
  foot left: {from: top left, down: depth}
outline:
  start: top left
  top: line to top right
  right: line to foot right
  lower edge: arc to foot left with radius 20 cm bulging down
  left: line to top left
allowances: {all: 1 cm, top: 3 cm}
marks:
  - notch on right at 12 cm from top right
  - double notch on left at 12 cm from top left
  - drill at foot left
  - line tuck from top left to foot right stitched
```

```draft
piece: half moon
cut: 1 on fold in main
points:
  centre: here
  corner: {from: centre, across: 9 cm}
  tip: {from: centre, down: 9 cm}
outline:
  start: centre
  opening: line to corner
  curve: arc to tip around centre
  fold: line to centre
on fold: fold
allowances: {opening: 2 cm, curve: 1 cm}
```

```cut-list
pieces:
  - piece: strap
    rectangle: {across: 60 cm, down: 6 cm}
    allowances: {all: 1 cm}
    cut: 2 in main
```
""",
)


RING = """```draft
piece: ring
cut: 1 in main
points:
  centre: here
  inner: {from: centre, across: 50 cm}
  outer: {from: centre, across: 100 cm}
  far: {from: centre, down: 100 cm}
  near: {from: centre, down: 50 cm}
outline:
  start: inner
  side: line to outer
  hem: arc to far around centre
  end: line to near
  waist: arc to inner around centre
allowances: none
```
"""


def bill(text: str = BAG) -> Bill:
    faults, shelf = Faults(), Shelf()
    worked = work_post(Source("posts/bag.md", text), shelf, faults)
    assert [fault.message for fault in faults] == []
    return bill_of(worked, shelf, "A bag from a tablecloth")


def pieces(text: str = BAG, **order: Any) -> list[Piece]:
    (job,) = bill(text).jobs(Order(PAPERS["a4"], **order))
    return list(job.pieces)


def pdf(paper: str = "a4", text: str = BAG, **order: Any) -> bytes:
    (job,) = bill(text).jobs(Order(paper_of(paper), **order))
    return pattern_pdf(job, "en-GB", Renderer.open())


def scanned(data: bytes, folder: Path, page: int, dots: int = DOTS) -> Pixels:
    """One page, counted from 1, as shades of grey: 0 is black."""
    (folder / "sheet.pdf").write_bytes(data)
    done = subprocess.run(
        ["pdftoppm", "-gray", "-r", str(dots), "-f", str(page), "-l", str(page), str(folder / "sheet.pdf")],
        capture_output=True,
        check=True,
    )
    return np.array(Image.open(BytesIO(done.stdout)))


def groups(dark: Pixels) -> list[float]:
    """The middles of the runs of dark dots in a row of them."""
    found: list[list[int]] = []
    for at in np.flatnonzero(dark):
        if found and found[-1][-1] == at - 1:
            found[-1].append(int(at))
        else:
            found.append([int(at)])
    return [sum(each) / len(each) for each in found]
