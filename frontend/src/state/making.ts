// What takes a while: how it stands is asked for until it has come to its end.
import { get, Offline, Refused, remove } from "../api/http";
import type { Making } from "../api/types";

const EVERY_MS = 350;

export function ended(now: Making): boolean {
  return now.state !== "waiting" && now.state !== "running";
}

/** Follow something to its end; `told` hears of every change. */
export async function followed(begun: Making, told: (now: Making) => void): Promise<Making> {
  let now = begun;
  told(now);
  while (!ended(now)) {
    await new Promise((resolve) => window.setTimeout(resolve, EVERY_MS));
    try {
      now = await get<Making>(`/api/makings/${begun.number}`);
    } catch (why) {
      if (!(why instanceof Refused || why instanceof Offline)) throw why;
      const remedy = why instanceof Refused ? why.trouble.remedy : "Start it again.";
      now = { ...now, state: "failed", trouble: why.message, remedy };
    }
    told(now);
  }
  return now;
}

export async function giveUp(now: Making): Promise<void> {
  try {
    await remove(`/api/makings/${now.number}`);
  } catch (why) {
    if (!(why instanceof Refused || why instanceof Offline)) throw why;
  }
}
