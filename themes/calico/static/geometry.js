// Points, lines, arcs and edges, as the files of these names in plugin/chalkfold/geometry/ have them: arrays of
// numbers there called tuples. Coordinates in mm, x across, y down; angles in degrees, clockwise on the page.
// A line is [x0, y0, x1, y1]; an arc [x0, y0, x1, y1, cx, cy, sweep]; an edge is segments; an outline is edges.

import { DRAFT, refuse } from "./trouble.js";

export const SAME = 1e-6; // points closer than this (mm) are one point
export const JOIN = 0.01; // nothing drawn or cut shows a difference smaller than this (mm)
const EQUAL_RADII = 0.05; // the ends of an arc may differ by this much (mm) in their distance from its centre
const EXACT = 1e-9; // radii (mm) closer than this differ by rounding only
const ALIGNED = 1e-9;
const PARALLEL = 1e-9;
const LINE = 4;
const FULL_CIRCLE = 360 + 1e-9; // degrees an arc turns by at most; the rest is what rounding adds

export const radians = (angle) => angle * (Math.PI / 180);
export const degrees = (turn) => turn * (180 / Math.PI);
export const sum = (numbers) => numbers.reduce((total, each) => total + each, 0);

/** What is left of x after whole steps, from 0 up to the step, also for an x below zero. */
export const rest = (x, step) => {
  const left = x % step;
  return left < 0 ? left + step : left + 0;
};

/** The first for which `measure` is least; undefined of none. */
export const least = (found, measure) =>
  found.reduce((best, each) => (best === undefined || measure(each) < measure(best) ? each : best), undefined);

// ---- Points and vectors.

const QUARTERS = new Map([[0, [1, 0]], [90, [0, 1]], [180, [-1, 0]], [270, [0, -1]]]);

/** The unit vector at an angle; exact for quarter turns, so that square things stay square. */
const facing = (angle) => {
  const whole = rest(angle, 360);
  return QUARTERS.get(whole) ?? [Math.cos(radians(whole)), Math.sin(radians(whole))];
};

export const distance = (a, b) => {
  const x = b[0] - a[0];
  const y = b[1] - a[1];
  return Math.sqrt(x * x + y * y);
};

export const same = (a, b, tolerance = SAME) => distance(a, b) <= tolerance;
export const cross = (a, b) => a[0] * b[1] - a[1] * b[0];
export const dot = (a, b) => a[0] * b[0] + a[1] * b[1];
export const minus = (a, b) => [a[0] - b[0], a[1] - b[1]];
export const reversed = (vector) => [-vector[0], -vector[1]];
export const leftOf = (along) => [along[1], -along[0]];
export const shifted = (point, along, by) => [point[0] + along[0] * by, point[1] + along[1] * by];
export const between = (a, b, at) => [a[0] + (b[0] - a[0]) * at, a[1] + (b[1] - a[1]) * at];
export const polar = (start, angle, by) => shifted(start, facing(angle), by);

export const unit = (a, b) => {
  const length = distance(a, b);
  return length <= SAME ? refuse(DRAFT) : [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
};

export const towards = (start, target, by) => shifted(start, unit(start, target), by);

const direction = (a, b) => {
  const [x, y] = unit(a, b);
  return rest(degrees(Math.atan2(y, x)), 360);
};

/** Where two endless lines, each a point and a unit vector, meet; undefined when parallel. */
export const crossing = (a, alongA, b, alongB) => {
  const turn = cross(alongA, alongB);
  return Math.abs(turn) < PARALLEL ? undefined : shifted(a, alongA, cross(minus(b, a), alongB) / turn);
};

export const meeting = (a, b, c, d) => crossing(a, unit(a, b), c, unit(c, d)) ?? refuse(DRAFT);

const turned = (point, angle, around) => {
  const [x, y] = minus(point, around);
  const [c, s] = facing(angle);
  return [around[0] + x * c - y * s, around[1] + x * s + y * c];
};

export const mirrored = (point, a, b) => {
  const across = leftOf(unit(a, b));
  return shifted(point, across, -2 * dot(minus(point, a), across));
};

// ---- Lines, and what is asked of every kind of segment.

export const start = (segment) => [segment[0], segment[1]];
export const end = (segment) => [segment[2], segment[3]];
export const centre = (arc) => [arc[4], arc[5]];
export const line = (a, b) => [...a, ...b];
export const isLine = (segment) => segment.length === LINE;
const arc = (a, b, around, sweep) => [...a, ...b, ...around, sweep];

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

  part: () => [],
  area: (segment) => cross(start(segment), end(segment)) / 2,

  beside(segment, by) {
    const out = leftOf(lines.tangentAt(segment));
    return line(shifted(start(segment), out, by), shifted(end(segment), out, by));
  },

  ledTo: (segment, first, last) =>
    dot(minus(last, first), lines.tangentAt(segment)) > SAME ? line(first, last) : undefined,
};

