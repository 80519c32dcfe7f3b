// Free cord as tubes, all of one look in one mesh: as cordwright.draw.scene sweeps them. Rings do not
// turn about the curve: each is the last one's, carried on (W. Wang and others, 'Computation of
// rotation minimizing frames', ACM Transactions on Graphics 27, 2008).
import type { FreeCord } from "./poses";

/** How fine free cord is: corners of a ring, and radians that it turns from ring to ring at most. */
export interface Fineness {
  sides: number;
  turn: number;
}

/** Vertices and triangles of tubes, with each vertex's strand. */
export interface Swept {
  position: Float32Array;
  normal: Float32Array;
  uv: Float32Array;
  strands: Int32Array;
  index: Uint32Array;
}

/** Points of a way, x, y, z one after the other, so many that it hardly turns between them. */
type Way = Float64Array;

/** Points along each curve that are looked at. */
const SAMPLES = 13;
/** Corners of all rings at most: with more cord rings stand wider apart, then have fewer corners. */
const MOST = 66_000;
const FEWEST = 5;
const WIDER = [1, 1.5, 2.5, 4, 8];

export function swept(cords: readonly FreeCord[], fine: Fineness): Swept {
  const sampled = cords.map(sample);
  let ways: Way[] = [];
  let sides = FEWEST;
  for (const wider of WIDER) {
    ways = sampled.map((points) => thinned(points, wider * fine.turn));
    const rings = ways.reduce((sum, way) => sum + way.length / 3, 0);
    sides = Math.min(fine.sides, Math.floor(MOST / Math.max(1, rings)) - 1);
    if (sides >= FEWEST) break;
  }
  const into = new Writer(cords, ways, Math.max(FEWEST, sides));
  cords.forEach((cord, i) => {
    into.tube(cord, ways[i] as Way);
  });
  return into.swept;
}

/** Points of a cord's curves, none twice. */
function sample(cord: FreeCord): Way {
  const p = cord.points;
  const curves = (p.length / 3 - 1) / 3;
  const found: number[] = [p[0] as number, p[1] as number, p[2] as number];
  for (let c = 0; c < curves; c++) {
    for (let s = 1; s < SAMPLES; s++) {
      const t = s / (SAMPLES - 1);
      const u = 1 - t;
      const w = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t] as const;
      const at = found.length;
      let moved = 0;
      for (let k = 0; k < 3; k++) {
        const i = 9 * c + k;
        const value =
          w[0] * (p[i] as number) + w[1] * (p[i + 3] as number) +
          w[2] * (p[i + 6] as number) + w[3] * (p[i + 9] as number);
        moved += Math.abs(value - (found[at - 3 + k] as number));
        found.push(value);
      }
      if (moved < 1e-9) found.length = at;
    }
  }
  // Knots that touch: a stretch as thin as nothing keeps the strand whole.
  if (found.length < 6) found.push(p[0] as number, (p[1] as number) - 0.01 * cord.thick, p[2] as number);
  return Float64Array.from(found);
}

function thinned(points: Way, turn: number): Way {
  const count = points.length / 3;
  const turned = new Float64Array(count);
  const ahead = directions(points);
  for (let i = 1; i < count; i++) {
    const cosine = dot(ahead, 3 * (i - 1), ahead, 3 * i);
    turned[i] = (turned[i - 1] as number) + Math.acos(Math.min(1, Math.max(-1, cosine)));
  }
  const total = turned[count - 1] as number;
  const steps = Math.max(1, Math.ceil(total / turn));
  const kept: number[] = [0];
  let i = 0;
  for (let s = 1; s < steps; s++) {
    while (i < count - 1 && (turned[i] as number) < (s * total) / steps) i++;
    if (i > (kept.at(-1) as number) && i < count - 1) kept.push(i);
  }
  kept.push(count - 1);
  const found = new Float64Array(3 * kept.length);
  kept.forEach((from, to) => {
    found.set(points.subarray(3 * from, 3 * from + 3), 3 * to);
  });
  return found;
}

/** Unit tangents at the points of a way: between its steps. */
function directions(way: Way): Float64Array {
  const last = way.length - 3;
  const steps = new Float64Array(way.length);
  for (let i = 0; i < last; i += 3) {
    for (let k = 0; k < 3; k++) steps[i + k] = (way[i + 3 + k] as number) - (way[i + k] as number);
    unit(steps, i);
  }
  const found = new Float64Array(way.length);
  for (let i = 0; i <= last; i += 3) {
    const before = Math.max(0, i - 3);
    const after = Math.min(last - 3, i);
    for (let k = 0; k < 3; k++) {
      found[i + k] = (steps[before + k] as number) + (before === after ? 0 : (steps[after + k] as number));
    }
    unit(found, i);
  }
  return found;
}

function dot(a: Float64Array, i: number, b: Float64Array, j: number): number {
  return (
    (a[i] as number) * (b[j] as number) +
    (a[i + 1] as number) * (b[j + 1] as number) +
    (a[i + 2] as number) * (b[j + 2] as number)
  );
}

function unit(v: Float64Array, i: number): void {
  const size = Math.max(1e-12, Math.sqrt(dot(v, i, v, i)));
  for (let k = 0; k < 3; k++) v[i + k] = (v[i + k] as number) / size;
}

class Writer {
  readonly swept: Swept;
  private vertex = 0;
  private corner = 0;
  private readonly cosine: number[] = [];
  private readonly sine: number[] = [];
  // One ring's tangent, and the two directions across it.
  private readonly across = new Float64Array(3);
  private readonly other = new Float64Array(3);

