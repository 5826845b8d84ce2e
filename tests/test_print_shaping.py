"""Pieces with darts and slashes at full size: printed, nested and as DXF, with all that shaping drew on them."""

from __future__ import annotations

from io import BytesIO, StringIO
from math import hypot

import ezdxf
import pytest
from pypdf import PdfReader

from chalkfold.draw.lines import LineType
from chalkfold.draw.sheet import Drill, Notch
from chalkfold.geometry import edges
from chalkfold.paper.dxf import dxf
from paper_help import pdf, pieces
from test_print_dxf import length_on

STRAIGHT = "line to b"
CURVED = "curve to b leaving across arriving -12°"
SKIRT = """```project
sizes: [small, large]
sample size: large
numbers:
  dart: {small: 0, large: 2 cm}
  flare: {small: 6 cm, large: 12 cm}
```

```draft
piece: skirt
cut: 1 pair in main
points:
  a: here
  b: {from: a, across: 30 cm}
  c: {from: b, down: 40 cm}
  d: {from: a, down: 40 cm}
outline:
  start: a
  waist: WAIST
  side: line to c
  hem: line to d
  centre: line to a
allowances: none
darts:
  dart: {on: waist, at: 20 cm, from: a, takes: dart, length: 10 cm, pressed towards: centre}
spread:
  flare: {cut from: hem at 10 cm from d, hinge at: waist at 10 cm from a, open: flare}
```
"""


def skirt(waist: str) -> str:
    return SKIRT.replace("WAIST", waist)


def test_lengths_read_back_are_those_of_the_shaped_piece() -> None:
    """Waist 30 less a dart of 2, over which a cap stands 10 × 2t / (1 − t²) high, t = 10/100; hem 30 and flare 12."""
    document = ezdxf.read(StringIO(dxf(pieces(skirt(STRAIGHT))).decode()))
    cap = 10 * 0.2 / 0.99
    waist, sides, hem = 300 - 20 + 2 * hypot(10, cap), 2 * 400, 300 + 120
    assert length_on(document, "cutting") == pytest.approx(waist + sides + hem, abs=0.001)
    assert length_on(document, "line") == pytest.approx(2 * hypot(100, 10) + 100 + cap, abs=0.001)
    assert length_on(document, "notch") == pytest.approx(2 * 6, abs=0.01)


@pytest.mark.parametrize("waist", [STRAIGHT, CURVED])
def test_nested_the_dart_lies_in_the_size_that_has_one(waist: str) -> None:
    (piece,) = pieces(skirt(waist), nested=True)
    small, large = piece.sheets
    assert piece.is_nest
    for sheet, darts in ((small, 0), (large, 1)):
        stitched = [stroke for stroke in sheet.strokes if stroke.line is LineType.STITCHED]
        assert len(stitched) == 2 * darts
        assert sum(isinstance(item, Notch) for item in sheet.items) == 2 * darts
        assert sum(isinstance(item, Drill) for item in sheet.items) == darts
        told = [line for item in sheet.items if isinstance(item, Drill) for line in item.lines]
        assert told == [("dart",), ("pressed towards the centre",)] * darts
    assert edges.length(large.cloth) > edges.length(small.cloth)


@pytest.mark.parametrize("order", [{}, {"nested": True}, {"allowances": False}])
@pytest.mark.parametrize("waist", [STRAIGHT, CURVED])
def test_a_shaped_piece_prints(waist: str, order: dict[str, bool]) -> None:
    """On A4 of 190 by 277 mm the skirt, over 40 cm long, takes several sheets behind the first page."""
    pages = PdfReader(BytesIO(pdf(text=skirt(waist), **order))).pages
    assert len(pages) > 4
    assert "skirt" in pages[0].extract_text().casefold()
