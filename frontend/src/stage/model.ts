// A piece's scene as the stage keeps it: knots of one shape drawn as instances, free cord as one
// mesh a cord, and for every part the strand that it belongs to.
import {
  type BufferGeometry,
  Color,
  Group,
  InstancedBufferAttribute,
  InstancedMesh,
  type Material,
  Matrix4,
  Mesh,
  MeshStandardMaterial,
  BufferAttribute,
  type Object3D,
} from "three";
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

interface Gathered {
  geometry: BufferGeometry;
  material: Material;
  matrices: Matrix4[];
  strands: number[];
  knots: number[];
}

/** Regroup what a glTF file holds so that it is drawn in few calls and strands can be told apart. */
export function modelOf(scene: Object3D): PieceModel {
  scene.updateMatrixWorld(true);
  const names: readonly string[] = (scene.userData["strands"] as string[] | undefined) ?? [];
  const gathered = new Map<string, Gathered>();
  const root = new Group();
  const parts: Part[] = [];
  for (const node of [...scene.children]) {
    const strands = node.userData["strands"] as number[] | undefined;
    const meshes = meshesOf(node);
    if (strands && node.name.startsWith("knot")) {
      const knot = Number(node.name.replace(/\D+/g, "")) - 1;
      meshes.forEach((mesh, place) => {
        gather(gathered, mesh, strands[place] ?? -1, knot);
      });
    } else {
      for (const mesh of meshes) parts.push(single(mesh));
    }
  }
  for (const each of gathered.values()) parts.push(instanced(each));
  for (const part of parts) root.add(part.mesh);
  return { root, parts, names, triangles: trianglesOf(parts) };
}

function meshesOf(node: Object3D): Mesh[] {
  const found: Mesh[] = [];
  node.traverse((o) => {
    if (o instanceof Mesh) found.push(o);
  });
  return found;
}

function gather(into: Map<string, Gathered>, mesh: Mesh, strand: number, knot: number): void {
  const material = mesh.material as Material;
  const key = `${mesh.geometry.uuid} ${material.uuid}`;
  let entry = into.get(key);
  if (!entry) {
    entry = { geometry: mesh.geometry, material, matrices: [], strands: [], knots: [] };
    into.set(key, entry);
  }
  entry.matrices.push(mesh.matrixWorld);
  entry.strands.push(strand);
  entry.knots.push(knot);
}

function instanced(from: Gathered): Part {
  const count = from.matrices.length;
  // Every look needs its own veil, so shapes that several looks share get their own attribute.
  const geometry = from.geometry.clone();
  geometry.setAttribute("veil", new InstancedBufferAttribute(new Float32Array(count), 1));
  const mesh = new InstancedMesh(geometry, veiled(from.material), count);
  from.matrices.forEach((m, i) => {
    mesh.setMatrixAt(i, m);
  });
  mesh.computeBoundingSphere();
  shade(mesh);
  return { mesh, strands: Int32Array.from(from.strands), knots: Int32Array.from(from.knots) };
}

function single(mesh: Mesh): Part {
  const geometry = mesh.geometry;
  const count = geometry.getAttribute("position").count;
  const own = geometry.getAttribute("_strand");
  const strands = new Int32Array(count).fill(-1);
  if (own) for (let i = 0; i < count; i++) strands[i] = own.getX(i);
  geometry.setAttribute("veil", new BufferAttribute(new Float32Array(count), 1));
  const made = new Mesh(geometry, veiled(mesh.material as Material));
  made.name = mesh.name || mesh.parent?.name || "";
  made.applyMatrix4(mesh.matrixWorld);
  shade(made);
  return { mesh: made, strands, knots: null };
}

function shade(mesh: Mesh): void {
  mesh.castShadow = true;
  mesh.receiveShadow = true;
}

function trianglesOf(parts: Part[]): number {
  return parts.reduce((sum, { mesh }) => {
    const each = (mesh.geometry.index?.count ?? 0) / 3;
    return sum + each * (mesh instanceof InstancedMesh ? mesh.count : 1);
  }, 0);
}

/** Give back what the graphics hold of a model. */
export function dispose(model: PieceModel): void {
  for (const { mesh } of model.parts) {
    mesh.geometry.dispose();
    (mesh.material as Material).dispose();
    if (mesh instanceof InstancedMesh) mesh.dispose();
  }
}

/** The colour that a strand's cord has. */
export function colourOf(model: PieceModel, strand: number): Color | null {
  const part = model.parts.find((p) => p.strands.includes(strand));
  const material = part?.mesh.material;
  return material instanceof MeshStandardMaterial ? material.color : null;
}
