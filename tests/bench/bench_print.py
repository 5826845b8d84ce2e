"""How long a pattern takes: one size on A4 as PDF, and the same as DXF. Run by hand.

Aim: 150 ms warm for a skirt on 19 sheets, of processor time. Most of it is the renderer's, 7 ms a page.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

from chalkfold.diagnostics import Faults, Source
from chalkfold.paper.dxf import dxf
from chalkfold.paper.job import Order
from chalkfold.paper.papers import PAPERS
from chalkfold.paper.pattern import pattern_pages
from chalkfold.paper.pdf import joined
from chalkfold.post import work_post
from chalkfold.raster import Renderer
from chalkfold.shipped import shipped
from chalkfold.site.printing import bill_of
from chalkfold.trade import Shelf


def milliseconds(what: Callable[[], object]) -> float:
    what()
    took = []
    for _ in range(7):
        start = time.process_time()
        what()
        took.append((time.process_time() - start) * 1000)
    return min(took)


if __name__ == "__main__":
    demo: Path = shipped("content_example")
    shelf, render = Shelf.open(demo, Faults()), Renderer.open()
    for name in ("half-circle-skirt", "drawstring-bag"):
        text = (demo / "posts" / f"{name}.md").read_text("utf-8")
        bill = bill_of(work_post(Source(name, text), shelf, Faults()), shelf, name)
        (job,) = bill.jobs(Order(PAPERS["a4"]))
        pages = pattern_pages(job.pieces, job.paper, job.said)
        laid = milliseconds(lambda job=job: pattern_pages(job.pieces, job.paper, job.said))
        printed = milliseconds(lambda pages=pages: joined(pages, "", "en", render))
        drawn = milliseconds(lambda job=job: dxf(job.pieces))
        print(f"{name}: {len(pages)} pages laid out {laid:.0f} ms, as PDF {printed:.0f} ms; DXF {drawn:.0f} ms")
