"""Slash and spread: a piece cut in two along a line, and one part moved as it is.

The part that moves is kept as an outline of two edges: its stretch of the seam line, and the cut from where it opens to
the hinge. Where it comes to lie is told by where the first line of the cut does. Slash and spread is common practice,
no source; the formulas are those of turning about a point.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import asin, degrees

from chalkfold.geometry import edges, outlines
from chalkfold.geometry.intersect import meetings
from chalkfold.geometry.points import between, direction, distance, left_of, minus, same, shifted, turned, unit
from chalkfold.geometry.shapes import JOIN, SAME, Edge, Outline, Point, end, line, start
from chalkfold.geometry.trouble import GeometryTrouble, Reason, in_cm

_JUST_AFTER = 0.5
"""Without a fold that part stays which begins where the outline does: this far (mm) along it."""


def moving_part(outline: Outline, opens: Point, hinge: Point, folds: Sequence[int]) -> Outline:
    """The part that moves when the piece is cut from ``opens`` to ``hinge``, two points of its seam line.

    The part with the folds stays, without folds the one that holds the start of the outline. Raises when the cut leaves
    the piece, ends on a fold, or parts two folds.
    """
    loop = _loop(outline)
    _lies_inside(loop, opens, hinge)
    here, there = (_place(loop, point) for point in (opens, hinge))
    _off_folds(outline, (opens, hinge), folds)
    ahead, behind = _stretch(loop, here, there), _stretch(loop, there, here)
    stays = _stays(outline, loop, folds, here, there)
    return (behind if stays else edges.backwards(ahead)), (line(opens, hinge),)


def dart_part(outline: Outline, opens: Point, tip: Point, legs: Edge, folds: Sequence[int]) -> Outline:
    """The part that moves when a dart is closed and the piece opens along a cut from ``opens`` to its tip.

    ``legs`` runs between the ends of the two legs on the seam line, in the order of the outline.
    """
    loop = _loop(outline)
    _lies_inside(loop, opens, tip, to_edge=False)
    here, first, last = (_place(loop, point) for point in (opens, edges.first(legs), edges.last(legs)))
    _off_folds(outline, (opens,), folds)
    if _stays(outline, loop, folds, here, first):
        return _stretch(loop, last, here), (line(opens, tip), line(tip, edges.last(legs)))
    return edges.backwards(_stretch(loop, here, first)), (line(opens, tip), line(tip, edges.first(legs)))


def opened(part: Outline, wide: float, at_hinge: float) -> Edge:
    """Where the cut comes to lie, spread by ``wide`` mm at its start and ``at_hinge`` mm at its end (0: it is a hinge).

    The two sides of the gap are mirror images, so that it opens as a wedge, or as a band where both are alike.
    """
    cut = part[-1][0]
    opens, hinge = start(cut), end(cut)
    sine = (wide - at_hinge) / 2.0 / distance(opens, hinge)
    if abs(sine) >= 1.0:
        raise GeometryTrouble(
            Reason.OPENED_TOO_FAR,
            f"the slash is {in_cm(distance(opens, hinge))} long and cannot be opened by {in_cm(abs(wide - at_hinge))}",
            "open it less, or make more slashes",
        )
    right = outlines.orientation(part) > 0
    x, y = left_of(unit(opens, hinge))
    half = degrees(asin(sine)) * (-1.0 if right else 1.0)
    away = turned((-x, -y) if right else (x, y), half)
    return (line(shifted(opens, away, wide), shifted(hinge, away, at_hinge)),)


def closed(part: Outline, legs: Edge) -> Edge:
    """Where the cut to a dart's tip comes to lie when the dart is closed: turned about the tip, leg on leg."""
    cut, leg = part[-1]
    tip, moves = start(leg), end(leg)
    first, last = edges.first(legs), edges.last(legs)
    other = last if same(moves, first) else first
    turn = 0.0 if same(first, last) else direction(tip, other) - direction(tip, moves)
    return (line(turned(start(cut), turn, tip), tip),)


def spread(edge: Edge, part: Outline, cut: Edge, bridges: float) -> Edge:
    """The edge with all that lies on the part moved to where its cut comes to lie; what opens is bridged straight.

    Where the piece opens at an end of the edge, the bridge belongs to it if ``bridges`` is 1.
    """
    slash = part[-1][0]
    ends = [point for point in (start(slash), end(slash)) if edges.contains(edge, point, JOIN)]
    met = [point for segment in edge for point in meetings(segment, slash)]
    whole = edges.length(edge)
    places = [0.0]
    for place in sorted(edges.nearest(edge, point) for point in (*ends, *met)):
        if place - places[-1] > JOIN and whole - place > JOIN:
            places.append(place)
    pieces: list[Edge] = []
    for begin, stop in zip(places, [*places[1:], whole], strict=True):
        piece = edges.part(edge, begin, stop)
        moves = _moves(part, edges.point_at(piece, edges.length(piece) / 2.0))
        pieces.append(_moved(piece, part, cut) if moves else piece)
    if bridges:
        pieces = _bridged_ends(edge, pieces, ends, part, cut)
    return edges.joined(*_bridged(pieces))


def _bridged(pieces: list[Edge]) -> list[Edge]:
    """Pieces that follow each other, with straight lines over the gaps between them."""
    found = pieces[:1]
    for piece in pieces[1:]:
        gap = line(edges.last(found[-1]), edges.first(piece))
        found += [piece] if same(start(gap), end(gap)) else [(gap,), piece]
    return found


