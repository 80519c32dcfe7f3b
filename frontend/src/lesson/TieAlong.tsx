// Tie-along: the lesson page on a phone in the same network, only while the maker wants it.
import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { get, Offline, Refused, remove, send } from "../api/http";
import type { Lesson, TieAlongState } from "../api/types";
import { tell } from "../state/notices";

const DOOR = "/api/tie-along";
const EVERY_MS = 2000;

export function TieAlong({ lesson }: { lesson: Lesson }): JSX.Element {
  const [now, setNow] = useState<TieAlongState | null>(null);
  const asked = useRef(0);
  const ask = async (how: () => Promise<TieAlongState>): Promise<void> => {
    const mine = ++asked.current;
    try {
      const found = await how();
      if (mine === asked.current) setNow(found); // an answer to an older question comes too late
    } catch (why) {
      if (why instanceof Refused) tell(why.trouble);
      else if (why instanceof Offline) tell({ what: why.message, remedy: "Start it again." });
      else throw why;
    }
  };
  const look = (): Promise<TieAlongState> => get<TieAlongState>(DOOR);
  useEffect(() => void ask(look), []);
  const on = now?.on ?? false;
  useEffect(() => {
    if (!on) return;
    const timer = window.setInterval(() => {
      const mine = asked.current;
      look().then(
        (found) => { if (mine === asked.current) setNow(found); },
        () => undefined, // a server that has gone lends nothing out
      );
    }, EVERY_MS);
    return () => { window.clearInterval(timer); };
  }, [on]);
  if (!now?.on) {
    return (
      <div class="tie-along">
        <h2>Tie along on a phone</h2>
        <p>
          A phone or tablet in your own network can show this lesson page beside your hands. It is
          off; while it is on, the page alone can be opened there, with a code that works once.
        </p>
        <button
          type="button"
          class="main"
          disabled={!now}
          onClick={() => void ask(() => send("POST", DOOR, { lesson: lesson.number }))}
        >
          Turn it on
        </button>
      </div>
    );
  }
  return (
    <div class="tie-along">
      <h2>Tie along: {now.title}</h2>
      <dl>
        <dt>On the phone, open</dt>
        <dd class="large">{now.address}</dd>
        <dt>and enter the code</dt>
        <dd class="large code">
          {now.code ? `${now.code.slice(0, 4)} ${now.code.slice(4)}` : "used up"}
        </dd>
      </dl>
      <p class="soft">
        {now.code
          ? `It works once, for ${Math.max(1, Math.ceil(now.seconds / 60))} more minutes.`
          : "For another phone, ask for another code."}{" "}
        What is sent is not encrypted, so use it in a network that you trust.
      </p>
      <p class="row">
        <button type="button" class="main" onClick={() => void ask(off)}>Turn it off</button>
        <button type="button" onClick={() => void ask(() => send("POST", `${DOOR}/code`, {}))}>
          Another code
        </button>
      </p>
    </div>
  );
}

async function off(): Promise<TieAlongState> {
  await remove(DOOR);
  return get<TieAlongState>(DOOR);
}
