"""The primitives of shaping: darts, pleats and slashes. As ``drafting.py``, which takes them in."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from chalkfold.geometry import darts, edges, spread, trueing
from chalkfold.plan.fold_bits import which

SHAPING: dict[str, Callable[..., Any]] = {
    "square in": darts.square_in,
    "square place": darts.square_place,
    "square across": darts.square_across,
    "dart cap": darts.cap,
    "through": darts.through,
    "beside": darts.beside,
    "moving part": lambda outline, opens, hinge, folds: spread.moving_part(outline, opens, hinge, which(folds)),
    "dart part": lambda outline, opens, tip, legs, folds: spread.dart_part(outline, opens, tip, legs, which(folds)),
    "opened": spread.opened,
    "closed": spread.closed,
    "spread": spread.spread,
    "closed edge": spread.closed_edge,
    "spread point": spread.spread_point,
    "how far along": edges.nearest,
    "trued": trueing.trued,
}
