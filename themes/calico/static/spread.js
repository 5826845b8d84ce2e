// Slash and spread, as plugin/chalkfold/geometry/spread.py has it: a moving part is its stretch of the seam line and
// the cut; where it comes to lie is told by where the first line of the cut does.

import {
  JOIN, SAME, between, degrees, direction, distance, edges, end, leftOf, line, minus, reversed, same, shifted, start,
  sum, turned, unit,
} from "./geometry.js";
import { encloses, meetings, orientation } from "./outlines.js";
import { DRAFT, refuse } from "./trouble.js";

const JUST_AFTER = 0.5; // without a fold that part stays which begins where the outline does: this far along it

export const movingPart = (outline, opens, hinge, folds) => {
  const loop = outline.flat();
  liesInside(loop, opens, hinge, [opens, hinge]);
  const [here, there] = [opens, hinge].map((point) => placeOn(loop, point));
  offFolds(outline, [opens, hinge], folds);
  const stays = staysThere(outline, folds, here, there);
  const part = stays ? stretch(loop, there, here) : edges.backwards(stretch(loop, here, there));
  return [part, [line(opens, hinge)]];
};

export const dartPart = (outline, opens, tip, legs, folds) => {
  const loop = outline.flat();
  liesInside(loop, opens, tip, [opens]);
  const [first, last] = [edges.first(legs), edges.last(legs)];
  const [here, begin, stop] = [opens, first, last].map((point) => placeOn(loop, point));
  offFolds(outline, [opens], folds);
  if (staysThere(outline, folds, here, begin)) return [stretch(loop, stop, here), [line(opens, tip), line(tip, last)]];
  return [edges.backwards(stretch(loop, here, begin)), [line(opens, tip), line(tip, first)]];
};

/** Where the cut comes to lie, spread by so much at either end. */
export const opened = (part, wide, atHinge) => {
  const cut = part[part.length - 1][0];
  const [opens, hinge] = [start(cut), end(cut)];
  const sine = (wide - atHinge) / 2 / distance(opens, hinge);
  if (Math.abs(sine) >= 1) refuse(DRAFT);
  const right = orientation(part) > 0;
  const out = leftOf(unit(opens, hinge));
  const half = degrees(Math.asin(sine)) * (right ? -1 : 1);
  const away = turned(right ? reversed(out) : out, half, [0, 0]);
  return [line(shifted(opens, away, wide), shifted(hinge, away, atHinge))];
};

/** Where the cut to the tip of a dart comes to lie when the dart is closed. */
export const closed = (part, legs) => {
  const [cut, leg] = part[part.length - 1];
  const [tip, moves] = [start(leg), end(leg)];
  const [first, last] = [edges.first(legs), edges.last(legs)];
  const other = same(moves, first) ? last : first;
  const turn = same(first, last) ? 0 : direction(tip, other) - direction(tip, moves);
  return [line(turned(start(cut), turn, tip), tip)];
};

/** The edge with all that lies on the part moved, and what opens bridged straight. */
export const spread = (edge, part, cut, bridges) => {
  const slash = part[part.length - 1][0];
  const ends = [start(slash), end(slash)].filter((point) => edges.contains(edge, point, JOIN));
  const met = edge.flatMap((segment) => meetings(segment, slash));
  const whole = edges.length(edge);
  const places = [0];
  for (const place of [...ends, ...met].map((point) => edges.nearest(edge, point)).sort((a, b) => a - b)) {
    if (place - places[places.length - 1] > JOIN && whole - place > JOIN) places.push(place);
  }
  const pieces = places.map((begin, i) => {
    const piece = edges.part(edge, begin, places[i + 1] ?? whole);
    return moves(part, edges.pointAt(piece, edges.length(piece) / 2)) ? edges.mapped(piece, motion(part, cut)) : piece;
  });
  return edges.joined(...bridged(bridges ? bridgedEnds(edge, pieces, ends, part, cut) : pieces));
};

const bridged = (pieces) => pieces.flatMap((piece, i) => {
  if (!i) return [piece];
  const [from, to] = [edges.last(pieces[i - 1]), edges.first(piece)];
  return same(from, to) ? [piece] : [[line(from, to)], piece];
});

