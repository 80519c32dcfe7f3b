// How long a strand must be so that it is enough with a given chance: cords/swatch_length.py in
// the page. A strand uses tail + free (1 + e) + knotted exp(y), with e normal and y Student t.

/**
 * @typedef {{risk: number, freeSd: number, nodes: number[], weights: number[], halvings: number,
 *   mostLog: number, leastMm: number, shareDigits: number}} Chances
 * @typedef {{location: number, scale: number, dof: number}} Student
 */

/**
 * The chance that a Student t with a whole number of degrees of freedom is at most t: the finite
 * sums 26.7.3 and 26.7.4 of Abramowitz and Stegun, Handbook of Mathematical Functions (1964).
 * @param {number} dof
 * @param {number} t
 */
function studentChance(dof, t) {
  const angle = Math.atan(t / Math.sqrt(dof));
  const sine = Math.sin(angle);
  const square = Math.cos(angle) ** 2;
  let term = 1;
  let sum = 0;
  if (dof % 2 === 0) {
    for (let k = 0; k < dof / 2; k++) {
      if (k) term *= ((2 * k - 1) / (2 * k)) * square;
      sum += term;
    }
    return 0.5 + 0.5 * sine * sum;
  }
  for (let k = 0; k < (dof - 1) / 2; k++) {
    if (k) term *= ((2 * k) / (2 * k + 1)) * square;
    sum += term;
  }
  return 0.5 + (angle + sine * Math.cos(angle) * sum) / Math.PI;
}

/**
 * The chance that a normal number is at most z: the series 26.2.11 of the same book.
 * @param {number} z
 */
function normalChance(z) {
  if (Math.abs(z) > 8) return z > 0 ? 1 : 0;
  let term = z;
  let sum = z;
  for (let k = 1; k < 200 && Math.abs(term) > 1e-18; k++) {
    term *= (z * z) / (2 * k + 1);
    sum += term;
  }
  return 0.5 + (sum * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
}

/**
 * The chance that a length is enough.
 * @param {number} mm
 * @param {{tail: number, free: number, knotted: number}} need mm
 * @param {Student} factor of the knotted cord, log
 * @param {Chances} k
 */
function enough(mm, need, factor, k) {
  const room = mm - need.tail;
  if (!(need.knotted > k.leastMm)) {
    if (!(need.free > 0)) return room >= -1e-6 ? 1 : 0;
    return normalChance((room - need.free) / Math.max(k.freeSd * need.free, 1e-9));
  }
  let sum = 0;
  for (let i = 0; i < k.nodes.length; i++) {
    const left = room - need.free * (1 + k.freeSd * k.nodes[i]);
    if (left <= 0) continue;
    const y = Math.log(left / need.knotted);
    sum += k.weights[i] * studentChance(factor.dof, (y - factor.location) / factor.scale);
  }
  return sum;
}

/**
 * The least length, mm, that is enough but for the risk; by halving.
 * @param {{tail: number, free: number, knotted: number}} need mm
 * @param {Student} factor
 * @param {Chances} k
 */
function lengthFor(need, factor, k) {
  const widest = Math.exp(Math.min(factor.location + 40 * factor.scale, k.mostLog));
  let low = need.tail;
  let high = low + 1.5 * need.free + widest * need.knotted;
  for (let i = 0; i < k.halvings; i++) {
    const middle = 0.5 * (low + high);
    if (enough(middle, need, factor, k) >= 1 - k.risk) high = middle;
    else low = middle;
  }
  return high;
}

/**
 * The log factor of a strand's knotted cord, by what kinds of knot it goes into.
 * @param {{dof: number, at: number, middle: number[], plain: number, knot: number,
 *   linear: number[], square: number[][]}} doubt of its cord
 * @param {number[]} shares of the kinds of knot
 * @param {number} knots how many
 * @returns {Student}
 */
function factorOf(doubt, shares, knots) {
  let location = doubt.at;
  let square = doubt.plain + doubt.knot / knots;
  shares.forEach((a, i) => {
    if (!a) return;
    location += doubt.middle[i] * a;
    square += doubt.linear[i] * a;
    shares.forEach((b, j) => (square += doubt.square[i][j] * a * b));
  });
  return { location, scale: Math.sqrt(square), dof: doubt.dof };
}
