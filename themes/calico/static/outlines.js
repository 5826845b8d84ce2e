// Where lines and arcs meet, and closed outlines, as intersect.py, crossings.py, outlines.py and unfold.py in
// plugin/chalkfold/geometry/ have them.

import { levelWith } from "./cubics.js";
import {
  JOIN, SAME, arcs, centre, cross, crossing, distance, dot, edges, end, isArc, isCubic, isLine, leftOf, line, minus, same, segments,
  shifted, start, sum, unit,
} from "./geometry.js";
import { boxesApart, cubicEndless, loops } from "./meetings.js";
import { DRAFT, refuse } from "./trouble.js";

const WHOLE = 360 + 1e-9; // an arc that turns by more lies on itself

// ---- Meetings.

/** Points that two segments share: crossings, and the ends of one that lie on the other. */
export const meetings = (a, b) => {
  if (Math.min(segments.length(a), segments.length(b)) <= SAME || apart(a, b)) return [];
  const on = (segment) => (point) => segments.contains(segment, point);
  return [
    ...endless(a, b).filter(on(a)).filter(on(b)),
    ...[start(a), end(a)].filter(on(b)),
    ...[start(b), end(b)].filter(on(a)),
  ];
};

/** A quick no: of two lines one lies wholly on one side of the other; the boxes round two curves keep clear. */
const apart = (a, b) => (isCubic(a) && isCubic(b) ? boxesApart(a, b) : linesApart(a, b));

const linesApart = (a, b) => isLine(a) && isLine(b) && (onOneSide(a, b) || onOneSide(b, a));

const onOneSide = (a, b) => {
  const way = minus(end(a), start(a));
  const first = cross(way, minus(start(b), start(a)));
  const last = cross(way, minus(end(b), start(a)));
  const slack = SAME * (Math.abs(way[0]) + Math.abs(way[1]));
  return (first > slack && last > slack) || (first < -slack && last < -slack);
};

/** Where the endless line or whole circle of one meets that of the other; a cubic is not run on. */
export const endless = (a, b) => {
  if (isCubic(a) || isCubic(b)) return cubicEndless(a, b);
  if (isLine(a) && isLine(b)) {
    const found = crossing(start(a), unit(start(a), end(a)), start(b), unit(start(b), end(b)));
    return found ? [found] : [];
  }
  if (isLine(a)) return lineAndCircle(a, centre(b), arcs.radius(b));
  if (isLine(b)) return lineAndCircle(b, centre(a), arcs.radius(a));
  return circles(centre(a), arcs.radius(a), centre(b), arcs.radius(b));
};

const lineAndCircle = (segment, middle, radius) => {
  const along = unit(start(segment), end(segment));
  const foot = shifted(start(segment), along, dot(minus(middle, start(segment)), along));
  return eitherSide(foot, along, Math.abs(cross(along, minus(middle, start(segment)))), radius);
};

export const circles = (a, first, b, second) => {
  const between = distance(a, b);
  if (between <= SAME) return [];
  if (between > first + second || between < Math.abs(first - second)) return touching(a, first, b, second);
  const along = unit(a, b);
  const ahead = (between * between + (first - second) * (first + second)) / (2 * between);
  return eitherSide(shifted(a, along, ahead), leftOf(along), Math.abs(ahead), first);
};

/** Where two circles that miss each other by SAME at most are nearest. */
const touching = (a, first, b, second) => {
  const between = distance(a, b);
  const inside = Math.abs(first - second);
  if (Math.min(Math.abs(between - first - second), Math.abs(between - inside)) > SAME) return [];
  return [between < inside && second > first ? shifted(b, unit(b, a), second) : shifted(a, unit(a, b), first)];
};

/** The points of a circle on a line, given the foot of the perpendicular from its centre and how far off it is. */
const eitherSide = (foot, along, off, radius) => {
  if (off > radius + SAME) return [];
  const half = Math.sqrt(Math.max(0, (radius - off) * (radius + off)));
  return half === 0 ? [foot] : [shifted(foot, along, -half), shifted(foot, along, half)];
};

// ---- Crossings.

/** Does an outline cross, touch or cover itself? Segments that follow each other may share the point between them. */
export const crosses = (outline) => {
  const chain = outline.flat().filter((segment) => segments.length(segment) > SAME);
  if (chain.some(onItself)) return true;
  const near = nearPairs(chain);
  return chain.some((a, i) => chain.some((b, j) => i < j && near(i, j) && meetWrongly(a, b, joints(chain, i, j))));
};

const onItself = (segment) =>
  (isArc(segment) && Math.abs(segment[6]) > WHOLE) || (isCubic(segment) && loops(segment));

const meetWrongly = (a, b, shared) =>
  meetings(a, b).some((point) => !shared.some((joint) => same(point, joint, JOIN)));

const joints = (chain, i, j) => [
  ...(j === i + 1 ? [end(chain[i])] : []),
  ...(i === 0 && j === chain.length - 1 ? [start(chain[i])] : []),
];

/** Tells whether the extents of two segments overlap, both across and along the way most of the outline runs. */
const nearPairs = (chain) => {
  const main = mainWay(chain);
  const spans = chain.map((segment) => [leftOf(main), main].map((way) => segments.reach(segment, way)));
  const overlap = ([low, high], [least, most]) => low <= most + SAME && least <= high + SAME;
  return (i, j) => spans[i].every((span, axis) => overlap(span, spans[j][axis]));
};

