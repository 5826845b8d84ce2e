// The primitives of curves and of arcs by their bow, as plan/curving.py has them. Directions of travel in degrees.

import { acrossFrom, curve, curveOfLength, curveThrough, square } from "./curves.js";
import { JOIN, arcs, degrees, direction, dot, edges, same } from "./geometry.js";
import { DRAFT, refuse } from "./trouble.js";

const endsOf = (edge) => [edges.first(edge), edges.last(edge)];

const squareTo = (edge, place, a, b) => {
  const which = endsOf(edge).findIndex((end) => same(place, end, JOIN));
  return which < 0 ? refuse(DRAFT) : square(edges.tangentAt(edge, 0, which === 1), a, b);
};

/** Degrees by which two edges miss a right angle where they meet; the worse of two corners. */
const offSquare = (one, other) => {
  const found = endsOf(one).flatMap((here, i) =>
    endsOf(other).flatMap((there, j) => (same(here, there, JOIN) ? [off(one, i === 1, other, j === 1)] : [])),
  );
  return found.length ? Math.max(...found) : refuse(DRAFT);
};

const off = (one, atEnd, other, atOtherEnd) => {
  const lean = dot(edges.tangentAt(one, 0, atEnd), edges.tangentAt(other, 0, atOtherEnd));
  return degrees(Math.asin(Math.min(1, Math.abs(lean))));
};

const bowed = (side) => (a, b, bow) => [arcs.bowed(a, b, bow, side)];

export const CURVING = {
  "arc bowed left": bowed("left"),
  "arc bowed right": bowed("right"),
  "arc bowed up": bowed("up"),
  "arc bowed down": bowed("down"),
  "arc through": (a, b, place) => [arcs.through(a, b, place)],
  "across from": acrossFrom,
  "direction": direction,
  "square to": squareTo,
  "off square": offSquare,
  "leaves": (edge) => edges.directionAt(edge, 0),
  "arrives": (edge) => edges.directionAt(edge, 0, true),
  "curve": curve,
  "curve to length": curveOfLength,
  "curve through": (...places) => curveThrough(places),
  "curve through leaving": (leaving, ...places) => curveThrough(places, leaving),
  "curve through arriving": (arriving, ...places) => curveThrough(places, undefined, arriving),
  "curve through both": (leaving, arriving, ...places) => curveThrough(places, leaving, arriving),
};
