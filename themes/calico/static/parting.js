// A piece parted along a line, as parting.py in plugin/chalkfold/geometry/ has it: where a line ends on the outline, and
// the stretches of the edges it ends on.

import { JOIN, SAME, cross, distance, edges, minus, same, segments } from "./geometry.js";
import { DRAFT, refuse } from "./trouble.js";

const OFF = -1;
const POINTS = 8; // of every segment, for the centre of an outline

const along = (edge, point) => {
  const found = edges.nearest(edge, point);
  return distance(edges.pointAt(edge, found), point) > JOIN ? refuse(DRAFT) : found;
};

const part = (edge, begin, stop) => {
  const whole = edges.length(edge);
  const [low, high] = [begin, stop].map((each) => Math.min(Math.max(each, 0), whole));
  const kept = [];
  let passed = 0;
  for (const segment of edge) {
    const here = segments.length(segment);
    const from = Math.max(low - passed, 0);
    const to = Math.min(high - passed, here);
    if (to - from > SAME) kept.push(segments.part(segment, from, to));
    passed += here;
  }
  return kept.length ? kept : refuse(DRAFT);
};

/** The index of the edge that a point lies on, and behind the point which part of it comes before. */
export const placeRound = (outline, point) => {
  const corner = outline.findIndex((edge) => same(edges.first(edge), point, JOIN));
  if (corner >= 0) return corner;
  for (const [index, edge] of outline.entries()) {
    const found = edges.nearest(edge, point);
    if (same(edges.pointAt(edge, found), point, JOIN)) return index + found / edges.length(edge);
  }
  return OFF;
};

export const upTo = (edge, point) => part(edge, 0, along(edge, point));
export const onFrom = (edge, point) => part(edge, along(edge, point), edges.length(edge));

export const stretch = (edge, first, last) => {
  const [begin, stop] = [along(edge, first), along(edge, last)];
  return stop <= begin + SAME ? refuse(DRAFT) : part(edge, begin, stop);
};

/** About the centre of gravity of an outline: that of the polygon through points of every segment. */
export const middle = (outline) => {
  const found = outline.flat().flatMap((segment) =>
    Array.from({ length: POINTS }, (_, step) => segments.pointAt(segment, (segments.length(segment) * step) / POINTS)),
  );
  const origin = found[0];
  let [twice, across, down] = [0, 0, 0];
  found.forEach((here, i) => {
    const [a, b] = [minus(here, origin), minus(found[(i + 1) % found.length], origin)];
    const share = cross(a, b);
    [twice, across, down] = [twice + share, across + share * (a[0] + b[0]), down + share * (a[1] + b[1])];
  });
  return twice ? [origin[0] + across / (3 * twice), origin[1] + down / (3 * twice)] : origin;
};
