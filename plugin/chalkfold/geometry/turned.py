"""An allowance that is turned up lies flat: at its ends the cutting line is the mirror image of the neighbour's.

The neighbour's own cutting line runs down to the line of the fold (the seam line of the hem, straight on from its end),
and from there on as it would come to lie under the piece once the allowance is folded along that line. So the hem of a
flared skirt narrows, that of a tapered leg widens. Where the hem is curved the mirror stands along it at the corner.
Source: O. C. Hapgood, School Needlework (1893), who cuts the hem's end while the hem is folded under.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import atan2, degrees

from chalkfold.geometry import edges, segments
from chalkfold.geometry.cut_corners import Join, Run, too_wide
from chalkfold.geometry.outlines import orientation
from chalkfold.geometry.points import cross, crossing, distance, dot, shifted
from chalkfold.geometry.run_on import endless
from chalkfold.geometry.run_path import run_path
from chalkfold.geometry.shapes import SAME, Edge, Outline, Point, Segment, end, line, start

FLAT, STEEP = 15.0, 165.0
"""Where the corner turns by less or more (degrees) the neighbour has no image to cut by: it is a mitre like others."""
_STEPS = 8
_FAR = 10.0
"""How far, in depths of the allowance, a neighbour's image is led straight on past its end."""


def turns_outwards(outline: Outline, index: int) -> float:
    """The angle (radians) through which an edge turns from its start to its end: above 0 where it bulges outwards.

    As much as that times its distance the parallel of the edge is longer. Source: J. Steiner on parallel curves.
    """
    ways = [
        segments.tangent_at(segment, segments.length(segment) * step / _STEPS)
        for segment in outline[index]
        for step in range(_STEPS + 1)
    ]
    return orientation(outline) * sum(atan2(cross(a, b), dot(a, b)) for a, b in pairwise(ways))


def turned_corner(before: Sequence[Run], after: Sequence[Run]) -> Join | None:
    """The join of a turned-up edge and a neighbour; ``None`` where it is a corner like any other.

    ``before`` are all runs of the edge that ends at the corner, ``after`` all of the edge that starts there. Raises
    when the image of the neighbour never reaches the edge of the allowance.
    """
    a, b = before[-1], after[0]
    if a.turned == b.turned or a.on_fold or b.on_fold or not FLAT < _turn(a, b) < STEEP:
        return None
    if b.turned:
        here = _on_fold(a, a.ends, a.leaves, end(a.seam), b.arrives)
        away = edges.backwards(run_path(before, stop=here))
        image = _image(away, a, b, end(a.seam), b.arrives)
        return Join(here, edges.last(image) if image else here, with_before=image)
    here = _on_fold(b, b.begins, b.arrives, start(b.seam), a.leaves)
    image = _image(run_path(after, begin=here), b, a, start(b.seam), a.leaves)
    return Join(edges.last(image) if image else here, here, with_after=edges.backwards(image))


def _turn(a: Run, b: Run) -> float:
    return degrees(atan2(cross(a.leaves, b.arrives), dot(a.leaves, b.arrives)))


def _on_fold(side: Run, last: Point, along_side: Point, at: Point, along: Point) -> Point:
    """Where the neighbour's cutting line, run on or trimmed, meets the line of the fold; ``last`` is its end there."""
    found = endless(side.cut, (line(at, shifted(at, along, 1.0)),))
    if found:
        return min(found, key=lambda point: distance(point, last))
    straight = crossing(last, along_side, at, along)
    return last if straight is None else straight


def _image(away: Edge, side: Run, hem: Run, at: Point, along: Point) -> Edge:
    """The mirror image of a neighbour's cutting line, from the line of the fold to the hem's own.

    ``away`` leads from the corner ``at`` away along the neighbour; ``along`` is the direction of the fold there.
    """
    ahead = segments.tangent_at(away[-1], segments.length(away[-1]))
    beyond = line(end(away[-1]), shifted(end(away[-1]), ahead, _FAR * hem.allowance))
    image: list[Segment] = []
    for segment in (*away, beyond):
        seen = segments.mirrored(segment, at, shifted(at, along, 1.0))
        met = [point for point in endless((seen,), hem.cut) if segments.contains(seen, point)]
        if met:
            stop = min(segments.nearest(seen, point) for point in met)
            return (*image, segments.part(seen, 0.0, stop)) if stop > SAME else tuple(image)
        image.append(seen)
    raise too_wide(side.edge, hem.edge)
