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
/** Where the key light is from the middle of the piece: left, above and before it, in its sizes. */
const FROM = { left: 1, up: 1.5, front: 2.2 };

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
  const { key } = lights;
  const height = Math.max(bounds.top - bounds.bottom, 0.02);
  const middle = (bounds.top + bounds.bottom) / 2;
  const size = Math.hypot(height / 2, bounds.reach) * 1.05;
  key.target.position.set(0, middle, 0);
  key.position.set(-FROM.left * size, middle + FROM.up * size, FROM.front * size);
  const camera = key.shadow.camera;
  camera.left = camera.bottom = -size;
  camera.right = camera.top = size;
  camera.near = 0.01;
  camera.far = size * 6;
  camera.updateProjectionMatrix();
  key.shadow.normalBias = (0.9 * 2 * size) / key.shadow.mapSize.x;
  key.shadow.bias = -0.0004;
}

/**
 * The wall stands close behind the piece, however it is turned. It reaches as far as the shadow: to
 * look for shadow all over the picture costs more than to draw the piece.
 */
export function placeWall(lights: Lights, bounds: Bounds, turn: number): void {
  const { top, bottom, wide, deep } = bounds;
  const [sine, cosine] = [Math.abs(Math.sin(turn)), Math.abs(Math.cos(turn))];
  const across = wide * cosine + deep * sine;
  const back = wide * sine + deep * cosine;
  const behind = 0.012 + 0.03 * (top - bottom);
  // The front of the piece is farthest from the wall, and its shadow goes farthest aside and down.
  const far = (2 * back + behind) / FROM.front;
  const [left, right] = [-across, across + far * FROM.left];
  const low = bottom - far * FROM.up;
  lights.wall.position.set((left + right) / 2, (top + low) / 2, -back - behind);
  lights.wall.scale.set(1.1 * (right - left), 1.1 * (top - low), 1);
}

export function paint(lights: Lights, dark: boolean): void {
  lights.key.intensity = dark ? 2.3 : 2.6;
  lights.around.intensity = dark ? 0.75 : 1.5;
  lights.around.groundColor = new Color(dark ? "#5a4a40" : "#b9a48c");
  lights.wall.material.opacity = dark ? 0.4 : 0.17;
}
