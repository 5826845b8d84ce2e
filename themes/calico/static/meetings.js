// Where cubic curves meet lines, circles, one another and themselves, as cubic_meetings.py in plugin/chalkfold/geometry/
// finds it.

import { middleOf, point, powers, slope } from "./bezier.js";
import {
  SAME, centre, cross, distance, dot, end, handles, isCubic, isLine, leftOf, minus, same, start, unit,
} from "./points.js";
import { plus, scaled, times, zeros } from "./polynomials.js";

const FLAT = 0.05; // a stretch whose handles stand off its chord by less is as good as straight
const MOST_PAIRS = 4000;
const MOST_MEETINGS = 9; // two cubics that share more points than this share a stretch
const TOUCH = 0.5; // where two curves touch they lie on each other for about as long as this (mm): one place
const MOST_STEPS = 60;

/** Where a cubic meets another, or the endless line or whole circle of a or b. */
export const cubicEndless = (a, b) => {
  if (isCubic(a) && isCubic(b)) return withCubic(a, b);
  const [curve, other] = isCubic(a) ? [a, b] : [b, a];
  if (isLine(other)) return withLine(curve, start(other), unit(start(other), end(other)));
  return withCircle(curve, centre(other), distance(centre(other), start(other)));
};

const corners = (segment) => [start(segment), ...handles(segment), end(segment)];

const withLine = (curve, place, along) => {
  const out = leftOf(along);
  const offs = corners(curve).map((each) => dot(minus(each, place), out));
  if (Math.min(...offs) > SAME || Math.max(...offs) < -SAME) return [];
  const [x, y] = powers(curve, place);
  return zeros(plus(scaled(x, out[0]), scaled(y, out[1])), SAME).map((t) => point(curve, t));
};

const withCircle = (curve, middle, radius) => {
  const beyond = radius + SAME;
  const clear = [0, 1].some((axis) => {
    const sides = corners(curve).map((each) => minus(each, middle)[axis]);
    return Math.min(...sides) > beyond || Math.max(...sides) < -beyond;
  });
  if (clear) return [];
  const [x, y] = powers(curve, middle);
  const [off, ...more] = plus(times(x, x), times(y, y));
  return zeros([off - radius * radius, ...more], 2 * radius * SAME).map((t) => point(curve, t));
};

/** Halved until they are nearly straight where their boxes overlap; then sharpened by Newton's method. */
const withCubic = (a, b) => {
  let found = [];
  const pairs = [[[a, 0, 1], [b, 0, 1]]];
  for (let looked = 0; pairs.length && looked < MOST_PAIRS; looked += 1) {
    const [[one, s0, s1], [other, t0, t1]] = pairs.pop();
    if (boxesApart(one, other)) continue;
    const [first, second] = [offChord(one), offChord(other)];
    if (Math.max(first, second) <= FLAT) {
      const tries = [[s0, t0], [s1, t1], [(s0 + s1) / 2, (t0 + t1) / 2]];
      found = once([...found, ...tries.map(([s, t]) => sharpened(a, b, s, t)).filter(Boolean)]);
      if (found.length > MOST_MEETINGS && once(found, TOUCH).length > MOST_MEETINGS) return [];
    } else if (first >= second) {
      const s = (s0 + s1) / 2;
      const [near, far] = middleOf(one);
      pairs.push([[near, s0, s], [other, t0, t1]], [[far, s, s1], [other, t0, t1]]);
    } else {
      const t = (t0 + t1) / 2;
      const [near, far] = middleOf(other);
      pairs.push([[one, s0, s1], [near, t0, t]], [[one, s0, s1], [far, t, t1]]);
    }
  }
  return found;
};

/** The places in order, without those that lie beside one that is kept already. */
const once = (found, near = 2 * SAME) =>
  found.reduce((kept, place) => (kept.some((other) => same(place, other, near)) ? kept : [...kept, place]), []);

/** Do the boxes round their ends and handles keep clear of each other? Then so do the two. */
export const boxesApart = (a, b) =>
  [0, 1].some((axis) => {
    const one = corners(a).map((each) => each[axis]);
    const other = corners(b).map((each) => each[axis]);
    return Math.min(...one) > Math.max(...other) + SAME || Math.min(...other) > Math.max(...one) + SAME;
  });

const offChord = ([x0, y0, x1, y1, ax, ay, bx, by]) =>
  Math.max(
    Math.abs(ax - (2 * x0 + x1) / 3) + Math.abs(ay - (2 * y0 + y1) / 3),
    Math.abs(bx - (x0 + 2 * x1) / 3) + Math.abs(by - (y0 + 2 * y1) / 3),
  );

const inside = (t) => Math.min(Math.max(t, 0), 1);

const sharpened = (a, b, begin, other) => {
  let [s, t] = [begin, other];
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const gap = minus(point(b, t), point(a, s));
    const [along, across] = [slope(a, s), slope(b, t)];
    const turn = cross(along, across);
    if (Math.abs(turn) <= SAME) break;
    const was = [s, t];
    [s, t] = [inside(s + cross(gap, across) / turn), inside(t + cross(gap, along) / turn)];
    if (Math.abs(s - was[0]) + Math.abs(t - was[1]) <= 1e-15) break;
  }
  const here = point(a, s);
  return distance(here, point(b, t)) <= SAME ? here : undefined;
};

/** Does a cubic pass through one point twice, or stop in a cusp? */
export const loops = (curve) => {
  const [[, cx, bx, ax], [, cy, by, ay]] = powers(curve);
  const [a, b, c] = [[ax, ay], [bx, by], [cx, cy]];
  const whole = cross(a, b);
  if (whole === 0) return false;
  const total = cross(c, a) / whole;
  const inner = total * total - 4 * (total * total - cross(b, c) / whole);
  if (inner < 0) return false;
  return (total - Math.sqrt(inner)) / 2 >= 0 && (total + Math.sqrt(inner)) / 2 <= 1;
};
