// Works a plan out in the page: the same steps, results and fault codes as plan/evaluate.py, from the data that
// plan/data.py writes. Lengths in mm, areas in mm², angles in degrees, weights in g/m². Data is looked up, never run as code.
// The tables of tests/vectors/ hold both to the same results. Change one, and change the other.

import { CONSTRUCTING } from "./constructions.js";
import { DRAFTING } from "./drafting.js";
import { FROM_PIECES } from "./from-pieces.js";
import { degrees, distance, radians, rest } from "./geometry.js";
import { DIVIDE, DOMAIN, NEGATIVE, RANGE, Trouble, refuse } from "./trouble.js";

const NUDGE = 1e-7; // in marks: takes up what binary fractions lose
const SAME = 1e-6; // what lies closer than this counts as equal
const MOST_MARKS = 2000;
const LARGEST = new Map([["length", 1e6], ["area", 1e12], ["weight of cloth", 1e5]]);
const LARGEST_OTHER = 1e9;

// ---- Rounding. A half goes up, on both sides of zero; `+ 0` makes 0 of -0.

export const toMark = (x, mark) => mark * Math.floor(x / mark + 0.5 + NUDGE) + 0;
export const up = (x, mark) => mark * Math.ceil(x / mark - NUDGE) + 0;
export const down = (x, mark) => mark * Math.floor(x / mark + NUDGE) + 0;

/** A finite x with exactly that many decimals (0 to 9), no exponent, never "-0". */
export const decimals = (x, places) => {
  const count = BigInt(Math.floor(x * Number("1e" + places) + 0.5 + NUDGE));
  const digits = String(count < 0n ? -count : count).padStart(places + 1, "0");
  const shown = places ? digits.slice(0, -places) + "." + digits.slice(-places) : digits;
  return count < 0n ? "-" + shown : shown;
};

// ---- Primitives. Each takes finite numbers, rows and points.

const divide = (a, b) => (b === 0 ? refuse(DIVIDE) : a / b);
const equal = (a, b) => Math.abs(a - b) <= SAME;

const power = (base, exponent) => {
  if (!(exponent >= -8 && exponent <= 8)) refuse(DOMAIN);
  if (Number.isInteger(exponent)) {
    let result = 1;
    for (let i = 0; i < Math.abs(exponent); i += 1) result *= base;
    return exponent < 0 ? divide(1, result) : result;
  }
  if (base < 0) refuse(DOMAIN);
  if (base === 0 && exponent < 0) refuse(DIVIDE);
  return base ** exponent;
};

const series = (first, step, count) => {
  const whole = toMark(count, 1);
  if (whole > MOST_MARKS) refuse(RANGE);
  return Array.from({ length: Math.max(0, whole) }, (_, i) => first + i * step);
};

const positionsBetween = (positions, start, end) =>
  positions.filter((p) => start - SAME <= p && p < end - SAME).map((p) => Math.max(0, p - start));

/** The middle of the widest stretch between two seams, all taken modulo the step. */
const clearShift = (step, seams) => {
  if (step <= SAME || seams.length === 0) return 0;
  const rests = seams.map((seam) => rest(seam, step)).sort((a, b) => a - b);
  let widest = -1;
  let at = 0;
  rests.forEach((here, i) => {
    const after = i + 1 < rests.length ? rests[i + 1] : rests[0] + step;
    if (after - here > widest + SAME) {
      widest = after - here;
      at = (here + after) / 2;
    }
  });
  return rest(at, step);
};

/** The least distance from a place to a seam; `around` is the girth of a closed edge, 0 for a flat one. */
const clearance = (positions, seams, around) => {
  let least = Infinity;
  for (const p of positions) {
    for (const seam of seams) {
      const gap = Math.abs(p - seam);
      least = Math.min(least, gap, around ? Math.abs(around - gap) : gap);
    }
  }
  return least === Infinity ? 1e6 : least;
};

const turned = (foot, end, angle) => {
  const turn = radians(angle);
  return [foot * Math.cos(turn) - end * Math.sin(turn), foot * Math.sin(turn) + end * Math.cos(turn)];
};

/** A sector's corners with its allowances, and where its outer arc meets the axes: see geometry/sector.py. */
const sectorExtremes = (outer, inner, angle, end) => {
  const beyond = outer > 0 ? degrees(Math.asin(Math.max(-1, Math.min(1, end / outer)))) : 0;
  const points = [];
  for (const radius of [outer, inner]) {
    const foot = Math.sqrt(Math.max(0, radius * radius - end * end));
    points.push([foot, -end], turned(foot, end, angle));
  }
  for (const quarter of [0, 90, 180, 270, 360]) {
    if (-beyond <= quarter && quarter <= angle + beyond) points.push(turned(outer, 0, quarter));
  }
  return points;
};

