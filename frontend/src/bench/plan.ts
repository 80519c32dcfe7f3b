// Questions to an outline: what can be changed where, and what to call it.
import type { Outline, Part, Size, Value } from "../api/types";

/** A value that stands for a part of the piece: one of the plan's sizes, or a step's own value. */
export interface Knob {
  label: string;
  path: string;
  kind: Value["kind"];
  text: string;
  number: number | null;
  least: number | null;
  most: number | null;
  about: string;
  /** Whether it can be stepped: it is written as one plain number or length. */
  plain: boolean;
}

const PLAIN = /^(\d+([.]\d+)?|\d*[½¼¾]|\d+( \d+)?\/\d+)\s*(mm|cm|m|in|ft|"|')?$/;

export function plain(text: string): boolean {
  return PLAIN.test(text.trim());
}

export function sizeKnob(size: Size): Knob {
  const { name, path, kind, text, number, least, most, about } = size;
  return {
    label: words(name), path, kind, text, number, least, most, about,
    plain: plain(text) && size.uses.length === 0,
  };
}

export function valueKnob(value: Value): Knob {
  const { key, path, kind, text, number, about } = value;
  return {
    label: words(key), path, kind, text, number, least: null, most: null, about,
    plain: plain(text) && value.uses.length === 0,
  };
}

/** All values of a part and of those within it, in the order written. */
export function valuesWithin(part: Part): Value[] {
  return [...part.values, ...part.parts.flatMap(valuesWithin)];
}

/** The sizes that a part is made of: those that stand alone, and what others are made of. */
export function sizesOf(part: Part, outline: Outline): Size[] {
  const byName = new Map(outline.sizes.map((s) => [s.name, s]));
  const found = new Set<Size>();
  const follow = (name: string, depth: number): void => {
    const size = byName.get(name);
    if (!size || depth > 20) return;
    if (size.uses.length === 0) found.add(size);
    for (const next of size.uses) follow(next, depth + 1);
  };
  for (const value of valuesWithin(part)) {
    for (const name of value.uses) follow(name, 0);
  }
  return outline.sizes.filter((s) => found.has(s));
}

const TELLING = new Set(["times", "rows", "length", "free", "height", "turns", "fringe", "repeat"]);

/** What a part's card offers: its sizes, or else its most telling values. */
export function knobsOf(part: Part, outline: Outline): Knob[] {
  const sizes = sizesOf(part, outline).map(sizeKnob);
  if (sizes.length) return sizes;
  return valuesWithin(part)
    .filter((v) => TELLING.has(v.key) && (v.kind === "count" || v.kind === "length"))
    .filter((v) => v.uses.length === 0)
    .slice(0, 3)
    .map(valueKnob);
}

/** A name from a plan as words. */
export function words(name: string): string {
  const text = name.replaceAll("_", " ").replaceAll("-", " ").replaceAll(".", ": ");
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** What a step does, in a word or two. */
export function called(part: Part): string {
  const knot = words(part.name).toLowerCase();
  switch (part.verb) {
    case "section": return part.name;
    case "tie": return words(part.name);
    case "rows": return "Rows of knots";
    case "hitch": return `Double half hitches to the ${knot}`;
    case "gather": return "Gathering knot";
    case "free": return "Free cord";
    case "braid": return "Braid";
    case "fringe": return "Fringe";
    case "leave": return "Strands end";
    case "add": return "New cords";
    case "join": return "Close to a round";
    case "open": return "Open to flat work";
    case "seam": return "Move the seam";
    case "pass": return "Groups pass";
    case "reorder": return "Strands change places";
    case "motif": return `Motif: ${knot}`;
    case "repeat": return "Repeat";
    default: return words(part.verb);
  }
}

export function partAt(outline: Outline, path: string): Part | null {
  const search = (parts: Part[]): Part | null => {
    for (const part of parts) {
      if (part.path === path) return part;
      if (path.startsWith(`${part.path}.`)) return search(part.parts) ?? part;
    }
    return null;
  };
  return search(outline.parts);
}

/** The list that a part stands in, and its place there. */
export function placeOf(path: string): { list: string; index: number } {
  const cut = path.lastIndexOf(".");
  return { list: path.slice(0, cut), index: Number(path.slice(cut + 1)) };
}
