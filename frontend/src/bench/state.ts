// What is picked out on the bench: a section, strands, how the piece is shown.
import { computed, signal } from "@preact/signals";
import type { Stage } from "../stage/stage";
import { numbers, outline } from "../state/bench";
import { partAt } from "./plan";

/** Path of the section that is open, or null. */
export const opened = signal<string | null>(null);
/** Path of the section that is pointed at. */
export const pointed = signal<string | null>(null);
/** Names of the strands that are lit up; null if none. */
export const lit = signal<readonly string[] | null>(null);
/** Strands that stay lit when the pointer goes. */
export const held = signal<readonly string[] | null>(null);
export const shows = signal<"solid" | "flat">("solid");
export const side = signal<"follows" | "text">("follows");
/** Line that the text is to show. */
export const atLine = signal<{ line: number; column: number } | null>(null);

export const stage = signal<Stage | null>(null);
/** Whether the piece is on the stage. */
export const hung = signal(false);

/** Where parts are on the screen: pixels from the stage's top. */
export interface Span {
  path: string;
  top: number;
  bottom: number;
}
export const spans = signal<Span[]>([]);
/** Counts up when cards have been put in their places. */
export const arrangedAt = signal(0);
/** Left and right edge of the piece, pixels from the stage's left. */
export const edges = signal<[number, number]>([0, 0]);

export const openedPart = computed(() => {
  const now = outline.value;
  return now && opened.value ? partAt(now, opened.value) : null;
});

export const strandsLit = computed(() => lit.value ?? held.value);

/** Names of the strands of an entry of the cut list. */
export function strandsOf(id: string): string[] {
  return (numbers.value?.cut.strands ?? []).filter((s) => s.cut === id).map((s) => s.id);
}

export function showLine(line: number | null, column: number | null): void {
  side.value = "text";
  if (line !== null) atLine.value = { line, column: column ?? 1 };
}
