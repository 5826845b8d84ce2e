"""Shaped pieces against published drafts, the source beside each."""

from __future__ import annotations

import pytest

from drafted import drafted, edge
from post_help import block, post

CM = 10.0
MEASURES = ("waist: 68 cm", "hip: 92 cm", "skirt length: 60 cm", "waist to hip: 20 cm")


def skirt_block(piece: str) -> str:
    """Back or front of the skirt block, its waist left on the level top line where the handout sets out the darts."""
    wide, take, hips, half, deep = {
        "back": ("waist / 4 + 2 cm + 1.2 cm", "2 cm", "(hip / 2 + 2.5 cm) / 2 + 0.75 cm", "w / 2 + 1 cm", "12 cm"),
        "front": ("waist / 4 + 2 cm", "2 cm", "(hip / 2 + 2.5 cm) / 2 - 0.75 cm", "w / 2 + 1 cm", "10 cm"),
    }[piece]
    half = half.replace("w /", f"({wide}) /")
    return block(
        "draft",
        f"""
        piece: {piece}
        cut: 1 on fold in main
        points:
          top: here
          waist end: {{from: top, across: {wide}, down: 0}}
          hip at side: {{from: top, across: {hips}, down: waist to hip}}
          hem at centre: {{from: top, down: skirt length}}
          hem at side: {{square down from: hip at side, square across from: hem at centre}}
        outline:
          start: top
          waist: line to waist end
          side: line to hip at side; line to hem at side
          hem: line to hem at centre
          centre: line to top
        on fold: centre
        allowances: none
        darts:
          dart: {{on: waist, at: {half}, from: top, takes: {take}, length: {deep}}}
        """,
    )


class TestSkirtBlockWithTwoDarts:
    """Of the waist after the darts see `published/skirt_block.md`, which has its curves.

    WikiEducator, "Handout for drafting skirt block" (wikieducator.org/Handout_for_drafting_skirt_block/Handout).

    It prints formulas and no measures; waist 68, hip 92, length 60 and waist to hip 20 cm are ours. Point 9 is taken as
    half of 1–7 and 1 cm, as for the front; the handout prints 1–5, surely by mistake.
    """

    @pytest.mark.parametrize(
        ("piece", "legs", "deep"), [("back", (10.1, 12.1), 12.0), ("front", (48.5 - 39.0, 48.5 - 37.0), 10.0)]
    )
    def test_where_the_legs_and_the_tip_lie(self, piece: str, legs: tuple[float, float], deep: float) -> None:
        """Dart points 9 and 12 of the handout, which lie on its level top line; the front from its centre."""
        names = tuple(f"= {part} of dart of {piece}" for part in ("first leg", "last leg", "tip"))
        found = drafted(post(*MEASURES, blocks=skirt_block(piece)), *names)
        first, last, tip = ([each / CM for each in edge(found, name)] for name in names)  # type: ignore[operator]
        assert first == pytest.approx([legs[0], 0]) and last == pytest.approx([legs[1], 0])
        assert tip == pytest.approx([sum(legs) / 2, deep])
