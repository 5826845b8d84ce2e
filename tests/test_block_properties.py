"""What must hold for every spacing, pleat and piece, tried on made-up posts.

The other reckoning is done in fractions, and units are turned by pint.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor

import pint
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from chalkfold.plan import Value
from post_help import block, number, places, post, row, worked, workroom

SHELF = workroom()
UNITS: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)
ROUND = {"nearest": lambda x: floor(x + Fraction(1, 2)), "at most": ceil, "at least": floor}

halves = st.integers(1, 400).map(lambda n: Fraction(n, 2))
"""Lengths in cm, on the half centimetres of a tape."""
sixteenths = st.integers(8, 16 * 80).map(lambda n: Fraction(n, 16))
"""Lengths in inches."""
ways = st.sampled_from(sorted(ROUND))


def cm(length: Fraction) -> str:
    """Typed without loss: halves and sixteenths of an inch end after a few decimals."""
    return f"{float(length):.7f}".rstrip("0").rstrip(".") + " cm"


def inches(length: Fraction) -> str:
    whole, rest = divmod(length, 1)
    return f"{f'{whole} ' if whole and rest else whole or ''}{rest or ''} in".strip()


def mm(length: Fraction) -> float:
    return float(length * 10)


def row_of(along: str, every: str, **others: str) -> str:
    lines = [
        f"along: {along}",
        f"every: {every}",
        *(f"{key.replace('_', ' ')}: {said}" for key, said in others.items()),
    ]
    return post(blocks=block("spacing", "name: marks\n" + "\n".join(lines)))


@given(halves, halves, halves, ways)
def test_a_flat_row_of_n_marks_has_a_gap_less(length: Fraction, wish: Fraction, end: Fraction, way: str) -> None:
    span = length - 2 * end
    assume(span > 0)
    assume(way != "at least" or wish <= span)
    gaps = max(1, ROUND[way](span / wish))
    assume(gaps < 400)
    text = row_of(cm(length), f"{way} {cm(wish)}", ends=cm(end))
    found = places(text, SHELF, "marks")
    assert len(found) == gaps + 1 == number(text, SHELF, "count of marks")
    assert found == pytest.approx([mm(end + span * i / gaps) for i in range(gaps + 1)])
    assert number(text, SHELF, "space of marks") * gaps == pytest.approx(mm(span))


@given(halves, halves, ways, halves)
def test_in_the_round_there_are_as_many_gaps_as_marks(
    girth: Fraction, wish: Fraction, way: str, start: Fraction
) -> None:
    assume(way != "at least" or wish <= girth)
    gaps = max(1, ROUND[way](girth / wish))
    text = row_of(cm(girth), f"{way} {cm(wish)}", in_the_round="yes", start_at=cm(start))
    found = places(text, SHELF, "marks")
    assert len(found) == gaps
    space = girth / gaps
    first = start % space
    assert (found[0] - mm(first) + 1e-6) % mm(space) < 2e-6  # a start on a mark may be the first or the last of a round
    assert [b - a for a, b in pairwise(found)] == pytest.approx([mm(space)] * (gaps - 1))


@given(halves, st.integers(1, 30), halves)
def test_what_takes_up_room_never_overlaps(length: Fraction, count: int, width: Fraction) -> None:
    text = post(blocks=block("spacing", f"name: loops\nalong: {cm(length)}\ncount: {count}\nwidth: {cm(width)}"))
    found = worked(text, SHELF)
    fits = count * width <= length
    assert bool(len(found.faults)) is not fits
    if fits:
        marks = places(text, SHELF, "loops")
        assert all(b - a >= mm(width) - 1e-6 for a, b in pairwise(marks))
        assert marks[0] >= mm(width) / 2 - 1e-6
        assert marks[-1] <= mm(length - width / 2) + 1e-6


@given(st.lists(halves, min_size=2, max_size=4), st.integers(1, 12))
def test_free_marks_keep_as_far_from_the_seams_as_they_can(parts: list[Fraction], count: int) -> None:
    """Tried against every shift by a fiftieth of a space, in fractions."""
    along = f"[{', '.join(cm(part) for part in parts)}]"
    text = post(
        blocks=block(
            "spacing", f"name: loops\nalong: {along}\nin the round: yes\ncount: {count}\nkeep off seams: 0.001 mm"
        )
    )
    girth = sum(parts, Fraction(0))
    seams = [sum(parts[:i], Fraction(0)) for i in range(len(parts))]
    space = girth / count

    def clear(shift: Fraction) -> Fraction:
        rests = [(seam - shift) % space for seam in seams]
        return min(min(rest, space - rest) for rest in rests)

    best = max(clear(space * i / 50) for i in range(50))
    assume(best > Fraction(1, 100))
    assert number(text, SHELF, "distance from seams of loops") >= mm(best) - 1e-6


@given(st.lists(halves, min_size=2, max_size=4), st.booleans(), st.integers(2, 20))
def test_places_piece_by_piece_are_the_places_of_the_whole(
    parts: list[Fraction], in_the_round: bool, count: int
) -> None:
    along = f"[{', '.join(cm(part) for part in parts)}]"
    said = "yes" if in_the_round else "no"
    text = post(blocks=block("spacing", f"name: loops\nalong: {along}\nin the round: {said}\ncount: {count}"))
    found = worked(text, SHELF)
    again: list[float] = []
    for i in range(len(parts)):
        inside = found.values.row(f"places on part {i + 1} of loops")[0]
        assert isinstance(inside, tuple)
        again += [place + mm(sum(parts[:i], Fraction(0))) for place in inside]
    assert again == pytest.approx(places(text, SHELF, "loops"))


@given(halves, halves, halves, st.sampled_from(["knife", "box", "inverted"]))
def test_pleats_take_up_just_the_cloth_that_is_more(
    length: Fraction, wish: Fraction, takes: Fraction, kind: str
) -> None:
    count = max(1, ROUND["nearest"](length / wish))
    assume(count < 200)
    text = row_of(cm(length), f"nearest {cm(wish)}", pleats=f"{{kind: {kind}, takes: {cm(takes)}}}")
    assume(length + count * takes < 100_000)
    assert number(text, SHELF, "count of marks") == count
    assert number(text, SHELF, "cloth of marks") - mm(length) == pytest.approx(mm(count * takes))
    first = {"knife": "folds", "box": "left folds", "inverted": "left folds"}[kind]
    last = {"knife": "meets", "box": "right meets", "inverted": "right folds"}[kind]
    lines = [row(text, SHELF, f"{words} of marks")[0] for words in (first, last)]
    assert all(isinstance(line, tuple) and len(line) == count for line in lines)
    starts, ends = lines
    assert isinstance(starts, tuple)
    assert isinstance(ends, tuple)
    assert starts[0] >= 0
    assert ends[-1] <= mm(length + count * takes) + 1e-6
    assert all(end <= start + 1e-6 for end, start in zip(ends, starts[1:], strict=False) if kind != "knife")


LIES = {
    "": (1, ""),
    "pair": (1, ""),
    "on fold": (2, "left"),
    "on two folds": (4, "left top"),
    "in the round": (2, "left right"),
}


def piece(across: str, down: str, cut: str, folds: str = "", allowance: str = "1 cm") -> str:
    key = "donor sides" if "round" in cut else "on fold"
    lines = ["piece: panel", f"rectangle: {{across: {across}, down: {down}}}", f"allowances: {{all: {allowance}}}"]
    lines += [f"cut: {cut} in main", *([f"{key}: {folds}"] if folds else [])]
    return block("cut-list", "pieces:\n  - " + "\n    ".join(lines))


@given(halves, halves, st.integers(1, 9), st.sampled_from(sorted(LIES)))
def test_total_is_drawn_times_layers_times_copies(across: Fraction, down: Fraction, count: int, lies: str) -> None:
    layers, folds = LIES[lies]
    text = post(blocks=piece(cm(across), cm(down), f"{count} {lies}".strip(), folds))
    copies = count * (2 if lies == "pair" else 1)
    assert number(text, SHELF, "total bottom of panel") == pytest.approx(mm(across * layers * copies))
    assert number(text, SHELF, "area of panel") == pytest.approx(float(across * down * layers * 100))
    whole = 1 if layers == 1 else 2
    assert number(text, SHELF, "bottom of panel") == pytest.approx(mm(across) * whole)


def everything(lengths: Iterable[str], order: int = 1) -> str:
    """A post with a spacing, pleats and a piece; ``order`` -1 writes numbers and keys the other way round."""
    length, wish, width, more = lengths
    numbers = [f"edge: {length}", f"wish: {wish}", "half edge: half of edge", f"width: {width}", "rest: edge - width"]
    spacing = ["name: marks", "along: [edge, half edge]", "in the round: yes", "every: nearest wish"]
    pleats = ["name: pleats", "along: edge", "every: at most wish", f"pleats: {{kind: box, takes: {more}}}"]
    blocks = block("spacing", "\n".join(spacing[::order])) + block("spacing", "\n".join(pleats[::order]))
    return post(*numbers[::order], blocks=blocks + piece("edge + wish", "width", "2 on fold", "left", more))


def values(text: str) -> dict[str, Value | None]:
    found = worked(text, SHELF, ["total bottom of panel", "cut width of panel", "cut height of panel", "rest"])
    assert not len(found.faults), [fault.message for fault in found.faults]
    return {key: found.values.row(key)[0] for key in found.values.steps if not key.startswith("=")}


def assert_same(one: dict[str, Value | None], other: dict[str, Value | None], factor: float = 1) -> None:
    assert one.keys() == other.keys()
    for key, value in one.items():
        scaled = other[key]
        if not key.startswith(("count of", "wished count")):
            scaled = tuple(each * factor for each in scaled) if isinstance(scaled, tuple) else (scaled or 0) * factor
        assert value == pytest.approx(scaled), key


@given(sixteenths, sixteenths, sixteenths, sixteenths)
def test_the_unit_a_writer_types_never_changes_a_result(
    length: Fraction, wish: Fraction, width: Fraction, more: Fraction
) -> None:
    lengths = (length, wish, width, more)
    in_cm = [(UNITS.Quantity(each, "inch")).to("cm").magnitude for each in lengths]
    assert_same(values(everything(map(inches, lengths))), values(everything(map(cm, in_cm))))


@given(halves, halves, halves, halves)
def test_the_order_of_numbers_and_keys_never_changes_a_result(
    length: Fraction, wish: Fraction, width: Fraction, more: Fraction
) -> None:
    lengths = [cm(each) for each in (length, wish, width, more)]
    assert values(everything(lengths)) == values(everything(lengths, order=-1))


@given(halves, halves, halves, halves, st.sampled_from([2, 4, 10]))
def test_a_doll_is_a_scaled_body(length: Fraction, wish: Fraction, width: Fraction, more: Fraction, scale: int) -> None:
    lengths = (length, wish, width, more)
    assume((length + ceil(length / wish) * more) * scale < 100_000)  # no more than 1 km of pleats, the most there is
    small = values(everything(map(cm, lengths)))
    large = values(everything(cm(each * scale) for each in lengths))
    assert_same(large, small, scale)
