// How fast the maker ties: entries of their own log, kept by the browser for all their pieces.
import { effect, signal } from "@preact/signals";
import type { JSX } from "preact";
import type { KnotName, PaceEntry } from "../api/types";
import { type Line, Lines } from "../parts/Lines";

const KNOTS: Record<KnotName, string> = {
  "square-knot": "square knots",
  "half-knot": "half knots",
  "half-hitch": "half hitches",
  "double-half-hitch": "double half hitches",
  "larks-head": "lark’s heads",
  overhand: "overhand knots",
  gathering: "gathering knots",
  braid: "rounds of a braid",
};
const KEY = "cordwright.pace";

const log = signal<Line[]>(kept());

function kept(): Line[] {
  try {
    const found = JSON.parse(localStorage.getItem(KEY) ?? "[]") as unknown;
    return Array.isArray(found) ? (found as Line[]).filter((line) => (line["knot"] ?? "") in KNOTS) : [];
  } catch {
    return []; // a browser that keeps nothing, or kept something else
  }
}

effect(() => {
  try {
    localStorage.setItem(KEY, JSON.stringify(log.value));
  } catch {
    // a browser that keeps nothing
  }
});

/** The entries that are whole. */
export function pace(): PaceEntry[] {
  return log.value.flatMap((line) => {
    const [count, minutes] = [number(line["count"]), number(line["minutes"])];
    return count && minutes ? [{ knot: line["knot"] as KnotName, count, minutes }] : [];
  });
}

function number(text = ""): number {
  const found = Number(text.trim().replace(",", "."));
  return found > 0 && found <= 1e6 ? found : 0;
}

export function PaceLog(): JSX.Element {
  const unread = log.value.length - pace().length;
  return (
    <>
      <Lines
        name="How fast you tie"
        about="So many of a knot, in so many minutes by the clock. The lesson’s time is told from it; without it, from common practice."
        add="Add an entry"
        columns={[
          { key: "knot", name: "Knot", choices: Object.entries(KNOTS) },
          { key: "count", name: "How many", example: "48" },
          { key: "minutes", name: "Minutes", example: "11.5" },
        ]}
        lines={log.value}
        put={(lines) => { log.value = lines; }}
      />
      {unread > 0 && (
        <p class="soft small">Entries count when both numbers are there and above 0.</p>
      )}
    </>
  );
}