  constructor(cords: readonly FreeCord[], ways: readonly Way[], private readonly sides: number) {
    let [vertices, corners] = [0, 0];
    cords.forEach((cord, i) => {
      const rings = (ways[i] as Way).length / 3;
      const caps = (cord.ends & 1) + (cord.ends >> 1);
      vertices += rings * (sides + 1) + caps * (sides + 1);
      corners += 6 * (rings - 1) * sides + 3 * caps * sides;
    });
    this.swept = {
      position: new Float32Array(3 * vertices),
      normal: new Float32Array(3 * vertices),
      uv: new Float32Array(2 * vertices),
      strands: new Int32Array(vertices),
      index: new Uint32Array(corners),
    };
    for (let k = 0; k <= sides; k++) {
      this.cosine.push(Math.cos((2 * Math.PI * k) / sides));
      this.sine.push(Math.sin((2 * Math.PI * k) / sides));
    }
  }

  tube(cord: FreeCord, way: Way): void {
    const tangents = directions(way);
    const first = this.vertex;
    const last = way.length - 3;
    this.begin(tangents);
    let along = 0;
    for (let i = 0; i <= last; i += 3) {
      if (i > 0) along += this.carry(way, tangents, i);
      this.ring(cord, way, tangents, i, along / cord.pitch);
    }
    const round = this.sides + 1;
    for (let a = first; a < this.vertex - round; a += round) {
      for (let k = 0; k < this.sides; k++) {
        this.faces(a + k, a + k + 1, a + k + round);
        this.faces(a + k + 1, a + k + round + 1, a + k + round);
      }
    }
    const end = this.vertex - round;
    if (cord.ends & 1) this.cap(cord, way, tangents, 0, first, -1);
    if (cord.ends & 2) this.cap(cord, way, tangents, last, end, 1);
  }

  private faces(a: number, b: number, c: number): void {
    this.swept.index[this.corner++] = a;
    this.swept.index[this.corner++] = b;
    this.swept.index[this.corner++] = c;
  }

  /** Any direction across the way's beginning. */
  private begin(tangents: Float64Array): void {
    const least = [0, 1, 2].reduce((m, k) =>
      Math.abs(tangents[k] as number) < Math.abs(tangents[m] as number) ? k : m);
    this.across.fill(0);
    this.across[least] = 1;
    const share = tangents[least] as number;
    for (let k = 0; k < 3; k++) this.across[k] = (this.across[k] as number) - share * (tangents[k] as number);
    unit(this.across, 0);
  }

  /** Carry the ring's direction on to point `i` of the way; gives how far that is. */
  private carry(way: Way, tangents: Float64Array, i: number): number {
    const r = this.across;
    const step = [0, 1, 2].map((k) => (way[i + k] as number) - (way[i - 3 + k] as number));
    const on = Float64Array.from(step);
    const size = dot(on, 0, on, 0);
    if (size < 1e-18) return 0;
    const turned = (2 / size) * dot(on, 0, r, 0);
    const turnedT = (2 / size) * dot(on, 0, tangents, i - 3);
    const rest = new Float64Array(3);
    for (let k = 0; k < 3; k++) {
      r[k] = (r[k] as number) - turned * (on[k] as number);
      rest[k] = (tangents[i + k] as number) - ((tangents[i - 3 + k] as number) - turnedT * (on[k] as number));
    }
    const left = dot(rest, 0, rest, 0);
    if (left > 1e-18) {
      const share = (2 / left) * dot(rest, 0, r, 0);
      for (let k = 0; k < 3; k++) r[k] = (r[k] as number) - share * (rest[k] as number);
    }
    const lean = dot(r, 0, tangents, i);
    for (let k = 0; k < 3; k++) r[k] = (r[k] as number) - lean * (tangents[i + k] as number);
    unit(r, 0);
    return Math.sqrt(size);
  }

  private ring(cord: FreeCord, way: Way, tangents: Float64Array, i: number, v: number): void {
    const [a, o] = [this.across, this.other];
    const [tx, ty, tz] = [tangents[i] as number, tangents[i + 1] as number, tangents[i + 2] as number];
    const [ax, ay, az] = [a[0] as number, a[1] as number, a[2] as number];
    o[0] = ty * az - tz * ay;
    o[1] = tz * ax - tx * az;
    o[2] = tx * ay - ty * ax;
    const { position, normal, uv, strands } = this.swept;
    for (let k = 0; k <= this.sides; k++) {
      const n = this.vertex++;
      for (let d = 0; d < 3; d++) {
        const out = (this.cosine[k] as number) * (a[d] as number) + (this.sine[k] as number) * (o[d] as number);
        normal[3 * n + d] = out;
        position[3 * n + d] = (way[i + d] as number) + (cord.thick / 2) * out;
      }
      uv[2 * n] = k / this.sides;
      uv[2 * n + 1] = v;
      strands[n] = cord.strand;
    }
  }

  /** Close the ring that begins at a vertex; `sign` says whether the way ends there or begins. */
  private cap(
    cord: FreeCord, way: Way, tangents: Float64Array, i: number, rim: number, sign: 1 | -1,
  ): void {
    const { position, normal, strands } = this.swept;
    const base = this.vertex;
    for (let k = 0; k <= this.sides; k++) {
      const n = this.vertex++;
      const from = k < this.sides ? position.subarray(3 * (rim + k), 3 * (rim + k) + 3) : way.subarray(i, i + 3);
      position.set(from, 3 * n);
      for (let d = 0; d < 3; d++) normal[3 * n + d] = sign * (tangents[i + d] as number);
      strands[n] = cord.strand;
    }
    const middle = base + this.sides;
    for (let k = 0; k < this.sides; k++) {
      const [a, b] = [base + k, base + ((k + 1) % this.sides)];
      if (sign > 0) this.faces(middle, a, b);
      else this.faces(middle, b, a);
    }
  }
}
