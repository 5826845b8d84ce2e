// A facing traced from a piece, as tracing.py in plugin/chalkfold/geometry/ has it: the line that runs inside the piece
// beside some of its edges.

import { runOnEndless } from "./cutting.js";
import { SAME, distance, edges, least, segments } from "./geometry.js";
import { orientation } from "./outlines.js";
import { DRAFT, refuse } from "./trouble.js";
import { pathOf } from "./turned.js";

/** The line `depth` mm inside of all edges of a stretch but its first and last, which it ends on. */
export const innerLine = (outline, depth, ...stretch) => {
  if (orientation(outline) < 0) return onTheLeft(stretch, depth);
  return edges.backwards(onTheLeft(stretch.map(edges.backwards).reverse(), depth));
};

const onTheLeft = (stretch, depth) => {
  const runs = stretch.slice(1, -1).flatMap((edge, index) =>
    edge
      .filter((segment) => segments.length(segment) > SAME)
      .map((segment) => runOf(index, segment, depth)),
  );
  const [begin, stop] = [runs[0].cut, runs[runs.length - 1].cut];
  return pathOf(
    runs,
    endsOn(edges.backwards(stretch[0]), begin, edges.first(begin)),
    endsOn(stretch[stretch.length - 1], stop, edges.last(stop)),
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
