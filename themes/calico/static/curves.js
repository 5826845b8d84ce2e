// Curves as a writer describes them, as curves.py and splines.py in plugin/chalkfold/geometry/ make them; the rule for
// handles is told there.

import { tightest } from "./bezier.js";
import { cubics } from "./cubics.js";
import { loops } from "./meetings.js";
import { SAME, cubic, direction, distance, facing, polar, radians, same } from "./points.js";
import { DRAFT, refuse } from "./trouble.js";

const SHARPEST = 1; // a bend tighter than this radius (mm) is a point
const LEAST_SHARE = 0.5;
const MOST_TURN = 120; // half of the turn up to which handles grow
const STEP = 0.125; // handles are tried in such parts of their usual length …
const STEPS = 32; // … up to four times as long
const HALVINGS = 60;
const MET = 1e-10; // a curve to a length has it to this much

export const curve = (a, b, leaving, arriving) => {
  notOnePoint(a, b);
  return [smooth(withHandles(a, b, leaving, arriving, 1))];
};

/** Both handles longer or shorter in one proportion, so that it has the length. */
export const curveOfLength = (a, b, leaving, arriving, length) => {
  notOnePoint(a, b);
  if (length <= distance(a, b) + SAME) refuse(DRAFT);
  const made = (scale) => withHandles(a, b, leaving, arriving, scale);
  const tried = Array.from({ length: STEPS }, (_, step) => made((step + 1) * STEP));
  const step = tried.findIndex((each) => (runsSmoothly(each) ? cubics.length(each) : 0) >= length);
  if (step < 0) refuse(DRAFT);
  return [smooth(closedIn(made, length, step * STEP))];
};

const closedIn = (made, length, begin) => {
  let [low, high] = [begin, begin + STEP];
  let found = made(high);
  for (let step = 0; step < HALVINGS; step += 1) {
    const middle = (low + high) / 2;
    found = made(middle);
    const here = cubics.length(found);
    if (Math.abs(here - length) <= MET) break;
    if (here > length) high = middle;
    else low = middle;
  }
  return found;
};

const withHandles = (a, b, leaving, arriving, scale) => {
  const [first, last] = handleLengths(a, b, leaving, arriving);
  return cubic(a, b, polar(a, leaving, scale * first), polar(b, arriving + 180, scale * last));
};

const handleLengths = (a, b, leaving, arriving) => {
  const chord = direction(a, b);
  const [first, last] = [turnBetween(chord, leaving), turnBetween(chord, arriving)];
  const half = Math.min((first + last) / 2, MOST_TURN);
  const usual = ((2 / 3) * distance(a, b)) / (1 + Math.cos(radians(half)));
  if (half <= SAME) return [usual, usual];
  const share = (turn) => Math.max(LEAST_SHARE, Math.sin(radians(turn)) / Math.sin(radians(half)));
  return [usual * share(last), usual * share(first)];
};

const turnBetween = (one, other) => {
  const apart = Math.abs(one - other) % 360;
  return Math.min(apart, 360 - apart);
};

const notOnePoint = (a, b) => {
  if (same(a, b)) refuse(DRAFT);
};

const runsSmoothly = (made) => !loops(made) && tightest(made) >= SHARPEST;
const smooth = (made) => (runsSmoothly(made) ? made : refuse(DRAFT));

/** The horizontal direction in which b lies from a. */
export const acrossFrom = (a, b) => {
  if (Math.abs(b[0] - a[0]) <= SAME) refuse(DRAFT);
  return b[0] > a[0] ? 0 : 180;
};

/** The direction square to that of an edge that leads more from a towards b than back. */
export const square = (ahead, a, b) => {
  const chord = [b[0] - a[0], b[1] - a[1]];
  const lean = ahead[1] * chord[0] - ahead[0] * chord[1];
  if (Math.abs(lean) <= SAME * Math.sqrt(chord[0] * chord[0] + chord[1] * chord[1])) refuse(DRAFT);
  return direction([0, 0], lean > 0 ? [ahead[1], -ahead[0]] : [-ahead[1], ahead[0]]);
};

// ---- Through points: the cubic spline over the lengths of the chords.

export const curveThrough = (places, leaving, arriving) => {
  const gaps = places.slice(1).map((b, i) => {
    notOnePoint(places[i], b);
    return distance(places[i], b);
  });
  const [first, last] = [leaving, arriving].map((angle) => (angle === undefined ? undefined : facing(angle)));
  const [across, down] = [0, 1].map((axis) =>
    slopes(places.map((place) => place[axis]), gaps, first && first[axis], last && last[axis]),
  );
  return gaps.map((gap, i) => {
    const [a, b] = [places[i], places[i + 1]];
    const out = [a[0] + (across[i] * gap) / 3, a[1] + (down[i] * gap) / 3];
    const home = [b[0] - (across[i + 1] * gap) / 3, b[1] - (down[i + 1] * gap) / 3];
    return smooth(cubic(a, b, out, home));
  });
};

/** The slope at every place, for one coordinate; an end without one given has no curvature. */
const slopes = (values, gaps, leaving, arriving) => {
  const steep = gaps.map((gap, i) => (values[i + 1] - values[i]) / gap);
  const rows = [leaving === undefined ? [0, 2, 1, 3 * steep[0]] : [0, 1, 0, leaving]];
  for (let i = 0; i + 1 < gaps.length; i += 1) {
    const [before, after] = [gaps[i], gaps[i + 1]];
    rows.push([after, 2 * (before + after), before, 3 * (after * steep[i] + before * steep[i + 1])]);
  }
  rows.push(arriving === undefined ? [1, 2, 0, 3 * steep.at(-1)] : [0, 1, 0, arriving]);
  return solved(rows);
};

/** Of a tridiagonal system: before, on and behind the diagonal, and the sum. */
const solved = (rows) => {
  const ahead = [];
  let before = [0, 0];
  for (const [low, middle, high, total] of rows) {
    const pivot = middle - low * before[0];
    before = [high / pivot, (total - low * before[1]) / pivot];
    ahead.push(before);
  }
  const found = [];
  for (const [factor, rest] of ahead.reverse()) found.push(rest - factor * (found.at(-1) ?? 0));
  return found.reverse();
};
