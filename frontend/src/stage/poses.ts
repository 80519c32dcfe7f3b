// Where everything of a scene is, read from the numbers that the live channel brings.
import type { ScenePoses } from "../api/types";

export interface PosedKnot {
  /** Index of its shape. */
  shape: number;
  /** Its number in the piece. */
  knot: number;
  /** x, y, z; the quaternion x, y, z, w; metres for one diameter. */
  pose: Float32Array;
  /** Strands by place. */
  strands: Float32Array;
}

export interface FreeCord {
  strand: number;
  /** 1: its first end is cut and closed, 2: its last, 3: both. */
  ends: number;
  thick: number;
  /** Length after which its surface repeats. */
  pitch: number;
  /** Control points of cubic Bézier curves, x, y, z each; one begins where the last one ends. */
  points: Float32Array;
}

export interface Posed {
  knots: PosedKnot[];
  cords: FreeCord[];
}

export function read(poses: ScenePoses): Posed {
  const numbers = floats(poses.numbers);
  let at = 0;
  const next = (): number => numbers[at++] ?? 0;
  const some = (count: number): Float32Array => numbers.subarray(at, (at += count));
  const knots: PosedKnot[] = [];
  for (let i = 0; i < poses.knots; i++) {
    const [shape, knot, strands] = [next(), next(), next()];
    knots.push({ shape, knot, pose: some(8), strands: some(strands) });
  }
  const cords: FreeCord[] = [];
  for (let i = 0; i < poses.cords; i++) {
    const [strand, ends, thick, pitch, curves] = [next(), next(), next(), next(), next()];
    cords.push({ strand, ends, thick, pitch, points: some(3 * (1 + 3 * curves)) });
  }
  if (at !== numbers.length) throw new Error("The picture's numbers are not all there.");
  return { knots, cords };
}

function floats(base64: string): Float32Array {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  const view = new DataView(bytes.buffer);
  const found = new Float32Array(bytes.length / 4);
  for (let i = 0; i < found.length; i++) found[i] = view.getFloat32(4 * i, true);
  return found;
}
