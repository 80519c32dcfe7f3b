// The piece in the middle: hanging in three dimensions, or flat.
import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { picture } from "../state/bench";
import { dark } from "../state/prefs";
import { say } from "../state/notices";
import { colours } from "../style/colours";
import { createStage, type Stage } from "../stage/stage";
import { turning } from "../stage/turning";
import { Edges } from "./Edges";
import { FlatPicture } from "./FlatPicture";
import { pointing } from "./pointing";
import { showing } from "./showing";
import { edges, hung, shows, spans, stage } from "./state";
import { StageBar } from "./StageBar";
import { StrandLabel } from "./StrandLabel";

const KEYS =
  "Arrow keys turn and move it, Page Up and Page Down tilt it, plus and minus come nearer, 0 shows all of it.";

export function StageView({ title }: { title: string }): JSX.Element {
  const frame = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const [failed, setFailed] = useState("");
  useEffect(() => {
    if (!frame.current || !canvas.current) return;
    let made: Stage;
    try {
      made = createStage(canvas.current, 64);
    } catch {
      setFailed("This browser cannot draw in three dimensions, so the piece is shown flat.");
      shows.value = "flat";
      return;
    }
    return running(made, frame.current);
  }, []);
  const solid = shows.value === "solid";
  return (
    <section class="stage" aria-label="The piece">
      <div
        ref={frame}
        class={`solid${solid ? "" : " away"}`}
        tabIndex={solid ? 0 : -1}
        role="img"
        aria-label={`${title}, hanging. ${KEYS}`}
      >
        <canvas ref={canvas} aria-hidden="true" />
      </div>
      {failed && <p class="stage-note" role="status">{failed}</p>}
      {!hung.value && solid && !failed && <p class="stage-note" role="status">Tying the piece …</p>}
      {!solid && <FlatPicture title={title} />}
      {solid && <Edges />}
      <StrandLabel />
      <StageBar failed={failed !== ""} say={say} />
    </section>
  );
}

/** Everything that goes on while a stage is there; gives what ends it. */
function running(made: Stage, frame: HTMLElement): () => void {
  const paint = (): void => {
    made.paint({ ...colours(), dark: dark.value });
  };
  made.drawn = () => {
    const parts = picture.peek()?.parts ?? {};
    spans.value = Object.entries(parts).map(([path, { top, bottom }]) => ({
      path,
      top: made.heightOf(top),
      bottom: made.heightOf(bottom),
    }));
    edges.value = made.edges();
  };
  const size = new ResizeObserver(([entry]) => {
    if (entry) made.resize(entry.contentRect.width, entry.contentRect.height);
  });
  size.observe(frame);
  const ends = [
    dark.subscribe(() => {
      // The colours are the style sheet's, which follows the attribute that this value sets.
      queueMicrotask(paint);
    }),
    turning(made, frame),
    pointing(made, frame),
    showing(made),
    () => { size.disconnect(); },
    () => { made.dispose(); },
  ];
  stage.value = made;
  return () => {
    stage.value = null;
    for (const end of ends) end();
  };
}
