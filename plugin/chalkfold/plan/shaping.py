"""The primitives of shaping: darts, pleats and slashes. As ``drafting.py``, which takes them in."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from chalkfold.geometry import darts

SHAPING: dict[str, Callable[..., Any]] = {
    "square in": darts.square_in,
    "square place": darts.square_place,
    "dart cap": darts.cap,
    "through": darts.through,
    "beside": darts.beside,
}
