// The shelf as the server has it, and what is asked of it.
import { signal } from "@preact/signals";
import { get, Offline, Refused, send } from "../api/http";
import type { Making, Shelf, ShelfKind } from "../api/types";
import { followed } from "../state/making";
import { tell } from "../state/notices";
import { system } from "../state/prefs";
import { length } from "../units";

export type Kind = ShelfKind["kind"];
export type Thing = Record<string, string>;

export const shelf = signal<Shelf | null>(null);

/** Do something that the server may refuse; says why, and gives null then. */
export async function tried<T>(what: () => Promise<T>): Promise<T | null> {
  try {
    return await what();
  } catch (why) {
    if (why instanceof Refused) tell(why.trouble);
    else if (why instanceof Offline) tell({ what: why.message, remedy: "Start it again." });
    else throw why;
    return null;
  }
}

export async function look(): Promise<void> {
  const found = await tried(() => get<Shelf>("/api/shelf"));
  if (found) shelf.value = found;
}

/** Ask for something that changes the shelf; true if it was done. */
export async function changed(door: string, body: unknown): Promise<boolean> {
  const found = await tried(() => send<Shelf>("POST", `/api/shelf/${door}`, body));
  if (found) shelf.value = found;
  return found !== null;
}

/** Begin what takes a while and wait for it; its number when it is done. */
export async function worked(
  door: string,
  body: unknown,
  told: (now: Making) => void,
): Promise<number | null> {
  return tried(async () => {
    const now = await followed(await send<Making>("POST", door, body), told);
    return now.state === "done" ? now.number : null;
  }).then((number) => number ?? null);
}

export function of(kind: Kind): ShelfKind | undefined {
  return shelf.value?.kinds.find((k) => k.kind === kind);
}

/** A field as it is read: lengths in the maker's units. */
export function shown(text: string): string {
  const mm = /^(\d+(?:\.\d+)?) mm$/.exec(text)?.[1];
  return mm !== undefined && Number(mm) >= 50 ? length(Number(mm), system.value) : text;
}
