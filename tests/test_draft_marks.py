"""Where the marks of a draft lie, and what a drawing is told of them."""

from __future__ import annotations

import pytest

from chalkfold.paper.pieces import drawings
from chalkfold.plan import Drawing, Mark
from chalkfold.work import Worked
from drafted import SHELF
from post_help import block, post, worked


def marked(*marks: str, lines: str = "") -> tuple[Worked, Drawing]:
    """A bib of 30 × 40 cm, on the fold at its left."""
    body = """piece: bib
cut: 1 on fold in main
points:
  a: here
  b: {from: a, across: 30 cm}
  c: {from: b, down: 40 cm}
  d: {from: a, down: 40 cm}
  eye: {from: a, across: 12 cm, down: 7 cm}
  hip: {from: b, down: 15 cm}
outline:
  start: a
  top: line to b
  side: line to c
  bottom: line to d
  front: line to a
on fold: front
allowances: {all: 1 cm}
"""
    said = "".join(f"  - {mark}\n" for mark in marks)
    found = worked(post(blocks=block("draft", f"{body}{lines}marks:\n{said}")), SHELF)
    assert [fault.message for fault in found.faults] == []
    (drawing,) = drawings([view for _, view in found.views])
    return found, drawing


def place(found: Worked, key: str) -> tuple[float, float]:
    across, down = found.values.row(key)[0]  # type: ignore[misc]
    return across, down


@pytest.mark.parametrize(
    ("said", "kind", "where"),
    [
        ("notch on side at 10 cm", "notch", (300, 100)),
        ("notch on side at 10 cm from b", "notch", (300, 100)),
        ("notch on side at 10 cm from c", "notch", (300, 300)),
        ("double notch on bottom at 1/4 of 30 cm from d", "double notch", (75, 400)),
        ("notch on side at 1/4", "notch", (300, 100)),
        ("notch on side at 1/4 from c", "notch", (300, 300)),
        ("notch on side at hip", "notch", (300, 150)),
        ("notch on side at hip from c", "notch", (300, 150)),
        ("drill at eye", "drill", (120, 70)),
        ("button at eye", "button", (120, 70)),
    ],
)
def test_a_mark_lies_where_it_is_said(said: str, kind: str, where: tuple[float, float]) -> None:
    found, drawing = marked(said)
    (mark,) = drawing.marks
    assert mark.kind == kind
    assert place(found, mark.point) == pytest.approx(where)


def test_of_a_notch_at_a_point_the_distance_is_told_from_the_end_named() -> None:
    """15 cm below b, and so 25 above c, on a side of 40."""
    found, drawing = marked("notch on side at hip", "notch on side at hip from c", "gap on side from hip to 3/4")
    told = [found.values.row(f"distance of mark {mark} of bib")[0] for mark in ("1 at", "2 at", "3 first", "3 last")]
    assert told == pytest.approx([150, 250, 150, 300])
    assert [mark.kind for mark in drawing.marks] == ["notch", "notch", "gap"]


def test_a_notch_may_stand_on_a_level_line() -> None:
    found, drawing = marked("notch on chest line at 5 cm from eye", lines="lines: {chest line: from eye; line to c}\n")
    # from (12, 7) to (30, 40) it is √(18² + 33²) = 37.590 cm; 5 cm of it is 0.133014 of the way
    assert place(found, drawing.marks[0].point) == pytest.approx((120 + 180 * 0.133014, 70 + 330 * 0.133014), abs=0.01)


def test_a_gap_and_a_line() -> None:
    found, drawing = marked("gap on top from 4 cm to 12 cm", "line pocket top from eye to c stitched")
    gap, line = drawing.marks
    assert (place(found, gap.point), place(found, gap.end)) == ((40, 0), (120, 0))
    assert (line.kind, line.label) == ("stitched", ("pocket top",))
    assert found.values.row(line.edge)[0] == ((120, 70, 300, 400),)


def test_a_gap_that_begins_at_the_end_of_its_edge_tells_only_how_long_it_is() -> None:
    _, drawing = marked(
        "gap on side from 0 cm to 21 cm from b", "gap on side from 0 to 21 cm", "gap on top from 1 cm to 2 cm"
    )
    assert [[part for part in mark.label if isinstance(part, str)] for mark in drawing.marks] == [
        ["leave open ", " from b"],
        ["leave open from ", " to "],
        ["leave open from ", " to "],
    ]


def test_a_mark_may_be_on_one_side_as_worn() -> None:
    _, drawing = marked("button at eye left as worn", "notch on side at 3 cm right as worn", "drill at eye")
    assert [mark.worn for mark in drawing.marks] == ["left", "right", ""]


def test_every_mark_has_its_kind() -> None:
    _, drawing = marked(*(f"line x from eye to c {how}" for how in ("stitched", "folded", "cut", "placement")))
    assert [mark.kind for mark in drawing.marks] == ["stitched", "folded", "cut", "placement"]
    assert all(isinstance(mark, Mark) and mark.edge for mark in drawing.marks)


@pytest.mark.parametrize(
    ("said", "whence"),
    [
        ("notch on side at 10 cm", "from where it meets top"),
        ("double notch on bottom at 10 cm", "from where it meets side"),
        ("gap on top from 4 cm to 12 cm", "from where it meets front"),
        ("notch on chest line at 10 cm", "from eye"),
        ("notch on hem line at 10 cm", "from where it meets bottom"),
        ("notch on side at 10 cm from b", ""),
        ("gap on top from 4 cm to 12 cm from b", ""),
    ],
)
def test_a_mark_says_from_which_end_it_is_measured(said: str, whence: str) -> None:
    """Without ``from`` it is from where its edge begins; with it the label says so."""
    lines = "lines: {chest line: from eye; line to c, hem line: from d; line to c}\n"
    _, drawing = marked(said, lines=lines)
    (mark,) = drawing.marks
    assert mark.whence == whence
    assert whence or " from b" in mark.label


def test_a_button_is_as_large_as_it_is_said() -> None:
    found, drawing = marked("button at eye, 18 mm across left as worn", "button at eye,2.5 cm  across", "Button at eye")
    large, larger, plain = drawing.marks
    assert [found.values.row(mark.across)[0] for mark in (large, larger)] == [18, 25]
    assert (large.worn, plain.across, plain.label) == ("left", "", ("button",))
