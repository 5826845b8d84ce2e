// An edge trued, as trueing.py in plugin/chalkfold/geometry/ has it: the corners that slashes left in it rounded off.

import { curve } from "./curves.js";
import { SAME, edges, segments } from "./geometry.js";

const REACH = 60; // a corner is rounded off over at most so much to either side
const CORNER = 0.25; // a turn of less (degrees) is none that could be seen

/** The edge without corners. */
export const trued = (edge) => {
  const corners = cornersOf(edge);
  const whole = edges.length(edge);
  const found = [];
  let done = 0;
  corners.forEach((here, i) => {
    const [before, after] = [corners[i - 1] ?? 0, corners[i + 1] ?? whole];
    const reach = Math.min((here - before) / 2, (after - here) / 2, REACH);
    found.push(...stretch(edge, done, here - reach), round(edge, here - reach, here + reach));
    done = here + reach;
  });
  return edges.joined(...found, ...stretch(edge, done, whole));
};

/** How far along the edge it turns at once. */
const cornersOf = (edge) => {
  let passed = 0;
  return edge.slice(1).flatMap((after, i) => {
    const segment = edge[i];
    const here = segments.length(segment);
    passed += here;
    const turn = edges.directionAt([after], 0) - edges.directionAt([segment], here);
    return Math.abs(((((turn + 180) % 360) + 360) % 360) - 180) > CORNER ? [passed] : [];
  });
};

const round = (edge, begin, stop) =>
  curve(
    edges.pointAt(edge, begin),
    edges.pointAt(edge, stop),
    edges.directionAt(edge, begin),
    edges.directionAt(edge, stop),
  );

const stretch = (edge, begin, stop) => (stop - begin > SAME ? [edges.part(edge, begin, stop)] : []);
