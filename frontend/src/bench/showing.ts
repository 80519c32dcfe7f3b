// Fetching pictures as they become ready: the latest wins, and nobody waits for one.
import { effect } from "@preact/signals";
import { bytes, Offline } from "../api/http";
import type { Picture } from "../api/types";
import { readScene } from "../stage/load";
import { modelOf } from "../stage/model";
import { lightUp } from "../stage/pick";
import type { Stage } from "../stage/stage";
import { idOf, picture } from "../state/bench";
import { measured } from "../state/speed";
import { strandsLit } from "./state";

/** The fine picture waits until nothing has changed for so long, ms. */
const PAUSE = 350;

export function showing(stage: Stage): () => void {
  let later = 0;
  let latest: Picture | null = null;
  let busy = false;

  const show = async (): Promise<void> => {
    if (busy) return;
    busy = true;
    try {
      for (;;) {
        const wanted = latest;
        if (!wanted) return;
        latest = null;
        await showOne(stage, wanted, () => latest === null || latest.revision === wanted.revision);
      }
    } finally {
      busy = false;
    }
  };

  const ends = [
    picture.subscribe((now) => {
      if (!now) return;
      window.clearTimeout(later);
      const next = (): void => {
        latest = now;
        void show();
      };
      // The first picture is fetched at once, however fine; nothing else is there to be looked at.
      if (now.detail === "high" && stage.model()) later = window.setTimeout(next, PAUSE);
      else next();
    }),
    effect(() => {
      const names = strandsLit.value;
      const model = stage.model();
      if (!model) return;
      lightUp(model, numbered(model.names, names));
      stage.quiet(names !== null);
      stage.redraw();
    }),
  ];
  return () => {
    latest = null;
    window.clearTimeout(later);
    for (const end of ends) end();
  };
}

async function showOne(stage: Stage, wanted: Picture, still: () => boolean): Promise<void> {
  let data: ArrayBuffer;
  try {
    data = await bytes(wanted.scene);
  } catch (problem) {
    // A newer state has taken its place, or the server is gone, which the page says elsewhere.
    if (problem instanceof Offline || !still()) return;
    return;
  }
  const model = modelOf(await readScene(data));
  if (!still()) return;
  lightUp(model, numbered(model.names, strandsLit.peek()));
  stage.quiet(strandsLit.peek() !== null);
  stage.put(model, wanted.detail);
  measured("picture", idOf(wanted), wanted.ms);
}

function numbered(
  all: readonly string[],
  names: readonly string[] | null,
): ReadonlySet<number> | null {
  if (!names) return null;
  const wanted = new Set(names);
  return new Set(all.flatMap((name, i) => (wanted.has(name) ? [i] : [])));
}
