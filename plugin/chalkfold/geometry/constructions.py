"""What compasses, a square and a ruler find on paper. Source of all formulas: plane geometry.

Several points may answer; ``candidates`` are all of them, and ``choosing.py`` takes the one that is meant.
"""

from __future__ import annotations

from chalkfold.geometry import arcs, edges, intersect, points, segments
from chalkfold.geometry.shapes import JOIN, SAME, Edge, Point, Segment, arc, centre, end, is_arc, line
from chalkfold.geometry.trouble import GeometryTrouble, Reason, in_cm

FAR = 500_000.0
"""How far (mm) a line through two points is carried on to both sides: no cloth is longer."""
Candidates = tuple[Point, ...]


def copied(point: Point, a: Point, b: Point) -> Point:
    """``point`` moved as far and in the direction that leads from ``a`` to ``b``."""
    return point[0] + (b[0] - a[0]), point[1] + (b[1] - a[1])


def carried_on(a: Point, b: Point) -> Edge:
    """The line through two points, carried on beyond both. Raises when they are one point."""
    along = points.unit(a, b)
    return (line(points.shifted(a, along, -FAR), points.shifted(a, along, FAR)),)


def carried_past(edge: Edge, place: Point, by: float) -> Point:
    """``by`` mm beyond an end of an edge: an arc goes on round its circle, any other curve straight on.

    Raises when ``place`` is no end of the edge, or ``by`` is negative.
    """
    if by < 0:
        message = f"{in_cm(by)} past an end lies back on the edge"
        hint = "to measure along the edge, write `{along: EDGE, at: 5 cm, from: END}`"
        raise GeometryTrouble(Reason.PAST_THE_END, message, hint, measures=(by,))
    last = _ending_at(edge, place)
    whole = segments.length(last)
    if is_arc(last):
        return arcs.point_at(last, whole + by)
    return points.shifted(end(last), segments.tangent_at(last, whole), by)


def _ending_at(edge: Edge, place: Point) -> Segment:
    """The segment at this end, running towards it."""
    if points.same(place, edges.last(edge), JOIN):
        return edge[-1]
    if points.same(place, edges.first(edge), JOIN):
        return segments.backwards(edge[0])
    message = "this point is no end of the edge"
    raise GeometryTrouble(Reason.NOT_ON_THE_EDGE, message, "name one of the two ends of the edge")


def mirrored(point: Point, axis: Edge) -> Point:
    """``point`` seen in a straight edge. Raises when the edge is curved, or its ends are one point."""
    first, last = edges.first(axis), edges.last(axis)
    if points.same(first, last):
        message = "this is a mirror with no axis: its two points lie on each other"
        raise GeometryTrouble(Reason.NO_DIRECTION, message, "name two points that lie apart in every size")
    if not edges.is_straight(axis):
        message = "this edge is not straight, and nothing can be mirrored in it"
        raise GeometryTrouble(
            Reason.FOLD_NOT_STRAIGHT, message, "name a straight edge, or two points as in `in: [A, B]`"
        )
    return points.mirrored(point, first, last)


def foot(edge: Edge, point: Point) -> Point:
    """Where the line from ``point`` meets an edge squarely; the nearest such place.

    Raises when there is none between the ends of the edge, or every place of an arc is one.
    """
    found: list[Point] = []
    for segment in edge:
        if is_arc(segment) and points.same(point, centre(segment)):
            message = "this point is the centre of the arc, and every line from it meets the arc squarely"
            raise GeometryTrouble(Reason.SEVERAL, message, "name the place on the arc, as in `{along: EDGE, at: 1/2}`")
        along = segments.nearest(segment, point)
        place = segments.point_at(segment, along)
        if segments.length(segment) > SAME and _is_square(point, place, segments.tangent_at(segment, along)):
            found.append(place)
    if found:
        return min(found, key=lambda place: points.distance(place, point))
    off = points.distance(edges.point_at(edge, edges.nearest(edge, point)), point)
    message = f"no line from here meets the edge squarely; at its nearest it is {in_cm(off)} away"
    raise GeometryTrouble(
        Reason.NEVER_MEET,
        message,
        "name a line by two points, which is carried on, as in `[A, B]`, or move the point",
        measures=(off,),
    )


def _is_square(point: Point, place: Point, along: Point) -> bool:
    return abs(points.dot(points.minus(point, place), along)) <= JOIN


def square_from(edge: Edge, place: Point, by: float) -> Candidates:
    """The points ``by`` mm square off an edge at a place on it: to the left as the edge runs, and to the right.

    Raises when the place does not lie on the edge.
    """
    out = _square_at(edge, place)
    return points.shifted(place, out, by), points.shifted(place, out, -by)


