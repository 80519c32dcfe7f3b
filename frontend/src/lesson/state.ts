// The lesson of each piece: how it is wanted, how its making stands, and what came of it.
import { signal } from "@preact/signals";
import { door, get, Offline, Refused, send } from "../api/http";
import type { Lesson, LessonRequest, Making } from "../api/types";
import { followed } from "../state/making";
import { say, tell } from "../state/notices";
import { system } from "../state/prefs";
import { pace } from "./PaceLog";

/** A size edition as it is filled in: a name, and sizes as they are written. */
export interface Edition {
  name: string;
  sizes: Record<string, string>;
}

export interface Wish extends Omit<LessonRequest, "editions" | "pace"> {
  editions: Edition[];
}

export interface Standing {
  wish: Wish;
  making: Making | null;
  lesson: Lesson | null;
}

const standings = signal<Record<string, Standing>>({});

export function standing(piece: string): Standing {
  return standings.value[piece] ?? {
    wish: {
      language: "en",
      units: system.value,
      paper: system.value === "inch" ? "letter" : "a4",
      left_handed: false,
      editions: [],
      licence: "",
      version: "1",
      risk: 5,
      maker: "",
    },
    making: null,
    lesson: null,
  };
}

export function put(piece: string, news: Partial<Standing>): void {
  standings.value = { ...standings.value, [piece]: { ...standing(piece), ...news } };
}

export function wished(piece: string, news: Partial<Wish>): void {
  put(piece, { wish: { ...standing(piece).wish, ...news } });
}

/** An edition as the server reads it, such as "small: arm=12 cm, pot=40 cm". */
function written({ name, sizes }: Edition): string {
  const set = Object.entries(sizes).filter(([, value]) => value.trim());
  return `${name.trim()}: ${set.map(([size, value]) => `${size}=${value.trim()}`).join(", ")}`;
}

export async function make(piece: string): Promise<void> {
  const { wish } = standing(piece);
  const asked: LessonRequest = { ...wish, editions: wish.editions.map(written), pace: pace() };
  try {
    const begun = await send<Making>("POST", door(piece, "/lesson"), asked);
    const now = await followed(begun, (making) => {
      put(piece, { making });
    });
    if (now.state !== "done") return;
    put(piece, { lesson: await get<Lesson>(`/api/lessons/${now.number}`), making: null });
    say("The booklet is made.");
  } catch (why) {
    if (why instanceof Refused) tell(why.trouble);
    else if (why instanceof Offline) tell({ what: why.message, remedy: "Start it again." });
    else throw why;
  }
}
