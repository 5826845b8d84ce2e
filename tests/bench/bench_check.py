"""How long ``chalkfold check`` takes on the demo, and how reading grows. Run as a script.

Aims: the demo under a second, growth of hostile text from one size to twice that at most 2.5.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import time
from statistics import median

from chalkfold.shipped import shipped
from chalkfold.stale.measures import measures_in
from chalkfold.stale.words import words_of

HOSTILE = ("16 ", "5 to 7 x 8 ", '"a ', "1 cm (1 in) ", "twenty-", "5' ", "and a half ")


def command(*arguments: str) -> tuple[float, float]:
    """Seconds by the clock and of the processor, the median of five."""
    clock, processor = [], []
    for _ in range(5):
        start, used = time.perf_counter(), _used()
        subprocess.run([sys.executable, *arguments], check=True, capture_output=True)
        clock.append(time.perf_counter() - start)
        processor.append(_used() - used)
    return median(clock), median(processor)


def _used() -> float:
    usage = resource.getrusage(resource.RUSAGE_CHILDREN)
    return usage.ru_utime + usage.ru_stime


def reading(text: str) -> float:
    start = time.perf_counter()
    measures_in(text, words_of("en"))
    return time.perf_counter() - start


if __name__ == "__main__":
    alone, _ = command("-c", "pass")
    demo, used = command("-m", "chalkfold", "check", str(shipped("content_example")))
    print(f"check of the demo: {demo:.2f} s by the clock, {used:.2f} s of the processor; python alone {alone:.3f} s")
    for part in HOSTILE:
        once, twice = (min(reading(part * n) for _ in range(3)) for n in (20_000, 40_000))
        print(f"{once * 1000:7.0f} ms, twice as much {twice / once:.2f} times: {part!r}")
