// Turning, moving and nearing the piece: by pointer, by two fingers, by wheel and by keys.
import type { Stage } from "./stage";
import { START } from "./view";

interface Spot {
  x: number;
  y: number;
}

const REST = 160;
const KEYS: Record<string, (stage: Stage) => void> = {
  ArrowLeft: (s) => { s.look({ turn: s.view.turn - 0.2 }); },
  ArrowRight: (s) => { s.look({ turn: s.view.turn + 0.2 }); },
  ArrowUp: (s) => { s.look({ middle: s.view.middle - 0.08 / s.view.zoom }); },
  ArrowDown: (s) => { s.look({ middle: s.view.middle + 0.08 / s.view.zoom }); },
  PageUp: (s) => { s.look({ tilt: s.view.tilt + 0.1 }); },
  PageDown: (s) => { s.look({ tilt: s.view.tilt - 0.1 }); },
  "+": (s) => { s.look({ zoom: s.view.zoom * 1.25 }); },
  "=": (s) => { s.look({ zoom: s.view.zoom * 1.25 }); },
  "-": (s) => { s.look({ zoom: s.view.zoom / 1.25 }); },
  "0": (s) => { s.look(START); },
  Home: (s) => { s.look(START); },
};

/** Let the stage be turned; gives what ends it. */
export function turning(stage: Stage, on: HTMLElement): () => void {
  const held = new Map<number, Spot>();
  let rest = 0;
  const stop = new AbortController();
  const listen = { signal: stop.signal };

  const busy = (): void => {
    stage.moving(true);
    window.clearTimeout(rest);
    rest = window.setTimeout(() => {
      if (held.size) busy();
      else stage.moving(false);
    }, REST);
  };

  on.addEventListener("pointerdown", (event) => {
    if (event.button > 1) return;
    on.setPointerCapture(event.pointerId);
    held.set(event.pointerId, { x: event.clientX, y: event.clientY });
  }, listen);
  on.addEventListener("pointermove", (event) => {
    const before = held.get(event.pointerId);
    if (!before) return;
    const now = { x: event.clientX, y: event.clientY };
    if (Math.hypot(now.x - before.x, now.y - before.y) < 1) return;
    busy();
    const other = [...held].find(([id]) => id !== event.pointerId)?.[1];
    if (other) pinched(stage, on, before, now, other);
    else dragged(stage, on, before, now, event.shiftKey || event.buttons === 4);
    held.set(event.pointerId, now);
  }, listen);
  for (const end of ["pointerup", "pointercancel"] as const) {
    on.addEventListener(end, (event) => { held.delete(event.pointerId); }, listen);
  }
  on.addEventListener("wheel", (event) => {
    event.preventDefault();
    busy();
    const box = on.getBoundingClientRect();
    near(stage, Math.exp(-event.deltaY * 0.0016), event.clientY - box.top);
  }, { ...listen, passive: false });
  on.addEventListener("keydown", (event) => {
    const act = event.ctrlKey || event.metaKey || event.altKey ? undefined : KEYS[event.key];
    if (!act) return;
    event.preventDefault();
    busy();
    act(stage);
  }, listen);
  on.addEventListener("dblclick", () => { stage.look(START); }, listen);
  return () => {
    window.clearTimeout(rest);
    stop.abort();
  };
}

function dragged(stage: Stage, on: HTMLElement, from: Spot, to: Spot, move: boolean): void {
  const { turn, tilt, middle, aside } = stage.view;
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  if (move) {
    const height = stage.bounds.top - stage.bounds.bottom;
    const share = (stage.sceneHeight(0) - stage.sceneHeight(on.clientHeight)) / height;
    stage.look({
      middle: middle - (dy / on.clientHeight) * share,
      aside: aside + (dx / on.clientHeight) * share,
    });
  } else {
    stage.look({ turn: turn + dx * 0.009, tilt: tilt + dy * 0.005 });
  }
}

function pinched(stage: Stage, on: HTMLElement, from: Spot, to: Spot, other: Spot): void {
  const apart = (a: Spot, b: Spot): number => Math.hypot(a.x - b.x, a.y - b.y);
  const box = on.getBoundingClientRect();
  near(stage, apart(to, other) / Math.max(20, apart(from, other)), (to.y + other.y) / 2 - box.top);
  dragged(
    stage,
    on,
    from,
    { x: from.x + (to.x - from.x) / 2, y: from.y + (to.y - from.y) / 2 },
    true,
  );
}

/** Come nearer, keeping what is at one height of the screen where it is. */
function near(stage: Stage, factor: number, pixels: number): void {
  const { top, bottom } = stage.bounds;
  const height = Math.max(top - bottom, 0.01);
  const here = (top - stage.sceneHeight(pixels)) / height;
  const { middle, zoom } = stage.view;
  const next = Math.min(12, Math.max(0.7, zoom * factor));
  stage.look({ zoom: next, middle: here + (middle - here) * (zoom / next) });
}
