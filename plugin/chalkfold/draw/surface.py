"""What a drawing is drawn onto, and a surface that only remembers, for tests."""

from __future__ import annotations

from typing import Protocol

from chalkfold.draw.lines import LineType
from chalkfold.draw.words import Anchor, Lettering, Words, plain
from chalkfold.geometry.shapes import Point


class Surface(Protocol):
    """A path is built up by ``move``, ``line``, ``arc``, ``curve``, ``close`` and ends with ``stroke`` or ``fill``."""

    def move(self, x: float, y: float) -> None:
        """Start a part of the path."""

    def line(self, x: float, y: float) -> None:
        """Straight on to a point."""

    def arc(self, radius: float, large: bool, clockwise: bool, x: float, y: float) -> None:
        """Along a circle to a point; ``clockwise`` as seen on the page, ``large`` for more than half a turn."""

    def curve(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        """A cubic with two control points."""

    def close(self) -> None:
        """Back to where this part of the path began."""

    def stroke(self, line: LineType) -> None:
        """Draw the path as a line."""

    def dashed(self, name: str, dashes: tuple[float, ...], heavy: bool) -> None:
        """Draw the path as the outline of one of several sizes."""

    def fill(self, role: str) -> None:
        """Fill the path: ``cloth`` faintly, ``solid`` fully."""

    def text(self, at: Point, words: Words, lettering: Lettering, anchor: Anchor, angle: float, name: str) -> None:
        """Write a line that starts, ends or has its middle at a place, turned by degrees round it."""

    def open_group(self, name: str) -> None:
        """What follows is shown or hidden together."""

    def close_group(self) -> None:
        """The group ends."""


class RecordingSurface:
    """Remembers what was drawn, one entry a path or text."""

    def __init__(self) -> None:
        self.entries: list[tuple[str, str, str]] = []
        self.group = ""
        self._path: list[str] = []

    def move(self, x: float, y: float) -> None:
        self._path.append("move")

    def line(self, x: float, y: float) -> None:
        self._path.append("line")

    def arc(self, radius: float, large: bool, clockwise: bool, x: float, y: float) -> None:
        self._path.append("arc")

    def curve(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        self._path.append("curve")

    def close(self) -> None:
        self._path.append("close")

    def stroke(self, line: LineType) -> None:
        self._end(line.value)

    def dashed(self, name: str, dashes: tuple[float, ...], heavy: bool) -> None:
        self._end(name)

    def fill(self, role: str) -> None:
        self._end(role)

    def text(self, at: Point, words: Words, lettering: Lettering, anchor: Anchor, angle: float, name: str) -> None:
        self.entries.append((self.group, lettering.name, plain(words)))

    def open_group(self, name: str) -> None:
        self.group = name

    def close_group(self) -> None:
        self.group = ""

    def _end(self, role: str) -> None:
        self.entries.append((self.group, role, " ".join(self._path)))
        self._path = []
