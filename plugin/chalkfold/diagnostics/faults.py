"""A fault the writer can mend, and the list that a build collects."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from chalkfold.diagnostics.codes import Code
from chalkfold.diagnostics.places import Span


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong, where, and what to write instead.

    ``message`` is a clause without a capital or a full stop; ``hint`` says what to write.
    ``sizes`` names the sizes in which it happens, empty where sizes play no part;
    ``related`` points to a second place (the first of two equal keys …).
    """

    code: Code
    message: str
    span: Span
    hint: str
    sizes: tuple[str, ...] = ()
    related: tuple[tuple[str, Span], ...] = ()

    @property
    def order(self) -> tuple[str, int, int, str, str]:
        return (self.span.source.path, self.span.start, self.span.end, self.code, self.message)


LONGEST = 500
"""Characters of a message or hint that are shown."""
_LINE_END = re.compile(r"\s*[\n\v\f\r\x1c-\x1e\x85\u2028\u2029]\s*")


def _in_one_line(text: str) -> str:
    line = _LINE_END.sub(" ", text)
    return line if len(line) <= LONGEST else f"{line[: LONGEST - 1]}…"


class Faults:
    """Collects faults; the same fault at the same place is kept once."""

    def __init__(self) -> None:
        self._seen: dict[tuple[object, ...], Fault] = {}

    def add(
        self,
        code: Code,
        message: str,
        span: Span,
        hint: str,
        *,
        sizes: tuple[str, ...] = (),
        related: tuple[tuple[str, Span], ...] = (),
    ) -> None:
        self.take(Fault(code, message, span, hint, sizes, related))

    def take(self, fault: Fault) -> None:
        """Keep a fault; what it quotes from the source may have had several lines, and is told in one."""
        message, hint = _in_one_line(fault.message), _in_one_line(fault.hint)
        if (message, hint) != (fault.message, fault.hint):
            fault = replace(fault, message=message, hint=hint)
        self._seen.setdefault((*fault.order, fault.sizes), fault)

    def extend(self, others: Faults) -> None:
        for fault in others:
            self.take(fault)

    def __iter__(self) -> Iterator[Fault]:
        return iter(sorted(self._seen.values(), key=lambda fault: fault.order))

    def __len__(self) -> int:
        return len(self._seen)
