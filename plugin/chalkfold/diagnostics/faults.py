"""A fault the writer can mend, and the list that a build collects."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

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
        self._seen.setdefault((*fault.order, fault.sizes), fault)

    def extend(self, others: Faults) -> None:
        for fault in others:
            self.take(fault)

    def __iter__(self) -> Iterator[Fault]:
        return iter(sorted(self._seen.values(), key=lambda fault: fault.order))

    def __len__(self) -> int:
        return len(self._seen)
