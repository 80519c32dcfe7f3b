// Pointing at the piece: the strand under the pointer lights up; a click keeps it lit.
import { pick } from "../stage/pick";
import type { Stage } from "../stage/stage";
import { signal } from "@preact/signals";
import { held, lit } from "./state";

/** Where the pointer is on the stage, pixels, for the label beside it. */
export const pointer = signal<{ x: number; y: number } | null>(null);

export function pointing(stage: Stage, on: HTMLElement): () => void {
  const stop = new AbortController();
  const listen = { signal: stop.signal };
  let asked = 0;
  let pressed: { x: number; y: number } | null = null;

  const under = (event: PointerEvent): string | null => {
    const box = on.getBoundingClientRect();
    const x = (event.clientX - box.left) / box.width;
    const y = (event.clientY - box.top) / box.height;
    pointer.value = { x: event.clientX - box.left, y: event.clientY - box.top };
    const found = pick(stage, x, y);
    return found ? (stage.model()?.names[found.strand] ?? null) : null;
  };

  on.addEventListener("pointerdown", (event) => {
    pressed = { x: event.clientX, y: event.clientY };
  }, listen);
  on.addEventListener("pointermove", (event) => {
    if (event.buttons || event.pointerType === "touch") return;
    cancelAnimationFrame(asked);
    asked = requestAnimationFrame(() => {
      const name = under(event);
      const now = lit.peek();
      if ((now?.[0] ?? null) !== name || (now?.length ?? 0) > 1) lit.value = name ? [name] : null;
    });
  }, listen);
  on.addEventListener("pointerup", (event) => {
    const moved = pressed ? Math.hypot(event.clientX - pressed.x, event.clientY - pressed.y) : 99;
    pressed = null;
    if (moved > 4) return;
    const name = under(event);
    held.value = name && held.peek()?.[0] !== name ? [name] : null;
  }, listen);
  on.addEventListener("pointerleave", () => {
    cancelAnimationFrame(asked);
    lit.value = null;
    pointer.value = null;
  }, listen);
  on.addEventListener("keydown", (event) => {
    if (event.key === "Escape") held.value = lit.value = null;
  }, listen);
  return () => {
    cancelAnimationFrame(asked);
    stop.abort();
  };
}
