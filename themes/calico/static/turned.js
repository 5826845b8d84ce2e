// An allowance that is turned up lies flat, as turned.py in plugin/chalkfold/geometry/ cuts it: at its ends the cutting
// line is the mirror image of the neighbour's.

import { arrives, corner, cornerAt, join, leaves, movedAside, runOnEndless } from "./cutting.js";
import {
  SAME, cross, crossing, degrees, distance, dot, edges, end, least, line, segments, shifted, start, sum,
} from "./geometry.js";
import { orientation } from "./outlines.js";
import { DRAFT, refuse } from "./trouble.js";

const FLAT = 15; // a corner that turns by less, or by more than the next, has no image to cut by
const STEEP = 165;
const STEPS = 8;
const FAR = 10; // how far, in depths, a neighbour's image is led straight on past its end

/** The cutting line; the allowances of the edges in `turned` are turned up. */
export const turnedOffset = (outline, allowances, folds, turned) => {
  const isTurned = (run) => turned.includes(run.edge) && run.allowance > SAME;
  return movedAside(outline, allowances, folds, false, (runs, i) => {
    const [a, b] = [runs[i], runs[(i + 1) % runs.length]];
    const alike = a.edge === b.edge || isTurned(a) === isTurned(b) || a.onFold || b.onFold;
    if (alike || !turns(a, b)) return cornerAt(runs, i);
    const of = (run) => runs.filter((each) => each.edge === run.edge);
    return isTurned(b) ? upTo(a, b, of(a)) : awayFrom(a, b, of(b));
  });
};

/** The angle (radians) through which an edge turns outwards, from its start to its end. */
export const turnsOutwards = (outline, index) => {
  const ways = outline[index].flatMap((segment) =>
    Array.from({ length: STEPS + 1 }, (_, i) => segments.tangentAt(segment, (segments.length(segment) * i) / STEPS)),
  );
  const turn = ways.slice(1).map((way, i) => Math.atan2(cross(ways[i], way), dot(ways[i], way)));
  return orientation(outline) * sum(turn);
};

const turns = (a, b) => {
  const turn = degrees(Math.atan2(cross(leaves(a), arrives(b)), dot(leaves(a), arrives(b))));
  return FLAT < turn && turn < STEEP;
};

const upTo = (side, hem, runs) => {
  const here = onFold(side, endOf(side), leaves(side), end(side.seam), arrives(hem));
  const image = imageOf(edges.backwards(pathOf(runs, undefined, here)), hem, end(side.seam), arrives(hem));
  return join(here, image.length ? edges.last(image) : here, image);
};

const awayFrom = (hem, side, runs) => {
  const here = onFold(side, edges.first(side.cut), arrives(side), start(side.seam), leaves(hem));
  const image = imageOf(pathOf(runs, here), hem, start(side.seam), leaves(hem));
  return join(image.length ? edges.last(image) : here, here, [], edges.backwards(image));
};

const endOf = (run) => edges.last(run.cut);

/** The cutting line of one edge, its segments joined. */
export const pathOf = (runs, begin = edges.first(runs[0].cut), stop = endOf(runs[runs.length - 1])) => {
  const joins = runs.slice(1).map((run, i) => corner(runs[i], run));
  return runs.flatMap((run, i) => {
    const from = i ? joins[i - 1].start : begin;
    const to = i < joins.length ? joins[i].end : stop;
    const led = segments.ledTo(run.cut, from, to) ?? refuse(DRAFT);
    return i < joins.length ? [...led, ...joins[i].withBefore, ...joins[i].withAfter] : led;
  });
};

/** The mirror image of a neighbour's cutting line, from the line of the fold to the hem's own. */
const imageOf = (away, hem, at, along) => {
  const last = away[away.length - 1];
  const ahead = segments.tangentAt(last, segments.length(last));
  const beyond = line(end(last), shifted(end(last), ahead, FAR * hem.allowance));
  const image = [];
  for (const segment of [...away, beyond]) {
    const seen = segments.mirrored(segment, at, shifted(at, along, 1));
    const met = runOnEndless([seen], hem.cut).filter((point) => segments.contains(seen, point));
    if (met.length) {
      const stop = Math.min(...met.map((point) => segments.nearest(seen, point)));
      return stop > SAME ? [...image, segments.part(seen, 0, stop)] : image;
    }
    image.push(seen);
  }
  return refuse(DRAFT);
};

/** Where a neighbour's cutting line, run on or trimmed, meets the line of the fold; `last` is its end there. */
const onFold = (side, last, alongSide, at, along) =>
  least(runOnEndless(side.cut, [line(at, shifted(at, along, 1))]), (point) => distance(point, last)) ??
  crossing(last, alongSide, at, along) ??
  last;
