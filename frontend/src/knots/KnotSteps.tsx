// The steps of a tying: figures with what is done in each; one is chosen to see it move.
import type { JSX } from "preact";
import { hand, stepFigure } from "./atlas";
import { motion, step, toStep } from "./player";

export function KnotSteps(): JSX.Element | null {
  const now = motion.value;
  if (!now) return null;
  return (
    <section class="knot-steps" aria-label="Steps">
      <h2>How it is tied</h2>
      <ol>
        {now.steps.map((s) => (
          <li key={s.number}>
            <button
              type="button"
              {...(s.number === step.value ? { "aria-current": "step" } : {})}
              onClick={() => { toStep(s.number); }}
            >
              <span class="figure">
                <img src={stepFigure(now.name, hand.value, s.number)} alt="" loading="lazy" />
              </span>
              <span><strong>{s.number}</strong> {s.text}</span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}
