// One warm key light from the upper left with a soft shadow on the wall behind, and light from all
// around, so that cord looks round and lies over cord.
import {
  Color,
  DirectionalLight,
  HemisphereLight,
  Mesh,
  PlaneGeometry,
  type Scene,
  ShadowMaterial,
} from "three";
import type { Bounds } from "./view";

export interface Lights {
  key: DirectionalLight;
  around: HemisphereLight;
  wall: Mesh<PlaneGeometry, ShadowMaterial>;
}

/** `fine`: corners of the shadow's picture, pixels. */
export function addLights(scene: Scene, fine: number): Lights {
  const key = new DirectionalLight("#fff3e2", 2.5);
  key.castShadow = true;
  key.shadow.mapSize.set(fine, fine);
  key.shadow.radius = 3;
  key.shadow.intensity = 0.82;
  const around = new HemisphereLight("#fffaf2", "#b9a48c", 1.5);
  const wall = new Mesh(new PlaneGeometry(1, 1), new ShadowMaterial({ opacity: 0.16 }));
  wall.receiveShadow = true;
  scene.add(key, key.target, around, wall);
  return { key, around, wall };
}

/** Fit light, shadow and wall round a piece. */
export function fitLights(lights: Lights, bounds: Bounds): void {
  const { key, wall } = lights;
  const height = Math.max(bounds.top - bounds.bottom, 0.02);
  const middle = (bounds.top + bounds.bottom) / 2;
  const size = Math.hypot(height / 2, bounds.reach) * 1.05;
  key.target.position.set(0, middle, 0);
  key.position.set(-0.5 * size * 2, middle + 0.75 * size * 2, 1.1 * size * 2);
  const camera = key.shadow.camera;
  camera.left = camera.bottom = -size;
  camera.right = camera.top = size;
  camera.near = 0.01;
  camera.far = size * 6;
  camera.updateProjectionMatrix();
  key.shadow.normalBias = (0.9 * 2 * size) / key.shadow.mapSize.x;
  key.shadow.bias = -0.0004;
  wall.scale.set(size * 8, size * 8, 1);
}

/** The wall stands close behind the piece, however it is turned. */
export function placeWall(lights: Lights, bounds: Bounds, turn: number): void {
  const height = bounds.top - bounds.bottom;
  const back = bounds.wide * Math.abs(Math.sin(turn)) + bounds.deep * Math.abs(Math.cos(turn));
  lights.wall.position.set(0, (bounds.top + bounds.bottom) / 2, -back - 0.012 - 0.03 * height);
}

export function paint(lights: Lights, dark: boolean): void {
  lights.key.intensity = dark ? 2.3 : 2.6;
  lights.around.intensity = dark ? 0.75 : 1.5;
  lights.around.groundColor = new Color(dark ? "#5a4a40" : "#b9a48c");
  lights.wall.material.opacity = dark ? 0.4 : 0.17;
}
