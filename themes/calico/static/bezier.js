// A cubic curve at one place t, from 0 at its start to 1 at its end, and its parallel: as bezier.py and parallels.py in
// plugin/chalkfold/geometry/ have them.

import { SAME, between, cross, cubic, distance, end, handles, leftOf, minus, shifted, start } from "./points.js";
import { derivative, plus, times, zeros } from "./polynomials.js";

const STRAY = 0.02; // farthest (mm) a parallel is off its allowance
const ASKED = 0.8 * STRAY; // at the places that are tried
const TRIED = Array.from({ length: 9 }, (_, step) => (step + 1) / 10);
const HALVINGS = 9;
const LOOKED = 64;
const STILL = 1e-3; // a curve that runs slower between its ends stops there

const size = ([x, y]) => Math.sqrt(x * x + y * y);

export const point = ([x0, y0, x1, y1, ax, ay, bx, by], t) => {
  const u = 1 - t;
  const [a, b, c, d] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
  return [a * x0 + b * ax + c * bx + d * x1, a * y0 + b * ay + c * by + d * y1];
};

/** How fast it runs, in mm for a whole t. */
export const slope = ([x0, y0, x1, y1, ax, ay, bx, by], t) => {
  const u = 1 - t;
  const [a, b, c] = [3 * u * u, 6 * u * t, 3 * t * t];
  return [a * (ax - x0) + b * (bx - ax) + c * (x1 - bx), a * (ay - y0) + b * (by - ay) + c * (y1 - by)];
};

export const speed = (segment, t) => size(slope(segment, t));

const bend = ([x0, y0, x1, y1, ax, ay, bx, by], t) => {
  const [a, b] = [6 * (1 - t), 6 * t];
  return [a * (bx - 2 * ax + x0) + b * (x1 - 2 * bx + ax), a * (by - 2 * ay + y0) + b * (y1 - 2 * by + ay)];
};

/** The unit vector of travel; where a handle lies on its end, towards or from the next point that lies apart. */
export const tangent = (segment, t) => {
  let found = slope(segment, t);
  if (size(found) <= SAME) found = t < 0.5 ? leaving(segment) : arriving(segment);
  const fast = size(found);
  return fast > 0 ? [found[0] / fast, found[1] / fast] : [1, 0];
};

const leaving = (segment) => {
  const apart = [...handles(segment), end(segment)].find((place) => distance(place, start(segment)) > SAME);
  return minus(apart ?? end(segment), start(segment));
};

const arriving = (segment) => {
  const [first, last] = handles(segment);
  const apart = [last, first, start(segment)].find((place) => distance(place, end(segment)) > SAME);
  return minus(end(segment), apart ?? start(segment));
};

const curvature = (segment, t) => {
  const ahead = slope(segment, t);
  const fast = size(ahead);
  return fast > SAME ? cross(ahead, bend(segment, t)) / (fast * fast * fast) : 0;
};

/** The least radius of its bends, looked for at many places and where it runs slowest. */
export const tightest = (segment) => {
  const slowest = derivative(plus(...powers(segment).map((way) => times(derivative(way), derivative(way)))));
  const places = [...Array.from({ length: LOOKED + 1 }, (_, step) => step / LOOKED), ...zeros(slowest)];
  if (places.some((t) => t > 0 && t < 1 && speed(segment, t) <= STILL)) return 0;
  const most = Math.max(...places.map((t) => Math.abs(curvature(segment, t))));
  return most > 0 ? 1 / most : Infinity;
};

/** Across and down as polynomials of t, seen from a place. */
export const powers = ([x0, y0, x1, y1, ax, ay, bx, by], [x, y] = [0, 0]) => [
  powersOf(x0 - x, ax - x, bx - x, x1 - x),
  powersOf(y0 - y, ay - y, by - y, y1 - y),
];

const powersOf = (first, a, b, last) => [first, 3 * (a - first), 3 * (b - 2 * a + first), last - 3 * b + 3 * a - first];

const reaching = ([x, y], [across, down], by) => [x + across * by, y + down * by];

/** The stretch from a to b. */
export const divided = (segment, a, b) => {
  const [begin, stop] = [point(segment, a), point(segment, b)];
  const third = (b - a) / 3;
  const [first, last] = [reaching(begin, slope(segment, a), third), reaching(stop, slope(segment, b), -third)];
  return cubic(begin, stop, first, last);
};

/** The curve in two halves of t. */
export const middleOf = (segment) => {
  const [first, last] = handles(segment);
  const near = between(start(segment), first, 0.5);
  const across = between(first, last, 0.5);
  const far = between(last, end(segment), 0.5);
  const [before, after] = [between(near, across, 0.5), between(across, far, 0.5)];
  const middle = between(before, after, 0.5);
  return [cubic(start(segment), middle, near, before), cubic(middle, end(segment), after, far)];
};

/** The parallel to the left as one travels, in as many cubics as it takes; undefined when a hollow is tighter. */
export const beside = (segment, by, a = 0, b = 1, deep = HALVINGS) => {
  const places = [a, ...TRIED.map((part) => a + (b - a) * part), b];
  if (places.some((t) => quicker(segment, by, t) <= 0)) return undefined;
  const one = hermite(segment, by, a, b);
  const strays = TRIED.map((part) => distance(point(one, part), aside(segment, by, a + (b - a) * part)));
  if (Math.max(...strays) <= ASKED) return [one];
  const middle = (a + b) / 2;
  const before = deep ? beside(segment, by, a, middle, deep - 1) : undefined;
  const after = before && beside(segment, by, middle, b, deep - 1);
  return after && [...before, ...after];
};

const quicker = (segment, by, t) => 1 + by * curvature(segment, t);
const aside = (segment, by, t) => shifted(point(segment, t), leftOf(tangent(segment, t)), by);

const hermite = (segment, by, a, b) => {
  const [begin, stop] = [aside(segment, by, a), aside(segment, by, b)];
  const third = (b - a) / 3;
  const [out, home] = [third * quicker(segment, by, a), third * quicker(segment, by, b)];
  return cubic(begin, stop, reaching(begin, slope(segment, a), out), reaching(stop, slope(segment, b), -home));
};