/** The pieces of an edge and, where it ends at the slash, the line over to the other side of the gap. */
const bridgedEnds = (edge, pieces, ends, part, cut) => {
  let found = pieces;
  for (const point of ends) {
    const across = motion(part, cut)(point);
    for (const atStart of [true, false]) {
      if (!same(atStart ? edges.first(edge) : edges.last(edge), point, JOIN)) continue;
      const here = atStart ? edges.first(found[0]) : edges.last(found[found.length - 1]);
      const there = distance(here, point) < distance(here, across) ? across : point;
      if (!same(here, there)) found = atStart ? [[line(there, here)], ...found] : [...found, [line(here, there)]];
    }
  }
  return found;
};

/** The edge of a dart that is closed: without the stretch between its legs, the part beyond it moved. */
export const closedEdge = (edge, legs, part, cut) => {
  const found = [edges.first(legs), edges.last(legs)].map((point) => edges.nearest(edge, point));
  const [begin, stop] = found.sort((a, b) => a - b);
  const whole = edges.length(edge);
  const before = begin > SAME ? [edges.part(edge, 0, begin)] : [];
  const after = whole - stop > SAME ? [edges.part(edge, stop, whole)] : [];
  return edges.joined(...[...before, ...after].map((piece) => spread(piece, part, cut, 0)));
};

export const spreadPoint = (point, part, cut) => (moves(part, point) ? motion(part, cut)(point) : point);

/** How the part moves: turned about the start of its cut, then moved with it. */
const motion = (part, cut) => {
  const was = part[part.length - 1][0];
  const turn = direction(start(cut[0]), end(cut[0])) - direction(start(was), end(was));
  const [across, down] = minus(start(cut[0]), start(was));
  return (point) => {
    const [x, y] = turned(point, turn, start(was));
    return [x + across, y + down];
  };
};

const moves = (part, point) =>
  !edges.contains(part[part.length - 1], point, JOIN)
  && (edges.contains(part[0], point, JOIN) || encloses(part, point));

const placeOn = (loop, point) => {
  const found = edges.nearest(loop, point);
  if (!same(edges.pointAt(loop, found), point, JOIN)) refuse(DRAFT);
  return edges.length(loop) - found <= SAME ? 0 : found;
};

/** The outline from one place on to another, also past its start. */
const stretch = (loop, begin, stop) => {
  if (stop - begin > SAME) return edges.part(loop, begin, stop);
  const before = edges.part(loop, begin, edges.length(loop));
  return stop > SAME ? edges.joined(before, edges.part(loop, 0, stop)) : before;
};

/** Whether the stretch from one place on to another holds the folds, or else the start of the outline. */
const staysThere = (outline, folds, begin, stop) => {
  const lengths = outline.map(edges.length);
  const middles = folds.map((fold) => sum(lengths.slice(0, fold)) + lengths[fold] / 2);
  const between = (place) => (begin < stop ? begin <= place && place < stop : place >= begin || place < stop);
  const found = (middles.length ? middles : [JUST_AFTER]).map(between);
  return found.every((each) => each === found[0]) ? found[0] : refuse(DRAFT);
};

const offFolds = (outline, ends, folds) => {
  for (const edge of folds.map((fold) => outline[fold])) {
    const corner = (point) => [edges.first(edge), edges.last(edge)].some((each) => same(point, each, JOIN));
    if (ends.some((point) => edges.contains(edge, point, JOIN) && !corner(point))) refuse(DRAFT);
  }
};

/** Refuses unless the line between lies in the piece and meets its seam line only where it should. */
const liesInside = (loop, opens, to, ends) => {
  if (same(opens, to, JOIN)) refuse(DRAFT);
  const cut = line(opens, to);
  const middle = between(opens, to, 0.5);
  const met = loop.flatMap((segment) => meetings(segment, cut));
  const crossed = met.some((point) => !ends.some((each) => same(point, each, JOIN)));
  if (crossed || edges.contains(loop, middle, JOIN) || !encloses([loop], middle)) refuse(DRAFT);
};
