"""Drafts shared out to several processes; the pages are the same to the byte as from one."""

from __future__ import annotations

import multiprocessing
import os
import signal
import sys
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from multiprocessing.connection import wait
from multiprocessing.context import BaseContext
from threading import Thread, active_count

from chalkfold.site.bench import Bench, Plan, Yield
from chalkfold.site.pages import Draft

CHUNKS_EACH = 4

_bench: Bench | None = None  # one per worker process: what it opens does not travel


def share_out(
    plan: Plan,
    drafts: Sequence[Draft],
    workers: int,
    meanwhile: Callable[[], None],
    yielded: Yield,
    bench: type[Bench] = Bench,
) -> None:
    """Make all drafts in ``workers`` processes, each at a ``bench`` of its own, and do ``meanwhile`` in this one."""
    count = min(len(drafts), workers * CHUNKS_EACH)
    chunks = [drafts[start::count] for start in range(count)]  # neighbours are often alike: long ones are spread
    pool = ProcessPoolExecutor(workers, _context(), initializer=_settle, initargs=(plan, bench))
    try:
        waiting = [pool.submit(_make, chunk) for chunk in chunks]
        meanwhile()
        for each in waiting:
            yielded.add(each.result())
    finally:
        pool.shutdown(cancel_futures=True)


def _settle(plan: Plan, bench: type[Bench]) -> None:
    """Make a new worker ready; it ends with its parent, so that a killed build leaves no one at work."""
    global _bench
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the parent answers Ctrl-C
    if parent := multiprocessing.parent_process():
        Thread(target=_end_with, args=(parent.sentinel,), daemon=True).start()
    _bench = bench.open(plan)


def _end_with(sentinel: int) -> None:
    wait([sentinel])
    os._exit(1)


def _make(drafts: Sequence[Draft]) -> Yield:
    assert _bench is not None, "the pool settles every worker first"
    _bench.yielded = type(_bench.yielded)()
    _bench.make(drafts)
    return _bench.yielded


def _context() -> BaseContext:
    """Fork where it is safe (Linux, one thread): the loaded modules come along. Else start afresh."""
    alone = sys.platform == "linux" and active_count() == 1
    return multiprocessing.get_context("fork" if alone else "spawn")
