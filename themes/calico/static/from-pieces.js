// The primitives of pieces made from pieces, as plan/from_pieces.py has them: opened out, mirrored, parted, traced.

import { carriedAlong, takenIn } from "./closing.js";
import { which } from "./drafting.js";
import { edges } from "./geometry.js";
import { middle, onFrom, placeRound, stretch, upTo } from "./parting.js";
import { mirrored } from "./points.js";
import { innerLine } from "./tracing.js";
import { turnedOffset, turnsOutwards } from "./turned.js";

export const FROM_PIECES = Object.entries({
  "turned cutting line": (outline, allowances, folds, turned) =>
    turnedOffset(outline, allowances, which(folds), which(turned)),
  "turn outwards": turnsOutwards,
  "mirrored point": mirrored,
  "mirrored edge": edges.mirrored,
  "backwards": edges.backwards,
  "up to": upTo,
  "on from": onFrom,
  "stretch": stretch,
  "place round": placeRound,
  "middle of": middle,
  "inner line": innerLine,
  "taken in": takenIn,
  "carried along": carriedAlong,
});
