// The parts that scenes are put together from, kept as long as the page is open: shapes of knots,
// surfaces of cord, and what pieces hang on or hold. A change hardly ever needs a new one.
import { type BufferGeometry, Mesh, MeshStandardMaterial, type Object3D } from "three";
import type { ScenePoses } from "../api/types";

export interface Thing {
  geometry: BufferGeometry;
  material: MeshStandardMaterial;
}

export interface Library {
  /** By key, a tube for each strand by place; in diameters. */
  shapes: Map<string, BufferGeometry[]>;
  /** By name, a material that is white. */
  surfaces: Map<string, MeshStandardMaterial>;
  /** By key, metres. */
  things: Map<string, Thing>;
}

export function emptyLibrary(): Library {
  return { shapes: new Map(), surfaces: new Map(), things: new Map() };
}

/** Whether everything is there that a scene needs. */
export function holds(library: Library, poses: ScenePoses): boolean {
  return (
    poses.shapes.every((key) => library.shapes.has(key)) &&
    poses.skins.every(({ surface }) => library.surfaces.has(surface)) &&
    poses.things.every(({ key }) => library.things.has(key))
  );
}

/** Take in the parts that a glTF file holds; each of its nodes says what it is. */
export function takeIn(library: Library, scene: Object3D): void {
  for (const node of scene.children) {
    const { shape, surface, thing } = node.userData as Record<string, string | undefined>;
    const meshes = meshesOf(node);
    const [first] = meshes;
    if (!first) continue;
    const material = first.material;
    if (shape !== undefined) library.shapes.set(shape, meshes.map((m) => m.geometry));
    if (!(material instanceof MeshStandardMaterial)) continue;
    if (surface !== undefined) library.surfaces.set(surface, material);
    if (thing !== undefined) library.things.set(thing, { geometry: first.geometry, material });
  }
}

function meshesOf(node: Object3D): Mesh[] {
  const found: Mesh[] = [];
  node.traverse((o) => {
    if (o instanceof Mesh) found.push(o);
  });
  return found;
}
