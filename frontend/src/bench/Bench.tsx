// The bench: sections, the piece, what follows from it.
import type { JSX } from "preact";
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { doc, gone, outline } from "../state/bench";
import { go } from "../state/route";
import { TextPane } from "../text/TextPane";
import { Follows } from "./Follows";
import { MountSheet } from "./MountSheet";
import { Problems } from "./Problems";
import { SectionList } from "./SectionList";
import { SectionSheet } from "./SectionSheet";
import { StageView } from "./StageView";
import { opened, openedPart, side } from "./state";
import { Ties } from "./Ties";

export function Bench(): JSX.Element {
  const now = doc.value;
  if (gone.value) return <Gone />;
  if (!now) return <p class="wait" role="status">Opening the piece …</p>;
  return (
    <div class="bench">
      <h1 class="sr">{now.title}</h1>
      <Left />
      <StageView title={now.title} />
      <Right />
      <Problems />
      <Ties />
    </div>
  );
}

function Gone(): JSX.Element {
  return (
    <div class="wait" role="status">
      <p>{gone.value}</p>
      <button type="button" onClick={() => { go({ room: "piece", piece: null }); }}>
        All pieces
      </button>
    </div>
  );
}

function Left(): JSX.Element {
  const here = useRef<HTMLDivElement>(null);
  const [room, setRoom] = useState(0);
  useLayoutEffect(() => {
    if (!here.current) return;
    setRoom(here.current.clientHeight);
    const size = new ResizeObserver(([entry]) => {
      if (entry) setRoom(entry.contentRect.height);
    });
    size.observe(here.current);
    return () => { size.disconnect(); };
  }, []);
  const now = outline.value;
  const part = openedPart.value;
  return (
    <div class="left" ref={here}>
      {!now && <p class="soft pad">The plan has a mistake; its sections come when it is mended.</p>}
      {now && part && opened.value !== "mount" && <SectionSheet part={part} outline={now} />}
      {now && opened.value === "mount" && <MountSheet outline={now} />}
      {now && (!opened.value || (!part && opened.value !== "mount")) && (
        <SectionList outline={now} room={room} />
      )}
    </div>
  );
}

function Right(): JSX.Element {
  const text = side.value === "text";
  return (
    <aside class={`right${text ? " texting" : ""}`} aria-label={text ? "Plan as text" : "What follows"}>
      <div class="switch tabs" role="group" aria-label="Beside the piece">
        <button type="button" aria-pressed={!text} onClick={() => { side.value = "follows"; }}>
          What follows
        </button>
        <button type="button" aria-pressed={text} onClick={() => { side.value = "text"; }}>
          Plan as text
        </button>
      </div>
      {text ? <TextPane /> : <Follows />}
    </aside>
  );
}