/** The direction in which most of the length runs, to and fro alike: a mean of doubled angles. */
const mainWay = (chain) => {
  const [across, down] = chain.reduce(
    ([u, v], segment) => {
      const [x, y] = minus(end(segment), start(segment));
      const weight = Math.sqrt(x * x + y * y) || 1;
      return [u + (x * x - y * y) / weight, v + (2 * x * y) / weight];
    },
    [0, 0],
  );
  const angle = Math.atan2(down, across) / 2;
  return [Math.cos(angle), Math.sin(angle)];
};

// ---- Closed outlines.

/** In mm²; positive when the outline runs clockwise on the page. */
export const area = (outline) => sum(outline.flat().map(segments.area));

/** 1 for clockwise on the page, -1 for anticlockwise. */
export const orientation = (outline) => {
  const signed = area(outline);
  return Math.abs(signed) <= SAME * edges.length(outline.flat()) ? refuse(DRAFT) : Math.sign(signed);
};

/** From the least to the greatest along one axis: [1, 0] across, [0, 1] down. */
export const extent = (outline, axis) => {
  const reached = outline.flat().map((segment) => segments.reach(segment, axis));
  return Math.max(...reached.map(([, high]) => high)) - Math.min(...reached.map(([low]) => low));
};

/** The widest gap between segments that should follow each other. */
export const gap = (outline) => {
  const chain = outline.flat();
  return Math.max(...chain.map((segment, i) => distance(end(segment), start(chain[(i + 1) % chain.length]))));
};

/** Does a point lie inside the outline or on it? Counts how often the outline winds round it. */
export const encloses = (outline, point) => {
  const chain = outline.flat();
  if (chain.some((segment) => segments.contains(segment, point))) return true;
  return Math.abs(sum(chain.map((segment) => winding(segment, point)))) > 0.5;
};

/** An arc winds like its chord, and once more round what lies between the two. */
const winding = (segment, point) => {
  if (isCubic(segment)) {
    const stops = levelWith(segment, point);
    return sum(stops.slice(1).map((there, i) => turnsBetween(stops[i], there, point)));
  }
  const side = cross(minus(start(segment), point), minus(end(segment), point));
  const turns = turnsBetween(start(segment), end(segment), point);
  if (isLine(segment) || distance(centre(segment), point) >= arcs.radius(segment)) return turns;
  const whole = Math.abs(segment[6]) >= 360;
  if (segment[6] > 0) return whole || side < 0 ? turns + 1 : turns;
  return whole || side >= 0 ? turns - 1 : turns;
};

/** Straight from a to b. */
const turnsBetween = (a, b, point) => {
  const [first, last] = [minus(a, point), minus(b, point)];
  const side = cross(first, last) + 0; // never -0, which would turn a point on the chord the other way
  return Math.atan2(side, dot(first, last)) / (2 * Math.PI);
};

// ---- Unfolding.

/** The one line of a fold edge. */
export const alongFold = (edge) => (edges.isStraight(edge) ? line(edges.first(edge), edges.last(edge)) : refuse(DRAFT));

/** The whole piece of one drawn on folds, without the holes in it. */
export const unfold = (outline, folds) => {
  const axes = folds.map((index) => alongFold(outline[index]));
  if (!lieSquare(axes)) refuse(DRAFT);
  let loops = [{ outline, cameFrom: outline.map((_, index) => index) }];
  folds.forEach((fold, i) => {
    loops = loops.flatMap((loop) => opened(loop, fold, start(axes[i]), end(axes[i])));
  });
  const size = (loop) => Math.abs(area(loop.outline));
  return loops.reduce((largest, loop) => (size(loop) > size(largest) ? loop : largest)).outline;
};

const lieSquare = (axes) => {
  if (axes.length < 2) return true;
  const lean = dot(segments.tangentAt(axes[0], 0), segments.tangentAt(axes[1], 0));
  return axes.length === 2 && Math.abs(lean) * Math.max(...axes.map(segments.length)) <= JOIN;
};

/** Opened across A–B, on which every edge drawn as the fold lies: each stretch between two of them closes. */
const opened = ({ outline, cameFrom }, fold, a, b) => {
  const count = outline.length;
  const places = cameFrom.flatMap((name, place) => (name === fold ? [place] : []));
  return places.map((place, i) => {
    const following = places[i + 1] ?? places[0] + count;
    const half = Array.from({ length: following - place - 1 }, (_, step) => (place + 1 + step) % count);
    return closed(half.map((at) => outline[at]), half.map((at) => cameFrom[at]), a, b);
  });
};

/** A stretch of edges from fold to fold, followed by its mirror image backwards. */
const closed = (drawn, names, a, b) => {
  const image = drawn.map((edge) => edges.backwards(edges.mirrored(edge, a, b))).reverse();
  const last = drawn.length - 1;
  if (last === 0) return { outline: [edges.joined(drawn[0], image[0])], cameFrom: names };
  const ends = [edges.joined(image[last], drawn[0]), edges.joined(drawn[last], image[0])];
  return {
    outline: [ends[0], ...drawn.slice(1, -1), ends[1], ...image.slice(1, -1)],
    cameFrom: [...names, ...names.slice(1, -1).reverse()],
  };
};