def square_line(edge: Edge, place: Point) -> Edge:
    """The line square to an edge through a place on it, carried on to both sides."""
    return carried_on(place, points.shifted(place, _square_at(edge, place), 1.0))


def _square_at(edge: Edge, place: Point) -> Point:
    """The unit vector to the left of an edge at a place on it."""
    along = edges.nearest(edge, place)
    off = points.distance(edges.point_at(edge, along), place)
    if off > JOIN:
        message = f"this point is not on the edge: it lies {in_cm(off)} off"
        hint = "name a point on the edge, or write how far along: `at: 9 cm, from: END`"
        raise GeometryTrouble(Reason.NOT_ON_THE_EDGE, message, hint, measures=(off,))
    return points.left_of(edges.tangent_at(edge, along))


def meetings(a: Edge, b: Edge) -> Candidates:
    """Where two edges meet, in order along the first. Raises when they do not."""
    found = _distinct([point for one in a for other in b for point in intersect.meetings(one, other)])
    if found:
        return found
    if edges.is_straight(a) and edges.is_straight(b) and _parallel(a, b):
        message, hint = "the two lines are parallel and never meet", "name two lines that run in different directions"
        raise GeometryTrouble(Reason.PARALLEL, message, f"{hint} in every size")
    gap = min(*(_off(a, place) for place in _ends(b)), *(_off(b, place) for place in _ends(a)))
    message = f"the two do not meet: where an end is nearest to the other they are {in_cm(gap)} apart"
    hint = "draw one of them longer, or name a line by two points, which is carried on, as in `[A, B]`"
    raise GeometryTrouble(Reason.NEVER_MEET, message, hint, measures=(gap,))


def _parallel(a: Edge, b: Edge) -> bool:
    ways = (points.unit(edges.first(edge), edges.last(edge)) for edge in (a, b))
    return abs(points.cross(*ways)) < points.PARALLEL


def _ends(edge: Edge) -> tuple[Point, Point]:
    return edges.first(edge), edges.last(edge)


def _off(edge: Edge, place: Point) -> float:
    return points.distance(edges.point_at(edge, edges.nearest(edge, place)), place)


def compasses(a: Point, first: float, b: Point, second: float) -> Candidates:
    """The points at both distances (mm) from two points: first the one to the right of the way from a to b.

    Raises when the two compasses do not cross.
    """
    _opened(first)
    _opened(second)
    apart = points.distance(a, b)
    if apart <= SAME:
        message = "the two compasses stand on one point"
        raise GeometryTrouble(Reason.NO_DIRECTION, message, "name two points that lie apart in every size")
    found = intersect.circles(a, first, b, second)
    if found:
        return found
    set_to = f"the compasses are set to {in_cm(first)} and {in_cm(second)}, and their points stand {in_cm(apart)} apart"
    if apart > first + second:
        message, hint = f"{set_to}, so that they do not reach each other", "set one of them wider"
    else:
        message, hint = (
            f"{set_to}, so that the wider one swings round the other",
            "set them to lengths that differ by less",
        )
    raise GeometryTrouble(
        Reason.NEVER_MEET, message, f"{hint}, or move a point, in every size", measures=(first, second, apart)
    )


def compass_on(middle: Point, radius: float, edge: Edge) -> Candidates:
    """The points of an edge at a distance (mm) from a point. Raises when the edge has none."""
    _opened(radius)
    begin = points.polar(middle, 0.0, radius)
    circle = arc(begin, begin, middle, 360.0)
    found = _distinct([point for segment in edge for point in intersect.meetings(segment, circle)])
    if found:
        return found
    least = _off(edge, middle)
    if radius < least:
        message = f"the compass is set to {in_cm(radius)} and does not reach: at the nearest it is {in_cm(least)} away"
        hint = f"set it to {in_cm(least)} or more"
    else:
        most = max(points.distance(middle, place) for place in _ends(edge))
        message = f"the compass is set to {in_cm(radius)} and swings past: the farther end is {in_cm(most)} away"
        hint = f"set it to {in_cm(most)} or less"
    raise GeometryTrouble(
        Reason.NEVER_MEET, message, f"{hint}, or move a point, in every size", measures=(radius, least)
    )


def _opened(radius: float) -> None:
    if radius <= SAME:
        message = f"a compass cannot be set to {in_cm(radius)}"
        raise GeometryTrouble(Reason.NO_RADIUS, message, "write a distance above 0 in every size", measures=(radius,))


def _distinct(found: list[Point]) -> Candidates:
    kept: list[Point] = []
    for point in found:
        if not any(points.same(point, other, JOIN) for other in kept):
            kept.append(point)
    return tuple(kept)
