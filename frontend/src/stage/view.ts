// How the piece is looked at: it turns about its upright axis as on a hook, while light, wall and
// viewer stay; so heights on the screen stay true while it turns.
import type { PerspectiveCamera } from "three";

export interface Bounds {
  top: number;
  bottom: number;
  /** Farthest from the axis, m. */
  reach: number;
  /** Farthest to either side as it hangs, m. */
  wide: number;
  /** Farthest to the front or back as it hangs, m. */
  deep: number;
}

export interface View {
  /** Turned about the axis, radians. */
  turn: number;
  /** Looked at from above, radians. */
  tilt: number;
  /** 1 shows the whole piece. */
  zoom: number;
  /** Middle of the picture, as a share of the piece's height below its top. */
  middle: number;
  /** Moved sideways, as a share of the picture's height. */
  aside: number;
}

export const START: View = { turn: 0, tilt: 0.06, zoom: 1, middle: 0.5, aside: 0 };
export const FIELD = 20;
const MARGIN = 1.07;

/** Keep a view within what makes sense. */
export function within(view: View): View {
  const clamp = (v: number, low: number, high: number): number => Math.min(high, Math.max(low, v));
  const zoom = clamp(view.zoom, 0.7, 12);
  return {
    turn: view.turn,
    tilt: clamp(view.tilt, -0.5, 1.1),
    zoom,
    middle: clamp(view.middle, 0, 1),
    aside: clamp(view.aside, -0.6, 0.6),
  };
}

/** Put the camera where the view says, leaving a share of the picture free at its foot. */
export function aim(
  camera: PerspectiveCamera,
  view: View,
  bounds: Bounds,
  aspect: number,
  foot: number,
): void {
  const height = Math.max(bounds.top - bounds.bottom, 0.02);
  const spread = Math.tan((FIELD * Math.PI) / 360);
  const forHeight = (height * MARGIN) / (2 * spread * (1 - foot));
  const forWidth = (2 * bounds.wide * 1.08) / (2 * spread * aspect);
  const distance = (Math.max(forHeight, forWidth) + bounds.reach) / view.zoom;
  const y = bounds.top - view.middle * height - foot * spread * distance;
  const x = -view.aside * height;
  camera.aspect = aspect;
  camera.fov = FIELD;
  camera.near = Math.max(0.005, distance - bounds.reach * 3 - height);
  camera.far = distance + height * 3 + bounds.reach * 4;
  camera.position.set(x, y + Math.sin(view.tilt) * distance, Math.cos(view.tilt) * distance);
  camera.lookAt(x, y, 0);
  camera.updateProjectionMatrix();
}
