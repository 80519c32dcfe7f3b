// Showing pictures as they become ready: the latest wins, and nobody waits for one.
import { effect } from "@preact/signals";
import { Behind, bytes, Offline, Refused } from "../api/http";
import type { Picture } from "../api/types";
import { emptyLibrary, holds, type Library, takeIn } from "../stage/library";
import { readScene } from "../stage/load";
import { type PosedModel, posedModel } from "../stage/model";
import { lightUp } from "../stage/pick";
import type { Detail, Stage } from "../stage/stage";
import { idOf, picture } from "../state/bench";
import { measured } from "../state/speed";
import { hung, strandsLit } from "./state";

/** The fine picture waits until nothing has changed for so long, ms. */
const PAUSE = 350;
/** As cordwright.draw.scene_knots has it. */
const FINE = { low: { sides: 5, turn: 0.6 }, high: { sides: 10, turn: 0.3 } } as const;

/** Shapes are the same in every piece. */
const libraries: Record<Detail, Library> = { low: emptyLibrary(), high: emptyLibrary() };

export function showing(stage: Stage): () => void {
  const models: Record<Detail, PosedModel> = {
    low: posedModel(FINE.low),
    high: posedModel(FINE.high),
  };
  let later = 0;
  let ended = false;

  const show = (now: Picture, detail: Detail): void => {
    if (!holds(libraries[detail], now.poses)) {
      void fetched(now, detail).then((there) => {
        if (there && !ended && picture.peek() === now) show(now, detail);
      });
      return;
    }
    const model = models[detail];
    model.pose(now.poses, libraries[detail]);
    lightUp(model, numbered(model.names, strandsLit.peek()));
    stage.quiet(strandsLit.peek() !== null);
    stage.put(model, detail);
    hung.value = true;
    if (detail === "low") measured("picture", idOf(now), now.ms, stage.finished());
  };

  const ends = [
    picture.subscribe((now) => {
      window.clearTimeout(later);
      if (!now) return;
      show(now, "low");
      later = window.setTimeout(() => { show(now, "high"); }, PAUSE);
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
    ended = true;
    hung.value = false;
    window.clearTimeout(later);
    for (const end of ends) end();
  };
}

/** Fetch the parts that a picture needs; false if it is no longer wanted, or nobody answers. */
async function fetched(wanted: Picture, detail: Detail): Promise<boolean> {
  try {
    const data = await bytes(`${wanted.scene}&detail=${detail}`);
    takeIn(libraries[detail], await readScene(data));
  } catch (problem) {
    // A newer state has taken its place, or the server is gone, which the page says elsewhere.
    const known = [Behind, Offline, Refused].some((kind) => problem instanceof kind);
    if (known) return false;
    throw problem;
  }
  return holds(libraries[detail], wanted.poses);
}

function numbered(
  all: readonly string[],
  names: readonly string[] | null,
): ReadonlySet<number> | null {
  if (!names) return null;
  const wanted = new Set(names);
  return new Set(all.flatMap((name, i) => (wanted.has(name) ? [i] : [])));
}
