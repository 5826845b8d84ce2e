// Arcs: what is asked of every kind of segment, as arcs.py in plugin/chalkfold/geometry/ answers it, and how they are made.

import {
  SAME, arc, between, centre, cross, crossing, degrees, direction, distance, dot, end, leftOf, line, minus, polar, radians,
  rest, reversed, same, shifted, start, turned, unit,
} from "./points.js";
import { DRAFT, refuse } from "./trouble.js";

const EQUAL_RADII = 0.05; // the ends of an arc may differ by this much (mm) in their distance from its centre
const EXACT = 1e-9; // radii (mm) closer than this differ by rounding only
const ALIGNED = 1e-9;
const FLAT = 1e-4; // three points are on one line when their arc would turn by less than this
const FULL_CIRCLE = 360 + 1e-9; // degrees an arc turns by at most; the rest is what rounding adds

export const SIDES = { left: [-1, 0], right: [1, 0], up: [0, -1], down: [0, 1] };

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

  /** The arc whose middle stands off the middle of its chord, to a side of it; nothing gives the straight line. */
  bowed(a, b, bow, side) {
    const chord = distance(a, b);
    const out = leftOf(unit(a, b));
    const lean = dot(out, SIDES[side]);
    if (bow < 0 || Math.abs(lean) < ALIGNED) refuse(DRAFT);
    if (bow <= SAME) return line(a, b);
    const radius = ((chord * chord) / 4 + bow * bow) / (2 * bow);
    const middle = shifted(between(a, b, 0.5), out, lean > 0 ? bow - radius : radius - bow);
    const sweep = 4 * degrees(Math.atan2(2 * bow, chord));
    return arc(a, b, middle, lean > 0 ? sweep : -sweep);
  },

  through(a, b, place) {
    const first = unit(a, place);
    const last = unit(place, b);
    const turn = degrees(Math.atan2(cross(first, last), dot(first, last)));
    if (Math.abs(turn) < FLAT || Math.abs(turn) > 180 - FLAT) refuse(DRAFT);
    const middle = crossing(between(a, place, 0.5), leftOf(first), between(place, b, 0.5), leftOf(last));
    return arc(a, b, middle ?? refuse(DRAFT), 2 * turn);
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

  area(segment) {
    const [x0, y0, x1, y1, cx, cy, sweep] = segment;
    return (cx * (y1 - y0) - cy * (x1 - x0) + arcs.radius(segment) ** 2 * radians(sweep)) / 2;
  },

  beside(segment, by) {
    const grown = arcs.radius(segment) + (segment[6] >= 0 ? by : -by);
    if (grown <= SAME) return undefined;
    const middle = centre(segment);
    const [first, last] = [start(segment), end(segment)].map((point) => shifted(middle, unit(middle, point), grown));
    return [arc(first, last, middle, segment[6])];
  },

  ledTo([segment], first, last) {
    const sweep =
      segment[6] + arcs.swing(segment, end(segment), last) - arcs.swing(segment, start(segment), first);
    const left = sweep * segment[6] > 0 && arcs.radius(segment) * Math.abs(radians(sweep)) > SAME;
    return left ? [arc(first, last, centre(segment), sweep)] : undefined;
  },

  part(segment, first, last) {
    const turn = degrees((last - first) / arcs.radius(segment));
    const [a, b] = [first, last].map((along) => arcs.pointAt(segment, along));
    return arc(a, b, centre(segment), segment[6] >= 0 ? turn : -turn);
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
