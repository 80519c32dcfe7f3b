// A knot's motion in the scene: its cords as they are at any time.
import { Group, Mesh } from "three";
import type { KnotMotion, MotionKey } from "../api/types";
import type { PieceModel } from "../stage/model";
import { between, type Course, course, sampled, total } from "./course";
import { patternOf, skin } from "./skin";
import { lay, type Tube, tube } from "./tube";

/** Metres of the scene for one diameter: a knot is to be as large as small pieces are. */
const SCALE = 0.01;
/** How far apart points of the drawn curves lie, in diameters; fewer on very long cords. */
const FINE = 0.2;
const MOST = 1100;
/** The share of its slack width that a knot is to have when it is drawn up; it comes nearer for it. */
const WIDTH = 0.72;
const NEAREST = 1.8;
const NEAREST_FIXED = 1.15;

export interface Moving {
  model: PieceModel;
  seconds: number;
  /** Put every cord where it is at a time. */
  at: (seconds: number) => void;
}

export function moving(motion: KnotMotion): Moving {
  const forms = motion.forms.map((form) => form.map((points) => new Float32Array(points)));
  const root = new Group();
  root.scale.setScalar(SCALE);
  const tubes: Tube[] = motion.cords.map((_, i) => {
    const longest = Math.max(...forms.map((f) => total(course(f[i] ?? new Float32Array(6)))));
    return tube(Math.min(MOST, Math.max(12, Math.ceil(longest / FINE))));
  });
  const parts = motion.cords.map((cord, i) => {
    const mesh = new Mesh((tubes[i] as Tube).geometry, skin(cord));
    mesh.castShadow = mesh.receiveShadow = true;
    mesh.frustumCulled = false;
    root.add(mesh);
    return { mesh, strands: new Int32Array(0), knots: null };
  });
  const seconds = motion.keys.at(-1)?.at_s ?? 0;
  const near = nearness(motion, forms);
  const put = (time: number): void => {
    const now = frame(motion.keys, time);
    root.scale.setScalar(SCALE * (1 + (near - 1) * drawnUp(now, forms.length)));
    motion.cords.forEach((cord, i) => {
      const one = forms[now.from.form]?.[i] as Float32Array;
      const other = forms[now.to.form]?.[i] as Float32Array;
      const curve: Course = course(between(one, other, now.share));
      const [start, end] = part(now, i, total(curve));
      const on = tubes[i] as Tube;
      lay(on, sampled(curve, start, end, on.count), cord.diameter, start, patternOf(cord));
    });
  };
  const triangles = tubes.reduce((sum, t) => sum + (t.geometry.index?.count ?? 0) / 3, 0);
  return { model: { root, parts, names: [], triangles }, seconds, at: put };
}

/** How many times nearer a knot comes while it is drawn up. */
function nearness(motion: KnotMotion, forms: Float32Array[][]): number {
  const wide = (form: Float32Array[] | undefined): number => {
    const across = (form ?? []).flatMap((points, i) =>
      motion.cords[i]?.role === "working" && !motion.cords[i].fixed ? [...points.filter((_, k) => k % 3 === 0)] : []);
    return across.length ? Math.max(...across) - Math.min(...across) + 1 : 1;
  };
  const most = motion.cords.some((c) => c.fixed) ? NEAREST_FIXED : NEAREST;
  return Math.min(most, Math.max(1, (WIDTH * wide(forms[0])) / wide(forms.at(-1))));
}

interface Frame {
  from: MotionKey;
  to: MotionKey;
  share: number;
}

function frame(keys: readonly MotionKey[], time: number): Frame {
  const next = keys.findIndex((k) => k.at_s > time);
  const to = keys[next < 0 ? keys.length - 1 : next] as MotionKey;
  const from = keys[next < 0 ? keys.length - 1 : Math.max(0, next - 1)] as MotionKey;
  const whole = to.at_s - from.at_s;
  const share = whole > 0 ? Math.min(1, Math.max(0, (time - from.at_s) / whole)) : 0;
  return { from, to, share: share * share * (3 - 2 * share) };
}

/** From where to where a cord is there; what changes its form is there as a whole. */
function part({ from, to, share }: Frame, cord: number, whole: number): [number, number] {
  if (from.form !== to.form || from.form > 0) return [0, whole];
  const [a, b] = from.shown[cord] ?? [0, whole];
  const [c, d] = to.shown[cord] ?? [0, whole];
  const start = Math.max(0, a + share * (c - a));
  return [start, Math.min(whole, Math.max(start + 0.1, b + share * (d - b)))];
}

function drawnUp({ from, to, share }: Frame, forms: number): number {
  return (from.form + share * (to.form - from.form)) / Math.max(1, forms - 1);
}