// ---- Arcs: the same questions, and how they are made.

const SIDES = { left: [-1, 0], right: [1, 0], up: [0, -1], down: [0, 1] };

export const arcs = {
  /** From a to b around a centre: the short way, or the long way round. */
  around(middle, a, b, longWay = false) {
    const first = distance(middle, a);
    const last = distance(middle, b);
    if (Math.min(first, last) <= SAME || Math.abs(first - last) > EQUAL_RADII) refuse(DRAFT);
    if (same(a, b)) return longWay ? arc(a, a, middle, 360) : refuse(DRAFT);
    if (Math.abs(first - last) <= EXACT) return arc(a, b, middle, wayRound(middle, a, b, longWay));
    const along = unit(a, b);
    const moved = shifted(middle, along, dot(minus(between(a, b, 0.5), middle), along));
    return arc(a, b, moved, wayRound(moved, a, b, longWay));
  },

  /** The flatter arc of a radius from a to b that bulges to a side of its chord. */
  bulging(a, b, radius, side) {
    if (radius <= SAME) refuse(DRAFT);
    const along = unit(a, b);
    const chord = distance(a, b);
    const lean = dot(leftOf(along), SIDES[side]);
    if (chord > 2 * radius + SAME || Math.abs(lean) < ALIGNED) refuse(DRAFT);
    const inset = Math.sqrt(Math.max(0, radius * radius - (chord * chord) / 4));
    const middle = shifted(between(a, b, 0.5), leftOf(along), lean > 0 ? -inset : inset);
    const sweep = 2 * degrees(Math.asin(Math.min(1, chord / (2 * radius))));
    return arc(a, b, middle, lean > 0 ? sweep : -sweep);
  },

  radius: (segment) => distance(centre(segment), start(segment)),
  length: (segment) => arcs.radius(segment) * Math.abs(radians(segment[6])),

  pointAt(segment, along) {
    const turn = degrees(along / arcs.radius(segment));
    return turned(start(segment), segment[6] >= 0 ? turn : -turn, centre(segment));
  },

  tangentAt(segment, along) {
    const ahead = leftOf(unit(centre(segment), arcs.pointAt(segment, along)));
    return segment[6] >= 0 ? reversed(ahead) : ahead;
  },

  backwards: (segment) => arc(end(segment), start(segment), centre(segment), -segment[6]),

  /** Degrees from its start to a point, the way it turns. */
  turnTo(segment, point) {
    const turn = direction(centre(segment), point) - direction(centre(segment), start(segment));
    return rest(segment[6] >= 0 ? turn : -turn, 360);
  },

  covers(segment, point) {
    const turn = arcs.turnTo(segment, point);
    const slack = degrees(SAME / arcs.radius(segment));
    return turn <= Math.abs(segment[6]) + slack || turn >= 360 - slack;
  },

  /** Least and greatest extent in the direction of a unit vector, exact at the arc's extremes. */
  reach(segment, way) {
    const extremes = [1, -1].map((side) => shifted(centre(segment), way, side * arcs.radius(segment)));
    const reached = [start(segment), end(segment), ...extremes.filter((point) => arcs.covers(segment, point))];
    const found = reached.map((point) => dot(point, way));
    return [Math.min(...found), Math.max(...found)];
  },

  nearest(segment, point) {
    if (!same(point, centre(segment))) {
      const turn = arcs.turnTo(segment, point);
      if (turn <= Math.abs(segment[6])) return arcs.radius(segment) * radians(turn);
    }
    return distance(start(segment), point) <= distance(end(segment), point) ? 0 : arcs.length(segment);
  },

  part(segment, first, last) {
    const turn = degrees(last / arcs.radius(segment)) - degrees(first / arcs.radius(segment));
    return [...centre(segment), segment[6] >= 0 ? turn : -turn];
  },

  area(segment) {
    const [x0, y0, x1, y1, cx, cy, sweep] = segment;
    return (cx * (y1 - y0) - cy * (x1 - x0) + arcs.radius(segment) ** 2 * radians(sweep)) / 2;
  },

  beside(segment, by) {
    const grown = arcs.radius(segment) + (segment[6] >= 0 ? by : -by);
    if (grown <= SAME) return undefined;
    const middle = centre(segment);
    const [first, last] = [start(segment), end(segment)].map((point) => shifted(middle, unit(middle, point), grown));
    return arc(first, last, middle, segment[6]);
  },

  ledTo(segment, first, last) {
    const sweep =
      segment[6] + arcs.swing(segment, end(segment), last) - arcs.swing(segment, start(segment), first);
    const left = sweep * segment[6] > 0 && arcs.radius(segment) * Math.abs(radians(sweep)) > SAME;
    return left ? arc(first, last, centre(segment), sweep) : undefined;
  },

  /** The smaller signed angle from a to b seen from the centre. */
  swing(segment, a, b) {
    const fromA = minus(a, centre(segment));
    const toB = minus(b, centre(segment));
    return degrees(Math.atan2(cross(fromA, toB), dot(fromA, toB)));
  },
};

