"""What must hold for every order of work, tried on made-up pieces."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from chalkfold.trade.seams import seam_words
from faults_help import assert_well_told
from post_help import block, number, post, worked, workroom

SHELF = workroom()
COPIES = st.sampled_from(["1 in main", "2 in main", "1 pair in main", "3 in main", "1 on fold in main"])
THREAD = block("materials", "items:\n  - item: thread\n    from: seams")
heights_of_panels = st.lists(st.integers(10, 90), min_size=2, max_size=5)


def cut_list(*pieces: tuple[str, str, str, str]) -> str:
    """Rectangles: name, across, down and how they are cut; on the fold, the fold lies on the left."""
    told = "".join(
        f"  - piece: {name}\n    rectangle: {{across: {across}, down: {down}}}\n    cut: {cut}\n"
        f"    allowances: none\n{'    on fold: left' if 'fold' in cut else ''}\n"
        for name, across, down, cut in pieces
    )
    return block("cut-list", f"pieces:\n{told}")


def panels(heights: Sequence[int], cut: str = "2 in main") -> str:
    """A front and a back for each height (cm), as ``front 1`` and ``back 1`` …"""
    return cut_list(
        *(
            (f"{name} {at}", "30 cm", f"{down} cm", cut)
            for at, down in enumerate(heights, start=1)
            for name in ("front", "back")
        )
    )


def sewn(lines: Sequence[str], pieces: str, more: str = "") -> str:
    listed = "".join(f"  - {line}\n" for line in lines)
    return post(blocks=pieces + block("sew", f"seams:\n{listed}") + more)


@settings(max_examples=40)
@given(heights_of_panels, st.permutations(range(5)), COPIES)
def test_seams_come_to_the_same_total_in_every_order(heights: list[int], order: list[int], cut: str) -> None:
    """Whichever comes first, and whichever side of a plain seam is written first."""
    lines = [f"right of front {at} to right of back {at}" for at in range(1, len(heights) + 1)]
    other = [f"right of back {at + 1} to right of front {at + 1}" for at in order if at < len(heights)]
    there = {"1 pair in main": 2, "1 on fold in main": 2}.get(cut) or int(cut[0])
    for each in (lines, other):
        total = number(sewn(each, panels(heights, cut)), SHELF, "total length of seams")
        assert total == pytest.approx(sum(heights) * 10 * there)


@given(heights_of_panels, st.permutations(range(5)))
def test_edges_are_added_up_in_any_order(heights: list[int], order: list[int]) -> None:
    taken = [at + 1 for at in order if at < len(heights)]
    side = " + ".join(f"right of front {at}" for at in taken)
    other = " and ".join(f"right of back {at}" for at in sorted(taken))
    text = sewn([f"{side} to {other}"], panels(heights))
    assert number(text, SHELF, "length of seam 1") == pytest.approx(sum(heights) * 20)


@given(st.integers(20, 90), st.integers(1, 9), st.integers(1, 6))
def test_in_the_round_all_copies_of_both_count(width: int, tiers: int, yokes: int) -> None:
    pieces = cut_list(
        ("tier", f"{width * 10} cm", "20 cm", f"{tiers} in main"), ("yoke", f"{width} cm", "20 cm", f"{yokes} in main")
    )
    text = sewn(["top of tier to bottom of yoke, gathered, in the round"], pieces)
    assert number(text, SHELF, "ratio of seam 1") == pytest.approx(10 * tiers / yokes)
    assert number(text, SHELF, "length of seam 1") == pytest.approx(width * 10 * yokes)


@given(st.integers(2, 24), st.integers(30, 200), st.integers(201, 400))
def test_marks_part_both_edges_alike(parts: int, short: int, long: int) -> None:
    pieces = cut_list(("frill", f"{long} cm", "20 cm", "1 in main"), ("hem", f"{short} cm", "20 cm", "1 in main"))
    values = worked(sewn([f"top of frill to bottom of hem, gathered, matched in {parts}"], pieces), SHELF).values
    for which, across in (("first", long), ("second", short)):
        (marks,) = values.row(f"= marks on {which} edge of seam 1")
        assert marks == pytest.approx([10 * at * across / parts for at in range(1, parts)])


FINISHES = ("overlocked", "zigzagged", "French seam", "bound", "flat-felled", "topstitched twice")


@settings(max_examples=40)
@given(heights_of_panels, st.sampled_from(FINISHES))
def test_twice_the_seam_takes_twice_the_thread(heights: list[int], word: str) -> None:
    """What is wasted is a share, never a constant; and no seam takes less than one row."""
    lines = [f"right of front {at + 1} to right of back {at + 1}, {word}" for at in range(len(heights))]
    once, twice = (
        number(sewn(lines, panels([height * factor for height in heights]), THREAD), SHELF, "length of item 1")
        for factor in (1, 2)
    )
    assert twice == pytest.approx(2 * once)
    assert once > sum(heights) * 20 * 2.5


@given(st.integers(5, 45), st.integers(-30, 30), st.booleans())
def test_notches_agree_within_two_millimetres_and_no_further(at: int, off: int, from_below: bool) -> None:
    """The back's notch lies ``off`` tenths of a millimetre from the front's, from whichever end it is given."""
    back = at * 10 + off / 10
    said = f"{500 - back:.1f} mm from bottom left" if from_below else f"{back:.1f} mm from top left"
    body = "cut: 2 in main\nrectangle: {across: 30 cm, down: 50 cm}\nallowances: {all: 1 cm}\nmarks:\n  - notch on"
    drafts = block("draft", f"piece: front\n{body} right at {at} cm from top right")
    drafts += block("draft", f"piece: back\n{body} left at {said}")
    found = worked(sewn(["right of front to left of back"], drafts), SHELF)
    assert [fault.message.partition(":")[0] for fault in found.faults] == ["the notches do not meet"] * (abs(off) > 20)


def test_every_size_is_walked() -> None:
    numbers = ("deep: {S: 40 cm, M: 42 cm, L: 44 cm}", "other: {S: 40 cm, M: 43 cm, L: 45 cm}")
    pieces = cut_list(("front", "30 cm", "deep", "1 in main"), ("back", "30 cm", "other", "1 in main"))
    blocks = pieces + block("sew", "seams:\n  - right of front to left of back")
    found = worked(post(*numbers, blocks=blocks, head="sizes: [S, M, L]"), SHELF)
    (fault,) = found.faults
    assert fault.sizes == ("M", "L")
    assert found.values.row("length of seam 1") == (400, 430, 450)


def test_a_post_of_sixty_seams_is_summed_and_bought_for() -> None:
    lines = [f"right of front {at} to right of back {at}, overlocked, zigzagged, topstitched" for at in range(1, 61)]
    text = sewn(lines, panels([20] * 60, "1 in main"), THREAD)
    assert number(text, SHELF, "total length of seams") == pytest.approx(60 * 200)
    (fault,) = worked(sewn([*lines, "left of front 1 to left of back 1"], panels([20] * 60)), SHELF).faults
    assert fault.message == "there are 61 seams here"


WORDS = (
    "top of front 1", "right of back 1", "one top of front 1", "+", "-", "and", "to", "to itself", "from", "laps",
    "at top", ",", "± 3 mm", "eased", "gathered 2 times", "stretched 5 %", "matched in 4", "turned up", "2 cm twice",
    "lapped", "again", "in the round", "overlocked", "pressed open", "half of 3 cm", "(", ")", "of", "{= 2 cm }",
    "of front 1", "itself", "0",
)  # fmt: skip


@given(st.lists(st.sampled_from(WORDS), min_size=1, max_size=9))
def test_whatever_is_written_is_told_and_never_breaks(words: list[str]) -> None:
    """Each fault is a clause with a place and a hint; a sentence without one is a row of the table."""
    text = sewn([f'"{" ".join(words)}"'], panels([40]))
    found = worked(text, SHELF)
    for fault in found.faults:
        assert_well_told(fault)
    assert len(found.faults) or "length of seam 1" in found.values.by_key or "overlap at top" in found.values.by_key


class TestWords:
    """The table of words and figures."""

    def test_every_row_is_of_a_stitch_that_has_a_figure_and_every_stitch_has_a_machine(self) -> None:
        words = seam_words()
        rows = [*(word.adds for word in words.words.values()), *(way.rows_on_first for way in words.ways.values())]
        assert {stitch for each in rows for stitch in each} <= set(words.stitches)
        assert {stitch.machine for stitch in words.stitches.values()} <= set(words.machines)

    @pytest.mark.parametrize(("stitch", "thread"), [("301", 2.5), ("304", 7), ("504", 14), ("512", 18), ("406", 18)])
    def test_thread_is_that_of_the_published_table(self, stitch: str, thread: float) -> None:
        """Consumption table after Carr and Latham, *The Technology of Clothing Manufacture*, and Coats."""
        assert seam_words().stitches[stitch].thread == thread

    def test_a_published_seam(self) -> None:
        """220 cm of 301 take 550 cm before what is wasted: an example of a thread guide, half above and half below."""
        pieces = cut_list(("band", "1 m", "220 cm", "1 in main"))
        text = sewn(["left of band to right of band"], pieces, THREAD)
        assert number(text, SHELF, "length of item 1") == pytest.approx(5500 * 1.15)
