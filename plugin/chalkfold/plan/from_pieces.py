"""The primitives of pieces made from pieces: opened out, mirrored, parted, traced. Lengths in mm."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from chalkfold.geometry import closing, edges, parting, points
from chalkfold.geometry.offset import offset
from chalkfold.geometry.shapes import Outline
from chalkfold.geometry.tracing import inner_line
from chalkfold.geometry.turned import turns_outwards
from chalkfold.plan.drafting import constructed
from chalkfold.plan.fold_bits import which


def turned_cutting_line(seam: Outline, allowances: tuple[float, ...], folds: float, turned: float) -> Outline:
    return offset(seam, allowances, which(folds), which(turned))


_PLAIN: dict[str, Callable[..., Any]] = {
    "turned cutting line": turned_cutting_line,
    "turn outwards": lambda outline, index: turns_outwards(outline, int(index)),
    "mirrored point": points.mirrored,
    "mirrored edge": edges.mirrored,
    "backwards": edges.backwards,
    "up to": parting.up_to,
    "on from": parting.on_from,
    "stretch": parting.stretch,
    "place round": parting.place_round,
    "middle of": parting.middle,
    "taken in": closing.taken_in,
    "carried along": closing.carried_along,
    "inner line": inner_line,
}

FROM_PIECES: dict[str, Callable[..., Any]] = {name: constructed(work) for name, work in _PLAIN.items()}
