// Dragging a section's lower edge: which value it changes, and how far.
import type { Outline, Part } from "../api/types";
import { type System, stepped, written } from "../units";
import { type Knob, sizesOf, sizeKnob, valueKnob, valuesWithin } from "./plan";

const DRAWN_OUT = new Set(["free", "length", "gap", "fringe", "height"]);

/** The value that draws a section out: its longest free length, or else a count of knots. */
export function edgeKnob(part: Part, outline: Outline): Knob | null {
  const sizes = sizesOf(part, outline).map(sizeKnob);
  const own = valuesWithin(part).filter((v) => v.uses.length === 0).map(valueKnob);
  const usable = (k: Knob): boolean => k.plain && k.number !== null;
  const longest = (from: Knob[]): Knob | null =>
    from.filter((k) => k.kind === "length" && usable(k))
      .sort((a, b) => (b.number ?? 0) - (a.number ?? 0))[0] ?? null;
  const ownLengths = own.filter((k) => DRAWN_OUT.has(k.label.toLowerCase()));
  return longest(sizes) ?? longest(ownLengths) ??
    [...sizes, ...own].find((k) => k.kind === "count" && usable(k) && k.label !== "Each") ?? null;
}

/** How a value follows a drag: what was learned so far of what it does to the edge. */
export interface Pull {
  knob: Knob;
  start: number;
  /** Depth of the edge at the start, mm. */
  from: number;
  /** mm of depth for each unit of the value. */
  slope: number;
}

export function pull(knob: Knob, from: number, high: number): Pull {
  const start = knob.number ?? 0;
  const slope = knob.kind === "length" ? 1 : Math.max(1, high / Math.max(1, start));
  return { knob, start, from, slope };
}

/** Mind what a try came to: the edge's depth, mm, with that value. */
export function learned(now: Pull, value: number, depth: number): Pull {
  const change = value - now.start;
  const slope = (depth - now.from) / change;
  if (Math.abs(change) < 1e-6 || !Number.isFinite(slope) || slope < 0.02) return now;
  return { ...now, slope };
}

/** The value for an edge that is drawn down by so many mm. */
export function pulled(now: Pull, mm: number, system: System): number {
  const { knob, start, slope } = now;
  const exact = start + mm / slope;
  const unit = knob.kind === "length" ? (system === "inch" ? 6.35 : 5) : 1;
  const round = Math.round(exact / unit) * unit;
  const least = Math.max(knob.least ?? 0, 0);
  return Math.min(knob.most ?? Number.MAX_VALUE, Math.max(least, round));
}

export function asText(knob: Knob, value: number, system: System): string {
  return knob.kind === "length" ? written(value, system) : String(Math.round(value));
}

export function nudged(knob: Knob, by: 1 | -1, system: System): number {
  const now = knob.number ?? 0;
  const next = knob.kind === "length" ? stepped(now, by, 1, system) : now + by;
  const least = Math.max(knob.least ?? 0, 0);
  return Math.min(knob.most ?? Number.MAX_VALUE, Math.max(least, next));
}
