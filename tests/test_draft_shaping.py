"""What a drawing is told of darts, pleats and slashes, and that all on a part goes with it."""

from __future__ import annotations

from math import dist

import pytest

from chalkfold.diagnostics import Source
from chalkfold.geometry import edges
from chalkfold.paper.pieces import drawings
from chalkfold.plan import Drawing, Shaping
from chalkfold.post import build_post
from chalkfold.work import Worked
from drafted import SHELF, edge, line
from post_help import block, post, worked

SKIRT = """piece: skirt
cut: 1 on fold in main
points:
  a: here
  b: {from: a, across: 30 cm}
  c: {from: b, down: 40 cm}
  d: {from: a, down: 40 cm}
  eye: {from: a, across: 22 cm, down: 7 cm}
  high: {from: a, across: 20 cm, down: 15 cm}
  low: {from: high, down: 15 cm}
outline:
  start: a
  waist: line to b
  side: line to c
  hem: line to d
  fold: line to a
on fold: fold
allowances: {all: 1 cm}
"""
FLARE = "spread:\n  flare: {cut from: hem at 10 cm from d, hinge at: waist at 10 cm from a, open: 12 cm}\n"
MARKS = """marks:
  - notch on side at 10 cm from b
  - notch on waist at 4 cm from a
  - button at eye
  - line pocket from high to eye stitched
  - gap on hem from 2 cm to 6 cm from c
"""


def drawn(text: str) -> tuple[Worked, Drawing]:
    found = worked(post(blocks=block("draft", SKIRT + text)), SHELF)
    assert [fault.message for fault in found.faults] == []
    (drawing,) = drawings([view for _, view in found.views])
    return found, drawing


def points(found: Worked, shaping: Shaping, size: int = 0) -> list[tuple[float, float]]:
    return [found.values.row(key)[size] for key in shaping.drills]  # type: ignore[misc]


def test_marks_on_the_part_move_with_it_and_keep_their_places_on_it() -> None:
    """Whatever lies on the part is as far from the hinge and from the corners of the part as before."""
    (flat, before), (found, after) = drawn(MARKS), drawn(MARKS + FLARE)
    hinge, corner = (100.0, 0.0), edges.first(line(found, "outline of skirt")[1])
    assert dist(corner, (300, 0)) > 10 and dist(corner, hinge) == pytest.approx(200)
    for was, now in zip(before.marks, after.marks, strict=True):
        for old, new in ((was.point, now.point), (was.end, now.end)):
            if old:
                here, there = edge(flat, old), edge(found, new)
                stays = was.label[-1] == " from a"
                assert (here == there) is stays
                if not stays:
                    assert dist(there, hinge) == pytest.approx(dist(here, hinge))  # type: ignore[arg-type]
                    assert dist(there, corner) == pytest.approx(dist(here, (300, 0)))  # type: ignore[arg-type]
    pocket = edge(found, after.marks[3].edge)
    assert edges.length(pocket) == pytest.approx(edges.length(edge(flat, before.marks[3].edge)))


def test_a_notch_moved_lies_on_its_edge() -> None:
    found, drawing = drawn(MARKS + FLARE)
    for mark in (drawing.marks[0], drawing.marks[1], drawing.marks[4]):
        assert edges.contains(edge(found, mark.edge), edge(found, mark.point), 1e-6)  # type: ignore[arg-type]
        assert mark.edge in [each.edge for each in drawing.edges]


def test_a_dart_goes_with_its_part() -> None:
    dart = "darts:\n  dart: {on: waist, at: 20 cm, from: a, takes: 2 cm, length: 10 cm}\n"
    (flat, before), (found, after) = drawn(dart), drawn(dart + FLARE)
    (tip,), (moved,) = points(flat, before.shapings[0]), points(found, after.shapings[0])
    assert tip == pytest.approx((200, 100))
    assert dist(moved, (100, 0)) == pytest.approx(dist(tip, (100, 0))) and dist(tip, moved) > 5
    legs = [edges.length(edge(found, key)) for kind, key in after.shapings[0].lines if kind == "stitched"]
    assert legs == pytest.approx([(100**2 + 10**2) ** 0.5] * 2)


