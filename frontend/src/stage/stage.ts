// The stage: draws the piece when something has changed, and at no other time.
import {
  Box3,
  Color,
  NeutralToneMapping,
  PCFShadowMap,
  PerspectiveCamera,
  Scene,
  SRGBColorSpace,
  Vector3,
  WebGLRenderer,
} from "three";
import { addLights, fitLights, paint, placeWall } from "./light";
import { dispose, type PieceModel } from "./model";
import { veil } from "./veil";
import { aim, type Bounds, START, type View, within } from "./view";

export type Detail = "low" | "high";

export interface Stage {
  readonly camera: PerspectiveCamera;
  readonly bounds: Bounds;
  readonly view: View;
  /** Show a piece, or show it as it is posed now; the view stays as it is. */
  put(model: PieceModel, detail: Detail): void;
  model(): PieceModel | null;
  look(change: Partial<View>): void;
  /** While it is turned, a coarser piece is drawn, and its shadow stays. */
  moving(on: boolean): void;
  paint(colours: { ground: string; glow: string; dark: boolean }): void;
  resize(width: number, height: number): void;
  /** Let the shadow step back while something is picked out. */
  quiet(on: boolean): void;
  redraw(): void;
  /** Resolves when the graphics have finished the next drawing. */
  finished(): Promise<void>;
  /** Called after every drawing. */
  drawn: () => void;
  /** Height on the screen, in CSS pixels from the canvas's top, of a height in the scene. */
  heightOf(y: number): number;
  /** The height in the scene that is seen at so many pixels from the top. */
  sceneHeight(pixels: number): number;
  /** Left and right edge of the piece on the screen, CSS pixels. */
  edges(): [number, number];
  dispose(): void;
}

const EMPTY: Bounds = { top: 0, bottom: -1, reach: 0.3, wide: 0.3, deep: 0.1 };

/**
 * Args:
 *   canvas: to draw on.
 *   foot: pixels at its lower edge that something else stands on.
 */
