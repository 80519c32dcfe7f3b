// Playing a tying: where it is, how fast, and the slow turn with which a knot greets its maker.
import { computed, signal } from "@preact/signals";
import type { KnotMotion } from "../api/types";
import { calm } from "../state/prefs";

export type Pace = "slow" | "normal";
const PACES: Record<Pace, number> = { slow: 0.4, normal: 1 };
const ROUND_S = 9;

export const motion = signal<KnotMotion | null>(null);
export const time = signal(0);
export const pace = signal<Pace>("normal");
export const playing = signal(false);
export const turns = signal(false);

export const seconds = computed(() => motion.value?.keys.at(-1)?.at_s ?? 0);
export const step = computed(() => {
  const steps = motion.value?.steps ?? [];
  return steps.findLast((s) => s.from_s <= time.value + 1e-6)?.number ?? 1;
});

export function show(found: KnotMotion): void {
  playing.value = false;
  motion.value = found;
  time.value = seconds.value;
  turns.value = !calm.matches;
}

export function play(): void {
  turns.value = false;
  if (time.value >= seconds.value - 0.01) time.value = 0;
  playing.value = true;
}

export function seek(to: number): void {
  playing.value = false;
  turns.value = false;
  time.value = Math.min(seconds.value, Math.max(0, to));
}

/** Show a step from its beginning, and play it to its end if that is wanted. */
export function toStep(number: number): void {
  const found = motion.value?.steps.find((s) => s.number === number);
  if (found) seek(calm.matches ? found.to_s : found.from_s);
  until = found && !calm.matches ? found.to_s : null;
  if (until !== null) playing.value = true;
}

let until: number | null = null;

/** Run the clock while something moves; gives what ends it. */
export function running(turn: (radians: number) => void): () => void {
  let asked = 0;
  let before = 0;
  let turned = 0;
  const tick = (now: number): void => {
    asked = 0;
    const passed = before ? Math.min(0.2, (now - before) / 1000) : 0;
    before = now;
    if (playing.value) forward(passed * PACES[pace.value]);
    if (turns.value) {
      const by = (passed / ROUND_S) * 2 * Math.PI;
      turned += by;
      turn(by);
      if (turned >= 2 * Math.PI) turns.value = false;
    }
    go();
  };
  const go = (): void => {
    if (playing.value || turns.value) asked ||= requestAnimationFrame(tick);
    else before = 0;
  };
  const ends = [
    playing.subscribe((on) => { if (!on) until = null; go(); }),
    turns.subscribe(() => { turned = 0; go(); }),
  ];
  return () => {
    cancelAnimationFrame(asked);
    for (const end of ends) end();
  };
}

function forward(by: number): void {
  const end = until ?? seconds.value;
  time.value = Math.min(end, time.value + by);
  if (time.value >= end) playing.value = false;
}
