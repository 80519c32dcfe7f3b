// Which strand is under the pointer, and lighting strands up.
import { Mesh, Raycaster, Vector2 } from "three";
import { acceleratedRaycast, MeshBVH } from "three-mesh-bvh";
import type { Part, PieceModel } from "./model";
import type { Stage } from "./stage";
import { LIT, PLAIN, VEILED } from "./veil";

Mesh.prototype.raycast = acceleratedRaycast;

export interface Found {
  strand: number;
  knot: number | null;
}

const ray = new Raycaster();
ray.firstHitOnly = true;

/** The strand that is seen at a place of the canvas, in shares of its size from the top left. */
export function pick(stage: Stage, x: number, y: number): Found | null {
  const model = stage.model();
  if (!model) return null;
  for (const { mesh } of model.parts) {
    // Trees that make picking fast are built when a form is first pointed at.
    mesh.geometry.boundsTree ??= new MeshBVH(mesh.geometry);
  }
  ray.setFromCamera(new Vector2(2 * x - 1, 1 - 2 * y), stage.camera);
  model.root.updateMatrixWorld(true);
  const hits = ray.intersectObjects(model.parts.map((p) => p.mesh), false);
  hits.sort((a, b) => a.distance - b.distance);
  const hit = hits[0];
  const part = hit && model.parts.find((p) => p.mesh === hit.object);
  if (!hit || !part) return null;
  const at = part.knots ? (hit.instanceId ?? 0) : (hit.face?.a ?? 0);
  const strand = part.strands[at] ?? -1;
  return strand < 0 ? null : { strand, knot: part.knots?.[at] ?? null };
}

/** Light up some strands or knots, and put the rest behind a veil; null lights all as usual. */
export function lightUp(
  model: PieceModel,
  strands: ReadonlySet<number> | null,
  knots: ReadonlySet<number> | null = null,
): void {
  for (const part of model.parts) paintPart(part, strands, knots);
}

function paintPart(
  part: Part,
  strands: ReadonlySet<number> | null,
  knots: ReadonlySet<number> | null,
): void {
  const veil = part.mesh.geometry.getAttribute("veil");
  for (let i = 0; i < part.strands.length; i++) {
    const strand = part.strands[i] ?? -1;
    const knot = part.knots?.[i] ?? -1;
    let value = PLAIN;
    if (strands) value = strands.has(strand) ? LIT : VEILED;
    else if (knots) value = knots.has(knot) ? PLAIN : VEILED;
    veil.setX(i, value);
  }
  veil.needsUpdate = true;
}

