// Lines, arcs and edges, as the files of these names in plugin/chalkfold/geometry/ have them; points.js says how they are
// written. An edge is segments; an outline is edges.

import { arcs } from "./arcs.js";
import { cubics } from "./cubics.js";
import {
  JOIN, SAME, arc, between, centre, cross, degrees, distance, dot, end, isArc, isLine, leftOf, line, minus, mirrored,
  rest, same, shifted, start, sum, unit,
} from "./points.js";
import { DRAFT, refuse } from "./trouble.js";

export * from "./arcs.js";
export * from "./points.js";

const EXACT = 1e-9; // radii (mm) closer than this differ by rounding only

// ---- Lines, and what is asked of every kind of segment.

const lines = {
  length: (segment) => distance(start(segment), end(segment)),
  pointAt: (segment, along) => shifted(start(segment), lines.tangentAt(segment), along),
  tangentAt: (segment) => unit(start(segment), end(segment)),
  backwards: (segment) => line(end(segment), start(segment)),

  reach(segment, way) {
    const first = dot(start(segment), way);
    const last = dot(end(segment), way);
    return [Math.min(first, last), Math.max(first, last)];
  },

  nearest(segment, point) {
    const whole = lines.length(segment);
    if (whole === 0) return 0;
    const ahead = dot(minus(point, start(segment)), minus(end(segment), start(segment))) / whole;
    return Math.min(Math.max(ahead, 0), whole);
  },

  area: (segment) => cross(start(segment), end(segment)) / 2,

  beside(segment, by) {
    const out = leftOf(lines.tangentAt(segment));
    return [line(shifted(start(segment), out, by), shifted(end(segment), out, by))];
  },

  part: (segment, first, last) => line(lines.pointAt(segment, first), lines.pointAt(segment, last)),

  ledTo: ([segment], first, last) =>
    dot(minus(last, first), lines.tangentAt(segment)) > SAME ? [line(first, last)] : undefined,
};

// ---- Segments of whatever kind.

const kindOf = (segment) => (isLine(segment) ? lines : isArc(segment) ? arcs : cubics);

export const segments = {
  length: (segment) => kindOf(segment).length(segment),
  tangentAt: (segment, along) => kindOf(segment).tangentAt(segment, along),
  backwards: (segment) => kindOf(segment).backwards(segment),
  reach: (segment, way) => kindOf(segment).reach(segment, way),
  nearest: (segment, point) => kindOf(segment).nearest(segment, point),
  area: (segment) => kindOf(segment).area(segment),
  beside: (segment, by) => kindOf(segment).beside(segment, by),
  ledTo: (cut, first, last) => kindOf(cut[0]).ledTo(cut, first, last),

  pointAt(segment, along) {
    if (along === 0) return start(segment);
    return along === segments.length(segment) ? end(segment) : kindOf(segment).pointAt(segment, along);
  },

  /** The stretch from one distance to another; both ends of the segment are kept exactly. */
  part(segment, first, last) {
    const ends = [...segments.pointAt(segment, first), ...segments.pointAt(segment, last)];
    return [...ends, ...kindOf(segment).part(segment, first, last).slice(4)];
  },

  /** Every point of it moved; a number left over, the sweep of an arc, stays. */
  mapped(segment, move) {
    const points = Array.from({ length: Math.floor(segment.length / 2) }, (_, i) => segment.slice(2 * i, 2 * i + 2));
    return [...points.flatMap(move), ...segment.slice(2 * points.length)];
  },

  contains: (segment, point, tolerance = SAME) =>
    same(segments.pointAt(segment, segments.nearest(segment, point)), point, tolerance),

  mirrored(segment, a, b) {
    const seen = segments.mapped(segment, (point) => mirrored(point, a, b));
    return isArc(segment) ? [...seen.slice(0, 6), -segment[6]] : seen;
  },
};

// ---- Edges.

