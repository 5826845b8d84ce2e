"""Pieces as DXF: sound for ezdxf's own auditor, in millimetres, and as long as the post says."""

from __future__ import annotations

import sys
from io import StringIO
from math import asin, pi, radians, sin
from typing import Any

import ezdxf
import pytest

from chalkfold.draw.lines import LineType
from chalkfold.draw.sheet import Sheet, Stroke
from chalkfold.paper.dxf import LAYERS, NoEzdxf, dxf
from chalkfold.paper.pieces import Piece
from paper_help import RING, pieces


def opened(data: bytes) -> Any:
    document = ezdxf.read(StringIO(data.decode()))
    auditor = document.audit()
    assert [each.message for each in (*auditor.errors, *auditor.fixes)] == []
    return document


def length_on(document: Any, layer: str) -> float:
    """What an independent reader measures on a layer, once it has taken the polylines apart into lines and arcs."""
    found = 0.0
    for polyline in document.modelspace().query(f'LWPOLYLINE[layer=="{layer}"]'):
        for part in polyline.virtual_entities():
            if part.dxftype() == "LINE":
                found += (part.dxf.end - part.dxf.start).magnitude
            else:
                found += part.dxf.radius * radians((part.dxf.end_angle - part.dxf.start_angle) % 360)
    return found


def outline_of(*segments: tuple[float, ...]) -> list[Piece]:
    """A piece of one line, as another room would hand it on."""
    return [Piece("scrap", ("1 in main",), (Sheet(segments, (Stroke(LineType.CUTTING, segments),)),))]


def test_it_is_in_millimetres_and_its_layers_have_plain_names() -> None:
    document = opened(dxf(pieces()))
    assert document.header["$INSUNITS"] == 4
    assert {layer.dxf.name for layer in document.layers} >= set(LAYERS)
    used = {entity.dxf.layer for entity in document.modelspace()}
    assert used == {"cutting", "seam", "fold", "grain", "notch", "mark", "line", "name"}


def test_lengths_read_back_are_those_of_the_post() -> None:
    """The ring has no allowances: two sides of 50 cm, and quarter arcs with radii of 50 and 100 cm."""
    document = opened(dxf(pieces(RING)))
    assert length_on(document, "cutting") == pytest.approx(2 * 500 + pi / 2 * (500 + 1000), abs=0.001)


def test_allowances_are_between_seam_and_cutting_line() -> None:
    """Bag side, large: sides of 38 cm and 24 cm, a foot on a radius of 20 cm, 1 cm outside it and 3 cm at the top."""
    (side, _) = pieces(size="large")
    document = opened(dxf([side]))
    arc = 2 * asin(24 / 2 / 20) * 200  # twice the angle whose sine is half the width by the radius
    assert length_on(document, "seam") == pytest.approx(240 + 2 * 380 + arc, abs=0.001)
    assert length_on(document, "notch") == pytest.approx(3 * 6, abs=0.01)


def test_arcs_stay_arcs_the_right_way_round() -> None:
    """A quarter turn clockwise on the page, from the right of the centre to below it: with y up it bulges outwards."""
    (line,) = opened(dxf(outline_of((100.0, 0.0, 0.0, 100.0, 0.0, 0.0, 90.0)))).modelspace().query("LWPOLYLINE")
    (arc,) = line.virtual_entities()
    assert arc.dxftype() == "ARC"
    assert tuple(arc.dxf.center)[:2] == pytest.approx((0, 100))
    assert (arc.dxf.radius, arc.dxf.start_angle % 360, arc.dxf.end_angle % 360) == pytest.approx((100, 270, 0))


@pytest.mark.parametrize("sweep", [200.0, -270.0, 360.0, -360.0])
def test_more_than_half_a_turn_keeps_its_length(sweep: float) -> None:
    turn = radians(sweep)
    end = (50 * (1 - 2 * sin(turn / 2) ** 2), 50 * sin(turn))
    document = opened(dxf(outline_of((50.0, 0.0, *end, 0.0, 0.0, sweep))))
    assert length_on(document, "cutting") == pytest.approx(50 * abs(turn), abs=0.001)


def test_curves_are_splines_with_the_same_control_points() -> None:
    cubic = (0.0, 0.0, 90.0, 0.0, 20.0, 60.0, 70.0, 60.0)
    document = opened(dxf(outline_of((-50.0, 0.0, 0.0, 0.0), cubic, (90.0, 0.0, 140.0, 0.0))))
    (spline,) = document.modelspace().query("SPLINE")
    controls = [(float(p[0]), float(p[1])) for p in spline.control_points]
    (x, y), *_ = controls
    assert [(a - x, b - y) for a, b in controls] == [(0, 0), (20, -60), (70, -60), (90, 0)]
    assert len(document.modelspace().query("LWPOLYLINE")) == 2


def test_nested_sizes_are_told_apart_by_their_layers() -> None:
    document = opened(dxf(pieces(nested=True)))
    small, large = (length_on(document, f"seam {size}") for size in ("small", "large"))
    assert large - small == pytest.approx(2 * 80, abs=0.001)


def test_the_same_pieces_give_the_same_bytes() -> None:
    assert dxf(pieces()) == dxf(pieces())
    assert not ezdxf.options.write_fixed_meta_data_for_testing  # as it was before


def test_without_the_library_it_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    with pytest.raises(NoEzdxf):
        dxf(pieces())
