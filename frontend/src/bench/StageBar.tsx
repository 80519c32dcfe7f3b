// Small tools under the piece: 3-D or flat, all of it, nearer and farther.
import type { JSX } from "preact";
import { Icon } from "../parts/Icon";
import { START } from "../stage/view";
import { shows, side, stage } from "./state";

interface Props {
  failed: boolean;
  say: (words: string) => void;
}

export function StageBar({ failed, say }: Props): JSX.Element {
  const solid = shows.value === "solid";
  const nearer = (factor: number): void => {
    const now = stage.value;
    now?.look({ zoom: now.view.zoom * factor });
  };
  return (
    <div class="stage-bar" role="toolbar" aria-label="How the piece is shown">
      <div class="switch">
        <button
          type="button"
          aria-pressed={solid}
          disabled={failed}
          onClick={() => { shows.value = "solid"; say("Shown in three dimensions."); }}
        >
          3-D
        </button>
        <button
          type="button"
          aria-pressed={!solid}
          onClick={() => { shows.value = "flat"; say("Shown flat, with measures."); }}
        >
          Flat
        </button>
      </div>
      {solid && (
        <>
          <button type="button" class="quiet" aria-label="Farther" title="Farther" onClick={() => { nearer(1 / 1.3); }}>
            <Icon sign="minus" />
          </button>
          <button type="button" class="quiet" aria-label="Nearer" title="Nearer" onClick={() => { nearer(1.3); }}>
            <Icon sign="plus" />
          </button>
          <button type="button" class="quiet" aria-label="Show all of it" title="Show all of it" onClick={() => stage.value?.look(START)}>
            <Icon sign="whole" />
          </button>
        </>
      )}
      <button
        type="button"
        class="quiet"
        aria-pressed={side.value === "text"}
        onClick={() => { side.value = side.value === "text" ? "follows" : "text"; }}
      >
        <Icon sign="text" /> Plan as text
      </button>
    </div>
  );
}