const extent = (axis) => (...sector) => {
  const along = sectorExtremes(...sector).map((point) => point[axis]);
  return Math.max(...along) - Math.min(...along);
};

const PRIMITIVES = new Map([...DRAFTING, ...CONSTRUCTING, ...FROM_PIECES, ...Object.entries({
  "+": (a, b) => a + b,
  "-": (a, b) => a - b,
  "*": (a, b) => a * b,
  "of": (a, b) => a * b,
  "/": divide,
  "^": power,
  "neg": (a) => -a,
  "=": equal,
  "!=": (a, b) => !equal(a, b),
  "<": (a, b) => a < b - SAME,
  "<=": (a, b) => a <= b + SAME,
  ">": (a, b) => a > b + SAME,
  ">=": (a, b) => a >= b - SAME,
  "not": (a) => !a,
  "min": Math.min,
  "max": Math.max,
  "sqrt": (a) => (a < -SAME ? refuse(DOMAIN) : Math.sqrt(Math.max(0, a))),
  "sin": (a) => Math.sin(radians(a)),
  "cos": (a) => Math.cos(radians(a)),
  "tan": (a) => (Math.abs(Math.cos(radians(a))) < 1e-12 ? refuse(DOMAIN) : Math.tan(radians(a))),
  "asin": (a) => (Math.abs(a) > 1 + SAME ? refuse(DOMAIN) : degrees(Math.asin(Math.max(-1, Math.min(1, a))))),
  "round": (a) => toMark(a, 1),
  "round up": (a) => up(a, 1),
  "round down": (a) => down(a, 1),
  "to mark": (a, mark) => (mark <= 0 ? refuse(DOMAIN) : toMark(a, mark)),
  "series": series,
  "row": (...lengths) => lengths,
  "positions between": positionsBetween,
  "clear shift": clearShift,
  "clearance": clearance,
  "count of series": (row) => row.length,
  "sector width": extent(0),
  "sector height": extent(1),
  "point": (across, down) => [across, down],
  "across of": (point) => point[0],
  "down of": (point) => point[1],
  "distance": distance,
})]);

// ---- Working a plan out.

/** Infinity and not-a-number go no further than the operation that made them. */
const finite = (found) => (sound(found) ? found : refuse(RANGE));
const sound = (found) =>
  Array.isArray(found) ? found.every(sound) : typeof found === "boolean" || Number.isFinite(found);

/** Gives a function that works expressions in one size from the values before them. */
const runner = (plan, size, values) => {
  const run = (data) => {
    if (typeof data === "number") return data;
    const [op, ...parts] = data;
    switch (op) {
      case "amount": return parts[0];
      case "name": return values.has(parts[0]) ? values.get(parts[0]) : refuse();
      case "by size": return run(parts[size][1]);
      case "if": return run(run(parts[0]) ? parts[1] : parts[2]);
      case "and": return run(parts[0]) && run(parts[1]);
      case "or": return run(parts[0]) || run(parts[1]);
      case "marked": return run(["to mark", parts[0], plan.mark]);
      default: return finite(PRIMITIVES.get(op)(...parts.map(run)));
    }
  };
  return run;
};

/** Refuses what lies beyond the bounds of its kind or below its step's limit. */
const checked = (found, step) => {
  if (typeof found === "boolean") return found;
  if (Array.isArray(found)) return rowWithin(found);
  const number = within(found, step.kind);
  if (step.limit === "more than nothing" && number <= 0) refuse(NEGATIVE);
  if (step.limit === "not negative" && number < -1e-9) refuse(NEGATIVE);
  return number;
};

/** A row, a point, an edge or an outline: lengths all through. */
const rowWithin = (row) => row.map((each) => (Array.isArray(each) ? rowWithin(each) : within(each, "length")));

const within = (number, kind) => {
  const largest = LARGEST.get(kind) ?? LARGEST_OTHER;
  return Number.isFinite(number) && Math.abs(number) <= largest ? number + 0 : refuse(RANGE);
};

/**
 * Works every step out in one size. `given` holds [key, value] pairs (mm, degrees or plain) that take the place of
 * what the plan says, such as the reader's own measures; they keep to the same bounds.
 * Returns `values`, a Map by key without what failed, and `faults`, a list of {key, code}.
 */
export const workOneSize = (plan, size, given = []) => {
  const own = new Map(given);
  const values = new Map();
  const faults = [];
  const run = runner(plan, size, values);
  for (const step of plan.steps) {
    const key = step.key ?? step.name;
    try {
      values.set(key, checked(own.has(key) ? own.get(key) : run(step.is), step));
    } catch (trouble) {
      if (!(trouble instanceof Trouble)) throw trouble;
      if (trouble.code) faults.push({ key, code: trouble.code });
    }
  }
  return { values, faults };
};

/** Works a plan out in all its sizes, in order. */
export const workAllSizes = (plan) => plan.sizes.map((_, size) => workOneSize(plan, size));
