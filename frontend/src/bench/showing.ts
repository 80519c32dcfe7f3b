// Fetching pictures as they become ready: the latest wins, and nobody waits for one.
import { effect } from "@preact/signals";
import { bytes, Offline } from "../api/http";
import type { Picture } from "../api/types";
import { readScene } from "../stage/load";
import { modelOf } from "../stage/model";
import { lightUp } from "../stage/pick";
import type { Stage } from "../stage/stage";
import { picture } from "../state/bench";
import { measured } from "../state/speed";
import { strandsLit } from "./state";

export function showing(stage: Stage): () => void {
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
      latest = now;
      void show();
    }),
    effect(() => {
      const names = strandsLit.value;
      const model = stage.model();
      if (!model) return;
      lightUp(model, numbered(model.names, names));
      stage.redraw();
    }),
  ];
  return () => {
    latest = null;
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
  stage.put(model, wanted.detail);
  measured("picture", wanted.trying ?? wanted.revision);
}

function numbered(
  all: readonly string[],
  names: readonly string[] | null,
): ReadonlySet<number> | null {
  if (!names) return null;
  const wanted = new Set(names);
  return new Set(all.flatMap((name, i) => (wanted.has(name) ? [i] : [])));
}
