"""Tables and boxes of facts; for each the chosen size, and all sizes behind it."""

from __future__ import annotations

from itertools import zip_longest

from chalkfold.plan import Facts, Frame, Line, Table
from chalkfold.show.lines import Lines
from chalkfold.show.markup import attributes, element, escape, lines

MANY = 8
"""From more sizes than these, a table of all sizes has no columns but a grid for each row."""

Row = tuple[Line, str, Line]
"""In a table of all sizes: what a row is of, the column it is from, and the values."""


def table(write: Lines, view: Table) -> str:
    """The table for the chosen size, then all sizes."""
    cells = [cell for row in view.rows for cell in row]
    title = write.title(view.frame, write.varies(*cells))
    caption = element("span", title, class_="title")
    below = write.line(view.frame.caption)
    caption = f"{caption}<br>{below}" if caption and below else caption or below
    heads = [write.line(column) for column in view.columns]
    several = len(view.all_sizes) > 1
    rows = [
        (row[0], heads[column] if several else "", row[column])
        for row in view.rows
        for column in view.all_sizes
        if column < len(row)
    ]
    corner = heads[0] if heads else ""
    return lines(
        f'<div class="view"{attributes(id=view.frame.id)}>',
        '<table class="rows">',
        element("caption", caption),
        head(heads),
        "<tbody>",
        *(_row(write, row, view.columns, to) for row, to in zip_longest(view.rows, view.leads_to)),
        "</tbody>",
        "</table>",
        element("p", write.line(view.frame.note), class_="note"),
        all_sizes(write, view.frame.title, corner, rows),
        "</div>",
    )


def facts(write: Lines, view: Facts, level: int) -> str:
    """A box of labelled values; the title is a heading of the level given."""
    varies = view.kind != "checks" and write.varies(*(fact.value for fact in view.facts))
    title = write.title(view.frame, varies)  # what is checked, is checked in every size
    named = write.new_id() if title else ""
    rows: list[Row] = [(fact.label, "", fact.value) for fact in view.facts if write.varies(fact.value)]
    entries = []
    for fact in view.facts:
        remark = element("small", write.line(fact.remark), class_="remark")
        shown = write.leading(fact.value)
        value = f"{shown} {remark}" if remark else shown
        entries.append(f"<div><dt>{write.line(fact.label)}</dt><dd>{value}</dd></div>")
    tag = "section" if title else "div"
    return lines(
        f"<{tag}{attributes(class_=f'box {view.kind}', id=view.frame.id, aria_labelledby=named)}>",
        element(f"h{level}", title, class_="title", id=named),
        "<dl>",
        *entries,
        "</dl>",
        *write.below(view.frame),
        all_sizes(write, view.frame.title, "", rows) if view.all_sizes else "",
        f"</{tag}>",
    )


def all_sizes(write: Lines, title: Line, corner: str, rows: list[Row]) -> str:
    """One column a size: folded away where the reader chooses a size, open where nobody can."""
    if not (rows and write.sizes.many):
        return ""
    labels = write.sizes.labels
    name = write.plain((*title, ", all sizes") if title else ("All sizes",), write.sizes.sample)
    many = " many" if len(labels) > MANY else ""
    columns = "".join(f'<th scope="col">{escape(label)}</th>' for label in labels)
    first = f'<th scope="col">{corner}</th>' if corner else "<td></td>"
    body = []
    for label, column, values in rows:
        row_head = write.line(label) + (f", {column}" if column else "")
        cells = [
            f'<td data-label="{escape(size)}">{write.line_in(values, number)}</td>'
            for number, size in enumerate(labels)
        ]
        body.append(f'<tr><th scope="row">{row_head}</th>{"".join(cells)}</tr>')
    caption = "" if write.reader_chooses else "<caption>All sizes</caption>"
    whole = lines(
        f"<table{attributes(class_=f'all{many}', aria_label=name if write.reader_chooses else '')}>",
        caption,
        f"<thead><tr>{first}{columns}</tr></thead>",
        "<tbody>",
        *body,
        "</tbody>",
        "</table>",
    )
    if not write.reader_chooses:
        return whole
    return lines('<details class="sizes-all">', "<summary>All sizes</summary>", whole, "</details>")


def head(heads: list[str]) -> str:
    """The row of column heads."""
    cells = "".join(f'<th scope="col">{each}</th>' for each in heads)
    return f"<thead><tr>{cells}</tr></thead>" if cells else ""


def cell(write: Lines, column: Line, inner: str) -> str:
    """A cell that says its column again where rows are stacked on a narrow screen."""
    if all(isinstance(part, str) for part in column):
        return f"<td{attributes(data_label=write.plain(column, 0))}>{inner}</td>"
    return f'<td><span class="label">{write.line(column)}</span>{inner}</td>'


def _row(write: Lines, row: tuple[Line, ...], columns: tuple[Line, ...], to: Frame | None) -> str:
    cells = [
        cell(write, columns[number] if number < len(columns) else (), write.line(line))
        for number, line in enumerate(row[1:], 1)
    ]
    linked = 0 if to is None else 1
    name = element("a", write.line(row[0][:linked]), href=f"#{write.anchor(to)}") if to else ""
    return f'<tr><th scope="row">{name}{write.line(row[0][linked:])}</th>{"".join(cells)}</tr>'
