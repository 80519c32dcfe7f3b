// A round cord along a curve, written into the same buffers again and again. Its rings do not turn
// about the curve: each is the last one's, carried on (W. Wang and others, 'Computation of rotation
// minimizing frames', ACM Transactions on Graphics 27, 2008).
import { BufferAttribute, BufferGeometry, Vector3 } from "three";
import { at } from "./course";

const SIDES = 18;
/** Rings that close each end, as shares of a quarter turn. */
const ROUND = [0, 0.35, 0.7, 1];

export interface Tube {
  geometry: BufferGeometry;
  /** How many points its curve has to have. */
  count: number;
}

export function tube(count: number): Tube {
  const rings = count + 2 * ROUND.length;
  const geometry = new BufferGeometry();
  const size = rings * (SIDES + 1);
  geometry.setAttribute("position", new BufferAttribute(new Float32Array(3 * size), 3));
  geometry.setAttribute("normal", new BufferAttribute(new Float32Array(3 * size), 3));
  geometry.setAttribute("uv", new BufferAttribute(new Float32Array(2 * size), 2));
  const faces: number[] = [];
  for (let r = 0; r < rings - 1; r++) {
    for (let s = 0; s < SIDES; s++) {
      const a = r * (SIDES + 1) + s;
      const b = a + SIDES + 1;
      faces.push(a, a + 1, b, a + 1, b + 1, b);
    }
  }
  geometry.setIndex(faces);
  return { geometry, count };
}

/**
 * Lay a tube along a curve.
 *
 * Args:
 *   way: its points, x, y, z one after the other.
 *   thick: diameter, in the same unit.
 *   from: arc length at the first point, so that marks keep their place on the cord.
 *   pattern: length after which marks repeat.
 */
export function lay(on: Tube, way: Float32Array, thick: number, from: number, pattern: number): void {
  const into = new Writer(on.geometry, thick / 2, pattern);
  const { points, ways } = curve(way, on.count);
  const across = square(ways[0] ?? new Vector3(0, 1, 0));
  let s = from;
  let last = points[0] ?? new Vector3();
  const cap = (i: number, sign: 1 | -1): void => {
    const order = sign < 0 ? [...ROUND].reverse() : ROUND;
    for (const share of order) {
      into.ring(points[i] as Vector3, ways[i] as Vector3, across, s, (sign * share * Math.PI) / 2);
    }
  };
  cap(0, -1);
  for (let i = 0; i < on.count; i++) {
    const here = points[i] as Vector3;
    const before = ways[Math.max(0, i - 1)] as Vector3;
    if (i > 0) carry(across, last, here, before, ways[i] as Vector3);
    s += here.distanceTo(last);
    last = here;
    into.ring(here, ways[i] as Vector3, across, s, 0);
  }
  cap(on.count - 1, 1);
  into.done();
}

class Writer {
  private row = 0;
  private readonly position: BufferAttribute;
  private readonly normal: BufferAttribute;
  private readonly uv: BufferAttribute;

  constructor(
    private readonly geometry: BufferGeometry,
    private readonly radius: number,
    private readonly pattern: number,
  ) {
    this.position = geometry.getAttribute("position") as BufferAttribute;
    this.normal = geometry.getAttribute("normal") as BufferAttribute;
    this.uv = geometry.getAttribute("uv") as BufferAttribute;
  }

  /** A ring of points; `bend` leads it over the cord's end, radians. */
  ring(middle: Vector3, way: Vector3, across: Vector3, s: number, bend: number): void {
    const other = new Vector3().crossVectors(way, across);
    const [wide, on] = [Math.cos(bend), Math.sin(bend)];
    for (let k = 0; k <= SIDES; k++) {
      const angle = (2 * Math.PI * k) / SIDES;
      const [c, d] = [Math.cos(angle) * wide, Math.sin(angle) * wide];
      const x = across.x * c + other.x * d + way.x * on;
      const y = across.y * c + other.y * d + way.y * on;
      const z = across.z * c + other.z * d + way.z * on;
      const i = this.row * (SIDES + 1) + k;
      this.normal.setXYZ(i, x, y, z);
      this.position.setXYZ(
        i, middle.x + this.radius * x, middle.y + this.radius * y, middle.z + this.radius * z,
      );
      this.uv.setXY(i, k / SIDES, s / this.pattern);
    }
    this.row++;
  }

  done(): void {
    for (const part of [this.position, this.normal, this.uv]) part.needsUpdate = true;
    this.geometry.computeBoundingSphere();
  }
}

function curve(way: Float32Array, count: number): { points: Vector3[]; ways: Vector3[] } {
  const points: Vector3[] = [];
  for (let i = 0; i < count; i++) {
    points.push(new Vector3(at(way, 3 * i), at(way, 3 * i + 1), at(way, 3 * i + 2)));
  }
  const ways = points.map((_, i) => {
    const a = points[Math.max(0, i - 1)] as Vector3;
    const b = points[Math.min(count - 1, i + 1)] as Vector3;
    const found = new Vector3().subVectors(b, a);
    return found.lengthSq() > 1e-14 ? found.normalize() : new Vector3(0, -1, 0);
  });
  return { points, ways };
}

/** A unit vector square to a direction: to the front where that can be. */
function square(way: Vector3): Vector3 {
  const front = Math.abs(way.z) < 0.9 ? new Vector3(0, 0, 1) : new Vector3(1, 0, 0);
  return front.addScaledVector(way, -front.dot(way)).normalize();
}

function carry(across: Vector3, a: Vector3, b: Vector3, wayA: Vector3, wayB: Vector3): void {
  const step = new Vector3().subVectors(b, a);
  const size = step.lengthSq();
  if (size < 1e-14) return;
  across.addScaledVector(step, (-2 / size) * across.dot(step));
  const turned = wayA.clone().addScaledVector(step, (-2 / size) * wayA.dot(step));
  const rest = new Vector3().subVectors(wayB, turned);
  const left = rest.lengthSq();
  if (left > 1e-14) across.addScaledVector(rest, (-2 / left) * across.dot(rest));
  across.addScaledVector(wayB, -across.dot(wayB)).normalize();
}
