"""A drawing with everything in its place, in drawing units: what a player plays."""

from __future__ import annotations

from dataclasses import dataclass, field

from chalkfold.draw.lines import PENS, LineType
from chalkfold.draw.paths import Extent
from chalkfold.draw.places import AT_FIRST, Placing
from chalkfold.draw.surface import Surface
from chalkfold.draw.words import Anchor, Lettering, Words
from chalkfold.geometry.points import same
from chalkfold.geometry.shapes import ARC, CUBIC, Edge, Point


@dataclass(frozen=True, slots=True)
class Written:
    """A line of text: where it stands on the writing line, by which end, and how it is turned, in degrees."""

    at: Point
    words: Words
    lettering: Lettering
    anchor: Anchor = "middle"
    angle: float = 0.0
    name: str = ""


@dataclass(slots=True)
class Layer:
    """What is shown and hidden together. ``name`` is empty for what every reader sees."""

    name: str = ""
    strokes: list[tuple[LineType, Edge]] = field(default_factory=list)
    solids: list[Edge] = field(default_factory=list)
    texts: list[Written] = field(default_factory=list)

    def play(self, surface: Surface) -> None:
        """Strokes by kind, each kind as one path, then arrowheads and dots, then texts."""
        if not (self.strokes or self.solids or self.texts):
            return
        surface.open_group(self.name)
        for line in PENS:
            edges = [edge for kind, edge in self.strokes if kind is line and edge]
            for edge in edges:
                trace(surface, edge)
            if edges:
                surface.stroke(line)
        for edge in self.solids:
            trace(surface, edge)
            surface.close()
        if self.solids:
            surface.fill("solid")
        for text in self.texts:
            surface.text(text.at, text.words, text.lettering, text.anchor, text.angle, text.name)
        surface.close_group()


@dataclass(frozen=True, slots=True)
class Drawn:
    """``extent`` is the part of the page to show; ``full`` has the labels, ``letters`` what stands for them.

    ``placing`` tells where they stand, for another size of the same piece.
    """

    extent: Extent
    cloth: Edge
    base: Layer
    full: Layer
    letters: Layer
    placing: Placing = field(default=AT_FIRST, compare=False)

    def play(self, surface: Surface) -> None:
        if self.cloth:
            trace(surface, self.cloth)
            surface.close()
            surface.fill("cloth")
        for layer in (self.base, self.full, self.letters):
            layer.play(surface)


def trace(surface: Surface, edge: Edge) -> None:
    """Draw the path of an edge, arcs as arcs and curves as curves; segments that do not follow on start anew."""
    here: Point | None = None
    for segment in edge:
        start, end = (segment[0], segment[1]), (segment[2], segment[3])
        if here is None or not same(start, here):  # rounding leaves no gap in a corner
            surface.move(*start)
        if len(segment) == ARC:
            _trace_arc(surface, segment[:2], end, segment[4:6], segment[6])
        elif len(segment) == CUBIC:
            surface.curve(segment[4], segment[5], segment[6], segment[7], *end)
        else:
            surface.line(*end)
        here = end


def _trace_arc(surface: Surface, start: tuple[float, ...], end: Point, centre: tuple[float, ...], sweep: float) -> None:
    radius = ((start[0] - centre[0]) ** 2 + (start[1] - centre[1]) ** 2) ** 0.5
    if abs(sweep) < 359.0:
        surface.arc(radius, abs(sweep) > 180, sweep > 0, *end)
        return
    opposite = (2 * centre[0] - start[0], 2 * centre[1] - start[1])
    surface.arc(radius, False, sweep > 0, *opposite)
    surface.arc(radius, False, sweep > 0, *end)
