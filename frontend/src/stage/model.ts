// A piece as the stage keeps it: knots of one shape drawn as instances, free cord of one look as one
// mesh, and for every part the strand that it belongs to. A new state poses it anew: shapes stay, and
// what the graphics hold of them.
import {
  BufferAttribute,
  BufferGeometry,
  Group,
  InstancedBufferAttribute,
  InstancedMesh,
  LinearSRGBColorSpace,
  type Material,
  Matrix4,
  Mesh,
  MeshStandardMaterial,
  Quaternion,
  Vector3,
} from "three";
import type { ScenePoses, Skin } from "../api/types";
import type { Library } from "./library";
import { type FreeCord, type Posed, type PosedKnot, read } from "./poses";
import { type Fineness, swept } from "./sweep";
import { veiled } from "./veil";

/** Where instances or vertices of one drawn thing belong. */
export interface Part {
  mesh: Mesh;
  /** Strand of each instance, or of each vertex; -1 where it is no cord. */
  strands: Int32Array;
  /** Knot of each instance, from 0; -1 for free cord. */
  knots: Int32Array | null;
}

export interface PieceModel {
  root: Group;
  parts: Part[];
  /** Names of the strands, by their numbers. */
  names: readonly string[];
  triangles: number;
}

/** A model that can be posed again and again. */
export interface PosedModel extends PieceModel {
  /** Put everything where a scene has it; the library must hold what that needs. */
  pose(poses: ScenePoses, library: Library): void;
}

const NO_CORD = -1;

export function posedModel(fine: Fineness): PosedModel {
  const drawn = new Map<string, Part>();
  const skins = new Map<string, MeshStandardMaterial>();
  const model: PosedModel = {
    root: new Group(),
    parts: [],
    names: [],
    triangles: 0,
    pose(poses, library) {
      const posed = read(poses);
      const used = new Set<string>();
      const put = (key: string, part: Part): void => {
        used.add(key);
        if (drawn.get(key) === part) return;
        drop(key);
        drawn.set(key, part);
        model.root.add(part.mesh);
      };
      const drop = (key: string): void => {
        const old = drawn.get(key);
        if (!old) return;
        model.root.remove(old.mesh);
        free(old.mesh);
        drawn.delete(key);
      };
      const skinOf = (strand: number): Skin => poses.skins[poses.skin[strand] ?? 0] as Skin;
      const material = (skin: Skin): MeshStandardMaterial => {
        const key = keyOf(skin);
        let found = skins.get(key);
        if (!found) skins.set(key, (found = coloured(library, skin)));
        return found;
      };
      for (const group of gathered(posed, poses, skinOf).values()) {
        const old = drawn.get(group.key);
        const shape = library.shapes.get(group.shape)?.[group.place];
        if (shape) put(group.key, instanced(group, shape, material(group.skin), old));
      }
      for (const [key, cords] of bySkin(posed.cords, skinOf)) {
        put(`free ${key}`, tubes(cords, material(skinOf((cords[0] as FreeCord).strand)), fine));
      }
      for (const { key, at } of poses.things) {
        const part = drawn.get(`thing ${key}`) ?? thing(library, key);
        part.mesh.position.set(...at);
        put(`thing ${key}`, part);
      }
      for (const key of [...drawn.keys()]) if (!used.has(key)) drop(key);
      model.parts = [...drawn.values()];
      model.names = poses.strands;
      model.triangles = trianglesOf(model.parts);
    },
  };
  return model;
}

function keyOf(skin: Skin): string {
  return `${skin.surface} ${skin.colour.join(" ")}`;
}

function coloured(library: Library, skin: Skin): MeshStandardMaterial {
  const base = library.surfaces.get(skin.surface) ?? new MeshStandardMaterial();
  const found = veiled(base) as MeshStandardMaterial;
  found.color.setRGB(...skin.colour, LinearSRGBColorSpace);
  return found;
}

/** Strands of knots that are drawn alike: of one shape, at one place in it, of one skin. */
interface Gathered {
  key: string;
  shape: string;
  place: number;
  skin: Skin;
  strands: number[];
  knots: PosedKnot[];
}