@pytest.mark.parametrize("towards", ["left", "right", "fold", "side"])
def test_the_cap_lies_alike_however_the_side_is_named(towards: str) -> None:
    """On a level edge both caps are one; the direction and the edge towards it name the same end."""
    text = (
        f"darts:\n  dart: {{on: waist, at: 20 cm, from: a, takes: 2 cm, length: 10 cm, pressed towards: {towards}}}\n"
    )
    found, _ = drawn(text)
    _, into, out, _ = line(found, "outline of skirt")[0]
    assert edges.last((into,)) == pytest.approx((200, -10 * 0.2 / 0.99))
    assert edges.first((out,)) == edges.last((into,))


def test_on_a_slanting_edge_the_side_it_is_pressed_to_decides() -> None:
    """Where the edge turns at a leg, the cap follows the side named."""
    slanting = SKIRT.replace("waist: line to b", "waist: line to middle; line to b")
    slanting = slanting.replace("  eye:", "  middle: {from: a, across: 16 cm, down: 2 cm}\n  eye:")
    caps = []
    for towards in ("fold", "left", "side", "right"):
        dart = f"darts:\n  dart: {{on: waist, to: high, takes: 3 cm, pressed towards: {towards}}}\n"
        pointed = block("checks", "not needed: {square at the fold: the waist is a point}")
        found = worked(post(blocks=block("draft", slanting + dart) + pointed), SHELF)
        assert not len(found.faults)
        caps.append(edge(found, "= cap of dart of skirt"))
    assert caps[0] == caps[1] and caps[2] == caps[3] and caps[0] != caps[2]


def test_a_dart_that_takes_nothing_is_not_drawn_in_that_size() -> None:
    dart = block("draft", SKIRT + "darts:\n  dart: {on: waist, at: 20 cm, from: a, takes: dart, length: 10 cm}\n")
    text = post("dart: {S: 0, L: 2 cm}", blocks=dart, head="sizes: [S, L]")
    found = worked(text, SHELF)
    small, large = (line(found, "outline of skirt", size)[0] for size in (0, 1))
    assert len(small) == 1 and len(large) == 4
    html = build_post(Source("posts/case.md", text), SHELF).html
    assert html.count('class="stitched"') == 1


def test_the_table_tells_what_a_dart_takes_and_where_it_is_pressed() -> None:
    dart = "darts:\n  back dart: {on: waist, at: 20 cm, from: a, takes: 2 cm, length: 10 cm, pressed towards: side}\n"
    text = post(blocks=block("draft", SKIRT + dart + FLARE))
    html = build_post(Source("posts/case.md", text), SHELF).html
    assert "back dart" in html and "pressed towards the side" in html and "slashed and opened" in html


def test_no_tape_is_laid_along_a_waist_with_darts() -> None:
    """Without its dart the curved waist, the shortest edge and on a fold, is the one to tape along."""
    curved = SKIRT.replace("waist: line to b", "waist: curve to b leaving across arriving -12°")
    dart = "darts:\n  dart: {on: waist, at: 20 cm, from: a, takes: 2 cm, length: 10 cm}\n"
    told = []
    for text in (curved, curved + dart):
        html = build_post(Source("posts/case.md", post(blocks=block("draft", text))), SHELF).html
        told.append([edge for edge in ("waist", "hem") if f"Along {edge} on the seam line" in html])
    assert told == [["waist"], ["hem"]]


def test_marks_of_a_seam_say_that_darts_are_closed_first() -> None:
    """A listing shows its places on the sewn edge, as the tape runs when the dart is closed."""
    dart = "darts:\n  dart: {on: waist, at: 20 cm, from: a, takes: 2 cm, length: 10 cm}\n"
    seam = block("sew", "seams:\n  - waist of skirt to itself, matched in 4")
    told = []
    for text in (SKIRT, SKIRT + dart):
        html = build_post(Source("posts/case.md", post(blocks=block("draft", text) + seam)), SHELF).html
        assert "Measured from the end you begin at" in html
        told.append("Close the darts and pleats of waist of skirt first." in html)
    assert told == [False, True]