def _bridged_ends(edge: Edge, pieces: list[Edge], ends: list[Point], part: Outline, cut: Edge) -> list[Edge]:
    """The pieces of an edge and, where it ends at the slash, the line over to the other side of the gap."""
    for point in ends:
        sides = point, spread_to(point, part, cut)
        for at_start, own in ((True, edges.first(edge)), (False, edges.last(edge))):
            if not same(own, point, JOIN):
                continue
            here = edges.first(pieces[0]) if at_start else edges.last(pieces[-1])
            there = sides[1] if distance(here, sides[0]) < distance(here, sides[1]) else sides[0]
            if not same(here, there):
                pieces = [(line(there, here),), *pieces] if at_start else [*pieces, (line(here, there),)]
    return pieces


def closed_edge(edge: Edge, legs: Edge, part: Outline, cut: Edge) -> Edge:
    """The edge of a dart that is closed: without the stretch between its legs, the part beyond it moved."""
    begin, stop = sorted(edges.nearest(edge, point) for point in (edges.first(legs), edges.last(legs)))
    whole = edges.length(edge)
    before = (edges.part(edge, 0.0, begin),) if begin > SAME else ()
    after = (edges.part(edge, stop, whole),) if whole - stop > SAME else ()
    return edges.joined(*(spread(piece, part, cut, 0.0) for piece in (*before, *after)))


def spread_point(point: Point, part: Outline, cut: Edge) -> Point:
    """The point, moved with the part if it lies on it. A point of the cut itself stays."""
    return spread_to(point, part, cut) if _moves(part, point) else point


def spread_to(point: Point, part: Outline, cut: Edge) -> Point:
    """Where a point comes to lie that moves with the part."""
    turn, (across, down) = _motion(part, cut)
    x, y = turned(point, turn, start(part[-1][0]))
    return x + across, y + down


def _moved(edge: Edge, part: Outline, cut: Edge) -> Edge:
    turn, (across, down) = _motion(part, cut)
    return edges.moved(edges.turned(edge, turn, start(part[-1][0])), across, down)


def _motion(part: Outline, cut: Edge) -> tuple[float, Point]:
    """Degrees that the part turns about the start of its cut, and how far it then moves across and down."""
    was = part[-1][0]
    turn = direction(start(cut[0]), end(cut[0])) - direction(start(was), end(was))
    return turn, minus(start(cut[0]), start(was))


def _moves(part: Outline, point: Point) -> bool:
    if edges.contains(part[-1], point, JOIN):
        return False
    return edges.contains(part[0], point, JOIN) or outlines.encloses(part, point)


def _loop(outline: Outline) -> Edge:
    return tuple(segment for edge in outline for segment in edge)


def _place(loop: Edge, point: Point) -> float:
    """How far along the outline a point of it lies."""
    found = edges.nearest(loop, point)
    whole = edges.length(loop)
    if not same(edges.point_at(loop, found), point, JOIN):
        raise GeometryTrouble(
            Reason.SLASH_LEAVES,
            "the slash does not start and end at an edge",
            "name a place on an edge, as in `hem at 12 cm from P`",
        )
    return 0.0 if whole - found <= SAME else found


def _stretch(loop: Edge, begin: float, stop: float) -> Edge:
    """The outline from one place on to another, also past its start."""
    if stop - begin > SAME:
        return edges.part(loop, begin, stop)
    before = edges.part(loop, begin, edges.length(loop))
    return edges.joined(before, edges.part(loop, 0.0, stop)) if stop > SAME else before


def _stays(outline: Outline, loop: Edge, folds: Sequence[int], begin: float, stop: float) -> bool:
    """Whether the stretch from one place on to another is on the part that stays."""
    found = {_between(place, begin, stop) for place in _held(outline, folds)}
    if len(found) > 1:
        raise GeometryTrouble(
            Reason.SLASH_ON_FOLD,
            "the slash parts the two folds",
            "slash so that both folds stay on one side",
            edges=tuple(folds),
        )
    return found.pop()


def _held(outline: Outline, folds: Sequence[int]) -> list[float]:
    """Places along the outline that stay: the middles of the folds, else its start."""
    passed, middles = 0.0, []
    for index, edge in enumerate(outline):
        if index in folds:
            middles.append(passed + edges.length(edge) / 2.0)
        passed += edges.length(edge)
    return middles or [_JUST_AFTER]


def _between(place: float, begin: float, stop: float) -> bool:
    return begin <= place < stop if begin < stop else place >= begin or place < stop


def _off_folds(outline: Outline, ends: Sequence[Point], folds: Sequence[int]) -> None:
    for index in folds:
        edge = outline[index]
        for point in ends:
            corner = any(same(point, each, JOIN) for each in (edges.first(edge), edges.last(edge)))
            if edges.contains(edge, point, JOIN) and not corner:
                raise GeometryTrouble(
                    Reason.SLASH_ON_FOLD,
                    "the slash ends on the fold, which would no longer be straight",
                    "slash from edge to edge, and let the fold stay whole",
                    edges=(index,),
                )


def _lies_inside(loop: Edge, opens: Point, to: Point, *, to_edge: bool = True) -> None:
    """Raises unless the line between lies in the piece and meets its seam line only where it should."""
    ends = (opens, to) if to_edge else (opens,)
    if not same(opens, to, JOIN):
        cut, middle = line(opens, to), between(opens, to, 0.5)
        met = [point for segment in loop for point in meetings(segment, cut)]
        crossed = any(not any(same(point, each, JOIN) for each in ends) for point in met)
        if not crossed and not edges.contains(loop, middle, JOIN) and outlines.encloses((loop,), middle):
            return
    raise GeometryTrouble(
        Reason.SLASH_LEAVES,
        "the slash runs along an edge, or out of the piece",
        "name two places with nothing but the piece between them",
    )
