"""Cases of a post and what comes of it: worked out and compared, number by number and line by line.

How a line of ``expected`` is read:

===============================  ====================================================================================
``hem of skirt = 102 cm``        the number, exactly, in the sample size; ``hem of skirt (M) = …`` in size M
``places of loops = 0, 8, 16 cm``  a row of lengths; the unit stands once, at the end
``radius of hem ≈ 11.459 cm``    the same to the digits written
``| skirt | 2 | main | … |``     a row of a table, as text
``elastic: 64 cm (25¼ in)``      a label and what stands beside it
``hem = 1 in (found)``              a published figure, which ``outside.py`` counts
``fault: …``                     the message of a fault; a case without such a line must have no fault
===============================  ====================================================================================
"""

from __future__ import annotations

import re

from chalkfold.formula import key_of
from chalkfold.work import Worked
from post_help import amounts, plain_lines, worked, workroom
from spec_cases import Case

_NUMBER = re.compile(r"(?P<name>[^=≈:|(]+?)(?: \((?P<size>[^)]+)\))? (?P<sign>[=≈]) (?P<value>[-−\d].*)")
EXACT = 1e-6
FOUND = " (found)"


def comes_to(case: Case) -> None:
    """Assert that the post of a case comes to what it expects."""
    assert case.info in ("post", "post in inches")
    shelf = workroom(inches=case.info == "post in inches")
    expected = [line.removesuffix(FOUND) for line in case.expected.splitlines()]
    faults = [line.removeprefix("fault: ") for line in expected if line.startswith("fault: ")]
    others = [line for line in expected if not line.startswith("fault: ")]
    numbers = [number for line in others if (number := _NUMBER.fullmatch(line))]
    found = worked(case.given, shelf, [] if faults else [each["name"] for each in numbers])
    told = [_plain(fault.message) for fault in found.faults]
    assert told == faults, "\n".join(told)
    for each in numbers:
        _compare(each, found)
    shown = plain_lines(found, shelf)
    for line in others:
        assert _NUMBER.fullmatch(line) or line in shown, f"`{line}` is not among\n" + "\n".join(shown)


def _plain(message: str) -> str:
    return " ".join(message.split())  # the spaces inside an amount do not break


def _compare(number: re.Match[str], found: Worked) -> None:
    labels = found.values.sizes.labels
    size = labels.index(number["size"]) if number["size"] else found.values.sizes.sample
    value = found.values.row(key_of(number["name"]))[size]
    assert value is not None, number["name"]
    values = value if isinstance(value, tuple) else (value,)
    wanted = amounts(number["value"])
    close = [
        abs(each - float(hand)) <= (EXACT if number["sign"] == "=" else float(half))
        for each, (hand, half) in zip(values, wanted, strict=False)
    ]
    assert len(values) == len(wanted), f"{number[0]}: the post says {values}"
    assert all(close), f"{number[0]}: the post says {values}"
