// What is asked of a run of kits, as it is filled in, and in the words that the server reads.
import { signal } from "@preact/signals";
import type { Making, Supplied, SupplyRequest } from "../api/types";
import type { Line } from "../parts/Lines";
import { system } from "../state/prefs";

export type Simple = "keep" | "setup" | "box" | "studio" | "maker" | Money;
export type Money =
  | "currency" | "minutes" | "hourly" | "overhead" | "fixed" | "wholesale" | "retail" | "asked";
export const IN_KIT = ["ring", "rod", "pot"] as const;

/** A run of kits as it is filled in. */
export interface Wanted {
  kits: number;
  words: Partial<Record<Simple, string>>;
  buys: Line[];
  spools: Line[];
  fittings: Line[];
  packing: Line[];
  inKit: readonly string[];
}

/** How the cutting plan of a piece stands. */
export interface Standing {
  wanted: Wanted;
  making: Making | null;
  plan: Supplied | null;
}

const START: Standing = {
  wanted: {
    kits: 1, words: { keep: "50cm", setup: "1cm", wholesale: "2", retail: "2" },
    buys: [], spools: [], fittings: [], packing: [], inKit: ["ring", "rod"],
  },
  making: null,
  plan: null,
};

const standings = signal<Record<string, Standing>>({});

export function standing(piece: string): Standing {
  return standings.value[piece] ?? START;
}

export function put(piece: string, news: Partial<Standing>): void {
  standings.value = { ...standings.value, [piece]: { ...standing(piece), ...news } };
}

export function request({ wanted }: Standing): SupplyRequest {
  const { words } = wanted;
  const word = (name: Simple): string => words[name]?.trim() ?? "";
  const sum = (name: Simple): string => word(name) || "0";
  return {
    kits: wanted.kits,
    keep: word("keep") || "0",
    setup: word("setup") || "0",
    seconds: 10,
    buys: wanted.buys.flatMap(cordText),
    spools: wanted.spools.flatMap(cordText),
    fittings: wanted.fittings.flatMap(thingText),
    packing: wanted.packing.flatMap(thingText),
    in_kit: wanted.inKit.join(",") || "none",
    currency: word("currency") || null,
    asked: word("asked") || null,
    box: word("box") || null,
    minutes: sum("minutes"), hourly: sum("hourly"), overhead: sum("overhead"), fixed: sum("fixed"),
    wholesale: word("wholesale") || "2", retail: word("retail") || "2",
    studio: word("studio"), maker: word("maker"),
    units: system.value,
  };
}

/** As in "main=100 m@12.50x3": a cord, its length, the price of one, how many alike. */
function cordText(line: Line): string[] {
  const { cord = "", length = "" } = line;
  return cord && length.trim() ? [`${cord}=${length.trim()}${after("@", line["price"])}${after("x", line["count"])}`] : [];
}

/** As in "ring=1.20@15gx2": a thing, its price, its weight, how many in each kit. */
function thingText(line: Line): string[] {
  const { name = "" } = line;
  const times = `x${line["count"]?.trim() || "1"}`; // always, for a name may end like one
  const rest = `${after("=", line["price"])}${after("@", line["weight"])}${times}`;
  return name.trim() ? [name.trim() + rest] : [];
}

function after(sign: string, text = ""): string {
  return text.trim() && sign + text.trim();
}
