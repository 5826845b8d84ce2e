"""The whole piece of one drawn on one fold, or on two at a right angle. Source: plane geometry."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from chalkfold.geometry import edges, outlines, points, segments
from chalkfold.geometry.offset import along_fold
from chalkfold.geometry.shapes import JOIN, Edge, Outline, Point, end, start
from chalkfold.geometry.trouble import GeometryTrouble, Reason


@dataclass(frozen=True, slots=True)
class Loop:
    """A closed outline; ``came_from`` gives for each of its edges the index of the one it was drawn as."""

    outline: Outline
    came_from: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Unfolded:
    """The whole piece. An edge that ends on a fold goes on across it as one edge.

    ``holes`` are closed outlines inside ``whole``, which run the other way round: a quarter of a ring on two folds is a
    whole ring. ``mirrors`` are the fold lines in the order they were opened: whatever lies on the piece is repeated,
    seen in each, together with its copies so far.
    """

    whole: Loop
    holes: tuple[Loop, ...] = ()
    mirrors: tuple[tuple[Point, Point], ...] = ()


def unfold(outline: Outline, folds: Collection[int] = ()) -> Unfolded:
    """Open the piece across its fold edges. Raises when one is not straight, or two do not lie square."""
    loops = [Loop(outline, tuple(range(len(outline))))]
    mirrors = [along_fold(outline[index], index) for index in sorted(folds)]
    _lie_square(outline, sorted(folds))
    for index, axis in zip(sorted(folds), mirrors, strict=True):
        loops = [opened for loop in loops for opened in _opened(loop, index, start(axis), end(axis))]
    loops.sort(key=lambda loop: -abs(outlines.area(loop.outline)))
    return Unfolded(loops[0], tuple(loops[1:]), tuple((start(axis), end(axis)) for axis in mirrors))


def _lie_square(outline: Outline, folds: list[int]) -> None:
    if len(folds) < 2:
        return
    first, second = (along_fold(outline[index], index) for index in folds[:2])
    lean = points.dot(segments.tangent_at(first, 0.0), segments.tangent_at(second, 0.0))
    if len(folds) > 2 or abs(lean) * max(segments.length(first), segments.length(second)) > JOIN:
        raise GeometryTrouble(
            Reason.FOLDS_NOT_SQUARE,
            "a piece can lie on one fold, or on two at a right angle to each other",
            "place the two folds at a right angle, or leave one fold",
            edges=tuple(folds),
        )


def _opened(loop: Loop, fold: int, a: Point, b: Point) -> list[Loop]:
    """Opened across A–B, on which every edge drawn as ``fold`` lies: each stretch between two of them closes."""
    places = [place for place, name in enumerate(loop.came_from) if name == fold]
    count = len(loop.came_from)
    return [
        _closed([(loop.outline[at % count], loop.came_from[at % count]) for at in range(place + 1, following)], a, b)
        for place, following in zip(places, [*places[1:], places[0] + count], strict=True)
    ]


def _closed(half: list[tuple[Edge, int]], a: Point, b: Point) -> Loop:
    """A stretch of edges from fold to fold, followed by its mirror image backwards."""
    image = [edges.backwards(edges.mirrored(edge, a, b)) for edge, _ in reversed(half)]
    drawn, names = [edge for edge, _ in half], [name for _, name in half]
    if len(half) == 1:
        return Loop((edges.joined(drawn[0], image[0]),), (names[0],))
    whole = (edges.joined(image[-1], drawn[0]), *drawn[1:-1], edges.joined(drawn[-1], image[0]), *image[1:-1])
    return Loop(whole, (*names, *reversed(names[1:-1])))
