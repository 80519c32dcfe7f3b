// Play, slowly or not, or go to any moment by hand.
import type { JSX } from "preact";
import { Icon } from "../parts/Icon";
import { motion, pace, play, playing, seconds, seek, step, time } from "./player";

const STRIDE_S = 0.25;

/** Arrows go on a little, Page Up and Page Down from step to step. */
function byKeys(event: KeyboardEvent): void {
  const steps = motion.value?.steps ?? [];
  const to: Record<string, number | undefined> = {
    ArrowRight: time.value + STRIDE_S,
    ArrowUp: time.value + STRIDE_S,
    ArrowLeft: time.value - STRIDE_S,
    ArrowDown: time.value - STRIDE_S,
    PageUp: steps[step.value]?.from_s ?? seconds.value,
    PageDown: steps.findLast((s) => s.from_s < time.value - 0.01)?.from_s ?? 0,
  };
  const next = to[event.key];
  if (next === undefined) return;
  event.preventDefault();
  seek(next);
}

export function Transport(): JSX.Element {
  const steps = motion.value?.steps ?? [];
  const now = steps[step.value - 1];
  const on = playing.value;
  return (
    <div class="transport">
      <button
        type="button"
        class="play"
        aria-label={on ? "Pause" : "Play the tying"}
        title={on ? "Pause" : "Play the tying"}
        disabled={!motion.value}
        onClick={() => { if (on) playing.value = false; else play(); }}
      >
        <Icon sign={on ? "pause" : "play"} />
      </button>
      <div class="scrub">
        <input
          type="range"
          aria-label="Moment of the tying"
          min={0}
          max={seconds.value}
          step={0.05}
          value={time.value}
          disabled={!motion.value}
          aria-valuetext={now ? `Step ${now.number} of ${steps.length}: ${now.text}` : "not there yet"}
          onInput={(event) => { seek(Number(event.currentTarget.value)); }}
          onKeyDown={byKeys}
        />
        <span class="ticks" aria-hidden="true">
          {steps.slice(1).map((s) => (
            <i key={s.number} style={{ left: `${(100 * s.from_s) / Math.max(seconds.value, 0.1)}%` }} />
          ))}
        </span>
      </div>
      <div class="switch" role="group" aria-label="Pace">
        {(["slow", "normal"] as const).map((p) => (
          <button key={p} type="button" aria-pressed={pace.value === p} onClick={() => { pace.value = p; }}>
            {p === "slow" ? "Slow" : "Normal"}
          </button>
        ))}
      </div>
    </div>
  );
}
