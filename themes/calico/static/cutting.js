// The cutting line outside a seam line and the seam line inside a cutting line, as offset.py and cut_corners.py in
// plugin/chalkfold/geometry/ lay them; the rules of a corner are told there. The outline runs so that the side to
// which it is moved lies on the left.

import {
  JOIN, SAME, arcs, cross, crossing, degrees, distance, dot, edges, end, isArc, isCubic, isLine, least, leftOf, line, minus, radians,
  reversed, same, segments, shifted, start, unit,
} from "./geometry.js";
import { alongFold, crosses, endless, orientation } from "./outlines.js";
import { DRAFT, refuse } from "./trouble.js";

const MITRE_LIMIT = 2.5; // how far a corner may stand off, in widths of the wider allowance
const SHARP = 90; // a corner that turns by more is cut off when it is too long
const SEAM_REACH = 10; // how far off seam lines inside a cutting line meet where they cross, in such widths
const BLUNT = 45; // a corner that turns by less keeps the wider allowance whole to its end
const LONGEST_SWING = 90; // an arc never runs on, or is trimmed, by more than this
const TURNS_BACK = 179.9;
const A_LITTLE = 0.1;
const PARALLEL = 1e-9;

/** The cutting line of a closed seam line; `folds` are indexes of edges, which take no allowance. */
export const offset = (outline, allowances, folds) => movedAside(outline, allowances, folds, false);

/** The seam line of a cutting line. */
export const inset = (outline, allowances, folds) => movedAside(outline, allowances, folds, true);

/** `joinAt` says how the run at an index and the next are joined. */
export const movedAside = (outline, allowances, folds, inwards, joinAt = cornerAt) => {
  if (!allowances.every((allowance) => allowance >= 0)) refuse(DRAFT);
  const forwards = orientation(outline) > 0 !== inwards;
  const runs = runsOf(outline, allowances, folds, forwards, inwards);
  const joins = runs.map((run, i) => joinAt(runs, i));
  const made = outline.map(() => []);
  runs.forEach((run, i) => {
    const before = joins[(i + joins.length - 1) % joins.length];
    const led = segments.ledTo(run.cut, before.start, joins[i].end) ?? refuse(DRAFT);
    made[run.edge].push(...before.withAfter, ...led, ...joins[i].withBefore);
  });
  const cut = forwards ? made : made.map(edges.backwards);
  return crosses(cut) ? refuse(DRAFT) : cut;
};

export const cornerAt = (runs, i) => corner(runs[i], runs[(i + 1) % runs.length]);

/** One run for each segment: `cut` is its parallel, `allowance` mm to the left of `seam`. */
const runsOf = (outline, allowances, folds, forwards, inwards) => {
  const runs = outline.map((drawn, edge) => {
    const along = forwards ? drawn : edges.backwards(drawn);
    if (!folds.includes(edge)) return withLength(along).map((seam) => runOf(edge, seam, allowances[edge], inwards));
    const seam = alongFold(along);
    return [{ edge, seam, cut: [seam], allowance: 0, onFold: true, inwards }];
  });
  return (forwards ? runs : runs.reverse()).flat();
};

const withLength = (edge) => {
  const kept = edge.filter((segment) => segments.length(segment) > SAME);
  return kept.length ? kept : refuse(DRAFT);
};

const runOf = (edge, seam, allowance, inwards) => {
  const cut = allowance ? segments.beside(seam, allowance) : [seam];
  return { edge, seam, cut: cut ?? refuse(DRAFT), allowance, onFold: false, inwards };
};

export const leaves = (run) => segments.tangentAt(run.seam, segments.length(run.seam));
export const arrives = (run) => segments.tangentAt(run.seam, 0);

// ---- Corners. A join says where the cut of the run before ends and that of the run after starts, and the straight
// lines between that belong to either.

export const join = (ending, beginning, withBefore = [], withAfter = []) =>
  ({ end: ending, start: beginning, withBefore, withAfter });

