// Darts and pleats, as plugin/chalkfold/geometry/darts.py has them: their tip, and the edge over them.

import {
  SAME, between, crossing, distance, edges, least, leftOf, line, mirrored, reversed, same, segments, shifted, unit,
} from "./geometry.js";
import { extent, meetings, orientation } from "./outlines.js";
import { DRAFT, refuse } from "./trouble.js";

const EQUAL_LEGS = 0.5; // the legs of a dart may differ by this much (mm)
const HALVINGS = 60;
const LEAST = 2; // where a dart takes less (mm) its place is found as if it took this
const FAR = 4; // the edge is looked for as far out as this many leg lengths

/** The unit vector into the piece, square to the chord between two places of an edge. */
const inwards = (outline, edge, begin, stop) => {
  const [first, last] = [begin, stop].map((along) => edges.pointAt(edge, along));
  const out = leftOf(same(first, last) ? edges.tangentAt(edge, begin) : unit(first, last));
  return orientation(outline) > 0 ? reversed(out) : out;
};

const foot = (edge, begin, stop, at) => between(edges.pointAt(edge, begin), edges.pointAt(edge, stop), at);

export const squareIn = (outline, edge, begin, stop, depth, at) =>
  shifted(foot(edge, begin, stop, at), inwards(outline, edge, begin, stop), depth);

/** Where the line into the piece meets another edge first. */
export const squareAcross = (outline, edge, begin, stop, at, other) => {
  const here = foot(edge, begin, stop, at);
  const reach = distance([0, 0], [extent(outline, [1, 0]), extent(outline, [0, 1])]);
  const ahead = line(here, shifted(here, inwards(outline, edge, begin, stop), reach));
  const met = other.flatMap((segment) => meetings(segment, ahead));
  return least(met, (point) => distance(here, point)) ?? refuse(DRAFT);
};

/** How far along an edge the middle of a dart stands whose legs are alike, found by halving. */
export const squarePlace = (edge, tip, takes) => {
  const nearest = edges.nearest(edge, tip);
  const half = Math.max(takes, LEAST) / 2;
  let low = Math.max(half, nearest - takes - 1);
  let high = Math.min(edges.length(edge) - half, nearest + takes + 1);
  const longer = (middle) =>
    distance(tip, edges.pointAt(edge, middle + half)) - distance(tip, edges.pointAt(edge, middle - half));
  if (low > high || longer(low) > SAME || longer(high) < -SAME) refuse(DRAFT);
  for (let turn = 0; turn < HALVINGS; turn += 1) {
    const middle = (low + high) / 2;
    if (longer(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

/** Where the outline turns between two legs: the edge, seen in the near leg, meets the line half-way between. */
export const cap = (edge, near, far) => {
  const [start, other] = [near, far].map(edges.first);
  if (same(start, other)) return start;
  const lengths = [near, far].map(edges.length);
  if (Math.abs(lengths[0] - lengths[1]) > EQUAL_LEGS) refuse(DRAFT);
  const seenIn = (point) => mirrored(point, start, edges.last(near));
  const tip = seenIn(between(edges.last(near), edges.last(far), 0.5));
  const way = unit(tip, seenIn(between(start, other, 0.5)));
  const seen = line(tip, shifted(tip, way, FAR * lengths[0]));
  for (const segment of away(edge, start, other)) {
    const met = least(meetings(segment, seen), (point) => segments.nearest(segment, point));
    if (met) return seenIn(met);
  }
  const found = crossing(start, edges.tangentAt(edge, edges.nearest(edge, start)), tip, way);
  return found ? seenIn(found) : refuse(DRAFT);
};

/** The edge from one point of it, away from the other; nothing where it ends there. */
const away = (edge, start, other) => {
  const here = edges.nearest(edge, start);
  const whole = edges.length(edge);
  if (here < edges.nearest(edge, other)) return here > SAME ? edges.part(edge, here, 0) : [];
  return whole - here > SAME ? edges.part(edge, here, whole) : [];
};

/** The edge with the stretch between two points of it led straight out to a third and back. */
export const through = (edge, first, top, last) => {
  if (same(first, last)) return edge;
  const whole = edges.length(edge);
  const ends = [first, last].map((point) => [edges.nearest(edge, point), point]);
  if (ends[0][0] > ends[1][0]) ends.reverse();
  const [[begin, from], [stop, to]] = ends;
  const before = begin > SAME ? edges.part(edge, 0, begin) : [];
  const after = whole - stop > SAME ? edges.part(edge, stop, whole) : [];
  return edges.joined(before, [line(from, top), line(top, to)], after);
};

export const beside = (a, b, at, by) => shifted(between(a, b, at), leftOf(unit(a, b)), by);
