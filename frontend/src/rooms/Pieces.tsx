// All pieces, and what a new one can be begun from.
import type { JSX } from "preact";
import { useEffect, useId, useState } from "preact/hooks";
import { get, Offline, Refused, send } from "../api/http";
import type { Document, NewPiece, Pieces as All } from "../api/types";
import { tell } from "../state/notices";
import { go } from "../state/route";
import { DeletedPiece, PieceTile } from "./PieceTile";

type Begin = NewPiece["begin"];

const MOUNTS: { mount: "ring" | "rod" | "cord" | "nothing"; name: string; about: string }[] = [
  { mount: "ring", name: "Ring", about: "for planters, lamps and mandalas" },
  { mount: "rod", name: "Rod", about: "for wall hangings and curtains" },
  { mount: "cord", name: "Cord", about: "for fringes and edgings" },
  { mount: "nothing", name: "No mount", about: "for slings, keyrings and bracelets" },
];

export function Pieces(): JSX.Element {
  const [all, setAll] = useState<All | null>(null);
  const [problem, setProblem] = useState("");
  const read = (): void => {
    get<All>("/api/pieces").then(setAll, (why: unknown) => {
      setProblem(why instanceof Error ? why.message : "The pieces could not be read.");
    });
  };
  useEffect(read, []);
  if (problem) return <p class="wait" role="alert">{problem}</p>;
  if (!all) return <p class="wait" role="status">Looking for your pieces …</p>;
  return (
    <div class="pieces">
      <h1>{all.pieces.length ? "Your pieces" : "What would you like to make?"}</h1>
      {all.pieces.length > 0 && (
        <ul class="tiles">
          {all.pieces.map((p) => (
            <PieceTile key={p.name} piece={p} again={read} />
          ))}
        </ul>
      )}
      <Begin all={all} />
      {all.deleted.length > 0 && (
        <details class="deleted">
          <summary>Deleted pieces ({all.deleted.length})</summary>
          <ul class="past">
            {all.deleted.map((p) => <DeletedPiece key={p.name} piece={p} again={read} />)}
          </ul>
        </details>
      )}
      <p class="soft small">Your pieces are readable files in {all.folder}.</p>
    </div>
  );
}

function Begin({ all }: { all: All }): JSX.Element {
  const taken = new Set([...all.pieces, ...all.deleted].map((p) => p.name));
  const upload = useId();
  // One after the other: at the first start each has to be drawn, and a browser keeps no more than
  // a few questions open at a time, which the maker's own must not wait for.
  const [drawn, setDrawn] = useState(0);
  return (
    <>
      <h2>Begin with an empty mount</h2>
      <ul class="tiles">
        {MOUNTS.map(({ mount, name, about }) => (
          <li key={mount}>
            <button
              type="button"
              class="tile"
              onClick={() => void begin(unused(`${name} piece`, taken), { kind: "blank", mount, cords: 8 })}
            >
              <strong>{name}</strong>
              <span class="soft small">{about}</span>
            </button>
          </li>
        ))}
      </ul>
      <h2>Begin with a piece that comes with Cordwright</h2>
      <ul class="tiles">
        {all.examples.map((e, i) => (
          <li key={e.name}>
            <button
              type="button"
              class="tile with-picture"
              onClick={() => void begin(unused(e.title, taken), { kind: "example", example: e.name })}
            >
              <span class="sketch">
                {i >= drawn && (
                  <span class="soft small">{i === drawn ? "being drawn …" : "picture follows"}</span>
                )}
                {i <= drawn && (
                  <img
                    src={`/api/examples/${e.name}.png`}
                    alt=""
                    onLoad={() => { setDrawn((n) => Math.max(n, i + 1)); }}
                    onError={() => { setDrawn((n) => Math.max(n, i + 1)); }}
                  />
                )}
              </span>
              <strong>{e.title}</strong>
              <span class="soft small">{e.about}</span>
            </button>
          </li>
        ))}
      </ul>
      <p class="upload">
        <label for={upload}>Or open a plan file:</label>{" "}
        <input
          id={upload}
          type="file"
          accept=".yaml,.yml"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            if (file) void opened(file, taken);
          }}
        />
      </p>
    </>
  );
}

async function opened(file: File, taken: ReadonlySet<string>): Promise<void> {
  if (file.size > 1_000_000) {
    tell({ what: "That file is too large for a plan.", remedy: "A plan has at most 1 MB." });
    return;
  }
  const name = file.name.replace(/\.ya?ml$/i, "");
  await begin(unused(name, taken), { kind: "text", text: await file.text() });
}

function unused(name: string, taken: ReadonlySet<string>): string {
  let found = name;
  for (let n = 2; taken.has(found); n++) found = `${name} ${n}`;
  return found;
}

async function begin(name: string, from: Begin): Promise<void> {
  try {
    const made = await send<Document>("POST", "/api/pieces", { name, begin: from });
    go({ room: "piece", piece: made.name });
  } catch (problem) {
    if (problem instanceof Refused) tell(problem.trouble);
    else if (problem instanceof Offline) tell({ what: problem.message, remedy: "Start it again." });
    else throw problem;
  }
}
