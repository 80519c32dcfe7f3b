// Work that can be put into a plan, with what it begins with.
import type { Outline } from "../api/types";

export interface Kind {
  name: string;
  about: string;
  /** Knot of the atlas whose figure stands for it; none for work without a knot. */
  figure: string | null;
  step: (outline: Outline) => Record<string, unknown>;
}

const firstCord = (outline: Outline): string => outline.cords[0]?.name ?? "main";

export const KINDS: readonly Kind[] = [
  {
    name: "Square knots",
    about: "Sinnets of square knots, side by side.",
    figure: "square-knot",
    step: () => ({ tie: "square-knot", each: 4, times: 6 }),
  },
  {
    name: "Net of square knots",
    about: "Rows in which every second one starts two strands on.",
    figure: "square-knot",
    step: () => ({ rows: 4, tie: "square-knot", each: 4, shift: 2, gap: "2 cm" }),
  },
  {
    name: "Spiral of half knots",
    about: "Half knots turn by themselves.",
    figure: "half-knot",
    step: () => ({ tie: "half-knot", each: 4, times: 12 }),
  },
  {
    name: "Half hitches",
    about: "One strand ties round the others.",
    figure: "half-hitch",
    step: () => ({ tie: "half-hitch", each: 4, times: 8 }),
  },
  {
    name: "Overhand knots",
    about: "All strands of a group together.",
    figure: "overhand",
    step: () => ({ tie: "overhand", each: 2 }),
  },
  {
    name: "Row of double half hitches",
    about: "Every strand ties on one holding strand.",
    figure: "double-half-hitch",
    step: () => ({ hitch: "right" }),
  },
  {
    name: "Gathering knot",
    about: "A cord wraps all strands together.",
    figure: "gathering",
    step: (o) => ({ gather: "all", turns: 6, with: { cord: firstCord(o) } }),
  },
  {
    name: "Braids of three",
    about: "Strands plaited in threes.",
    figure: "braid",
    step: () => ({ braid: 3, length: "10 cm" }),
  },
  {
    name: "Free cord",
    about: "Strands hang without knots.",
    figure: null,
    step: () => ({ free: "10 cm" }),
  },
  {
    name: "Fringe",
    about: "Ends the strands, trimmed level.",
    figure: null,
    step: () => ({ fringe: "15 cm", trim: "level" }),
  },
  {
    name: "Close to a round",
    about: "The last strand becomes the first one's neighbour.",
    figure: null,
    step: () => ({ join: "round" }),
  },
];
