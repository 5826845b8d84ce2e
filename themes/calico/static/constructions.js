// Points found with compasses, a square and a ruler, as geometry/constructions.py, geometry/choosing.py and
// plan/constructing.py have them. Where several points may answer, one function finds them and another chooses.

import {
  JOIN, SAME, SIDES, arcs, centre, distance, dot, edges, end, isArc, least, leftOf, line, minus, mirrored, polar, same,
  segments, shifted, turned, unit,
} from "./geometry.js";
import { inset } from "./cutting.js";
import { which } from "./drafting.js";
import { circles, meetings, orientation } from "./outlines.js";
import { DRAFT, refuse } from "./trouble.js";

const FAR = 500_000; // how far (mm) a line through two points is carried on to both sides

// ---- Along edges.

/** How far along an edge the point lies that is nearest to `point`; the first, where several are. */
const nearestAlong = (edge, point) => {
  let [best, found, passed] = [Infinity, 0, 0];
  for (const segment of edge) {
    const along = segments.nearest(segment, point);
    const off = distance(segments.pointAt(segment, along), point);
    if (off < best - SAME) [best, found] = [off, passed + along];
    passed += segments.length(segment);
  }
  return found;
};

/** The unit vector of travel; at a corner inside the edge, that of the segment which ends there. */
const tangentAt = (edge, along) => {
  let left = along;
  for (const segment of edge.slice(0, -1)) {
    const here = segments.length(segment);
    if (left <= here + SAME) return segments.tangentAt(segment, Math.min(left, here));
    left -= here;
  }
  const last = edge[edge.length - 1];
  return segments.tangentAt(last, Math.min(left, segments.length(last)));
};

const copied = (point, a, b) => [point[0] + (b[0] - a[0]), point[1] + (b[1] - a[1])];

const carriedOn = (a, b) => {
  const along = unit(a, b);
  return [line(shifted(a, along, -FAR), shifted(a, along, FAR))];
};

const endingAt = (edge, place) => {
  if (same(place, edges.last(edge), JOIN)) return edge[edge.length - 1];
  return same(place, edges.first(edge), JOIN) ? segments.backwards(edge[0]) : refuse(DRAFT);
};

/** Beyond an end of an edge: an arc goes on round its circle, any other curve straight on. */
const carriedPast = (edge, place, by) => {
  if (by < 0) refuse(DRAFT);
  const last = endingAt(edge, place);
  const whole = segments.length(last);
  if (isArc(last)) return arcs.pointAt(last, whole + by);
  return shifted(end(last), segments.tangentAt(last, whole), by);
};

const mirroredIn = (point, axis) => {
  const [first, last] = [edges.first(axis), edges.last(axis)];
  return same(first, last) || !edges.isStraight(axis) ? refuse(DRAFT) : mirrored(point, first, last);
};

// ---- Square to an edge.

const foot = (edge, point) => {
  const found = [];
  for (const segment of edge) {
    if (isArc(segment) && same(point, centre(segment))) refuse(DRAFT);
    const along = segments.nearest(segment, point);
    const place = segments.pointAt(segment, along);
    if (segments.length(segment) <= SAME) continue;
    if (Math.abs(dot(minus(point, place), segments.tangentAt(segment, along))) <= JOIN) found.push(place);
  }
  return least(found, (place) => distance(place, point)) ?? refuse(DRAFT);
};

const squareAt = (edge, place) => {
  const along = nearestAlong(edge, place);
  return distance(edges.pointAt(edge, along), place) > JOIN ? refuse(DRAFT) : leftOf(tangentAt(edge, along));
};

const squareFrom = (edge, place, by) => {
  const out = squareAt(edge, place);
  return [shifted(place, out, by), shifted(place, out, -by)];
};

const squareLine = (edge, place) => carriedOn(place, shifted(place, squareAt(edge, place), 1));

// ---- Where edges and compasses meet.

/** Where two segments meet, in order along the first. */
const inOrder = (a, b) =>
  meetings(a, b)
    .map((point) => [segments.nearest(a, point), point])
    .sort(([here], [there]) => here - there)
    .map(([, point]) => point);

const distinct = (found) =>
  found.reduce((kept, point) => (kept.some((other) => same(point, other, JOIN)) ? kept : [...kept, point]), []);

const someOf = (found) => (found.length ? found : refuse(DRAFT));

const meet = (a, b) => someOf(distinct(a.flatMap((one) => b.flatMap((other) => inOrder(one, other)))));

const opened = (radius) => (radius <= SAME ? refuse(DRAFT) : radius);

const compasses = (a, first, b, second) => someOf(circles(a, opened(first), b, opened(second)));

const compassOn = (middle, radius, edge) => {
  const begin = polar(middle, 0, opened(radius));
  const circle = [...begin, ...begin, ...middle, 360];
  return someOf(distinct(edge.flatMap((segment) => inOrder(segment, circle))));
};

// ---- The one that is meant.

const asOne = (found) => found.every((point) => same(point, found[0], JOIN));

const only = (found) => (asOne(found) ? found[0] : refuse(DRAFT));

/** The first in this order, where the next is farther by more than JOIN. */
const firstBy = (found, measure) => {
  const order = [...found].sort((a, b) => measure(a) - measure(b));
  return asOne(order) || measure(order[1]) - measure(order[0]) > JOIN ? order[0] : refuse(DRAFT);
};

const nearest = (found, place) => firstBy(found, (point) => distance(point, place));

const farthest = (side) => (found) => firstBy(found, (point) => -dot(point, SIDES[side]));

const those = (way) => (found, place) => someOf(found.filter((point) => (point[1] - place[1]) * way >= -JOIN));

const inwards = (outwards) => (found, outline) =>
  orientation(outline) > 0 === outwards ? found[0] : found[found.length - 1];

const parallelLine = (outline, index, by, folds) => {
  if (by <= 0) refuse(DRAFT);
  const aside = outline.map((_, number) => (number === index ? by : 0));
  return inset(outline, aside, which(folds))[index];
};

export const CONSTRUCTING = Object.entries({
  "copied": copied,
  "turned": (point, around, by) => turned(point, by, around),
  "mirrored": mirroredIn,
  "carried on": carriedOn,
  "carried past": carriedPast,
  "foot": foot,
  "square from": squareFrom,
  "square line": squareLine,
  "meetings": meet,
  "compasses": compasses,
  "compass on": compassOn,
  "only": only,
  "nearest": nearest,
  "farthest left": farthest("left"),
  "farthest right": farthest("right"),
  "farthest up": farthest("up"),
  "farthest down": farthest("down"),
  "those below": those(1),
  "those above": those(-1),
  "inwards": inwards(false),
  "outwards": inwards(true),
  "parallel line": parallelLine,
});
