// The plan as text, beside the picture. What is typed is saved at once, mistakes and all.
import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { atLine } from "../bench/state";
import { doc, retype } from "../state/bench";
import { tell } from "../state/notices";
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
  /** What was typed goes on from: the plan as it was last shown, or as it was last sent. */
  let base = plain(doc.peek()?.text ?? "");
  let sent = base;

  const save = async (over = false): Promise<void> => {
    if (!editor) return;
    const text = editor.text();
    const now = plain(doc.peek()?.text ?? "");
    if (!over && now !== base && now !== sent && now !== text) {
      // Saved now, it would undo what was done elsewhere meanwhile.
      ask();
      return;
    }
    sent = text;
    if (await retype(text)) {
      base = text;
      if (editor.text() === text) unsaved = false;
    } else if (plain(doc.peek()?.text ?? "") !== text) {
      ask();
    }
  };
  const ask = (): void => {
    if (ended) {
      tell({
        what: "The plan was changed elsewhere while you typed, so your last words were not kept.",
        remedy: "What is shown is how it stands; type them again.",
      });
      return;
    }
    setClash({
      mine: () => void save(true),
      theirs: () => {
        unsaved = false;
        base = plain(doc.peek()?.text ?? "");
        editor?.replace(base);
      },
    });
  };
  const typed = (): void => {
    unsaved = true;
    window.clearTimeout(timer);
    timer = window.setTimeout(() => void save(), PAUSE);
  };
  const ends: (() => void)[] = [];
  void import("./editor").then(({ createEditor }) => {
    if (ended) return;
    const made = createEditor(host, plain(doc.peek()?.text ?? ""), typed);
    editor = made;
    ends.push(
      doc.subscribe((now) => {
        if (!now) return;
        if (!unsaved) {
          base = plain(now.text);
          made.replace(base);
        }
        if (made.text() === plain(now.text)) made.problems(now.problems);
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

/** A text as the editor has it: a file's own line ends and byte order mark are the server's matter. */
function plain(text: string): string {
  return text.replace(/^\uFEFF/, "").replace(/\r\n?/g, "\n");
}
