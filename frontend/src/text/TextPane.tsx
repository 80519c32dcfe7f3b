// The plan as text, beside the picture. What is typed is saved at once, mistakes and all.
import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { atLine } from "../bench/state";
import { doc, retype } from "../state/bench";
import type { Editor } from "./editor";

const PAUSE = 300;

export function TextPane(): JSX.Element {
  const host = useRef<HTMLDivElement>(null);
  const [clash, setClash] = useState<{ mine: () => void; theirs: () => void } | null>(null);
  useEffect(() => {
    if (!host.current) return;
    return running(host.current, setClash);
  }, []);
  return (
    <div class="text-pane">
      {clash && (
        <div class="hint" role="alert">
          <p>The plan was changed elsewhere while you typed.</p>
          <button type="button" onClick={() => { clash.theirs(); setClash(null); }}>
            Take what it is now
          </button>{" "}
          <button type="button" onClick={() => { clash.mine(); setClash(null); }}>
            Put mine in its place
          </button>
        </div>
      )}
      <div class="editor" ref={host} />
    </div>
  );
}

type Clash = { mine: () => void; theirs: () => void } | null;

function running(host: HTMLElement, setClash: (clash: Clash) => void): () => void {
  let editor: Editor | null = null;
  let timer = 0;
  let unsaved = false;
  let ended = false;

  const save = async (): Promise<void> => {
    if (!editor) return;
    const text = editor.text();
    const took = await retype(text);
    if (took) {
      if (editor.text() === text) unsaved = false;
      return;
    }
    const now = doc.peek();
    if (now && now.text !== text && now.revision !== last) {
      setClash({
        mine: () => void save(),
        theirs: () => {
          unsaved = false;
          editor?.replace(doc.peek()?.text ?? "");
        },
      });
    }
  };
  let last = doc.peek()?.revision ?? 0;
  const typed = (): void => {
    unsaved = true;
    last = doc.peek()?.revision ?? 0;
    window.clearTimeout(timer);
    timer = window.setTimeout(() => void save(), PAUSE);
  };
  const ends: (() => void)[] = [];
  void import("./editor").then(({ createEditor }) => {
    if (ended) return;
    const made = createEditor(host, doc.peek()?.text ?? "", typed);
    editor = made;
    ends.push(
      doc.subscribe((now) => {
        if (!now) return;
        if (!unsaved) made.replace(now.text);
        if (made.text() === now.text) made.problems(now.problems);
      }),
      atLine.subscribe((spot) => {
        if (!spot) return;
        made.show(spot.line, spot.column);
        atLine.value = null;
      }),
    );
  });
  return () => {
    ended = true;
    window.clearTimeout(timer);
    if (unsaved) void save();
    for (const end of ends) end();
    editor?.destroy();
  };
}
