// Points and vectors, and segments as they are written: as points.py and shapes.py in plugin/chalkfold/geometry/ have
// them. Coordinates in mm, x across, y down; angles in degrees, clockwise on the page. A line is [x0, y0, x1, y1]; an
// arc [x0, y0, x1, y1, cx, cy, sweep]; a cubic [x0, y0, x1, y1, c1x, c1y, c2x, c2y].

import { DRAFT, refuse } from "./trouble.js";

export const SAME = 1e-6; // points closer than this (mm) are one point
export const JOIN = 0.01; // nothing drawn or cut shows a difference smaller than this (mm)
const PARALLEL = 1e-9;
const LINE = 4;
const ARC = 7;
const CUBIC = 8;

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
export const facing = (angle) => {
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

export const direction = (a, b) => {
  const [x, y] = unit(a, b);
  return rest(degrees(Math.atan2(y, x)), 360);
};

/** Where two endless lines, each a point and a unit vector, meet; undefined when parallel. */
export const crossing = (a, alongA, b, alongB) => {
  const turn = cross(alongA, alongB);
  return Math.abs(turn) < PARALLEL ? undefined : shifted(a, alongA, cross(minus(b, a), alongB) / turn);
};

export const meeting = (a, b, c, d) => crossing(a, unit(a, b), c, unit(c, d)) ?? refuse(DRAFT);

export const turned = (point, angle, around) => {
  const [x, y] = minus(point, around);
  const [c, s] = facing(angle);
  return [around[0] + x * c - y * s, around[1] + x * s + y * c];
};

export const mirrored = (point, a, b) => {
  const across = leftOf(unit(a, b));
  return shifted(point, across, -2 * dot(minus(point, a), across));
};

// ---- Segments as they are written.

export const start = (segment) => [segment[0], segment[1]];
export const end = (segment) => [segment[2], segment[3]];
export const centre = (arc) => [arc[4], arc[5]];
export const line = (a, b) => [...a, ...b];
export const handles = (cubic) => [[cubic[4], cubic[5]], [cubic[6], cubic[7]]];
export const cubic = (a, b, first, last) => [...a, ...b, ...first, ...last];
export const isLine = (segment) => segment.length === LINE;
export const isArc = (segment) => segment.length === ARC;
export const isCubic = (segment) => segment.length === CUBIC;
export const arc = (a, b, around, sweep) => [...a, ...b, ...around, sweep];
