// The knot in three dimensions, with what plays its tying.
import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { Icon } from "../parts/Icon";
import { createStage, type Stage } from "../stage/stage";
import { turning } from "../stage/turning";
import { START } from "../stage/view";
import { dark } from "../state/prefs";
import { colours } from "../style/colours";
import { moving } from "./moving";
import { motion, running, seek, seconds, step, time, turns } from "./player";
import { Transport } from "./Transport";

const KEYS =
  "Arrow keys turn and move it, Page Up and Page Down tilt it, plus and minus come nearer, 0 shows all of it.";

export function KnotStage({ title }: { title: string }): JSX.Element {
  const box = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const stage = useRef<Stage | null>(null);
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    if (!box.current || !canvas.current) return;
    try {
      stage.current = createStage(canvas.current, 12);
    } catch {
      setFailed(true);
      return;
    }
    return alive(stage.current, box.current);
  }, []);
  const told = motion.value?.steps[step.value - 1];
  const nearer = (by: number): void => {
    const now = stage.current;
    now?.look({ zoom: now.view.zoom * by });
  };
  return (
    <section class="knot-stage" aria-label="The knot in three dimensions">
      <div ref={box} class="knot-solid" tabIndex={0} role="img" aria-label={`${title}. ${KEYS}`}>
        <canvas ref={canvas} aria-hidden="true" />
      </div>
      {failed && (
        <p class="stage-note" role="status">
          This browser cannot draw in three dimensions; the steps below show the knot.
        </p>
      )}
      {!motion.value && !failed && <p class="stage-note" role="status">Tying the knot …</p>}
      <div class="knot-looks" role="toolbar" aria-label="How it is looked at">
        <button
          type="button"
          class="quiet"
          aria-pressed={turns.value}
          aria-label="Turn it round once"
          title="Turn it round once"
          onClick={() => { turns.value = !turns.value; }}
        >
          <Icon sign="round" />
        </button>
        <button type="button" class="quiet" aria-label="Farther" title="Farther" onClick={() => { nearer(1 / 1.3); }}>
          <Icon sign="minus" />
        </button>
        <button type="button" class="quiet" aria-label="Nearer" title="Nearer" onClick={() => { nearer(1.3); }}>
          <Icon sign="plus" />
        </button>
        <button type="button" class="quiet" aria-label="Show all of it" title="Show all of it" onClick={() => stage.current?.look(START)}>
          <Icon sign="whole" />
        </button>
      </div>
      <p class="knot-now" aria-hidden="true">
        {told && <><strong>{told.number}</strong> {told.text}</>}
      </p>
      <Transport />
    </section>
  );
}

/** Everything that goes on while the stage is there; gives what ends it. */
function alive(stage: Stage, box: HTMLElement): () => void {
  let put: ((seconds: number) => void) | null = null;
  const size = new ResizeObserver(([entry]) => {
    if (entry) stage.resize(entry.contentRect.width, entry.contentRect.height);
  });
  size.observe(box);
  const ends = [
    dark.subscribe(() => {
      // The colours are the style sheet's, which follows the attribute that this value sets.
      queueMicrotask(() => { stage.paint({ ...colours(), dark: dark.value }); });
    }),
    motion.subscribe((now) => {
      if (!now) return;
      const made = moving(now);
      const drawingUp = now.keys.findLast((k) => k.form === 0)?.at_s ?? made.seconds;
      made.at(drawingUp); // at its largest, so that all of it stays in sight
      stage.put(made.model, "high");
      put = made.at;
      made.at(time.peek());
      stage.redraw();
    }),
    time.subscribe((now) => {
      put?.(now);
      stage.redraw();
    }),
    turning(stage, box),
    running((by) => { stage.look({ turn: stage.view.turn + by }); }),
    () => { size.disconnect(); },
    () => { stage.dispose(); },
  ];
  const hold = (): void => { turns.value = false; };
  box.addEventListener("pointerdown", hold);
  box.addEventListener("keydown", hold);
  return () => {
    for (const end of ends) end();
    seek(seconds.peek());
  };
}