const inOne = (a, b) => {
  if (isLine(a) && isLine(b)) {
    const both = line(start(a), end(b));
    const ahead = dot(minus(end(a), start(a)), minus(end(b), start(b))) > 0;
    return ahead && segments.contains(both, end(a)) ? both : undefined;
  }
  if (!isArc(a) || !isArc(b) || !same(centre(a), centre(b)) || a[6] * b[6] <= 0) return undefined;
  const sweep = a[6] + b[6];
  if (Math.abs(sweep) > 360 + EXACT) return undefined;
  return arc(start(a), end(b), centre(a), Math.max(-360, Math.min(sweep, 360)));
};

/** A distance brought onto the edge, when only rounding leads off it. */
const onEdge = (edge, along) => {
  const whole = edges.length(edge);
  return -SAME <= along && along <= whole + SAME ? Math.min(Math.max(along, 0), whole) : refuse(DRAFT);
};

export const edges = {
  first: (edge) => start(edge[0]),
  last: (edge) => end(edge[edge.length - 1]),
  length: (edge) => sum(edge.map(segments.length)),
  backwards: (edge) => edge.map(segments.backwards).reverse(),
  mirrored: (edge, a, b) => edge.map((segment) => segments.mirrored(segment, a, b)),
  contains: (edge, point, tolerance = SAME) => edge.some((segment) => segments.contains(segment, point, tolerance)),

  pointAt: (edge, along, fromEnd = false) => segments.pointAt(...edges.place(edge, along, fromEnd)),
  tangentAt: (edge, along, fromEnd = false) => segments.tangentAt(...edges.place(edge, along, fromEnd)),

  directionAt(edge, along, fromEnd = false) {
    const [x, y] = edges.tangentAt(edge, along, fromEnd);
    return rest(degrees(Math.atan2(y, x)), 360);
  },

  /** The segment on which a place of the edge lies, and how far along it. */
  place(edge, along, fromEnd) {
    let left = onEdge(edge, fromEnd ? edges.length(edge) - along : along);
    for (const segment of edge.slice(0, -1)) {
      const here = segments.length(segment);
      if (left <= here + SAME) return [segment, Math.min(left, here)];
      left -= here;
    }
    const final = edge[edge.length - 1];
    return [final, Math.min(left, segments.length(final))];
  },

  /** How far along the point of the edge lies that is nearest to a point; the first, where several are. */
  nearest(edge, point) {
    let [best, found, passed] = [Infinity, 0, 0];
    for (const segment of edge) {
      const along = segments.nearest(segment, point);
      const off = distance(segments.pointAt(segment, along), point);
      if (off < best - SAME) [best, found] = [off, passed + along];
      passed += segments.length(segment);
    }
    return found;
  },

  /** The stretch between two distances from the start; backwards, when the second comes first. */
  part(edge, begin, stop) {
    if (stop < begin) return edges.backwards(edges.part(edge, stop, begin));
    const [from, to] = [begin, stop].map((along) => onEdge(edge, along));
    const kept = [];
    let passed = 0;
    for (const segment of edge) {
      const here = segments.length(segment);
      const [low, high] = [Math.max(from - passed, 0), Math.min(to - passed, here)];
      if (high - low > SAME) kept.push(segments.part(segment, low, high));
      passed += here;
    }
    return kept.length ? kept : refuse(DRAFT);
  },

  mapped: (edge, move) => edge.map((segment) => segments.mapped(segment, move)),

  /** One edge of several that follow each other; lines in line, and arcs of one circle, become one. */
  joined(...pieces) {
    const whole = [];
    for (const segment of pieces.flat()) {
      const both = whole.length ? inOne(whole[whole.length - 1], segment) : undefined;
      if (both) whole.pop();
      whole.push(both ?? segment);
    }
    return whole;
  },

  /** Lines only, nowhere farther than JOIN from the line between its ends, never turning back. */
  isStraight(edge) {
    if (!edge.every(isLine)) return false;
    const ends = line(edges.first(edge), edges.last(edge));
    const near = edge.every((segment) => segments.contains(ends, end(segment), JOIN));
    return near && edges.length(edge) - segments.length(ends) <= JOIN;
  },
};
