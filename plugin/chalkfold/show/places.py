"""Places along a length as tables: as their number can differ by size, a reader chooses whole tables."""

from __future__ import annotations

from collections.abc import Sequence

from chalkfold.plan import Line, Listing
from chalkfold.show.lines import Lines
from chalkfold.show.markup import attributes, element, lines
from chalkfold.show.quantities import Amount
from chalkfold.show.tables import cell, head

SIDE_BY_SIDE = 3
"""So many columns of amounts fit beside each other on a phone; more are stacked."""

Column = tuple[Line, tuple[tuple[Amount, ...], ...]]
"""A heading, and for every size the amounts below it."""


def listing(write: Lines, view: Listing, level: int) -> str:
    """The n-th place of every column in the n-th row."""
    columns = [(heading, write.quantities.places(key)) for heading, key in view.columns]
    versions = by_size(write, columns, "rows" if len(columns) > SIDE_BY_SIDE else "side")
    return lines(
        f'<div class="view"{attributes(id=view.frame.id)}>',
        element(f"h{level}", write.title(view.frame, len(set(versions)) > 1), class_="figure-title"),
        write.by_size(versions, tag="div"),
        *write.below(view.frame),
        other_sizes(write, versions, level + 1),
        "</div>",
    )


def by_size(write: Lines, columns: Sequence[Column], name: str) -> list[str]:
    """One numbered table a size; ``name`` is its class."""
    heads = head(["No.", *(write.line(heading) for heading, _ in columns)])
    return [
        lines(
            f'<table class="{name}">',
            heads,
            "<tbody>",
            *_rows(write, [(heading, places[size]) for heading, places in columns]),
            "</tbody>",
            "</table>",
        )
        for size in range(len(write.sizes.labels))
    ]


def other_sizes(write: Lines, versions: Sequence[str], level: int) -> str:
    """The tables of the sizes that are not shown, one below the other, where no reader can choose."""
    if write.reader_chooses:
        return ""
    tag = f"h{min(level, 6)}"
    sample = versions[write.sizes.sample]
    return lines(
        *(
            lines(element(tag, f"{'Sizes' if len(numbers) > 1 else 'Size'} {write.by_size.label(numbers)}"), version)
            for version, numbers in write.by_size.groups(versions)
            if version != sample
        )
    )


def _rows(write: Lines, columns: list[tuple[Line, tuple[Amount, ...]]]) -> list[str]:
    count = max((len(amounts) for _, amounts in columns), default=0)
    return [
        f'<tr><th scope="row">{number + 1}</th>'
        + "".join(
            cell(write, heading, write.amount(amounts[number])) if number < len(amounts) else "<td></td>"
            for heading, amounts in columns
        )
        + "</tr>"
        for number in range(count)
    ]
