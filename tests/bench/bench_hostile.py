"""How long hostile formulas take: each must end in a fault within 50 ms. Run as a script."""

from __future__ import annotations

import sys
from time import perf_counter

from chalkfold.diagnostics import Faults, Source, Span
from chalkfold.formula import kind_of, parse, parse_name, parse_prose
from chalkfold.reading import Text

LIMIT_MS = 50.0
HOSTILE = {
    "one megabyte": "a + " * 250_000,
    "ten thousand brackets": "(" * 10_000,
    "brackets up to the limit": "(" * 2_000,
    "ten thousand nots": "not " * 10_000,
    "nots up to the limit": "not " * 500,
    "ten thousand minus signs": "-" * 10_000,
    "minus signs up to the limit": "-" * 2_000,
    "minus signs before a fraction": "1 / " + "- " * 900 + "1/2",
    "a tower of powers": "9^9^9^9",
    "a long tower": "9^" * 999 + "9",
    "a long sum": "1 + " * 499 + "1",
    "a long name": "a 1 " * 499 + "(",
    "a long number": "1" * 2_000,
    "many numbers": "1 " * 999,
    "many calls": "max(" * 499,
}


def text_of(value: str) -> Text:
    return Text(value, Span(Source("hostile", value), 0, len(value)))


def milliseconds(value: str) -> float:
    faults = Faults()
    text = text_of(value)
    start = perf_counter()
    expression = parse(text, faults)
    if expression is not None:
        kind_of(expression, lambda _: None, faults)
    taken = (perf_counter() - start) * 1000
    assert len(faults), value[:40]
    return taken


def milliseconds_of_prose(value: str) -> float:
    text, faults = text_of(value), Faults()
    start = perf_counter()
    parse_prose(text, faults)
    parse_name(text, faults)
    return (perf_counter() - start) * 1000


def main() -> int:
    milliseconds("2 waist")  # reads the table of units
    taken = {name: milliseconds(value) for name, value in HOSTILE.items()}
    taken["one megabyte of openers"] = milliseconds_of_prose("{= " * 333_000)
    taken["one megabyte in one value"] = milliseconds_of_prose("{= " * 333_000 + "}")
    for name, each in taken.items():
        print(f"{each:8.2f} ms  {name}")
    return 1 if max(taken.values()) > LIMIT_MS else 0


if __name__ == "__main__":
    sys.exit(main())
