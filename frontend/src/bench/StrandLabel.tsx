// What the strand that is lit up comes to: its length, and what is left over.
import type { JSX } from "preact";
import { numbers } from "../state/bench";
import { system } from "../state/prefs";
import { length } from "../units";
import { pointer } from "./pointing";
import { held, lit, strandsLit } from "./state";

export function StrandLabel(): JSX.Element | null {
  const names = strandsLit.value;
  const [name] = names ?? [];
  const strand = numbers.value?.cut.strands.find((s) => s.id === name);
  if (!names || names.length !== 1 || !strand) return null;
  const cord = numbers.value?.cut.cords.find((c) => c.id === strand.cut);
  const left = strand.over_mm >= 0 ? "left over" : "too short";
  const half = { left: ", left half", right: ", right half", whole: "" }[strand.half];
  return (
    <div class="strand-label" role="status">
      <strong>Strand {strand.id}</strong>
      <span class="soft">
        {cord ? `cut ${cord.id}, ` : ""}{strand.cord}{half}
      </span>
      <span>
        uses <b>{length(strand.used_mm, system.value)}</b>, ends with{" "}
        <b>{length(strand.end_mm, system.value)}</b>
      </span>
      <span>
        <b>{length(Math.abs(strand.over_mm), system.value)}</b> {left}
      </span>
      {held.value && !lit.value && (
        <button type="button" class="quiet" onClick={() => { held.value = null; pointer.value = null; }}>
          Let go
        </button>
      )}
    </div>
  );
}
