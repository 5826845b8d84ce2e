// Where a polynomial is zero between 0 and 1, as polynomials.py in plugin/chalkfold/geometry/ finds it. Coefficients in
// rising order: [1, 0, 2] is 1 + 2 t².

const MOST_STEPS = 80;
const FINE = 1e-15;

export const value = (polynomial, t) => polynomial.reduceRight((total, coefficient) => total * t + coefficient, 0);
export const derivative = (polynomial) => polynomial.map((coefficient, power) => power * coefficient).slice(1);
export const plus = (a, b) => a.map((one, i) => one + b[i]);
export const scaled = (polynomial, factor) => polynomial.map((coefficient) => factor * coefficient);

export const times = (a, b) => {
  const total = new Array(a.length + b.length - 1).fill(0);
  a.forEach((one, i) => b.forEach((other, j) => {
    total[i + j] += one * other;
  }));
  return total;
};

/** From 0 to 1 in rising order: zeros, and places where it turns or begins within `slack` of zero. */
export const zeros = (polynomial, slack = 0) => {
  if (polynomial.length <= 3 && slack === 0) {
    return ofQuadratic([...polynomial, 0, 0, 0]).filter((t) => t >= 0 && t <= 1);
  }
  const stops = [0, ...zeros(derivative(polynomial)).filter((t) => t > 0 && t < 1), 1];
  const values = stops.map((t) => value(polynomial, t));
  const found = stops.filter((_, i) => Math.abs(values[i]) <= slack);
  for (let i = 0; i + 1 < stops.length; i += 1) {
    if (values[i] * values[i + 1] < 0) found.push(zeroBetween(polynomial, stops[i], stops[i + 1], values[i]));
  }
  return found.sort((a, b) => a - b);
};

const ofQuadratic = ([c, b, a]) => {
  const inside = b * b - 4 * a * c;
  if (inside < 0) return [];
  const root = Math.sqrt(inside);
  const far = -0.5 * (b + (b < 0 || Object.is(b, -0) ? -root : root));
  const found = [[far, a], [c, far]].filter(([, below]) => below !== 0).map(([top, below]) => top / below);
  return [...new Set(found)].sort((one, other) => one - other);
};

/** The one zero between a and b, where it has the sign of `low` at a: Newton, else by halves. */
const zeroBetween = (polynomial, begin, stop, low) => {
  const slope = derivative(polynomial);
  let [a, b, t] = [begin, stop, (begin + stop) / 2];
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const here = value(polynomial, t);
    if (here === 0) break;
    if (here * low > 0) a = t;
    else b = t;
    const steep = value(slope, t);
    let ahead = steep === 0 ? a : t - here / steep;
    if (!(a < ahead && ahead < b)) ahead = (a + b) / 2;
    if (Math.abs(ahead - t) <= FINE) break;
    t = ahead;
  }
  return t;
};
