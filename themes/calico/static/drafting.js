// The primitives of a draft, as plan/drafting.py has them: points, edges, the seam line and the cutting line.
// Lengths in mm, angles in degrees; folds are a number whose bit i says that edge i lies on a fold.

import {
  JOIN, arcs, between, edges, isArc, line, meeting, polar, same, start, sweptArc, towards,
} from "./geometry.js";
import { CURVING } from "./curving.js";
import { inset, offset } from "./cutting.js";
import { beside, cap, squareAcross, squareIn, squarePlace, through } from "./darts.js";
import { area, crosses, encloses, extent, gap, orientation, unfold } from "./outlines.js";
import { trued } from "./trueing.js";
import { closed, closedEdge, dartPart, movingPart, opened, spread, spreadPoint } from "./spread.js";
import { facing } from "./points.js";
import { DRAFT, refuse } from "./trouble.js";

const alongFrom = (edge, distance, end) => {
  if (same(end, edges.first(edge), JOIN)) return edges.pointAt(edge, distance);
  return same(end, edges.last(edge), JOIN) ? edges.pointAt(edge, distance, true) : refuse(DRAFT);
};

const outlineOf = (...sides) => {
  if (gap(sides) > JOIN || crosses(sides)) refuse(DRAFT);
  orientation(sides);
  return sides;
};

/** The indexes of the edges that lie on a fold; division keeps every bit, where `>>` would drop those above 31. */
export const which = (folds) => {
  const indexes = [];
  for (let bits = Math.trunc(folds), index = 0; bits >= 1; bits = Math.floor(bits / 2), index += 1) {
    if (bits % 2) indexes.push(index);
  }
  return indexes;
};

const radiusOf = (edge) => {
  const arc = edge.find(isArc);
  return arc ? arcs.radius(arc) : refuse(DRAFT);
};

const endsOn = (edge, fold) =>
  [edges.first(edge), edges.last(edge)].filter((end) => edges.contains(fold, end, JOIN)).length;

const inside = (outline, point) => encloses(outline, point) || outline.some((edge) => edges.contains(edge, point, JOIN));

const bulging = (side) => (a, b, radius) => [arcs.bulging(a, b, radius, side)];

export const DRAFTING = Object.entries({
  ...CURVING,
  "moved": (point, across, down) => [point[0] + across, point[1] + down],
  "polar": polar,
  "towards": towards,
  "between": between,
  "corner": (downFrom, acrossFrom) => [downFrom[0], acrossFrom[1]],
  "meeting": meeting,
  "along": (edge, distance) => edges.pointAt(edge, distance),
  "along from": alongFrom,
  "line": (a, b) => [line(a, b)],
  "arc around": (a, b, middle) => [arcs.around(middle, a, b)],
  "long arc around": (a, b, middle) => [arcs.around(middle, a, b, true)],
  "arc bulging left": bulging("left"),
  "arc bulging right": bulging("right"),
  "arc bulging up": bulging("up"),
  "arc bulging down": bulging("down"),
  "swept arc": sweptArc,
  "join": edges.joined,
  "length of": edges.length,
  "radius of": radiusOf,
  "outline": outlineOf,
  "cutting line": (outline, allowances, folds) => offset(outline, allowances, which(folds)),
  "seam line": (outline, allowances, folds) => inset(outline, allowances, which(folds)),
  "unfolded": (outline, folds) => unfold(outline, which(folds)),
  "edge of": (outline, index) => outline[index],
  "corner of": (outline, index) => start(outline[index][0]),
  "outline area": (outline) => Math.abs(area(outline)),
  "outline width": (outline) => extent(outline, [1, 0]),
  "outline height": (outline) => extent(outline, [0, 1]),
  "outline along": (outline, angle) => extent(outline, facing(angle)),
  "ends on": endsOn,
  "inside": inside,
  "square in": squareIn,
  "square place": squarePlace,
  "square across": squareAcross,
  "dart cap": cap,
  "through": through,
  "beside": beside,
  "moving part": (outline, opens, hinge, folds) => movingPart(outline, opens, hinge, which(folds)),
  "dart part": (outline, opens, tip, legs, folds) => dartPart(outline, opens, tip, legs, which(folds)),
  "opened": opened,
  "closed": closed,
  "spread": spread,
  "closed edge": closedEdge,
  "spread point": spreadPoint,
  "shaped outline": outlineOf,
  "trued": trued,
  "how far along": edges.nearest,
});
