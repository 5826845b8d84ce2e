// A facing traced from a piece, as tracing.py in plugin/chalkfold/geometry/ has it: the line that runs inside the piece
// beside some of its edges.

import { runOnEndless } from "./cutting.js";
import { SAME, distance, edges, least, segments } from "./geometry.js";
import { orientation } from "./outlines.js";
import { DRAFT, refuse } from "./trouble.js";
import { pathOf } from "./turned.js";

/** The line `depth` mm inside of `count` edges from `first` on, from neighbour to neighbour. */
export const innerLine = (outline, first, count, depth) => {
  const edgesRound = outline.length;
  if (orientation(outline) > 0) {
    const turnedOver = outline.map(edges.backwards).reverse();
    return edges.backwards(innerLine(turnedOver, edgesRound - first - count, count, depth));
  }
  const at = (index) => outline[((index % edgesRound) + edgesRound) % edgesRound];
  const runs = Array.from({ length: count }, (_, step) => first + step).flatMap((index) =>
    at(index)
      .filter((segment) => segments.length(segment) > SAME)
      .map((segment) => runOf(index, segment, depth)),
  );
  const [begin, stop] = [runs[0].cut, runs[runs.length - 1].cut];
  return pathOf(
    runs,
    endsOn(edges.backwards(at(first - 1)), begin, edges.first(begin)),
    endsOn(at(first + count), stop, edges.last(stop)),
  );
};

const runOf = (edge, seam, allowance) => {
  const cut = segments.beside(seam, allowance) ?? refuse(DRAFT);
  return { edge, seam, cut, allowance, onFold: false, inwards: true };
};

/** Where the line, run on or trimmed, meets the neighbour, nearest to its own end. */
const endsOn = (neighbour, cut, near) => {
  const met = neighbour.flatMap((segment) =>
    runOnEndless(cut, [segment]).filter((point) => segments.contains(segment, point)),
  );
  return least(met, (point) => distance(point, near)) ?? refuse(DRAFT);
};
