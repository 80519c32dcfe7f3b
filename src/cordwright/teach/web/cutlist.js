// The cut list: piece/cutlist.py, piece/folding.py and piece/distinct.py in the page, rule by rule.

/** @typedef {{fold: string, left: number, right: number}} Halves */

const HALF_EXACT_MM = 1e-6;

/**
 * The least length to cut, mm, rounded up to what a person measures.
 * @param {Halves} halves
 * @param {System} system
 */
function measured(halves, system) {
  if (halves.fold === "none") return roundUp(halves.left, system);
  const short = Math.min(halves.left, halves.right);
  const long = Math.max(halves.left, halves.right);
  const part = roundUp(short, system);
  const twice = roundUp(2 * long, system);
  if (halves.fold === "middle" || part === roundUp(long, system)) return twice;
  return Math.min(roundUp(part + long, system), twice);
}

/**
 * To what length each length is raised, so that there are as few different ones as cost at most the
 * allowance: exactly, by dynamic programming over runs of the sorted lengths.
 * @param {number[]} lengths
 * @param {number} allowance extra cord, as a part of all
 * @returns {Map<number, number>}
 */
function fewLengths(lengths, allowance) {
  const xs = [...new Set(lengths)].sort((a, b) => a - b);
  const counts = [0];
  const sums = [0];
  for (const x of xs) {
    const n = lengths.filter((y) => y === x).length;
    counts.push(counts[counts.length - 1] + n);
    sums.push(sums[sums.length - 1] + x * n);
  }
  let best = [0, ...xs.map(() => Infinity)];
  /** @type {number[][]} */
  const begins = [];
  while (xs.length) {
    const more = oneRunMore(best, xs, counts, sums);
    best = more.cost;
    begins.push(more.begin);
    const enoughRuns = begins.length === xs.length;
    if (best[xs.length] <= allowance * sums[xs.length] || enoughRuns) break;
  }
  const raised = new Map();
  let end = xs.length;
  for (const begin of begins.reverse()) {
    for (let i = begin[end]; i < end; i++) raised.set(xs[i], xs[end - 1]);
    end = begin[end];
  }
  return raised;
}

/**
 * With one run more: for each number of lengths the least extra cord, and where its last run begins.
 * @param {number[]} best
 * @param {number[]} xs
 * @param {number[]} counts
 * @param {number[]} sums
 */
function oneRunMore(best, xs, counts, sums) {
  const cost = [Infinity];
  const begin = [0];
  /** @type {[number, number, number][]} slope, value at 0, where the run begins */
  const lines = [];
  let first = 0;
  xs.forEach((x, i) => {
    const j = i + 1;
    if (best[i] < Infinity) keepLine(lines, [-counts[i], best[i] + sums[i], i], first);
    if (!lines.length) {
      cost.push(Infinity);
      begin.push(0);
      return;
    }
    first = Math.min(first, lines.length - 1);
    while (first + 1 < lines.length && lineAt(lines[first + 1], x) <= lineAt(lines[first], x)) {
      first += 1;
    }
    cost.push(Math.max(0, lineAt(lines[first], x) + x * counts[j] - sums[j]));
    begin.push(lines[first][2]);
  });
  return { cost, begin };
}

/**
 * @param {[number, number, number]} line
 * @param {number} x
 */
function lineAt(line, x) {
  return line[0] * x + line[1];
}

/**
 * Adds a line of smaller slope to the envelope, dropping those that it makes needless.
 * @param {[number, number, number][]} lines
 * @param {[number, number, number]} line
 * @param {number} first
 */
function keepLine(lines, line, first) {
  while (lines.length >= first + 2) {
    const [a, b] = lines[lines.length - 2];
    const [c, d] = lines[lines.length - 1];
    if ((line[1] - b) * (a - c) > (d - b) * (a - line[0])) break;
    lines.pop();
  }
  lines.push(line);
}

/**
 * Where to fold cords of one length, with as few different fold points as can be.
 * @param {[number, Halves][]} cords by number
 * @param {number} length mm
 * @param {System} system
 * @returns {Map<number, [number, number] | null>} left and right part; null for the middle, or none
 */
function foldPoints(cords, length, system) {
  const folds = new Map();
  /** @type {[number, number, number][]} least and most of the shorter part, cord */
  let waiting = [];
  const byCord = new Map(cords);
  for (const [cord, halves] of cords) {
    const short = Math.min(halves.left, halves.right);
    const long = Math.max(halves.left, halves.right);
    if (halves.fold !== "needed" || 2 * long <= length + HALF_EXACT_MM) {
      folds.set(cord, null);
      continue;
    }
    let least = roundUp(short, system);
    let most = length - long;
    if (least > most + HALF_EXACT_MM) least = most = (short + most) / 2;
    waiting.push([least, most, cord]);
  }
  waiting.sort((a, b) => a[1] - b[1] || a[0] - b[0] || a[2] - b[2]);
  while (waiting.length) {
    const most = waiting[0][1] + HALF_EXACT_MM;
    const now = waiting.filter((s) => s[0] <= most);
    const point = Math.max(...now.map((s) => s[0]));
    for (const [, , cord] of now) {
      const halves = /** @type {Halves} */ (byCord.get(cord));
      const leftShort = halves.left < halves.right;
      folds.set(cord, leftShort ? [point, length - point] : [length - point, point]);
    }
    waiting = waiting.filter((s) => s[0] > most);
  }
  return folds;
}

/**
 * The name of an entry: A to Z, then AA, AB.
 * @param {number} index from 0
 */
function letters(index) {
  let name = "";
  for (let i = index + 1; i > 0; i = Math.floor((i - 1) / 26)) {
    name = String.fromCharCode(65 + ((i - 1) % 26)) + name;
  }
  return name;
}
