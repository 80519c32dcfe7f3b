// A cord's centre line between its way points: smooth, and cut to the part that is there.

export interface Course {
  /** x, y, z of the way points, one after the other. */
  points: Float32Array;
  /** Arc length up to each of them. */
  along: Float32Array;
}

export function course(points: Float32Array): Course {
  const count = points.length / 3;
  const along = new Float32Array(count);
  for (let i = 1; i < count; i++) {
    along[i] = at(along, i - 1) + distance(points, i - 1, i);
  }
  return { points, along };
}

export function total(of: Course): number {
  return at(of.along, of.along.length - 1);
}

/** The curve that lies between two of equally many points. */
export function between(one: Float32Array, other: Float32Array, share: number): Float32Array {
  if (share <= 0 || one === other) return one;
  return one.map((v, i) => v + share * (at(other, i) - v));
}

/** `count` points at even distances from one arc length to another, on a smooth curve. */
export function sampled(of: Course, start: number, end: number, count: number): Float32Array {
  const found = new Float32Array(3 * count);
  const slopes = slopesOf(of);
  const last = of.along.length - 2;
  let i = 0;
  for (let k = 0; k < count; k++) {
    const s = start + ((end - start) * k) / (count - 1);
    while (i < last && at(of.along, i + 1) < s) i++;
    const from = at(of.along, i);
    const size = Math.max(at(of.along, i + 1) - from, 1e-9);
    const t = Math.min(1, Math.max(0, (s - from) / size));
    const [a, b, c, d] = hermite(t);
    for (let x = 0; x < 3; x++) {
      const [p, q] = [3 * i + x, 3 * i + 3 + x];
      found[3 * k + x] = a * at(of.points, p) + b * size * at(slopes, p) +
        c * at(of.points, q) + d * size * at(slopes, q);
    }
  }
  return found;
}

/** Slopes at the way points, of the parabola through each and its neighbours. */
function slopesOf({ points, along }: Course): Float32Array {
  const count = along.length;
  const found = new Float32Array(points.length);
  for (let i = 0; i < count; i++) {
    const [a, c] = [Math.max(0, i - 1), Math.min(count - 1, i + 1)];
    const before = Math.max(at(along, i) - at(along, a), 1e-9);
    const after = Math.max(at(along, c) - at(along, i), 1e-9);
    for (let x = 0; x < 3; x++) {
      const here = at(points, 3 * i + x);
      const one = (here - at(points, 3 * a + x)) / before;
      const two = (at(points, 3 * c + x) - here) / after;
      found[3 * i + x] = a === i ? two : c === i ? one
        : (one * after + two * before) / (before + after);
    }
  }
  return found;
}

function hermite(t: number): [number, number, number, number] {
  const u = 1 - t;
  return [(1 + 2 * t) * u * u, t * u * u, t * t * (3 - 2 * t), -t * t * u];
}

function distance(points: Float32Array, a: number, b: number): number {
  return Math.hypot(
    at(points, 3 * b) - at(points, 3 * a),
    at(points, 3 * b + 1) - at(points, 3 * a + 1),
    at(points, 3 * b + 2) - at(points, 3 * a + 2),
  );
}

export function at(values: Float32Array, i: number): number {
  return values[i] ?? 0;
}