function gathered(
  posed: Posed,
  poses: ScenePoses,
  skinOf: (strand: number) => Skin,
): Map<string, Gathered> {
  const found = new Map<string, Gathered>();
  for (const knot of posed.knots) {
    const shape = poses.shapes[knot.shape] as string;
    knot.strands.forEach((strand, place) => {
      const skin = skinOf(strand);
      const key = `${shape} ${place} ${keyOf(skin)}`;
      let group = found.get(key);
      if (!group) found.set(key, (group = { key, shape, place, skin, strands: [], knots: [] }));
      group.strands.push(strand);
      group.knots.push(knot);
    });
  }
  return found;
}

const matrix = new Matrix4();

/** The part that is there already, if it has room for as many; else a new one. */
function instanced(
  group: Gathered,
  shape: BufferGeometry,
  material: MeshStandardMaterial,
  old: Part | undefined,
): Part {
  const count = group.knots.length;
  let mesh = old?.mesh;
  if (!(mesh instanceof InstancedMesh) || mesh.instanceMatrix.count < count) {
    const room = count + Math.ceil(count / 4);
    // Every look needs its own veil, so shapes that several looks share get their own attribute.
    const geometry = shape.clone();
    geometry.setAttribute("veil", new InstancedBufferAttribute(new Float32Array(room), 1));
    mesh = new InstancedMesh(geometry, material, room);
    shade(mesh);
  }
  const on = mesh as InstancedMesh;
  on.count = count;
  group.knots.forEach(({ pose: p }, i) => {
    const size = p[7] as number;
    matrix.compose(
      new Vector3(p[0], p[1], p[2]),
      new Quaternion(p[3], p[4], p[5], p[6]),
      new Vector3(size, size, size),
    );
    on.setMatrixAt(i, matrix);
  });
  on.instanceMatrix.needsUpdate = true;
  on.computeBoundingSphere();
  on.boundingBox = null;
  const strands = Int32Array.from(group.strands);
  const knots = Int32Array.from(group.knots, (k) => k.knot);
  return old?.mesh === on ? Object.assign(old, { strands, knots }) : { mesh: on, strands, knots };
}

function bySkin(
  cords: readonly FreeCord[],
  skinOf: (strand: number) => Skin,
): Map<string, FreeCord[]> {
  const found = new Map<string, FreeCord[]>();
  for (const cord of cords) {
    const key = keyOf(skinOf(cord.strand));
    const alike = found.get(key);
    if (alike) alike.push(cord);
    else found.set(key, [cord]);
  }
  return found;
}

function tubes(cords: readonly FreeCord[], material: MeshStandardMaterial, fine: Fineness): Part {
  const { position, normal, uv, strands, index } = swept(cords, fine);
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(position, 3));
  geometry.setAttribute("normal", new BufferAttribute(normal, 3));
  geometry.setAttribute("uv", new BufferAttribute(uv, 2));
  geometry.setAttribute("veil", new BufferAttribute(new Float32Array(strands.length), 1));
  geometry.setIndex(new BufferAttribute(index, 1));
  const mesh = new Mesh(geometry, material);
  shade(mesh);
  return { mesh, strands, knots: null };
}

function thing(library: Library, key: string): Part {
  const known = library.things.get(key);
  const geometry = known?.geometry.clone() ?? new BufferGeometry();
  const count = known ? geometry.getAttribute("position").count : 0;
  geometry.setAttribute("veil", new BufferAttribute(new Float32Array(count), 1));
  const mesh = new Mesh(geometry, veiled(known?.material ?? new MeshStandardMaterial()));
  shade(mesh);
  return { mesh, strands: new Int32Array(count).fill(NO_CORD), knots: null };
}

function shade(mesh: Mesh): void {
  mesh.castShadow = true;
  mesh.receiveShadow = true;
}

function trianglesOf(parts: readonly Part[]): number {
  return parts.reduce((sum, { mesh }) => {
    const each = (mesh.geometry.index?.count ?? 0) / 3;
    return sum + each * (mesh instanceof InstancedMesh ? mesh.count : 1);
  }, 0);
}

/** Give back what the graphics hold of a mesh's form. */
function free(mesh: Mesh): void {
  mesh.geometry.dispose();
  if (mesh instanceof InstancedMesh) mesh.dispose();
}

/** Give back what the graphics hold of a model. */
export function dispose(model: PieceModel): void {
  for (const { mesh } of model.parts) {
    free(mesh);
    (mesh.material as Material).dispose();
  }
}
