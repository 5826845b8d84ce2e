// Cubic curves: what is asked of every kind of segment, as cubics.py in plugin/chalkfold/geometry/ answers it. Lengths
// are Gauss-Legendre quadrature of the speed, halved until it agrees.

import { beside, divided, point, powers, speed, tangent } from "./bezier.js";
import {
  JOIN, SAME, cross, cubic, distance, dot, end, handles, least, line, minus, same, shifted, start,
} from "./points.js";
import { derivative, plus, scaled, times, value, zeros } from "./polynomials.js";

const EXACT = 1e-11;
const HALVINGS = 12;
const MOST_STEPS = 40;
const NODES = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
];

const measures = new WeakMap();

/** Places from 0 to 1, and the length up to each. */
const measured = (segment) => {
  if (!measures.has(segment)) measures.set(segment, measure(segment));
  return measures.get(segment);
};

const measure = (segment) => {
  const [first, last] = handles(segment);
  const slack = EXACT * (distance(start(segment), first) + distance(first, last) + distance(last, end(segment)));
  const [stops, lengths] = [[0], [0]];
  for (const [stop, long] of halved(segment, 0, 1, stretch(segment, 0, 1), slack, HALVINGS)) {
    stops.push(stop);
    lengths.push(lengths[lengths.length - 1] + long);
  }
  return { stops, lengths };
};

const halved = (segment, a, b, whole, slack, deep) => {
  const middle = (a + b) / 2;
  const [first, second] = [stretch(segment, a, middle), stretch(segment, middle, b)];
  if (deep === 0 || Math.abs(first + second - whole) <= slack) return [[middle, first], [b, second]];
  return [
    ...halved(segment, a, middle, first, slack, deep - 1),
    ...halved(segment, middle, b, second, slack, deep - 1),
  ];
};

const stretch = (segment, a, b) => {
  const [middle, half] = [(a + b) / 2, (b - a) / 2];
  let total = 0;
  for (const [node, weight] of NODES) {
    total += weight * (speed(segment, middle - half * node) + speed(segment, middle + half * node));
  }
  return total * half;
};

const firstFrom = (row, wanted) => {
  const place = row.findIndex((each) => each >= wanted);
  return place < 0 ? row.length : place;
};

const lengthTo = (segment, t) => {
  const { stops, lengths } = measured(segment);
  const place = Math.max(1, firstFrom(stops, t));
  if (place >= stops.length) return lengths[lengths.length - 1];
  return t === stops[place] ? lengths[place] : lengths[place - 1] + stretch(segment, stops[place - 1], t);
};

/** Where (0 to 1) the curve has run so far: by Newton's method, else by halves. */
const tAt = (segment, along) => {
  const { stops, lengths } = measured(segment);
  if (along <= 0) return 0;
  if (along >= lengths[lengths.length - 1]) return 1;
  const place = firstFrom(lengths, along);
  const begin = stops[place - 1];
  let [a, b] = [begin, stops[place]];
  const left = along - lengths[place - 1];
  let t = a + ((b - a) * left) / (lengths[place] - lengths[place - 1]);
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const off = stretch(segment, begin, t) - left;
    if (off > 0) b = t;
    else a = t;
    const fast = speed(segment, t);
    let ahead = fast > SAME ? t - off / fast : a;
    if (!(a < ahead && ahead < b)) ahead = (a + b) / 2;
    if (Math.abs(ahead - t) <= 1e-15 || off === 0) break;
    t = ahead;
  }
  return t;
};

/** Where (0 to 1) the curve is nearest to a point. */
const nearestT = (segment, place) => {
  const square = plus(...powers(segment, place).map((way) => times(way, derivative(way))));
  let [best, found] = [distance(start(segment), place), 0];
  for (const t of [...zeros(square), 1]) {
    const off = distance(point(segment, t), place);
    if (off < best) [best, found] = [off, t];
  }
  return found;
};

export const cubics = {
  length: (segment) => measured(segment).lengths.at(-1),

  pointAt(segment, along) {
    if (along < 0) return shifted(start(segment), tangent(segment, 0), along);
    const whole = cubics.length(segment);
    if (along > whole) return shifted(end(segment), tangent(segment, 1), along - whole);
    return point(segment, tAt(segment, along));
  },

  tangentAt: (segment, along) => tangent(segment, tAt(segment, along)),

  backwards(segment) {
    const [first, last] = handles(segment);
    return cubic(end(segment), start(segment), last, first);
  },

  /** Least and greatest extent in the direction of a unit vector, exact where the curve turns. */
  reach(segment, way) {
    const [x, y] = powers(segment);
    const out = plus(scaled(x, way[0]), scaled(y, way[1]));
    const turns = zeros(derivative(out)).map((t) => value(out, t));
    const found = [dot(start(segment), way), dot(end(segment), way), ...turns];
    return [Math.min(...found), Math.max(...found)];
  },

  nearest: (segment, place) => lengthTo(segment, nearestT(segment, place)),

  part: (segment, first, last) => divided(segment, tAt(segment, first), tAt(segment, last)),

  area(segment) {
    const [a, d] = [start(segment), end(segment)];
    const [b, c] = handles(segment);
    return (6 * (cross(a, b) + cross(c, d)) + 3 * (cross(a, c) + cross(b, c) + cross(b, d)) + cross(a, d)) / 20;
  },

  beside: (segment, by) => beside(segment, by),

  /** Cubics that follow each other, trimmed or run on straight to two points. */
  ledTo(cut, first, last) {
    const [begin, stop] = [placeOn(cut, first), placeOn(cut, last)];
    if (!begin && dot(minus(first, start(cut[0])), tangent(cut[0], 0)) > 0) return undefined;
    const kept = stretchesBetween(cut, begin ?? [0, 0], stop ?? [cut.length - 1, 1]);
    if (!kept.length) return undefined;
    const lead = begin ? [] : [line(first, start(kept[0]))];
    const trail = stop ? [] : [line(end(kept.at(-1)), last)];
    if (begin) kept[0] = [...first, ...kept[0].slice(2)];
    if (stop) kept.push([...start(kept.at(-1)), ...last, ...kept.pop().slice(4)]);
    return [...lead, ...kept, ...trail];
  },
};

/** Which cubic a point lies on, and where; undefined when it lies off them. */
const placeOn = (cut, place) => {
  const found = cut.map((segment, index) => [index, nearestT(segment, place)]);
  const [index, t] = least(found, ([at, there]) => distance(point(cut[at], there), place));
  return same(point(cut[index], t), place, JOIN) ? [index, t] : undefined;
};

const stretchesBetween = (cut, begin, stop) => {
  const kept = [];
  for (let index = begin[0]; index <= stop[0]; index += 1) {
    const [a, b] = [index === begin[0] ? begin[1] : 0, index === stop[0] ? stop[1] : 1];
    const piece = divided(cut[index], a, b);
    if (a < b && cubics.length(piece) > SAME) kept.push(piece);
  }
  return kept;
};

/** Points in order, from each to the next the curve stays above a place or below it. */
export const levelWith = (segment, place) => {
  const [, [down, ...more]] = powers(segment);
  const stops = [0, ...zeros([down - place[1], ...more]), 1];
  const halves = stops.slice(0, -1).flatMap((a, i) => [a, (a + stops[i + 1]) / 2]);
  return [...halves, 1].map((t) => point(segment, t));
};