export const corner = (a, b) => {
  if (a.onFold && b.onFold) return join(end(a.seam), start(b.seam));
  if (a.onFold || b.onFold) return atFold(a, b);
  if (same(edges.last(a.cut), edges.first(b.cut), JOIN)) return join(edges.last(a.cut), edges.last(a.cut));
  const turn = turnOf(a, b);
  const seams = a.inwards && metAt(a, b);
  if (seams && distance(seams, end(a.seam)) <= SEAM_REACH * wider(a, b)) return join(seams, seams);
  if (Math.abs(turn) < BLUNT && narrower(a, b) < wider(a, b) * Math.cos(radians(turn))) return step(a, b);
  const met = metAt(a, b);
  if (met && (turn <= -BLUNT || within(a, b, turn, met))) return join(met, met);
  return turn > 0 ? outer(a, b, turn) : inner(a, b, turn);
};

const outer = (a, b, turn) => {
  const straight = crossing(edges.last(a.cut), leaves(a), edges.first(b.cut), arrives(b));
  if (straight && within(a, b, turn, straight)) return runOut(a, b, straight, straight);
  return turn > SHARP ? cutOff(a, b) : step(a, b);
};

const inner = (a, b, turn) => (turn > -BLUNT ? step(a, b) : refuse(DRAFT));

/** Degrees from one direction to the next; positive at an outer corner. */
const turnOf = (a, b) => {
  const turn = degrees(Math.atan2(cross(leaves(a), arrives(b)), dot(leaves(a), arrives(b))));
  if (Math.abs(turn) < TURNS_BACK) return turn;
  // Two curves that leave a point side by side: which of them lies outside shows a little way off.
  const before = segments.pointAt(a.seam, segments.length(a.seam) * (1 - A_LITTLE));
  const after = segments.pointAt(b.seam, segments.length(b.seam) * A_LITTLE);
  const outside = cross(minus(end(a.seam), before), minus(after, end(a.seam))) >= 0;
  return outside ? Math.abs(turn) : -Math.abs(turn);
};

/** Where the two cutting lines, run on, meet nearest to the corner. */
const metAt = (a, b) => {
  const near = runOnEndless(a.cut, b.cut).filter(
    (point) =>
      swing(a.cut, edges.last(a.cut), point) <= LONGEST_SWING && swing(b.cut, edges.first(b.cut), point) <= LONGEST_SWING,
  );
  return least(near, (met) => distance(met, edges.last(a.cut)) + distance(met, edges.first(b.cut)));
};

/** How far the direction of travel turns on the way. */
const swing = (cut, was, becomes) => {
  if (isLine(cut[0])) return 0;
  if (isArc(cut[0])) return Math.abs(arcs.swing(cut[0], was, becomes));
  const [a, b] = [was, becomes].map((place) => edges.tangentAt(cut, edges.nearest(cut, place)));
  return degrees(Math.atan2(Math.abs(cross(a, b)), dot(a, b)));
};

// Where two cutting lines meet when they are run on: lines straight, arcs along their circles, curves straight. A stretch
// that is `onwards` begins where a curve ends, and only what lies ahead of its start counts.

export const runOnEndless = (a, b) =>
  stretches(a).flatMap((one) =>
    stretches(b).flatMap((other) =>
      endless(one.segment, other.segment).filter((point) => holds(one, point) && holds(other, point)),
    ),
  );

const holds = ({ segment, onwards }, point) =>
  !onwards || dot(minus(point, start(segment)), minus(end(segment), start(segment))) >= -SAME;

const stretches = (cut) => {
  const kept = cut.map((segment) => ({ segment, onwards: false }));
  if (!isCubic(cut[0])) return kept;
  const last = cut[cut.length - 1];
  const before = shifted(start(cut[0]), segments.tangentAt(cut[0], 0), -1);
  const after = shifted(end(last), segments.tangentAt(last, segments.length(last)), 1);
  const runs = [line(start(cut[0]), before), line(end(last), after)];
  return [...kept, ...runs.map((segment) => ({ segment, onwards: true }))];
};

const wider = (a, b) => Math.max(a.allowance, b.allowance);
const narrower = (a, b) => Math.min(a.allowance, b.allowance);
const limit = (a, b) => MITRE_LIMIT * wider(a, b);

/** Near enough? At a sharp corner measured along the bisector, across which it would be cut. */
const within = (a, b, turn, met) => {
  const off = minus(met, end(a.seam));
  return (turn > SHARP ? dot(off, outwards(a, b)) : distance(met, end(a.seam))) <= limit(a, b);
};

