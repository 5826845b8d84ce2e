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
MOST_PLACES = 5
"""Further places of one fault that are shown with the first."""
_LINE_END = re.compile(r"\s*[\n\v\f\r\x1c-\x1e\x85\u2028\u2029]\s*")


def _in_one_line(text: str) -> str:
    line = _LINE_END.sub(" ", text)
    return line if len(line) <= LONGEST else f"{line[: LONGEST - 1]}…"


class Faults:
    """Collects faults; the same fault at the same place is kept once."""

    def __init__(self) -> None:
        self._seen: dict[tuple[object, ...], Fault] = {}
        self._once: dict[tuple[Code, str, str], tuple[object, ...]] = {}
        """The words of faults that are told once, and where they stand in ``_seen``."""

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
        self._keep(fault)

    def _keep(self, fault: Fault) -> tuple[object, ...]:
        """Return the key it is kept under."""
        message, hint = _in_one_line(fault.message), _in_one_line(fault.hint)
        if (message, hint) != (fault.message, fault.hint):
            fault = replace(fault, message=message, hint=hint)
        key = (*fault.order, fault.sizes)
        self._seen.setdefault(key, fault)
        return key

    def add_once(self, code: Code, message: str, span: Span, hint: str) -> None:
        """Add a fault of which one is enough; further places with the same words are shown with the first."""
        words = (code, message, hint)
        key = self._once.get(words)
        if key is None:
            self._once[words] = self._keep(Fault(code, message, span, hint))
            return
        first = self._seen[key]
        if span not in (first.span, *(place for _, place in first.related)) and len(first.related) < MOST_PLACES:
            self._seen[key] = replace(first, related=(*first.related, ("also here", span)))

    def extend(self, others: Faults) -> None:
        for fault in others:
            self.take(fault)

    def __iter__(self) -> Iterator[Fault]:
        return iter(sorted(self._seen.values(), key=lambda fault: fault.order))

    def __len__(self) -> int:
        return len(self._seen)