const wayRound = (middle, a, b, longWay) => {
  const opposite = [2 * middle[0] - a[0], 2 * middle[1] - a[1]];
  const sweep = same(opposite, b) ? 180 : arcs.swing(arc(a, b, middle, 0), a, b);
  if (!longWay) return sweep;
  return sweep > 0 ? sweep - 360 : sweep + 360;
};

/** The arc round a centre from an angle over a sweep; more than half a circle is two segments. */
export const sweptArc = (middle, radius, begin, sweep) => {
  if (Math.abs(sweep) > FULL_CIRCLE || radius <= SAME) refuse(DRAFT);
  if (Math.abs(sweep) > 180) {
    const half = sweep / 2;
    return [...sweptArc(middle, radius, begin, half), ...sweptArc(middle, radius, begin + half, half)];
  }
  return [arc(polar(middle, begin, radius), polar(middle, begin + sweep, radius), middle, sweep)];
};

// ---- Segments of whatever kind.

const kindOf = (segment) => (isLine(segment) ? lines : arcs);

export const segments = {
  length: (segment) => kindOf(segment).length(segment),
  tangentAt: (segment, along) => kindOf(segment).tangentAt(segment, along),
  backwards: (segment) => kindOf(segment).backwards(segment),
  reach: (segment, way) => kindOf(segment).reach(segment, way),
  nearest: (segment, point) => kindOf(segment).nearest(segment, point),
  area: (segment) => kindOf(segment).area(segment),
  beside: (segment, by) => kindOf(segment).beside(segment, by),
  ledTo: (segment, first, last) => kindOf(segment).ledTo(segment, first, last),

  pointAt(segment, along) {
    if (along === 0) return start(segment);
    return along === segments.length(segment) ? end(segment) : kindOf(segment).pointAt(segment, along);
  },

  /** The stretch between two lengths from its start; both ends of the segment are kept exactly. */
  part: (segment, first, last) => [
    ...segments.pointAt(segment, first),
    ...segments.pointAt(segment, last),
    ...kindOf(segment).part(segment, first, last),
  ],

  contains: (segment, point, tolerance = SAME) =>
    same(segments.pointAt(segment, segments.nearest(segment, point)), point, tolerance),

  mirrored(segment, a, b) {
    const ends = line(mirrored(start(segment), a, b), mirrored(end(segment), a, b));
    return isLine(segment) ? ends : [...ends, ...mirrored(centre(segment), a, b), -segment[6]];
  },
};

// ---- Edges.

const inOne = (a, b) => {
  if (isLine(a) && isLine(b)) {
    const both = line(start(a), end(b));
    const ahead = dot(minus(end(a), start(a)), minus(end(b), start(b))) > 0;
    return ahead && segments.contains(both, end(a)) ? both : undefined;
  }
  if (isLine(a) || isLine(b) || !same(centre(a), centre(b)) || a[6] * b[6] <= 0) return undefined;
  const sweep = a[6] + b[6];
  if (Math.abs(sweep) > 360 + EXACT) return undefined;
  return arc(start(a), end(b), centre(a), Math.max(-360, Math.min(sweep, 360)));
};

export const edges = {
  first: (edge) => start(edge[0]),
  last: (edge) => end(edge[edge.length - 1]),
  length: (edge) => sum(edge.map(segments.length)),
  backwards: (edge) => edge.map(segments.backwards).reverse(),
  mirrored: (edge, a, b) => edge.map((segment) => segments.mirrored(segment, a, b)),
  contains: (edge, point, tolerance = SAME) => edge.some((segment) => segments.contains(segment, point, tolerance)),

  pointAt(edge, along, fromEnd = false) {
    const whole = edges.length(edge);
    const on = fromEnd ? whole - along : along;
    if (!(-SAME <= on && on <= whole + SAME)) refuse(DRAFT);
    let left = Math.min(Math.max(on, 0), whole);
    for (const segment of edge.slice(0, -1)) {
      const here = segments.length(segment);
      if (left <= here + SAME) return segments.pointAt(segment, Math.min(left, here));
      left -= here;
    }
    const final = edge[edge.length - 1];
    return segments.pointAt(final, Math.min(left, segments.length(final)));
  },

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