export function createStage(canvas: HTMLCanvasElement, foot = 0): Stage {
  const weak = drawsInSoftware();
  const renderer = new WebGLRenderer({ canvas, antialias: !weak, alpha: true });
  renderer.outputColorSpace = SRGBColorSpace;
  renderer.toneMapping = NeutralToneMapping;
  renderer.toneMappingExposure = 1;
  renderer.shadowMap.enabled = true;
  renderer.shadowMap.type = PCFShadowMap;
  renderer.shadowMap.autoUpdate = false;
  const scene = new Scene();
  const lights = addLights(scene, weak ? 1024 : 2048);
  const camera = new PerspectiveCamera();
  let bounds = EMPTY;
  let view = START;
  const shown: Record<Detail, PieceModel | null> = { low: null, high: null };
  let best: Detail = "high";
  let isMoving = false;
  let shaded = false;
  let size = { width: 1, height: 1 };
  let asked = 0;
  let awaited: (() => void)[] = [];

  const current = (): PieceModel | null =>
    (isMoving ? (shown.low ?? shown.high) : (shown[best] ?? shown.low ?? shown.high)) ?? null;

  const draw = (): void => {
    asked = 0;
    const now = current();
    for (const model of [shown.low, shown.high]) {
      if (model) {
        model.root.visible = model === now;
        model.root.rotation.y = view.turn;
      }
    }
    aim(camera, view, bounds, size.width / size.height, Math.min(0.2, foot / size.height));
    placeWall(lights, bounds, view.turn);
    // Where drawing is slow the shadow waits for the fine picture, as it does while the piece turns.
    const hasty = isMoving || (weak && best === "low" && shaded);
    if (!hasty && now) renderer.shadowMap.needsUpdate = shaded = true;
    renderer.render(scene, camera);
    stage.drawn();
    if (awaited.length) whenDone(renderer.getContext() as WebGL2RenderingContext, awaited);
    awaited = [];
  };

  const redraw = (): void => {
    asked ||= requestAnimationFrame(draw);
  };

  const scale = (): void => {
    const ratio = isMoving || weak ? 1 : Math.min(window.devicePixelRatio, 2);
    if (renderer.getPixelRatio() !== ratio) renderer.setPixelRatio(ratio);
    renderer.setSize(size.width, size.height, false);
  };

  const clear = (detail: Detail): void => {
    const old = shown[detail];
    if (!old) return;
    scene.remove(old.root);
    dispose(old);
    shown[detail] = null;
  };

  const stage: Stage = {
    camera,
    get bounds() {
      return bounds;
    },
    get view() {
      return view;
    },
    put(model, detail) {
      // A coarse picture comes first; the fine one of an older state must not stand beside it.
      best = detail;
      if (shown[detail] !== model) {
        clear(detail);
        shown[detail] = model;
        scene.add(model.root);
      }
      bounds = boundsOf(model);
      fitLights(lights, bounds);
      redraw();
    },
    model: () => current(),
    look(change) {
      view = within({ ...view, ...change });
      redraw();
    },
    moving(on) {
      if (on === isMoving) return;
      isMoving = on;
      scale();
      redraw();
    },
    paint({ ground, glow, dark }) {
      veil.ground.value = new Color(ground);
      veil.glow.value = new Color(glow);
      paint(lights, dark);
      redraw();
    },
    resize(width, height) {
      size = { width: Math.max(1, width), height: Math.max(1, height) };
      scale();
      draw();
    },
    quiet(on) {
      lights.wall.visible = !on;
    },
    redraw,
    finished: () => new Promise((resolve) => awaited.push(resolve)),
    drawn: () => undefined,
    heightOf(y) {
      const point = new Vector3(camera.position.x, y, 0).project(camera);
      return ((1 - point.y) / 2) * size.height;
    },
    sceneHeight(pixels) {
      // Where the line of sight meets the upright plane through the axis.
      const far = new Vector3(0, 1 - (2 * pixels) / size.height, 0.5).unproject(camera);
      const way = far.sub(camera.position);
      return camera.position.y - (way.y * camera.position.z) / way.z;
    },
    edges() {
      const across = (x: number): number =>
        ((new Vector3(x, (bounds.top + bounds.bottom) / 2, 0).project(camera).x + 1) / 2) *
        size.width;
      return [across(-bounds.wide), across(bounds.wide)];
    },
    dispose() {
      cancelAnimationFrame(asked);
      clear("low");
      clear("high");
      renderer.dispose();
    },
  };
  return stage;
}

/** Call back as soon as the graphics have done all that they were told so far. */
function whenDone(gl: WebGL2RenderingContext, then: readonly (() => void)[]): void {
  const sync = gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
  gl.flush();
  const look = (): void => {
    const waits = sync && gl.clientWaitSync(sync, 0, 0) === gl.TIMEOUT_EXPIRED;
    if (waits) {
      window.setTimeout(look, 2);
      return;
    }
    gl.deleteSync(sync);
    for (const call of then) call();
  };
  look();
}

/** Whether the browser says that drawing is slow here: no graphics processor takes part. */
function drawsInSoftware(): boolean {
  const probe = document.createElement("canvas");
  return probe.getContext("webgl2", { failIfMajorPerformanceCaveat: true }) === null;
}

function boundsOf(model: PieceModel): Bounds {
  model.root.rotation.y = 0;
  model.root.updateMatrixWorld(true);
  const box = new Box3();
  for (const { mesh } of model.parts) {
    if (!mesh.geometry.boundingBox) mesh.geometry.computeBoundingBox();
    box.expandByObject(mesh);
  }
  if (box.isEmpty()) return EMPTY;
  const wide = Math.max(Math.abs(box.min.x), Math.abs(box.max.x), 0.01);
  const deep = Math.max(Math.abs(box.min.z), Math.abs(box.max.z), 0.01);
  return { top: box.max.y, bottom: box.min.y, reach: Math.max(wide, deep), wide, deep };
}
