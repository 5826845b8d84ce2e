"""What is to be printed of a post: which sizes on which sheets, how, and what the files are called."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from chalkfold.diagnostics import near
from chalkfold.formula import key_of
from chalkfold.paper.front import Said
from chalkfold.paper.papers import Paper
from chalkfold.paper.pieces import Piece, cautions, digest_of, drawings, others, pieces_of
from chalkfold.plan import View
from chalkfold.show.lines import Lines

ALL = "all"


class CannotPrint(Exception):
    """The order cannot be met; ``hint`` says what to write instead."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.hint = hint


@dataclass(frozen=True, slots=True)
class Job:
    """One file to make. ``size`` names its sizes, empty where the post has none."""

    size: str
    pieces: tuple[Piece, ...]
    paper: Paper
    said: Said


@dataclass(frozen=True, slots=True)
class Order:
    """``size`` is a size of the post, empty for its sample size, or ``all``: a file for each.

    ``nested`` lays all sizes over each other in one file.
    """

    paper: Paper
    size: str = ""
    allowances: bool = True
    nested: bool = False


@dataclass(frozen=True, slots=True)
class Bill:
    """A post worked out, and what its prints say of it besides."""

    write: Lines
    views: Sequence[View]
    title: str
    site: str
    corrections: str = ""
    """Where the corrections of the post stand."""

    def jobs(self, order: Order) -> list[Job]:
        """One job for each file. Raises CannotPrint."""
        if not any(drawings(self.views)):
            raise CannotPrint(
                "nothing is drafted in this post, so there is no pattern to print",
                "write a ```draft block for each piece that is to be printed",
            )
        return [self._job(sizes, order) for sizes in self._batches(order)]

    def _batches(self, order: Order) -> Iterator[tuple[int, ...]]:
        """The sizes of each file."""
        labels, sample = self.write.sizes.labels, self.write.sizes.sample
        keys = [key_of(label) for label in labels]
        if order.nested:
            yield tuple(range(len(labels)))
        elif order.size and key_of(order.size) in keys:
            yield (keys.index(key_of(order.size)),)
        elif order.size == ALL:
            yield from ((number,) for number in range(len(labels)))
        elif order.size:
            raise self._no_such_size(order.size)
        else:
            yield (sample,)

    def _no_such_size(self, size: str) -> CannotPrint:
        labels = self.write.sizes.labels
        if not self.write.sizes.many:
            return CannotPrint(f"this post has no size `{size}`, as it has only one", "leave `--size` out")
        likely, listed = near(size, labels), ", ".join(labels)
        hint = f"did you mean `{likely}`? Its sizes are {listed}" if likely else f"its sizes are {listed}, or `{ALL}`"
        return CannotPrint(f"this post has no size `{size}`", hint)

    def _job(self, sizes: tuple[int, ...], order: Order) -> Job:
        pieces = tuple(pieces_of(self.write, self.views, sizes, order.allowances))
        named = self.write.by_size.names(sizes) if self.write.sizes.many else ""
        said = Said(
            self.title,
            self.site,
            f"size{'s' if len(sizes) > 1 else ''} {named}" if named else "",
            digest_of(pieces),
            order.allowances,
            self.write.quantities.printer.main_unit == "in",
            tuple(others(self.write, self.views, sizes[0])) if len(sizes) == 1 else (),
            tuple((number, self.write.sizes.labels[number]) for number in sizes) if len(sizes) > 1 else (),
            tuple(cautions(self.write, self.views)),
            self.corrections,
        )
        return Job(named, pieces, order.paper, said)
