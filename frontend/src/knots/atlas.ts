// The atlas of knots as the server has it, and which of them is open.
import { computed, signal } from "@preact/signals";
import { get, Offline, Refused } from "../api/http";
import type { Knot, KnotMotion, Knots } from "../api/types";
import { outline } from "../state/bench";
import { route } from "../state/route";
import { sentence } from "../units";

export type Hand = "left" | "right";

export const knots = signal<Knots | null>(null);
export const problem = signal("");
export const sought = signal("");
export const hand = signal<Hand>("left");
/** How thick the maker's cord is, mm; null until they say, when the open piece's cord counts. */
const typed = signal<number | null>(null);
export const cordMm = computed(() => typed.value ?? outline.value?.cords[0]?.diameter_mm ?? 4);

export function setCord(mm: number): void {
  typed.value = mm;
}

const FIRST = "square-knot-n4";

/** A knot of the maker's piece that the atlas does not come with, once it was asked for. */
export const other = signal<Knot | null>(null);
/** Why there is no such knot. */
export const missing = signal("");

/** Name of the knot that is shown; a kind of knot has its usual one. */
export const shown = computed(() => {
  const item = route.value.item ?? FIRST;
  return knots.value?.families.find((f) => f.name === item)?.usual ?? item;
});

export const chosen = computed<Knot | null>(() => {
  const all = knots.value?.families.flatMap((f) => f.knots) ?? [];
  const mine = other.value ? [other.value] : [];
  return [...all, ...mine].find((k) => k.name === shown.value) ?? null;
});

/** Ask for a knot that the atlas does not come with; it may have to be tightened first. */
export async function loadOther(name: string, mm: number): Promise<void> {
  missing.value = "";
  try {
    const found = await get<Knot>(`/api/knots/${encodeURIComponent(name)}?cord_mm=${mm}`);
    if (shown.peek() === name) other.value = found;
  } catch (why) {
    if (shown.peek() === name) missing.value = told(why);
  }
}

let asked = 0;

/** Fetch the atlas for the cord's thickness; the latest question counts. */
export async function load(mm: number): Promise<void> {
  const mine = ++asked;
  try {
    const found = await get<Knots>(`/api/knots?cord_mm=${mm}`);
    if (mine === asked) knots.value = found;
    problem.value = "";
  } catch (why) {
    problem.value = told(why);
  }
}

export function told(why: unknown): string {
  if (why instanceof Refused) return `${why.trouble.what} ${sentence(why.trouble.remedy)}`.trim();
  return why instanceof Offline ? why.message : "The knots could not be read.";
}

export async function motionOf(name: string, which: Hand): Promise<KnotMotion> {
  return get<KnotMotion>(`/api/knots/${encodeURIComponent(name)}/motion?hand=${which}`);
}

export function figure(name: string, which: Hand): string {
  return `/api/knots/${encodeURIComponent(name)}.svg?hand=${which}`;
}

export function stepFigure(name: string, which: Hand, number: number): string {
  return `/api/knots/${encodeURIComponent(name)}/steps/${number}.svg?hand=${which}`;
}

/** Families with the knots whose name has words that begin as those that are sought. */
export const found = computed(() => {
  const words = sought.value.toLowerCase().split(/\s+/).filter(Boolean);
  const fits = (text: string): boolean => {
    const named = text.toLowerCase().split(/[^\p{L}\p{N}.']+/u);
    return words.every((w) => named.some((n) => n.startsWith(w)));
  };
  return (knots.value?.families ?? [])
    .map((f) => ({ ...f, knots: f.knots.filter((k) => fits(`${k.title} ${f.title}`)) }))
    .filter((f) => f.knots.length > 0);
});
