// Lines that tie every section's card to the stretch of the piece that it stands for.
import type { JSX } from "preact";
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { arrangedAt, edges, opened, pointed, shows, spans } from "./state";

interface Tie {
  path: string;
  line: string;
  bracket: string;
}

/** Drawn over the list and the stage; positions come from where cards and piece are. */
export function Ties(): JSX.Element {
  const here = useRef<SVGSVGElement>(null);
  const [ties, setTies] = useState<Tie[]>([]);
  const where = spans.value;
  const [left] = edges.value;
  const open = opened.value;
  const cards = arrangedAt.value;
  useLayoutEffect(() => {
    const svg = here.current;
    const frame = svg?.parentElement;
    if (!svg || !frame) return;
    const measure = (): void => {
      setTies(tiesIn(frame));
    };
    measure();
    const list = frame.querySelector(".sections");
    list?.addEventListener("scroll", measure, { passive: true });
    return () => {
      list?.removeEventListener("scroll", measure);
    };
  }, [where, left, open, cards]);
  const lit = pointed.value ?? opened.value;
  // The flat picture names its sections itself, at a scale of its own.
  if (shows.value === "flat") return <></>;
  return (
    <svg ref={here} class="ties" aria-hidden="true">
      {ties.map((tie) => (
        <g key={tie.path} class={tie.path === lit ? "lit" : ""}>
          <path d={tie.line} />
          <path d={tie.bracket} class="bracket" />
        </g>
      ))}
    </svg>
  );
}

function tiesIn(frame: HTMLElement): Tie[] {
  const stageBox = frame.querySelector(".stage")?.getBoundingClientRect();
  const listBox = frame.querySelector(".left")?.getBoundingClientRect();
  if (!stageBox || !listBox || listBox.right > stageBox.left + 40) return [];
  const origin = frame.getBoundingClientRect();
  const found: Tie[] = [];
  for (const span of spans.value) {
    // The open section's sheet takes the place of the cards.
    const card = frame.querySelector(`.card[data-path="${CSS.escape(span.path)}"]`) ??
      (span.path === opened.peek() ? frame.querySelector(".sheet") : null);
    const title = card?.querySelector(".title") ?? card;
    if (!card || !title) continue;
    const box = card.getBoundingClientRect();
    const from = title.getBoundingClientRect();
    const y1 = (from.top + from.bottom) / 2 - origin.top;
    if (y1 < 0 || y1 > origin.height) continue;
    const x1 = box.right - origin.left;
    const x2 = Math.max(stageBox.left - origin.left + 14, stageBox.left - origin.left + edges.value[0] - 22);
    const dy = stageBox.top - origin.top;
    const height = stageBox.height;
    const top = Math.min(height - 4, Math.max(4, span.top)) + dy + 1.5;
    const bottom = Math.min(height - 4, Math.max(4, span.bottom)) + dy - 1.5;
    const middle = (top + bottom) / 2;
    const bend = x1 + (x2 - x1) * 0.5;
    found.push({
      path: span.path,
      line: `M${x1} ${y1}C${bend} ${y1} ${bend} ${middle} ${x2} ${middle}`,
      bracket: `M${x2 + 7} ${top}H${x2}V${Math.max(top, bottom)}H${x2 + 7}`,
    });
  }
  return found;
}