/** The bisector of the corner, to the side to which the outline is moved. */
const outwards = (a, b) => unit([0, 0], minus(leaves(a), arrives(b)));

/** From the end of the wider allowance straight towards the corner, to the cutting line of the narrower. */
const step = (a, b) => {
  const widerFirst = a.allowance >= b.allowance;
  const narrow = widerFirst ? b : a;
  const narrowEnd = widerFirst ? edges.first(b.cut) : edges.last(a.cut);
  const wideEnd = widerFirst ? edges.last(a.cut) : edges.first(b.cut);
  const found = runOnEndless(narrow.cut, [line(end(a.seam), wideEnd)]);
  const met = least(found, (point) => distance(point, narrowEnd)) ?? narrowEnd;
  return widerFirst
    ? join(wideEnd, met, linesThrough(wideEnd, met))
    : join(met, wideEnd, linesThrough(met, wideEnd));
};

const cutOff = (a, b) => {
  const out = outwards(a, b);
  const first = asFarOut(edges.last(a.cut), leaves(a), end(a.seam), out, limit(a, b));
  const last = asFarOut(edges.first(b.cut), reversed(arrives(b)), end(a.seam), out, limit(a, b));
  return runOut(a, b, first, last);
};

/** From a point straight ahead until `by` mm beyond the corner, measured in the direction `out`. */
const asFarOut = (last, ahead, point, out, by) =>
  shifted(last, ahead, (by - dot(minus(last, point), out)) / dot(ahead, out));

/** Both led straight on: `a` to `first` and `b` from `last`; a line between the two belongs to `a`. */
const runOut = (a, b, first, last) => {
  const ahead = isLine(a.cut[0]) ? [first] : [edges.last(a.cut), first];
  const behind = isLine(b.cut[0]) ? [last] : [last, edges.first(b.cut)];
  return join(ahead[0], behind[behind.length - 1], linesThrough(...ahead, last), linesThrough(...behind));
};

/** From point to point, without lines of no length. */
const linesThrough = (...path) =>
  path.slice(1).flatMap((there, i) => (same(path[i], there) ? [] : [line(path[i], there)]));

// ---- Folds. `out` runs along the fold to where the other line lies; `piece` is square to it, on the side of the
// line that is on its way.

const atFold = (a, b) => {
  const point = end(a.seam);
  if (b.onFold) {
    const path = toFold(a, edges.last(a.cut), leaves(a), foldEnd(point, reversed(arrives(b)), b));
    return join(path[0], path[path.length - 1], linesThrough(...path));
  }
  const path = toFold(b, edges.first(b.cut), reversed(arrives(b)), foldEnd(point, leaves(a), a));
  return join(path[path.length - 1], path[0], [], linesThrough(...path.reverse()));
};

const foldEnd = (point, beyond, fold) => {
  const left = leftOf(arrives(fold));
  return fold.inwards
    ? { corner: point, out: reversed(beyond), piece: left }
    : { corner: point, out: beyond, piece: reversed(left) };
};

/** Where a cutting line that comes to `last` going `ahead` ends, and straight on from there to the fold line. */
const toFold = (run, last, ahead, fold) => {
  const short = dot(minus(last, fold.corner), fold.piece);
  if (Math.abs(short) <= SAME) return [shifted(fold.corner, fold.out, dot(minus(last, fold.corner), fold.out))];
  if (short < 0) return [trimmed(run, last, fold)];
  const nearing = -dot(ahead, fold.piece);
  if (nearing <= PARALLEL) refuse(DRAFT);
  const path = [shifted(last, ahead, short / nearing)];
  const longest = MITRE_LIMIT * run.allowance;
  if (dot(minus(path[0], fold.corner), fold.out) > longest) {
    path[0] = asFarOut(last, ahead, fold.corner, fold.out, longest);
    path.push(shifted(fold.corner, fold.out, longest));
  }
  return isLine(run.cut[0]) ? path : [last, ...path];
};

/** Where a cutting line that overshoots the fold line crosses it, nearest to its end. */
const trimmed = (run, last, fold) => {
  const found = runOnEndless(run.cut, [line(fold.corner, shifted(fold.corner, fold.out, 1))]);
  const met = least(found, (point) => distance(point, last));
  return met && dot(minus(met, fold.corner), fold.out) >= -SAME ? met : refuse(DRAFT);
};
