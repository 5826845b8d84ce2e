// Darts and pleats closed on paper, as closing.py in plugin/chalkfold/geometry/ has it: legs come two by two, the one that
// stays and the one that is laid on it.

import { SAME, direction, edges, minus, same, turned } from "./geometry.js";
import { DRAFT, refuse } from "./trouble.js";

/** The edge without what lies between each pair of legs, what follows moved so that leg lies on leg. */
export const takenIn = (edge, ...legs) => {
  let [closed, stop] = [[], edges.length(edge)];
  for (const [begin, resumes, move] of closings(edge, legs)) {
    const beyond = stop - resumes > SAME ? edges.part(edge, resumes, stop) : [];
    const whole = edges.joined(beyond, closed);
    [closed, stop] = [whole.length ? edges.mapped(whole, move) : [], begin];
  }
  const first = stop > SAME ? edges.part(edge, 0, stop) : [];
  const found = edges.joined(first, closed);
  return found.length ? found : refuse(DRAFT);
};

/** An edge that lies beyond the end of another, moved with that when it is taken in. */
export const carriedAlong = (carried, edge, ...legs) =>
  closings(edge, legs).reduce((moved, [, , move]) => edges.mapped(moved, move), carried);

/** From the last pair of legs to the first: where the edge stops and goes on again, and how it moves together. */
const closings = (edge, legs) => {
  const pairs = legs.flatMap((leg, i) => (i % 2 ? [[legs[i - 1], leg]] : []));
  return pairs
    .filter(([stays, moves]) => !same(edges.first(stays), edges.first(moves)))
    .map(([stays, moves]) => [edges.nearest(edge, edges.first(stays)), stays, moves])
    .sort((a, b) => b[0] - a[0])
    .map(([begin, stays, moves]) => [begin, edges.nearest(edge, edges.first(moves)), laid(moves, stays)]);
};

/** The move that brings the start of one leg to that of another, and its direction to that of the other. */
const laid = (leg, on) => {
  const turn = direction(edges.first(on), edges.last(on)) - direction(edges.first(leg), edges.last(leg));
  const foot = edges.first(leg);
  const [across, down] = minus(edges.first(on), foot);
  return (point) => {
    const [x, y] = turned(point, turn, foot);
    return [x + across, y + down];
  };
};
